"""The editor of a number cell, and the ways out of any cell editor."""

from __future__ import annotations

from enum import Enum
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLineEdit, QWidget

from workbench.ui.theme import Role, Theme

if TYPE_CHECKING:
    from PySide6.QtGui import QKeyEvent, QMouseEvent


class Way(Enum):
    """Where the cursor goes when an editor closes."""

    STAY = 0
    DOWN = 1
    UP = 2
    RIGHT = 3
    LEFT = 4


class CellEditor(QLineEdit):
    """Take the text of one cell; it fills the cell and frames it."""

    def __init__(self, theme: Theme, parent: QWidget, *, is_numeric: bool = True) -> None:
        super().__init__(parent)
        self.setFont(theme.font(Role.BODY))
        self.setFrame(False)
        side = Qt.AlignmentFlag.AlignRight if is_numeric else Qt.AlignmentFlag.AlignLeft
        self.setAlignment(side | Qt.AlignmentFlag.AlignVCenter)
        shade = theme.palette
        self.setStyleSheet(
            f"QLineEdit {{ background: {shade.surface}; color: {shade.ink};"
            f" border: 2px solid {shade.accent}; padding: 0 {theme.px(4)}px; }}"
        )
        self._first: str | None = None
        self._stays_behind = False
        self.selectionChanged.connect(self._stay_behind)

    @property
    def is_begun(self) -> bool:
        """Tell whether the text of the cell was shown already."""
        return self._first is not None

    def renew(self) -> None:
        """Forget the cell before, so that another can be begun."""
        self._first = None
        self._stays_behind = False
        self.clear()

    def begin(self, text: str) -> None:
        """Show the text the cell holds."""
        self._first = text
        self.setText(text)
        self.selectAll()

    def begin_behind(self, text: str, gap: str) -> None:
        """Show a text to which more is added: the cursor behind it, nothing chosen."""
        self._first = f"{text}{gap}" if text else ""
        self.setText(self._first)
        self._stays_behind = True

    def seek(self, text: str) -> None:
        """Put a text in as if it had been typed."""
        self.setText(text)
        self.textEdited.emit(text)

    @property
    def is_untouched(self) -> bool:
        """Tell whether the text is the one the cell held."""
        return self.text() == self._first

    def _stay_behind(self) -> None:
        """Undo the choice a view makes of the whole text as it opens an editor."""
        if self._stays_behind and self.hasSelectedText():
            self.deselect()
            self.end(False)  # noqa: FBT003 (Qt's own)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """From the first key on what is chosen stays chosen."""
        self._stays_behind = False
        super().keyPressEvent(event)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """From the first press on what is chosen stays chosen."""
        self._stays_behind = False
        super().mousePressEvent(event)
