"""The delegate of the sheet: paints each cell from its look and opens its editor."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

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
_LEAST_NOTE = 200
Index = QModelIndex | QPersistentModelIndex
_STATE = QStyle.StateFlag
_WAYS = {
    int(Qt.Key.Key_Return): Way.DOWN,
    int(Qt.Key.Key_Enter): Way.DOWN,
    int(Qt.Key.Key_Tab): Way.RIGHT,
    int(Qt.Key.Key_Backtab): Way.LEFT,
}
_ARROWS = {int(Qt.Key.Key_Up): Way.UP, int(Qt.Key.Key_Down): Way.DOWN}
_NO_KEYS = Qt.KeyboardModifier.NoModifier
_KEPT_OPEN = (
    Qt.FocusReason.ActiveWindowFocusReason,
    Qt.FocusReason.PopupFocusReason,
    Qt.FocusReason.MenuBarFocusReason,
)


class SheetDelegate(QStyledItemDelegate):
    """Paint and edit the cells of the sheet."""

    leaving = Signal(object)
    """The way the cursor goes when the open editor may close."""

    def __init__(self, theme: Theme, words: Words, parent: QWidget) -> None:
        super().__init__(parent)
        self._words = words
        self.finders: dict[str, Finder] = {}
        """What is searched by the editors of names and of purposes."""
        self.shown: frozenset[str] = frozenset(columns.USUAL)
        """The columns that have room; the name goes without what stands in one of them."""
        self.paints = CellPainter(theme)
        self.index = QPersistentModelIndex()
        self.editor: CellEditor | None = None
        self.is_note = False
        """Whether the open editor holds the note of its line, whatever cell it stands beside."""
        self._opens_note = False
        # Dressing a new editor takes longer than a key press may, so each kind is made once.
        self._kept: dict[str, CellEditor] = {}

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
        elif key in (columns.PURPOSE, columns.INCI, columns.NOTE):
            self._words_of(painter, rect, index.data(), is_plain=look[0] is Kind.LINE)
        elif key == columns.RANGE:
            self._range(painter, rect, index.data(), look)
        else:
            self._figure(painter, rect, index.data(), look)
        if state & _STATE.State_HasFocus:
            self.paints.frame(painter, rect)

    def _ingredient(
        self, painter: QPainter, rect: QRect, text: str, look: tuple[Kind, str, str, str]
    ) -> None:
        kind, secondary, alarm, note = look
        paints = self.paints
        is_line = kind in (Kind.LINE, Kind.NEW)
        face = paints.body if is_line else paints.strong
        colour = paints.secondary if kind is Kind.NEW else paints.ink
        inner = rect.adjusted(4, 0, -paints.pad, 0)
        has_note = bool(note) and columns.NOTE not in self.shown
        own = inner.adjusted(0, 0, -paints.note_room if has_note else 0, 0)
        end = paints.text(painter, own, text, face, colour)
        beside = inner.adjusted(round(end) - inner.left() + paints.pad, 0, 0, 0)
        if has_note:
            beside = paints.note(painter, inner, beside, note)
        if beside.width() < paints.pad * 3:
            return
        if alarm:
            paints.text(painter, beside, alarm, paints.strong, paints.stop)
        elif secondary and not (kind is Kind.LINE and columns.INCI in self.shown):
            paints.text(painter, beside, secondary, paints.small, paints.secondary)

    def _words_of(self, painter: QPainter, rect: QRect, text: str, *, is_plain: bool) -> None:
        paints = self.paints
        inner = rect.adjusted(paints.pad, 0, -paints.pad, 0)
        face, colour = (paints.body, paints.ink) if is_plain else (paints.small, paints.secondary)
        paints.text(painter, inner, text, face, colour)

    def _range(
        self,
        painter: QPainter,
        rect: QRect,
        text: str,
        look: tuple[Kind, UseRange | None, bool, bool],
    ) -> None:
        kind, use, is_stop, is_said = look
        paints = self.paints
        if kind is Kind.HEAD:
            paints.link(painter, rect, text)
        elif use is not None and not is_said:
            paints.use_range(painter, rect, use, is_stop=is_stop)
        elif is_said:
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
        self.is_note = self._opens_note or columns.KEYS[index.column()] == columns.NOTE
        kind = "note" if self.is_note else _editor_kind(columns.KEYS[index.column()], index)
        editor = self._kept.get(kind)
        if editor is None:
            editor = self._kept[kind] = self._made(parent, kind)
        editor.renew()
        self.editor = editor
        return editor

    def _made(self, parent: QWidget, kind: str) -> CellEditor:
        theme = self.paints.theme
        if kind not in self.finders:
            editor = CellEditor(theme, parent, is_numeric=kind == "figure")
            if kind == "note":
                editor.setAccessibleName(self._words.say("sheet-action-note"))
                editor.setPlaceholderText(self._words.say("sheet-action-note"))
            return editor
        label = self._words.say(f"sheet-hits-{kind}")
        names = NameEditor(theme, self.finders[kind], label, parent)
        names.taken.connect(lambda: self.leaving.emit(Way.DOWN))
        return names

    def destroyEditor(self, _editor: QWidget, _index: Index) -> None:  # noqa: N802
        """Keep the editor for the next cell; one of another theme is going already."""

    def setEditorData(self, editor: QWidget, index: Index) -> None:
        """Show what the cell holds, once; what is typed since then stays."""
        if not isinstance(editor, CellEditor) or editor.is_begun:
            return
        if self.is_note:
            note = index.model().index(index.row(), columns.KEYS.index(columns.NOTE))
            editor.begin_behind(str(note.data(Qt.ItemDataRole.EditRole)), columns.NOTE_GAP)
        else:
            editor.begin(str(index.data(Qt.ItemDataRole.EditRole)))

    def setModelData(self, editor: QWidget, model: QAbstractItemModel, index: Index) -> None:
        """Leave the taking to the sheet, which knows whether the text was taken."""

    @contextmanager
    def as_note(self) -> Iterator[None]:
        """Open the note of a line beside the cell that is edited within."""
        self._opens_note = True
        try:
            yield
        finally:
            self._opens_note = False

    def updateEditorGeometry(
        self, editor: QWidget, option: QStyleOptionViewItem, index: Index
    ) -> None:
        """Let the editor fill its cell; a note without one of its own lies beside the name."""
        rect: QRect = option.rect
        if self.is_note and columns.KEYS[index.column()] != columns.NOTE:
            parent = editor.parentWidget()
            end = rect.right() if parent is None else parent.width()
            has_room = end - rect.right() >= self.paints.theme.px(_LEAST_NOTE)
            left = rect.right() + 1 if has_room else rect.left()
            rect = QRect(left, rect.top(), end - left, rect.height())
        editor.setGeometry(rect)

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
            way = _way_of(event, walks_list=isinstance(watched, NameEditor))
            if way is not None:
                self.leaving.emit(way)
            return way is not None
        is_lost = event.type() == QEvent.Type.FocusOut and isinstance(event, QFocusEvent)
        if is_lost and isinstance(event, QFocusEvent) and event.reason() not in _KEPT_OPEN:
            self.leaving.emit(Way.STAY)
        return False


def _way_of(event: QKeyEvent, *, walks_list: bool) -> Way | None:
    """Return where a key leads out of an editor; Up and Down do where they walk no list."""
    is_plain = event.modifiers() in (_NO_KEYS, Qt.KeyboardModifier.KeypadModifier)
    if event.key() in _ARROWS:
        return None if walks_list or not is_plain else _ARROWS[event.key()]
    way = _WAYS.get(event.key())
    has_shift = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
    return Way.UP if way is Way.DOWN and has_shift else way


def _editor_kind(key: str, index: Index) -> str:
    """Return which editor a cell opens: of names, purposes, plain text or figures."""
    if key == columns.INGREDIENT:
        return "text" if index.data(LOOK_ROLE)[0] is Kind.HEAD else "name"
    return {columns.PURPOSE: "purpose"}.get(key, "figure")
