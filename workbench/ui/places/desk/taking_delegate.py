"""Rows whose cells take a choice from a list: the marks, the editor's keys, the taking."""

from __future__ import annotations

from PySide6.QtCore import (
    QAbstractItemModel,
    QEvent,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    QRect,
    QRectF,
    QSize,
    Qt,
    Signal,
)
from PySide6.QtGui import QKeyEvent, QPainter
from PySide6.QtWidgets import QStyledItemDelegate, QStyleOptionViewItem, QWidget

from workbench.ui.editors.name_editor import Finder, NameEditor
from workbench.ui.places.desk.cell_paint import CellPainter
from workbench.ui.theme import Theme
from workbench.ui.widgets.severity import SIDE, paint_severity
from workbench.words.catalogue import Words

Index = QModelIndex | QPersistentModelIndex
ROW = 30


class TakingDelegate(QStyledItemDelegate):
    """Open a list of choices in a cell: Enter or Tab takes one, Esc leaves the cell as it was."""

    taken = Signal(int, int, object)
    """Row, column and the Choice that was taken for it."""

    def __init__(self, words: Words, theme: Theme, parent: QWidget) -> None:
        super().__init__(parent)
        self.words = words
        self.theme = theme
        self.paints = CellPainter(theme)
        self._place, self._column = 0, 0

    def paint_mark(self, painter: QPainter, rect: QRect, severity: str) -> QRect:
        """Paint the shape of a severity, if any, and return the room for the text beside it."""
        inner = rect.adjusted(self.paints.pad // 2, 0, -2, 0)
        if severity:
            side = self.theme.px(SIDE)
            top = inner.top() + (inner.height() - side) / 2
            box = QRectF(inner.left(), top, side, side)
            paint_severity(painter, box, severity, self.theme.palette)
            inner.setLeft(inner.left() + side + self.theme.px(6))
        return inner

    def editor(self, find: Finder, label: str, parent: QWidget, index: Index) -> NameEditor:
        """Return the editor of a cell, which searches as it is typed into."""
        self._place, self._column = index.row(), index.column()
        made = NameEditor(self.theme, find, label, parent)
        made.taken.connect(lambda: self._take(made))
        return made

    def sizeHint(self, _option: QStyleOptionViewItem, _index: Index) -> QSize:
        """Return the height of a row."""
        return QSize(0, self.theme.px(ROW))

    def setModelData(self, editor: QWidget, model: QAbstractItemModel, index: Index) -> None:
        """Leave the taking to Enter alone."""

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Take with Enter or Tab, leave with Esc."""
        is_key = event.type() == QEvent.Type.KeyPress and isinstance(event, QKeyEvent)
        if is_key and isinstance(watched, NameEditor) and isinstance(event, QKeyEvent):
            if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Tab):
                self._take(watched)
                return True
            if event.key() == Qt.Key.Key_Escape:
                self.closeEditor.emit(watched, QStyledItemDelegate.EndEditHint.NoHint)
                return True
        return super().eventFilter(watched, event)

    def _take(self, editor: NameEditor) -> None:
        choice = editor.chosen()
        self.closeEditor.emit(editor, QStyledItemDelegate.EndEditHint.NoHint)
        if choice is not None:
            self.taken.emit(self._place, self._column, choice)
