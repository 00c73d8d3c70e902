"""What is on the clipboard, into the sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol

from PySide6.QtCore import QModelIndex, Qt
from PySide6.QtGui import QGuiApplication

from workbench.formula.tab_text import Cells, cells_of
from workbench.ui.places.desk.columns import (
    FIGURES,
    GRAMS,
    INGREDIENT,
    KEYS,
    NOTE,
    PERCENT,
    PURPOSE,
)
from workbench.ui.places.desk.paste_dialog import PasteDialog
from workbench.ui.places.desk.rows import Kind, SheetRow
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.theme import Theme

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget


class PastedSheet(Protocol):
    """What pasting needs of the sheet."""

    @property
    def current_row(self) -> SheetRow | None:
        """The row the cursor stands in."""

    def currentIndex(self) -> QModelIndex:  # noqa: N802 (Qt's own)
        """Return the cell of the cursor."""

    def set_here(self, text: str) -> None:
        """Take a text for the cell of the cursor."""

    def seek_here(self, text: str) -> None:
        """Open the cell of the cursor with a text as if it had been typed."""

    def focus_line(self, line: int) -> None:
        """Put the cursor on a line."""

    def setFocus(self, reason: Qt.FocusReason) -> None:  # noqa: N802 (Qt's own)
        """Take the keys."""

    def window(self) -> QWidget:
        """Return the window of the sheet."""


def paste_into(view: PastedSheet, work: DeskWork, theme: Theme, phase: int) -> None:
    """Take what is on the clipboard: one cell into the cell, lines through a preview.

    `phase` is where lines go when the draft stays.
    """
    text = QGuiApplication.clipboard().text()
    cells = cells_of(text) if text.strip() else ()
    if not cells:
        work.notices.inform(work.words.say("paste-nothing"))
        return
    if len(cells) == 1 and _is_cell(view, cells, text) and _paste_cell(view, text.strip()):
        return
    dialog = PasteDialog(work, theme, cells, phase, view.window())
    dialog.pasted.connect(view.focus_line)
    dialog.finished.connect(lambda _result: view.setFocus(Qt.FocusReason.OtherFocusReason))
    dialog.open()


def _is_cell(view: PastedSheet, cells: Cells, text: str) -> bool:
    """Tell whether a line of text is for one cell; a name with its amount is for two."""
    row = view.current_row
    is_figure = row is not None and bool(row.line) and _key(view) in FIGURES
    return len(cells[0]) == 1 or (is_figure and "\t" not in text.strip())


def _paste_cell(view: PastedSheet, text: str) -> bool:
    """Set the cell of the cursor; tell whether it is one that takes text."""
    row, key = view.current_row, _key(view)
    if row is None or row.kind is Kind.TOTAL:
        return False
    if row.kind is not Kind.LINE or key in (INGREDIENT, PURPOSE):
        view.seek_here(text)
        return True
    if key in (PERCENT, GRAMS, NOTE):
        view.set_here(text)
        return True
    return False


def _key(view: PastedSheet) -> str:
    return KEYS[max(view.currentIndex().column(), 0)]
