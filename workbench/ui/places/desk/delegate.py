"""The delegate of the sheet: paints each cell from its look and opens its editor."""

from __future__ import annotations

from PySide6.QtCore import (
    QAbstractItemModel,
    QEvent,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    QRect,
    QSize,
    Qt,
    Signal,
)
from PySide6.QtGui import QFocusEvent, QKeyEvent, QPainter
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem, QWidget

from workbench.ui.editors.cell_editor import CellEditor, Way
from workbench.ui.editors.name_editor import Finder, NameEditor
from workbench.ui.models.value_table import LOOK_ROLE
from workbench.ui.places.desk import columns
from workbench.ui.places.desk.cell_paint import CellPainter, Face
from workbench.ui.places.desk.rows import Kind, UseRange
from workbench.ui.theme import Theme
from workbench.words.catalogue import Words

ROW = 32
Index = QModelIndex | QPersistentModelIndex
_STATE = QStyle.StateFlag
_WAYS = {
    int(Qt.Key.Key_Return): Way.DOWN,
    int(Qt.Key.Key_Enter): Way.DOWN,
    int(Qt.Key.Key_Tab): Way.RIGHT,
    int(Qt.Key.Key_Backtab): Way.LEFT,
}
_KEPT_OPEN = (
    Qt.FocusReason.ActiveWindowFocusReason,
    Qt.FocusReason.PopupFocusReason,
    Qt.FocusReason.MenuBarFocusReason,
)


class SheetDelegate(QStyledItemDelegate):
    """Paint and edit the cells of the sheet."""

    leaving = Signal(object)
    """The way the cursor goes when the open editor may close."""

    def __init__(self, theme: Theme, words: Words, find: Finder, parent: QWidget) -> None:
        super().__init__(parent)
        self._words = words
        self._find = find
        self.paints = CellPainter(theme)
        self.index = QPersistentModelIndex()
        self.editor: CellEditor | None = None
        # Dressing a new editor takes longer than a key press may, so each kind is made once.
        self._kept: dict[bool, CellEditor] = {}

    def set_theme(self, theme: Theme) -> None:
        """Paint in another theme from now on."""
        self.paints = CellPainter(theme)
        for editor in self._kept.values():
            editor.deleteLater()
        self._kept.clear()

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        """Paint one cell."""
        key = columns.KEYS[index.column()]
        look = index.data(LOOK_ROLE)
        state = option.state
        rect: QRect = option.rect
        if key == columns.MARGIN:
            self.paints.margin(painter, rect, index.data(), look)
            return
        self.paints.ground(painter, rect, look[0], is_lit=bool(state & _STATE.State_Selected))
        if key == columns.MARK:
            self.paints.marks(painter, rect, look)
        elif key == columns.INGREDIENT:
            self._ingredient(painter, rect, index.data(), look)
        elif key == columns.PURPOSE:
            paints = self.paints
            inner = rect.adjusted(0, 0, -paints.pad, 0)
            paints.text(painter, inner, index.data(), paints.body, paints.ink)
        elif key == columns.RANGE:
            self._range(painter, rect, index.data(), look)
        else:
            self._figure(painter, rect, index.data(), look)
        if state & _STATE.State_HasFocus:
            self.paints.frame(painter, rect)

    def _ingredient(
        self, painter: QPainter, rect: QRect, text: str, look: tuple[Kind, str, str]
    ) -> None:
        kind, secondary, alarm = look
        paints = self.paints
        is_line = kind in (Kind.LINE, Kind.NEW)
        face = paints.body if is_line else paints.strong
        colour = paints.secondary if kind is Kind.NEW else paints.ink
        inner = rect.adjusted(4, 0, -paints.pad, 0)
        end = paints.text(painter, inner, text, face, colour)
        beside = inner.adjusted(round(end) - inner.left() + paints.pad, 0, 0, 0)
        if beside.width() < paints.pad * 3:
            return
        if alarm:
            paints.text(painter, beside, alarm, paints.strong, paints.stop)
        elif secondary:
            paints.text(painter, beside, secondary, paints.small, paints.secondary)

    def _range(
        self,
        painter: QPainter,
        rect: QRect,
        text: str,
        look: tuple[Kind, UseRange | None, bool, bool],
    ) -> None:
        _kind, use, is_stop, is_rest = look
        paints = self.paints
        if use is not None:
            paints.use_range(painter, rect, use, is_stop=is_stop)
        elif is_rest:
            inner = rect.adjusted(paints.pad, 0, 0, 0)
            paints.text(painter, inner, text, paints.body, paints.accent)

    def _figure(
        self, painter: QPainter, rect: QRect, text: str, look: tuple[Kind, int, bool]
    ) -> None:
        kind, pad, is_stop = look
        paints = self.paints
        face: Face = paints.strong if is_stop or kind is not Kind.LINE else paints.body
        colour = paints.stop if is_stop else paints.ink
        paints.figure(painter, rect, text, pad, (face, colour))

    def sizeHint(self, _option: QStyleOptionViewItem, _index: Index) -> QSize:
        """Return the height of a row; widths are the sheet's."""
        return QSize(0, self.paints.theme.px(ROW))

    def createEditor(self, parent: QWidget, _option: QStyleOptionViewItem, index: Index) -> QWidget:
        """Open the editor of a cell."""
        self.index = QPersistentModelIndex(index)
        is_name = columns.KEYS[index.column()] == columns.INGREDIENT
        editor = self._kept.get(is_name)
        if editor is None:
            editor = self._kept[is_name] = self._made(parent, is_name=is_name)
        editor.renew()
        self.editor = editor
        return editor

    def _made(self, parent: QWidget, *, is_name: bool) -> CellEditor:
        theme = self.paints.theme
        if not is_name:
            return CellEditor(theme, parent)
        editor = NameEditor(theme, self._find, self._words.say("sheet-hits"), parent)
        editor.taken.connect(lambda: self.leaving.emit(Way.DOWN))
        return editor

    def destroyEditor(self, _editor: QWidget, _index: Index) -> None:  # noqa: N802
        """Keep the editor for the next cell; one of another theme is going already."""

    def setEditorData(self, editor: QWidget, index: Index) -> None:
        """Show what the cell holds, once; what is typed since then stays."""
        if isinstance(editor, CellEditor) and not editor.is_begun:
            editor.begin(str(index.data(Qt.ItemDataRole.EditRole)))

    def setModelData(self, editor: QWidget, model: QAbstractItemModel, index: Index) -> None:
        """Leave the taking to the sheet, which knows whether the text was taken."""

    def updateEditorGeometry(
        self, editor: QWidget, option: QStyleOptionViewItem, _index: Index
    ) -> None:
        """Let the editor fill its cell."""
        editor.setGeometry(option.rect)

    def close(self) -> None:
        """Close the editor that is open."""
        editor, self.editor = self.editor, None
        if editor is not None:
            self.closeEditor.emit(editor, QStyledItemDelegate.EndEditHint.NoHint)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Take the keys that leave an editor, and its loss of focus."""
        if watched is not self.editor:
            return False
        if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            if event.key() == Qt.Key.Key_Escape:
                self.close()
                return True
            way = _WAYS.get(event.key())
            if way is not None:
                self.leaving.emit(way)
            return way is not None
        is_lost = event.type() == QEvent.Type.FocusOut and isinstance(event, QFocusEvent)
        if is_lost and isinstance(event, QFocusEvent) and event.reason() not in _KEPT_OPEN:
            self.leaving.emit(Way.STAY)
        return False
