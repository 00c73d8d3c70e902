"""The rows of one table of an old sheet: lines, phases, totals, and what is none of these."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field

from workbench.formula.old_sheet import Amount, At, Grid, UnreadCell
from workbench.formula.old_sheet_amounts import amount_of, is_amount_like
from workbench.formula.old_sheet_columns import AMOUNTS, Kind, column_kind
from workbench.formula.old_sheet_row_kinds import RawLine, TableRows
from workbench.formula.old_sheet_tables import Table
from workbench.formula.old_sheet_texts import is_phase_text
from workbench.units.factors import unit_named

_MADE = re.compile(
    r"(?:batch(?: size| weight| mass)?|total batch|makes|yield|total weight|size)\s*"
    r"(?:\((?P<unit>g|kg|oz|lb)\)\s*)?:?\s*"
    r"(?P<said>.*)",
    re.IGNORECASE,
)


@dataclass(slots=True)
class Fate:
    """Collect what becomes of each cell of a sheet; the first fate of a cell holds."""

    used: dict[At, str] = field(default_factory=dict)
    unread: dict[At, UnreadCell] = field(default_factory=dict)

    def use(self, at: At, as_what: str) -> None:
        """Say what a cell became."""
        if at not in self.unread:
            self.used.setdefault(at, as_what)

    def leave(self, at: At, text: str, reason_id: str) -> None:
        """Say why a cell becomes nothing."""
        if text and at not in self.used:
            self.unread.setdefault(at, UnreadCell(at, text, reason_id))


@dataclass(frozen=True, slots=True)
class RawTable:
    """Hold the lines of a table, its stated totals, and the mass it is said to make."""

    lines: tuple[RawLine, ...]
    totals: tuple[tuple[Amount | None, Amount | None], ...]
    made: Amount | None
    nameless: int


def raw_table(grid: Grid, table: Table, mark: str | None, fate: Fate) -> RawTable:
    """Return the lines of a table and record the fate of its cells."""
    reader = _Reader(grid, table, mark, fate)
    reader.read_heads()
    for row in range(table.top, table.bottom):
        reader.read_row(row)
    return RawTable(tuple(reader.lines), tuple(reader.totals), reader.made(), reader.nameless)


class _Reader(TableRows):
    def __init__(self, grid: Grid, table: Table, mark: str | None, fate: Fate) -> None:
        super().__init__(grid, table, mark)
        self._fate = fate
        self._phase = ""
        self._column_phase = ""
        self._known = {one.place for one in table.columns if one.kind is not Kind.OTHER}
        self.lines: list[RawLine] = []
        self.totals: list[tuple[Amount | None, Amount | None]] = []
        self.nameless = 0

    # What stands above the body.

    def read_heads(self) -> None:
        for at in self.table.title_at:
            self._fate.use(at, "title")
        for row in self.table.heads:
            for column in self.table.columns:
                text = self.text(row, column.place)
                if not text or column.place not in self._known:
                    continue
                if column_kind(text) is None and is_phase_text(text):
                    continue
                self._fate.use((row, column.place), "heading")
            self._read_phase_of_heads(row)

    def _read_phase_of_heads(self, row: int) -> None:
        """Let a phase that stands in the row of the headings begin there."""
        for place in range(self.table.left, self.table.right):
            text = self.text(row, place)
            if text and column_kind(text) is None and self.is_phase_cell(row, place):
                self._phase = text.strip().rstrip(":")
                self._fate.use((row, place), "phase")

    def made(self) -> Amount | None:
        """Return the mass a cell above the table says it makes."""
        first = min((*self.table.heads, self.table.top))
        for row in range(max(0, first - 8), first):
            for column in range(self.table.left, self.table.right):
                found = _MADE.fullmatch(self.text(row, column))
                if found is None:
                    continue
                at = column if found["said"] else self.next_filled(row, column)
                text = found["said"] or (self.text(row, at) if at is not None else "")
                read = amount_of(
                    text, unit_named(found["unit"] or ""), self.mark_of(row, at or column)
                )
                if read.is_read and read.mass_g and not read.is_rest:
                    self._fate.use((row, column), "batch")
                    self._fate.use((row, at if at is not None else column), "batch")
                    return read
        return None

    # One row.

    def read_row(self, row: int) -> None:
        places = [
            place for place in range(self.table.left, self.table.right) if self.text(row, place)
        ]
        if not places:
            return
        if self.is_heading(row, places):
            self._use(row, [place for place in places if place in self._known], "heading")
        elif row > self.final >= 0:
            self._leave(row, places, "sheet-below-total")
        elif self.is_phase_row(row, places):
            self._read_phase(row, places)
        elif self.is_total(row, self.lines):
            self._read_total(row)
        elif self.is_text_row(row, places):
            self._leave(row, places, "sheet-text-row")
        else:
            self._read_line(row)
        self._leave(row, places, "sheet-column")

    def _read_phase(self, row: int, places: list[int]) -> None:
        place = next(place for place in places if self.is_phase_cell(row, place))
        self._phase, self._column_phase = self.text(row, place).strip().rstrip(":"), ""
        self._use(row, [place], "phase")
        others = [one for one in places if one != place]
        for other in others:
            # "Phase A | Water phase": the second cell says what the phase is.
            text = self.text(row, other)
            if not is_amount_like(text) and other in self._known and other == place + 1:
                self._phase = f"{self._phase}: {text.strip().rstrip(':')}"
                self._use(row, [other], "phase")
        self._leave(row, others, "sheet-subtotal")

    def _read_total(self, row: int) -> None:
        is_final = row == self.final or not self.has_total_word(row)
        for place in self.name_places():
            if self.text(row, place):
                self._fate.use((row, place), "total")
        if is_final:
            self.totals.append((self.amount(row, Kind.PERCENT), self.amount(row, Kind.MASS)))
        for column in self.amounts:
            self._fate.use((row, column.place), "total")

    def _read_line(self, row: int) -> None:
        name, inci = self.of(row, Kind.NAME), self.of(row, Kind.INCI)
        if not name and not inci:
            self.nameless += self.has_amount(row)
            self._leave(row, range(self.table.left, self.table.right), "sheet-no-name")
            return
        phase = self.of(row, Kind.PHASE)
        self._column_phase = phase or self._column_phase
        percent, mass = self.amount(row, Kind.PERCENT), self.amount(row, Kind.MASS)
        self.lines.append(
            RawLine(
                row=row,
                name=name or inci,
                inci=inci,
                cas=self.of(row, Kind.CAS),
                phase=self._column_phase or self._phase,
                note=", ".join(
                    text
                    for one in self.table.columns
                    if one.kind is Kind.NOTE and (text := self.text(row, one.place))
                ),
                percent=percent,
                mass=mass,
                written=self.written(row),
            )
        )
        for column in self.table.columns:
            if column.kind is not Kind.OTHER and self.text(row, column.place):
                as_what = "amount" if column.kind in AMOUNTS else column.kind.value
                self._fate.use((row, column.place), as_what)

    def _use(self, row: int, places: Iterable[int], as_what: str) -> None:
        for place in places:
            self._fate.use((row, place), as_what)

    def _leave(self, row: int, places: Iterable[int], reason_id: str) -> None:
        for place in places:
            self._fate.leave((row, place), self.text(row, place), reason_id)
