"""What each row of a table of an old sheet is: a line, a phase, a total, a text."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from workbench.formula.old_sheet import Amount, Grid
from workbench.formula.old_sheet_amounts import amount_of, is_amount_like, together
from workbench.formula.old_sheet_columns import AMOUNTS, Column, Kind, column_kind
from workbench.formula.old_sheet_tables import Table
from workbench.formula.old_sheet_texts import is_phase_text, is_subtotal_text, is_total_text
from workbench.formula.pasted_guess import POINT
from workbench.formula.totals import WHOLE
from workbench.units.factors import PERCENT

_LONGEST_NAME = 120
_SENTENCE_WORDS = 9
_STEP = re.compile(r"(?:step\s*)?[0-9]{1,2}\s*[.)]\s+\S.*|.*[.!]\s+[A-Z].*", re.DOTALL)
_SAYS_PHASE = re.compile(r".*\bphase\b|part\b|stage\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class RawLine:
    """Hold one line before its amounts are weighed against the others."""

    row: int
    name: str
    inci: str
    cas: str
    phase: str
    note: str
    percent: Amount | None
    mass: Amount | None
    written: str


class TableRows:
    """Look at the rows of one table of a sheet."""

    def __init__(self, grid: Grid, table: Table, mark: str | None) -> None:
        """Take the sheet, the table on it, and the decimal mark of its amounts."""
        self.grid = grid
        self.table = table
        self._mark = mark
        self.amounts = [one for one in table.columns if one.kind in AMOUNTS]
        self._last_amount = self._last_row(self.has_amount)
        self.final = self._last_row(self._is_final_total)

    def is_heading(self, row: int, places: list[int]) -> bool:
        """Tell whether a row repeats the headings."""
        if not self.table.heads or row in self.table.heads:
            return False
        head = self.grid.cells[self.table.heads[0]]
        return all(self.text(row, place) == head[place] for place in places) and (
            len([one for one in places if column_kind(self.text(row, one))]) > 1
        )

    def is_phase_cell(self, row: int, place: int) -> bool:
        """Tell whether a cell names a phase."""
        return is_phase_text(self.text(row, place))

    def is_phase_row(self, row: int, places: list[int]) -> bool:
        """Tell whether a row only begins a phase."""
        phase_place = self.table.place(Kind.PHASE)
        texts = [place for place in places if not is_amount_like(self.text(row, place))]
        if not texts or not self.is_phase_cell(row, texts[0]):
            return False
        if len(places) == 1:
            return True
        if texts[0] == phase_place and self._has_name(row):
            # A phase and its name in one row, without an amount: "A | Water phase".
            return not self.has_amount(row) and is_phase_text(self.text(row, texts[-1]))
        has_word = _SAYS_PHASE.match(self.text(row, texts[0])) is not None
        return not self.has_amount(row) or (len(texts) == 1 and has_word)

    def is_total(self, row: int, lines: Sequence[RawLine]) -> bool:
        """Tell whether a row gives a total of the lines above it."""
        if self.has_total_word(row):
            return True
        is_nameless = not any(self.text(row, place) for place in self.name_places())
        return (
            is_nameless
            and self.has_amount(row)
            and row >= self._last_amount
            and self._adds(row, lines)
        )

    def has_total_word(self, row: int) -> bool:
        """Tell whether a row says that it is a total."""
        places = [*self.name_places(), *self._beside_names(row)]
        return any(is_total_text(self.text(row, place)) for place in places)

    def _is_final_total(self, row: int) -> bool:
        if not self.has_total_word(row) or not self.has_amount(row):
            return False
        places = [*self.name_places(), *self._beside_names(row)]
        return not is_subtotal_text(" ".join(self.text(row, place) for place in places))

    def _adds(self, row: int, lines: Sequence[RawLine]) -> bool:
        """Tell whether an amount without a name is the sum of those above it."""
        for kind in (Kind.PERCENT, Kind.MASS):
            said = self.amount(row, kind)
            parts = [one.percent if kind is Kind.PERCENT else one.mass for one in lines]
            value = said and (said.percent if said.percent is not None else said.mass_g)
            total = sum(
                (part.percent if part.percent is not None else part.mass_g) or 0
                for part in parts
                if part is not None and part.is_read
            )
            has_rest = any(part is not None and part.is_rest for part in parts)
            if value and (abs(total - value) <= value / 200 or (has_rest and value == WHOLE)):
                return True
        return False

    def is_text_row(self, row: int, places: list[int]) -> bool:
        """Tell whether a row is text and no line."""
        places_said = "".join(self.text(row, place) for place in places)
        if not any(letter.isalnum() for letter in places_said):
            return True  # a rule drawn with dashes
        if self.has_amount(row):
            return False
        text = self.text(row, places[0])
        is_long = any(
            len(self.text(row, place)) > _LONGEST_NAME
            or len(self.text(row, place).split()) > _SENTENCE_WORDS
            for place in self.name_places()
        )
        return (
            row > self._last_amount
            or is_long
            or bool(_STEP.fullmatch(text))
            or (not self._has_name(row))
        )

    def _has_name(self, row: int) -> bool:
        return bool(self.of(row, Kind.NAME) or self.of(row, Kind.INCI))

    def has_amount(self, row: int) -> bool:
        """Tell whether there is anything in an amount column."""
        return any(self.text(row, column.place) for column in self.amounts)

    # Cells.

    def amount(self, row: int, kind: Kind) -> Amount | None:
        """Return what the percent or the mass column says; a column of no unit serves as both."""
        found: Amount | None = None
        for column in self.amounts:
            is_asked = column.kind is kind
            if column.kind is Kind.AMOUNT:
                is_asked = kind is Kind.PERCENT
            text = self.text(row, column.place)
            if is_asked and text:
                mark = self.mark_of(row, column.place)
                read = amount_of(text, self._unit(row, column), mark)
                if kind is not Kind.MASS:
                    return read
                found = read if found is None else together(found, read)
        return found

    def _unit(self, row: int, column: Column) -> str:
        said = self.of(row, Kind.UNIT)
        if said and column.kind is not Kind.PERCENT:
            return PERCENT if said.strip() == "%" else said.strip()
        return column.unit

    def written(self, row: int) -> str:
        """Return the amount as it was written, with the unit of its column."""
        filled = [one for one in self.amounts if self.text(row, one.place)]
        said: list[str] = []
        for column in filled:
            if said and (column.kind is not Kind.MASS or filled[0].kind is not Kind.MASS):
                break
            text, unit = self.text(row, column.place), self._unit(row, column)
            is_bare = text[-1:].isdigit() and unit not in ("", "share")
            said.append(f"{text} {unit}" if is_bare else text)
        return " ".join(said)

    def of(self, row: int, kind: Kind) -> str:
        """Return the cell of a kind, "" where there is no such column."""
        place = self.table.place(kind)
        return "" if place is None else self.text(row, place)

    def name_places(self) -> list[int]:
        """Return the columns that name things."""
        return [
            one.place
            for one in self.table.columns
            if one.kind in (Kind.NAME, Kind.INCI, Kind.PHASE)
        ]

    def _beside_names(self, row: int) -> list[int]:
        """Return the cells left of the first amount, where a total may be named as well."""
        first = min((one.place for one in self.amounts), default=0)
        return [place for place in range(self.table.left, first) if self.text(row, place)]

    def _last_row(self, holds: Callable[[int], bool]) -> int:
        rows = range(self.table.bottom - 1, self.table.top - 1, -1)
        return next((row for row in rows if holds(row)), -1)

    def next_filled(self, row: int, column: int) -> int | None:
        """Return the next filled column of a row."""
        texts = self.grid.cells[row]
        return next((at for at in range(column + 1, len(texts)) if texts[at]), None)

    def mark_of(self, row: int, place: int) -> str | None:
        """Return the decimal mark of a cell; a number as such has a point."""
        return POINT if (row, place) in self.grid.numeric else self._mark

    def text(self, row: int, place: int) -> str:
        """Return the text of a cell."""
        return self.grid.cells[row][place]
