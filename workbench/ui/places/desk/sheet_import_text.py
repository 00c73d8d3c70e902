"""What is told of an old sheet: its sums, what to know of it, and what was not read."""

from __future__ import annotations

from workbench.formula.totals import Totals, totals
from workbench.ui.places.desk.form_words import mass_text
from workbench.ui.places.desk.sheet_import_model import SheetImport
from workbench.words.catalogue import Words
from workbench.words.numbers import percent_text
from workbench.words.sheets import unread_text

Part = tuple[str, tuple[str, ...]]


class ImportText:
    """Say what a sheet is read as."""

    def __init__(self, state: SheetImport, words: Words) -> None:
        self._state = state
        self._words = words

    def sums(self) -> str:
        """Return the total, and the mass of the batch where the sheet gives one."""
        state, say = self._state, self._words.say
        if state.answer is None or not state.seen():
            return ""
        formula = state.formula("x", "x")
        said = [f"{self._total(totals(formula))}."]
        if formula.plan.batch_mass is not None:
            mass = mass_text(formula.plan.batch_mass, self._words)
            said.append(say("sheet-import-batch", mass=mass))
        return " ".join(said)

    def report(self) -> tuple[Part, ...]:
        """Return the parts of the report: what to know, what is left out, what was not read."""
        say = self._words.say
        parts: list[Part] = []
        known = self._remarks()
        if known:
            parts.append((say("sheet-import-known"), known))
        left_out = self._left_out()
        if left_out:
            parts.append((say("sheet-import-left-out"), left_out))
        unread = self._unread()
        if unread:
            parts.append((say("sheet-import-not-read", count=len(unread)), unread))
        else:
            parts.append((say("sheet-import-all"), ()))
        return tuple(parts)

    def notes(self, day: str) -> str:
        """Return the notes of the draft: where it comes from, and all that is not in its lines."""
        say = self._words.say
        said = [say("sheet-import-notes-from", file=self._state.file, date=day)]
        for heading, texts in self.report():
            said += ["", heading, *texts] if texts else []
        return "\n".join(said)

    def _remarks(self) -> tuple[str, ...]:
        answer = self._state.answer
        if answer is None:
            return ()
        return tuple(self._words.say(one.code, **dict(one.values)) for one in answer.read.remarks)

    def _left_out(self) -> tuple[str, ...]:
        return tuple(
            self._words.say(
                "sheet-import-left-row", row=str(row.row + 1), name=row.name, amount=row.amount
            )
            for row in self._state.left_out()
        )

    def _unread(self) -> tuple[str, ...]:
        return tuple(unread_text(self._words, cell) for cell in self._state.unread())

    def _total(self, sums: Totals) -> str:
        words = self._words
        text = words.say("sheet-announced", percent=percent_text(sums.percent, words.style))
        if sums.rest is not None and sums.rest < 0:
            off = percent_text(-sums.rest, words.style)
            return f"{text}, {words.say('sheet-over', percent=off)}"
        if not sums.short:
            return text
        message = "sheet-short" if sums.short > 0 else "sheet-over"
        return f"{text}, {words.say(message, percent=percent_text(abs(sums.short), words.style))}"
