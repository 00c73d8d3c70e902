"""What a row of an old sheet can become, and what its amount can be."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal

from workbench.formula.old_sheet import Amount
from workbench.storage.search import Hit
from workbench.ui.editors.name_editor import Choice
from workbench.ui.places.desk.paste_matching import Confidence, Fate, Match
from workbench.ui.places.desk.sheet_import_model import Seen, SheetImport
from workbench.words.catalogue import Words
from workbench.words.sheets import amount_text

_FATES = (Fate.UNLISTED, Fate.OUT)
_KEEP, _REST, _TYPED = "keep", "rest", "typed"
Search = Callable[[str, int], tuple[Hit, ...]]


class RowOptions:
    """Offer choices for the rows of one sheet, and take the chosen ones."""

    def __init__(self, state: SheetImport, words: Words, search: Search) -> None:
        self._state = state
        self._words = words
        self._search = search

    def names(self, row: int, text: str, limit: int) -> tuple[Choice, ...]:
        """Return the candidates of a row before anything is typed, then what the shelf finds."""
        say, stock = self._words.say, self._words.say("sheet-stock")
        seen = self._seen(row)
        found: dict[str, Choice] = {}
        if text == seen.row.name:
            for one in seen.match.candidates:
                found[one.key] = Choice(one.key, one.name, "")
        for hit in self._search(text, limit) if text.strip() else ():
            beside = stock if hit.is_stock else hit.inci
            found.setdefault(hit.key, Choice(hit.key, hit.name, beside))
        fates = [Choice(one.value, say(f"sheet-import-{one.value}"), "") for one in _FATES]
        return (*tuple(found.values())[: max(limit - len(fates), 0)], *fates)

    def amounts(self, row: int, text: str, limit: int) -> tuple[Choice, ...]:
        """Return what the amount of a row could be; a typed one comes first."""
        seen, words = self._seen(row), self._words
        typed = self._state.typed_amount(text) if text != seen.row.amount else None
        found = [Choice(_TYPED + text, amount_text(words, typed), "")] if typed is not None else []
        choices = seen.row.doubt.choices if seen.row.doubt is not None else ()
        found += [
            Choice(str(place), amount_text(words, one), "") for place, one in enumerate(choices)
        ]
        keep = amount_text(words, self._as_it_stands(seen))
        found.append(Choice(_KEEP, words.say("sheet-import-keep-amount", amount=keep), ""))
        found.append(Choice(_REST, words.say("sheet-takes-rest"), ""))
        return tuple(found[:limit])

    def take_name(self, row: int, key: str, name: str) -> None:
        """Take what a row becomes."""
        fates = {fate.value: fate for fate in _FATES}
        if key in fates and name == self._words.say(f"sheet-import-{key}"):
            self._state.choose(row, Match(fates[key], confidence=Confidence.CHOSEN))
        else:
            self._state.choose(row, Match(Fate.LINE, key, name, Confidence.CHOSEN))

    def take_amount(self, row: int, key: str) -> bool:
        """Take the amount of a row; tell whether there is one."""
        amount = self._amount(self._seen(row), key)
        if amount is not None:
            self._state.choose_amount(row, amount)
        return amount is not None

    def _amount(self, seen: Seen, key: str) -> Amount | None:
        if key == _KEEP:
            return self._as_it_stands(seen)
        if key == _REST:
            return Amount(is_rest=True)
        if key.startswith(_TYPED):
            return self._state.typed_amount(key.removeprefix(_TYPED))
        return seen.row.doubt.choices[int(key)] if seen.row.doubt is not None else None

    def _as_it_stands(self, seen: Seen) -> Amount:
        row, answer = seen.row, self._state.answer
        if row.percent is None:
            return Amount(is_rest=True)
        if answer is not None and answer.read.is_of_mass:
            return Amount(mass_g=row.mass_g or Decimal(0))
        return Amount(percent=row.percent)

    def _seen(self, row: int) -> Seen:
        return next(one for one in self._state.seen() if one.row.row == row)
