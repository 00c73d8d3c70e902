"""Cells of a shipped table, refused with file, line and reason where they are malformed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from pathlib import Path
from typing import NoReturn

from workbench.storage.reference.rows import Row, read_rows
from workbench.storage.sentences import refusal

_FIRST_LINE = 2


@dataclass(frozen=True, slots=True)
class TableRow:
    """Hold one row of a table, and where it stands: file name and line of the file."""

    table: str
    line: int
    cells: Row

    def text(self, column: str) -> str:
        """Return a cell that must say something."""
        found = self.cells.get(column) or ""
        if not found.strip():
            self.refuse(f"{column} is empty")
        return found

    def optional(self, column: str) -> str:
        """Return a cell that may be empty; the column must be there."""
        found = self.cells.get(column)
        if found is None:
            self.refuse(f"{column} is missing")
        return found

    def real(self, column: str) -> Decimal:
        """Return a cell that must hold a number."""
        text = self.text(column)
        try:
            value = Decimal(text)
        except InvalidOperation:
            self.refuse(f"{column} is {text!r}, no number")
        if not value.is_finite():
            self.refuse(f"{column} is {text!r}, no number")
        return value

    def number(self, column: str) -> Decimal:
        """Return a cell that must hold a number over nothing."""
        value = self.real(column)
        if value <= 0:
            self.refuse(f"{column} is {value}, which is not over 0")
        return value

    def rising(self, *columns: str) -> tuple[Decimal, ...]:
        """Return cells that must hold numbers, none smaller than the one before."""
        values = tuple(self.number(column) for column in columns)
        if list(values) != sorted(values):
            self.refuse(f"{', '.join(columns)} do not rise")
        return values

    def refuse(self, reason: str) -> NoReturn:
        """Refuse the table because of this row."""
        raise refusal(
            "table-malformed",
            f"{self.table}, line {self.line}: {reason}",
            file=self.table,
            line=str(self.line),
        )


def table_rows(folder: Path, table: str) -> Iterator[TableRow]:
    """Yield the rows of a table, each knowing where it stands.

    Raises
    ------
    WorkbenchError
        A row has more or fewer cells than the head.
    """
    for line, cells in enumerate(read_rows(folder, table), start=_FIRST_LINE):
        row = TableRow(table, line, cells)
        if None in cells or None in cells.values():
            row.refuse("it has more or fewer cells than the head")
        yield row
