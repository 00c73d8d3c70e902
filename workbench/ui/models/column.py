"""A column of a table, as data."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Generic, TypeVar

from PySide6.QtCore import Qt

R = TypeVar("R")

SORT_ROLE = int(Qt.ItemDataRole.UserRole) + 1
"""The native value of a cell, for sorting."""
VALUE_ROLE = int(Qt.ItemDataRole.UserRole) + 2
"""The row itself, for what acts on a row; a painter reads LOOK_ROLE."""
LOOK_ROLE = int(Qt.ItemDataRole.UserRole) + 3
"""What a delegate needs beside the text to paint a cell; a change of it repaints the cell."""

_MIDDLE = Qt.AlignmentFlag.AlignVCenter


@dataclass(frozen=True)  # slots would break Column[Row](...) on Python 3.11
class Column(Generic[R]):
    """Say how one column reads a row; what is left out falls back to the text.

    `commit` takes the typed text and returns whether it was taken; it never writes the row, the
    news comes back by `set_rows`. Every function reads the row alone, so that a row that is equal
    needs no look.
    """

    key: str
    header: str
    text: Callable[[R], str]
    sort: Callable[[R], object] | None = None
    look: Callable[[R], object] | None = None
    accessible: Callable[[R], str] | None = None
    tip: Callable[[R], str] | None = None
    typed: Callable[[R], str] | None = None
    commit: Callable[[R, str], bool] | None = None
    editable: Callable[[R], bool] | None = None
    is_numeric: bool = False

    @property
    def alignment(self) -> Qt.AlignmentFlag:
        """Figures stand right so that their decimals meet, words left."""
        side = Qt.AlignmentFlag.AlignRight if self.is_numeric else Qt.AlignmentFlag.AlignLeft
        return side | _MIDDLE

    def cell(self, row: R) -> Cell:
        """Return everything the model tells about this cell."""
        text = self.text(row)
        can_edit = self.commit is not None and (self.editable is None or self.editable(row))
        return Cell(
            text=text,
            typed=self.typed(row) if self.typed else text,
            sort=self.sort(row) if self.sort else text,
            look=self.look(row) if self.look else None,
            accessible=self.accessible(row) if self.accessible else None,
            tip=self.tip(row) if self.tip else None,
            is_editable=can_edit,
        )


@dataclass(frozen=True, slots=True)
class Cell:
    """Hold what a view can ask of one cell; equal cells need no repaint.

    `accessible` is read out in the place of the text; None lets the text be read.
    """

    text: str
    typed: str
    sort: object
    look: object
    accessible: str | None
    tip: str | None
    is_editable: bool
