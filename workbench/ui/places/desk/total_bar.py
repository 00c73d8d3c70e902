"""The total at the foot of the sheet while its own row is scrolled out of view."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QPainter
from PySide6.QtWidgets import QStyleOptionViewItem, QTableView, QWidget

from workbench.ui.places.desk.rows import Kind

if TYPE_CHECKING:
    from PySide6.QtGui import QPaintEvent

    from workbench.ui.models.value_table import ValueTableModel
    from workbench.ui.places.desk.rows import SheetRow
    from workbench.ui.theme import Theme


class TotalBar(QWidget):
    """Repeat the row of the total over the last lines; it is read out from its own row."""

    def __init__(self, view: QTableView, model: ValueTableModel[SheetRow], theme: Theme) -> None:
        super().__init__(view.viewport())
        self._view = view
        self._model = model
        self._theme = theme
        self._shown: tuple[object, ...] = ()
        self.setObjectName("sheet_total_bar")
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.hide()

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._theme = theme
        self.update()

    def place(self) -> None:
        """Stand at the foot while the total is out of view, and away otherwise."""
        row = self._total_row()
        port = self._view.viewport().rect()
        height = self._view.verticalHeader().defaultSectionSize() + 1
        bottom = self._view.rowViewportPosition(row) + height if row >= 0 else 0
        is_needed = row >= 0 and bottom > port.height() + 1 and port.height() > 3 * height
        if is_needed:
            self.setGeometry(0, port.height() - height, port.width(), height)
            self.raise_()
        if is_needed != self.isVisible():
            self.setVisible(is_needed)
        elif is_needed and self._shown != self._content(row):
            self.update()

    @property
    def covered(self) -> int:
        """How much of the foot of the sheet it covers [px]."""
        return self.height() if self.isVisible() else 0

    def _total_row(self) -> int:
        count = self._model.rowCount()
        for row in range(count - 1, max(count - 3, -1), -1):
            if self._model.row_at(self._model.index(row, 0)).kind is Kind.TOTAL:
                return row
        return -1

    def _content(self, row: int) -> tuple[object, ...]:
        """Return what is painted: the total, and where each column stands."""
        columns = range(self._model.columnCount())
        places = tuple(self._view.columnViewportPosition(column) for column in columns)
        widths = tuple(self._view.columnWidth(column) for column in columns)
        return self._model.row_at(self._model.index(row, 0)), places, widths

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint the cells of the total as the sheet does."""
        painter = QPainter(self)
        painter.fillRect(self.rect(), self._theme.colour("paper"))
        row = self._total_row()
        self._shown = self._content(row) if row >= 0 else ()
        delegate = self._view.itemDelegate()
        for column in range(self._model.columnCount()):
            if row < 0 or self._view.isColumnHidden(column):
                continue
            left = self._view.columnViewportPosition(column)
            option = QStyleOptionViewItem()
            option.rect = QRect(left, 1, self._view.columnWidth(column), self.height() - 1)
            delegate.paint(painter, option, self._model.index(row, column))
        painter.end()
