"""How the rows of the formula list are painted: a heading, or a name over its state."""

from __future__ import annotations

from PySide6.QtCore import QRect, QSize, Qt
from PySide6.QtGui import QFontMetrics, QPainter, QPen
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem, QWidget

from workbench.ui.places.desk.entries import ListedFormula, Section
from workbench.ui.places.desk.list_model import ROW_ROLE, Index, Row, first_line, second_line
from workbench.ui.theme import Role, Theme
from workbench.words.catalogue import Words

_MARK = 3


class ListDelegate(QStyledItemDelegate):
    """Paint a heading, or a name over what state it is in."""

    def __init__(self, words: Words, theme: Theme, parent: QWidget) -> None:
        super().__init__(parent)
        self._words = words
        self.open_key = ""
        self.set_theme(theme)

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self.theme = theme
        self._heights = {
            role: QFontMetrics(theme.font(role)).height()
            for role in (Role.SMALL, Role.HEADING, Role.BODY, Role.STRONG)
        }
        two_lines = self._heights[Role.BODY] + self._heights[Role.SMALL]
        self._formula_size = QSize(10, two_lines + theme.px(12))

    def sizeHint(self, _option: QStyleOptionViewItem, index: Index) -> QSize:
        """Return the height of one line, or two."""
        if isinstance(index.data(ROW_ROLE), Section):
            above = self.theme.px(14) if index.row() else self.theme.px(2)
            return QSize(10, self._heights[Role.HEADING] + above + 6)
        return self._formula_size

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        """Paint one row."""
        row = index.data(ROW_ROLE)
        painter.save()
        rect = QRect(option.rect)
        if isinstance(row, Section):
            self._write(painter, self._inner(rect, 3), row, Role.HEADING)
        else:
            self._paint_formula(painter, option, row)
        painter.restore()

    def _paint_formula(
        self, painter: QPainter, option: QStyleOptionViewItem, row: ListedFormula
    ) -> None:
        rect = QRect(option.rect)
        state = option.state
        is_open = row.key == self.open_key
        if is_open:
            painter.fillRect(rect, self.theme.colour("surface"))
            mark = QRect(rect.topLeft(), QSize(self.theme.px(_MARK), rect.height()))
            painter.fillRect(mark, self.theme.colour("accent"))
        if state & QStyle.StateFlag.State_HasFocus:
            painter.setPen(QPen(self.theme.colour("accent"), 2))
            painter.drawRect(rect.adjusted(1, 1, -1, -1))
        inner = self._inner(rect, self.theme.px(6))
        body = Role.STRONG if is_open else Role.BODY
        height = self._heights[body]
        self._write(painter, QRect(inner.topLeft(), QSize(inner.width(), height)), row, body)
        inner.setTop(inner.top() + height)
        self._write(painter, inner, second_line(row, self._words), Role.SMALL)

    def _inner(self, rect: QRect, above: int) -> QRect:
        side = self.theme.px(8)
        return rect.adjusted(side, above, -side, -above)

    def _write(self, painter: QPainter, rect: QRect, row: Row | str, role: Role) -> None:
        text = row if isinstance(row, str) else first_line(row, self._words)
        font = self.theme.font(role)
        is_quiet = role in (Role.SMALL, Role.HEADING)
        painter.setFont(font)
        painter.setPen(self.theme.colour("secondary" if is_quiet else "ink"))
        align = Qt.AlignmentFlag.AlignLeft | (
            Qt.AlignmentFlag.AlignBottom if role is Role.HEADING else Qt.AlignmentFlag.AlignTop
        )
        cut = QFontMetrics(font).elidedText(text, Qt.TextElideMode.ElideRight, rect.width())
        painter.drawText(rect, align, cut)
