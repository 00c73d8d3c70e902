"""A list to choose one of: roomy rows, the chosen one marked by a bar and a ground."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRect, QSize, Qt
from PySide6.QtGui import QFontMetrics, QPainter
from PySide6.QtWidgets import (
    QListWidget,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QWidget,
)

from workbench.ui.theme import Role, Theme

_ROW, _BAR = 28, 3


class ChoiceList(QListWidget):
    """Show a line of text per row; typing its first letters chooses it."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setUniformItemSizes(True)
        self.set_theme(theme)

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._delegate = _Delegate(theme, self)
        self.setItemDelegate(self._delegate)

    def minimumSizeHint(self) -> QSize:
        """Ask for no more room than a few rows need."""
        return QSize(40, 80)


class _Delegate(QStyledItemDelegate):
    def __init__(self, theme: Theme, parent: QWidget) -> None:
        super().__init__(parent)
        self._theme = theme

    def sizeHint(
        self, _option: QStyleOptionViewItem, _index: QModelIndex | QPersistentModelIndex
    ) -> QSize:
        """Return the height of a row."""
        return QSize(10, self._theme.px(_ROW))

    def paint(
        self,
        painter: QPainter,
        option: QStyleOptionViewItem,
        index: QModelIndex | QPersistentModelIndex,
    ) -> None:
        """Paint the bar, the ground and the text."""
        theme, rect = self._theme, QRect(option.rect)
        is_chosen = bool(option.state & QStyle.StateFlag.State_Selected)
        painter.save()
        if is_chosen:
            painter.fillRect(rect, theme.colour("surface"))
            bar = QRect(rect.topLeft(), QSize(theme.px(_BAR), rect.height()))
            painter.fillRect(bar, theme.colour("accent"))
        if option.state & QStyle.StateFlag.State_HasFocus:
            painter.setPen(theme.colour("accent"))
            painter.drawRect(rect.adjusted(0, 0, -1, -1))
        font = theme.font(Role.STRONG if is_chosen else Role.BODY)
        painter.setFont(font)
        painter.setPen(theme.colour("ink"))
        inner = rect.adjusted(theme.px(10), 0, -theme.px(6), 0)
        text = str(index.data())
        cut = QFontMetrics(font).elidedText(text, Qt.TextElideMode.ElideRight, inner.width())
        painter.drawText(inner, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, cut)
        painter.restore()
