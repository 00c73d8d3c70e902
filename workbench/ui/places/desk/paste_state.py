"""What is being pasted, as it is read so far: the choices of the maker, and what follows."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from decimal import Decimal

from workbench.formula.edits import EditRefused
from workbench.formula.formula import Formula, Line, Phase
from workbench.formula.ingredient import Ingredient
from workbench.formula.pasted import Pasted, PastedRow, Unread, read_pasted
from workbench.formula.pasted_guess import COMMA, POINT, Reading, Role, guessed
from workbench.formula.pasted_lines import Entry, pasted_into
from workbench.formula.phase_sorting import kinds_of, sorted_entries
from workbench.formula.shelf import Shelf
from workbench.formula.tab_text import Cells
from workbench.formula.totals import WHOLE, Totals, totals
from workbench.ui.places.desk.paste_matching import Confidence, Fate, Match, Search, matched

REPLACE = 0
"""The place that stands for the whole draft; every other place is the id of a phase."""


_FEW = 4
_NEARLY = Decimal(90)
_WATER = "water"


@dataclass(frozen=True, slots=True)
class Seen:
    """Hold one pasted row with what becomes of it."""

    row: PastedRow | Unread
    match: Match | None

    @property
    def is_line(self) -> bool:
        """Tell whether the row becomes a line."""
        return self.match is not None and self.match.fate in (Fate.LINE, Fate.UNLISTED)


class PasteState:
    """Keep the choices; every question is answered from them anew."""

    def __init__(
        self,
        cells: Cells,
        formula: Formula,
        search: Search,
        *,
        shelf_for: Callable[[Formula], Shelf],
        decimal_comma: bool,
        batch_g: Decimal | None = None,
    ) -> None:
        """Take the cells, the draft they may go into, its batch mass [g], and what is known."""
        self._shelf_for = shelf_for
        self._shelf: tuple[frozenset[str], Shelf] | None = None
        self.is_sorted = True
        """Whether rows that name no phases are parted by what each of them is."""
        self.water_rest: bool | None = None
        """Whether water takes the rest; None while the maker has not said."""
        self.cells = cells
        self.formula = formula
        self._search = search
        self._batch_g = batch_g
        self._usual = COMMA if decimal_comma else POINT
        self.reading = guessed(cells, decimal_comma=decimal_comma)
        self.place = REPLACE
        if any(formula.lines()) and not self._is_whole():
            self.place = formula.phases[-1].id
        self._chosen: dict[int, Match] = {}
        self._known: dict[tuple[str, str], Match] = {}

    @property
    def mark(self) -> str:
        """The decimal mark that is read by; the maker's own while none is chosen."""
        return self.reading.mark or self._usual

    @property
    def is_replacing(self) -> bool:
        """Whether the draft's lines go."""
        return self.place == REPLACE

    def set_role(self, column: int, role: Role) -> None:
        """Take a column for something else; a role is one column's only, but for notes."""
        roles = list(self.reading.roles)
        if role not in (Role.NOTE, Role.IGNORE):
            roles = [Role.IGNORE if one is role else one for one in roles]
        roles[column] = role
        self.reading = replace(self.reading, roles=tuple(roles))

    def set_header(self, *, has_header: bool) -> None:
        """Take the first row for headings, or for a line."""
        self.reading = replace(self.reading, has_header=has_header)

    def set_mark(self, mark: str) -> None:
        """Choose the decimal mark."""
        self.reading = replace(self.reading, mark=mark)

    def choose(self, row: int, match: Match) -> None:
        """Choose what becomes of a pasted row."""
        self._chosen[row] = match

    def read(self) -> Pasted:
        """Return what is read by the choices so far."""
        batch = None if self.is_replacing else self._batch_g
        return read_pasted(self.cells, self.reading, self.mark, batch)

    def seen(self) -> tuple[Seen, ...]:
        """Return every pasted row in its order, with what becomes of it."""
        pasted = self.read()
        rows = [Seen(row, self._match(row)) for row in pasted.rows]
        rows += [Seen(row, None) for row in pasted.unread]
        return tuple(sorted(rows, key=lambda one: one.row.row))

    def after(self) -> Formula | EditRefused:
        """Return the draft as it would be, or why it cannot be."""
        try:
            return self.change("")(self.formula)
        except EditRefused as refused:
            return refused

    def totals_after(self) -> Totals | None:
        """Return the sums of the draft as it would be."""
        after = self.after()
        return None if isinstance(after, EditRefused) else totals(after)

    def change(
        self, name: str, names: Mapping[str, str] | None = None
    ) -> Callable[[Formula], Formula]:
        """Return the edit; `name` is what a phase is called that the text does not name.

        `names` calls the phases by kind, for rows that are parted by what they are.
        """
        entries = self.entries()
        if names and self.is_sorted and self.can_sort(entries):
            entries = sorted_entries(entries, self._items(entries), names)
        place, is_replacing = self.place, self.is_replacing

        def applied(formula: Formula) -> Formula:
            return pasted_into(formula, entries, place, is_replacing=is_replacing, name=name)

        return applied

    def can_sort(self, entries: tuple[Entry, ...]) -> bool:
        """Tell whether the rows name no phases but go into several by what they are."""
        if not self.is_replacing or any(entry.phase for entry in entries):
            return False
        return len(set(kinds_of(entries, self._items(entries)))) > 1

    def kinds(self, entries: tuple[Entry, ...]) -> tuple[str, ...]:
        """Return the usual kind of phase of each line."""
        return kinds_of(entries, self._items(entries))

    def water_line(self) -> str:
        """Return the key of the water that could take the rest, empty where none could."""
        return self._water_of(self._read_entries())

    @property
    def takes_rest(self) -> bool:
        """Whether water takes the rest: as chosen, else where that changes no amount."""
        return self._is_rest(self._read_entries())

    def entries(self) -> tuple[Entry, ...]:
        """Return the lines that are put in, with water taking the rest where that is chosen."""
        entries = self._read_entries()
        water = self._water_of(entries) if self._is_rest(entries) else ""
        return tuple(
            replace(entry, percent=None) if entry.ingredient == water else entry
            for entry in entries
        )

    def _is_rest(self, entries: tuple[Entry, ...]) -> bool:
        if self.water_rest is not None:
            return self.water_rest
        return sum((entry.percent or Decimal(0) for entry in entries), Decimal(0)) == WHOLE

    def _water_of(self, entries: tuple[Entry, ...]) -> str:
        keys = [entry.ingredient for entry in entries]
        if not self.is_replacing or any(entry.percent is None for entry in entries):
            return ""
        item_of = self._items(entries)
        waters = [key for key in keys if (item := item_of(key)) and _WATER in item.functions]
        key = next((key for key in waters if key == _WATER), waters[0] if waters else "")
        return key if keys.count(key) == 1 else ""

    def _items(self, entries: tuple[Entry, ...]) -> Callable[[str], Ingredient | None]:
        keys = frozenset(entry.ingredient for entry in entries)
        if self._shelf is None or self._shelf[0] != keys:
            lines = tuple(Line(place, key, Decimal(0)) for place, key in enumerate(sorted(keys), 1))
            held = Formula("", phases=(Phase(1, "", "other", lines=lines),))
            self._shelf = (keys, self._shelf_for(held))
        return self._shelf[1].ingredients.get

    def _read_entries(self) -> tuple[Entry, ...]:
        """Return the lines as they were read; rows kept as notes go to the line before them."""
        entries: list[Entry] = []
        waiting = ""
        for one in self.seen():
            if one.match is None or not isinstance(one.row, PastedRow):
                continue
            if one.match.fate is Fate.NOTE:
                note = f"{one.row.name} {one.row.text}".strip()
                if entries:
                    entries[-1] = _noted(entries[-1], note)
                else:
                    waiting = note
            elif one.is_line:
                entry = Entry(_key(one), one.row.percent, one.row.phase, one.row.note)
                entries.append(_noted(entry, waiting) if waiting else entry)
                waiting = ""
        return tuple(entries)

    def _match(self, row: PastedRow) -> Match:
        if row.row in self._chosen:
            return self._chosen[row.row]
        asked = (row.name, row.inci)
        if asked not in self._known:
            self._known[asked] = matched(row.name, row.inci, self._search)
        return self._known[asked]

    def _is_whole(self) -> bool:
        """Tell whether what is pasted looks like a whole formula."""
        read = self.read()
        return len(read.rows) >= _FEW if read.is_of_mass else read.total >= _NEARLY


def chosen(key: str, name: str) -> Match:
    """Return the match the maker chose."""
    return Match(Fate.LINE, key, name, Confidence.CHOSEN)


def _key(one: Seen) -> str:
    match = one.match
    return match.key if match is not None and match.fate is Fate.LINE else _name(one)


def _name(one: Seen) -> str:
    return one.row.name if isinstance(one.row, PastedRow) else ""


def _noted(entry: Entry, note: str) -> Entry:
    return replace(entry, note=f"{entry.note}; {note}" if entry.note else note)


__all__ = ["REPLACE", "PasteState", "Reading", "Seen", "chosen"]
