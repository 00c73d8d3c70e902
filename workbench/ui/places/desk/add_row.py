"""The empty row below the lines: to which phase, and below which line, a typed name is added."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace

from workbench.ui.places.desk.rows import Kind, SheetRow
from workbench.words.catalogue import Words


class AddRow:
    """Remember where the next name goes, and say it in the empty row.

    That is the phase in which a line was typed into last. Enter and the arrows then walk through
    other phases without changing it; a click into another phase does.
    """

    def __init__(self, words: Words) -> None:
        self._words = words
        self._is_walking = False
        self.reset()

    def reset(self) -> None:
        """Forget it all, for another draft."""
        self.phase, self.after = 0, 0
        self._typed_in = 0

    def typed(self, phase: int) -> bool:
        """Hear that a line of a phase was typed into; tell whether that changes anything."""
        if not phase:
            return False
        is_new = phase != self.phase
        self.phase = self._typed_in = phase
        return is_new

    def stand(self, row: SheetRow) -> bool:
        """Hear in which row the cursor stands; tell whether that changes anything."""
        if not row.phase:
            return False
        is_kept = self._is_walking and self._typed_in and self._typed_in == self.phase
        phase = self.phase if is_kept else row.phase
        is_new = phase != self.phase or bool(self.after)
        self.phase = phase
        self.after = 0
        return is_new

    @contextmanager
    def walking(self) -> Iterator[None]:
        """Take the moves within for a walk through the lines."""
        self._is_walking = True
        try:
            yield
        finally:
            self._is_walking = False

    def said(self, rows: tuple[SheetRow, ...]) -> tuple[SheetRow, ...]:
        """Say in the empty last row where a typed name goes, with the letter of the phase."""
        heads = [row for row in rows if row.kind is Kind.HEAD]
        above = next((row for row in rows if row.line and row.line == self.after), None)
        if above is not None:
            text = self._words.say("sheet-new-line-below", line=above.name)
            return (*rows[:-1], replace(rows[-1], name=text, letter=above.letter))
        if len(heads) < 2:  # noqa: PLR2004 (one phase needs no naming)
            return rows
        target = next((row for row in heads if row.phase == self.phase), heads[-1])
        text = self._words.say("sheet-new-line-to", phase=target.name)
        return (*rows[:-1], replace(rows[-1], name=text, letter=target.letter))
