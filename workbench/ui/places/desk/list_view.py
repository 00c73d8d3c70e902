"""The view of the formula list: the keys of a list that walk over its headings."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QModelIndex, QPoint, Qt, Signal
from PySide6.QtGui import QContextMenuEvent
from PySide6.QtWidgets import QListView

from workbench.ui.places.desk.entries import ListedFormula
from workbench.ui.places.desk.list_model import ROW_ROLE

if TYPE_CHECKING:
    from PySide6.QtGui import QKeyEvent


class ListView(QListView):
    """Walk over the headings with the keys of a list."""

    entered_key = Signal(QModelIndex)
    """Enter was pressed on a formula."""
    menu_asked = Signal(object, QPoint)
    """The formula whose menu is asked for, and where on the screen."""

    def __init__(self) -> None:
        super().__init__()
        self.setVerticalScrollMode(QListView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setEditTriggers(QListView.EditTrigger.NoEditTriggers)
        self.setResizeMode(QListView.ResizeMode.Adjust)
        self.setUniformItemSizes(False)

    def current(self) -> ListedFormula | None:
        """Return the formula the cursor stands on."""
        row = self.currentIndex().data(ROW_ROLE)
        return row if isinstance(row, ListedFormula) else None

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        """Ask for the menu of the formula under the pointer; on empty ground there is none."""
        event.accept()
        index, place = self.indexAt(event.pos()), event.globalPos()
        if event.reason() is QContextMenuEvent.Reason.Keyboard:
            index = self.currentIndex()
            place = self.viewport().mapToGlobal(self.visualRect(index).bottomLeft())
        row = index.data(ROW_ROLE)
        if isinstance(row, ListedFormula):
            self.menu_asked.emit(row, place)

    def _go(self, rows: range) -> None:
        model = self.model()
        for row in rows:
            index = model.index(row, 0)
            if model.flags(index) & Qt.ItemFlag.ItemIsEnabled:
                self.setCurrentIndex(index)
                return

    def _moves(self) -> dict[int, range]:
        count, row = self.model().rowCount(), self.currentIndex().row()
        return {
            Qt.Key.Key_Home: range(count),
            Qt.Key.Key_End: range(count - 1, -1, -1),
            Qt.Key.Key_Down: range(row + 1, count),
            Qt.Key.Key_Up: range(row - 1, -1, -1),
        }

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Move by arrows, Home and End; Enter opens."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.entered_key.emit(self.currentIndex())
            return
        rows = self._moves().get(event.key())
        if rows is None or event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier:
            super().keyPressEvent(event)
        else:
            self._go(rows)
