"""Cells of a plain table on ruled paper: text with room at its sides, a rule under each row."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRect, Qt
from PySide6.QtGui import QFontMetrics, QPainter, QPen
from PySide6.QtWidgets import (
    QHeaderView,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableView,
    QWidget,
)

from workbench.ui.theme import Role, Theme

_SIDE = 8
_HEAD = 30
_ABOVE = 10

Index = QModelIndex | QPersistentModelIndex


class RuledCells(QStyledItemDelegate):
    """Paint a cell on its rule."""

    def __init__(self, theme: Theme, parent: QWidget) -> None:
        super().__init__(parent)
        self.theme = theme

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        """Paint the text, the rule, and the row the cursor stands in."""
        painter.save()
        rect = QRect(option.rect)
        if option.state & QStyle.StateFlag.State_Selected:
            painter.fillRect(rect, self.theme.colour("surface"))
        painter.setPen(QPen(self.theme.colour("rule"), 1))
        painter.drawLine(rect.bottomLeft(), rect.bottomRight())
        if option.state & QStyle.StateFlag.State_HasFocus:
            painter.setPen(QPen(self.theme.colour("accent"), 2))
            painter.drawRect(rect.adjusted(1, 1, -1, -2))
        font = self.theme.font()
        painter.setFont(font)
        painter.setPen(self.theme.colour("ink"))
        side = self.theme.px(_SIDE)
        room = rect.adjusted(side, 0, -side, 0)
        text = str(index.data() or "")
        align = int(index.data(Qt.ItemDataRole.TextAlignmentRole))
        painter.drawText(room, align | Qt.TextFlag.TextWordWrap, text)
        painter.restore()

    def width_of(self, text: str) -> int:
        """Return the width a cell takes that shows a text on one line."""
        return QFontMetrics(self.theme.font()).horizontalAdvance(text) + self.theme.px(
            2 * _SIDE + 4
        )

    def height_of(self, text: str, width: int) -> int:
        """Return the height of a cell in which a text is broken into lines."""
        room = QRect(0, 0, width - 2 * self.theme.px(_SIDE), 1)
        metrics = QFontMetrics(self.theme.font())
        held = metrics.boundingRect(room, Qt.TextFlag.TextWordWrap, text)
        return max(held.height() + self.theme.px(_ABOVE), self.theme.px(_HEAD))


class RuledHeader(QHeaderView):
    """Set the headings over a line of ink, as their cells are set."""

    def __init__(self, cells: RuledCells, parent: QTableView) -> None:
        super().__init__(Qt.Orientation.Horizontal, parent)
        self._cells = cells
        self.setSectionsClickable(False)
        self.setHighlightSections(False)

    def paintSection(self, painter: QPainter, rect: QRect, place: int) -> None:  # noqa: N802
        """Paint one heading."""
        theme = self._cells.theme
        model = self.model()
        painter.save()
        painter.fillRect(rect.left(), rect.bottom() - 1, rect.width(), 2, theme.colour("ink"))
        font = theme.font(Role.COLUMN)
        painter.setFont(font)
        painter.setPen(theme.colour("secondary"))
        side = theme.px(_SIDE)
        room = rect.adjusted(side, 0, -side, -2)
        text = str(model.headerData(place, Qt.Orientation.Horizontal) or "")
        role = Qt.ItemDataRole.TextAlignmentRole
        align = model.headerData(place, Qt.Orientation.Horizontal, role)
        cut = QFontMetrics(font).elidedText(text, Qt.TextElideMode.ElideRight, room.width())
        painter.drawText(room, int(align), cut)
        painter.restore()

    def width_of(self, place: int) -> int:
        """Return the width a heading takes."""
        theme = self._cells.theme
        text = str(self.model().headerData(place, Qt.Orientation.Horizontal) or "")
        width = QFontMetrics(theme.font(Role.COLUMN)).horizontalAdvance(text)
        return width + 2 * theme.px(_SIDE)

    def fit(self) -> None:
        """Take the height of the theme."""
        self.setFixedHeight(self._cells.theme.px(_HEAD))
