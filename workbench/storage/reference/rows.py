"""Rows and cells of a shipped table."""

from __future__ import annotations

import csv
from decimal import Decimal
from pathlib import Path

Row = dict[str, str]


def read_rows(folder: Path, table: str) -> list[Row]:
    """Return the rows of a table, each as text by column."""
    with (folder / table).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def amount(cell: str) -> Decimal | None:
    """Return the number of a cell; an empty cell is unknown, never zero."""
    return Decimal(cell) if cell else None


def items(cell: str) -> tuple[str, ...]:
    """Return the entries of a cell that lists several, parted by semicolons."""
    return tuple(cell.split(";")) if cell else ()
