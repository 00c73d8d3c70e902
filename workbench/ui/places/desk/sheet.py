"""The sheet: every line of the draft, typed into as into a spreadsheet."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, Qt, Signal
from PySide6.QtGui import (
    QFocusEvent,
    QGuiApplication,
    QKeyEvent,
    QKeySequence,
    QResizeEvent,
)
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableView, QWidget

from workbench.checks.assess import column_step
from workbench.ui.editors.cell_editor import Way
from workbench.ui.editors.name_editor import Choice, NameEditor
from workbench.ui.models.value_table import ValueTableModel
from workbench.ui.places.desk import columns
from workbench.ui.places.desk.cell_paint import MARGIN
from workbench.ui.places.desk.columns import GRAMS, INGREDIENT, KEYS, PERCENT, STOPS
from workbench.ui.places.desk.delegate import ROW, SheetDelegate
from workbench.ui.places.desk.line_edits import LineEdits
from workbench.ui.places.desk.mass_column import WIDTH as MASS_WIDTH
from workbench.ui.places.desk.mass_column import MassColumn, segments_of
from workbench.ui.places.desk.rows import NEW_ID, Kind, SheetRow, line_id, rows_of
from workbench.ui.places.desk.sheet_header import SheetHeader
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.theme import Theme

WIDTHS = {
    columns.MARGIN: MARGIN,
    columns.MARK: 38,
    columns.PURPOSE: 108,
    columns.PERCENT: 84,
    columns.GRAMS: 78,
    columns.RANGE: 160,
    columns.COST: 62,
}
_LEAST_NAME, _EASY_NAME = 170, 220
_CURSOR = QAbstractItemView.CursorAction
_NONE = Qt.KeyboardModifier.NoModifier
_STEPS = {
    _CURSOR.MoveUp: -1,
    _CURSOR.MoveDown: 1,
    _CURSOR.MovePageUp: -12,
    _CURSOR.MovePageDown: 12,
}
_SIDES = {
    _CURSOR.MoveLeft: -1,
    _CURSOR.MovePrevious: -1,
    _CURSOR.MoveRight: 1,
    _CURSOR.MoveNext: 1,
}


class SheetView(QTableView):
    """Show the draft as ruled paper and take what is typed into it."""

    line_focused = Signal(int)
    """The id of the line the cursor stands in, or 0."""

    def __init__(self, work: DeskWork, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._work = work
        self._theme = theme
        self._edits = LineEdits(work)
        self._last_phase = 0
        self._model: ValueTableModel[SheetRow] = ValueTableModel(
            columns.sheet_columns(work.words, self._commit), lambda row: row.id, self
        )
        self._mass = MassColumn(theme, self)
        self._delegate = SheetDelegate(theme, work.words, self._found, self)
        self._delegate.leaving.connect(self._leave)
        self._set_up()
        self.set_theme(theme)
        self._show()
        work.assessed.connect(lambda _assessment: self._show())
        work.opened.connect(lambda _key: self._delegate.close())

    def _set_up(self) -> None:
        self.setObjectName("sheet")
        self.setAccessibleName(self._work.words.say("sheet-name"))
        self._head = SheetHeader(self._theme, self)
        self.setHorizontalHeader(self._head)
        self.setModel(self._model)
        self.setItemDelegate(self._delegate)
        self.setShowGrid(False)
        self.setWordWrap(False)
        self.verticalHeader().hide()
        self.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.setTabKeyNavigation(False)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        trigger = QAbstractItemView.EditTrigger
        self.setEditTriggers(trigger.AnyKeyPressed | trigger.EditKeyPressed | trigger.DoubleClicked)
        self.selectionModel().currentChanged.connect(self._on_current)

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._theme = theme
        self._delegate.close()
        self._delegate.set_theme(theme)
        self._head.set_theme(theme)
        self._mass.set_theme(theme)
        self.verticalHeader().setMinimumSectionSize(1)
        self.verticalHeader().setDefaultSectionSize(theme.px(ROW))
        self._share_width()
        self.viewport().update()

    @property
    def rows(self) -> tuple[SheetRow, ...]:
        """The rows as they are shown."""
        return self._model.rows

    @property
    def focused_line(self) -> int:
        """The line the cursor stands in, or 0."""
        index = self.currentIndex()
        return self._model.row_at(index).line if index.isValid() else 0

    def focus_line(self, line: int) -> None:
        """Put the cursor on the percent of a line."""
        self._go(self._model.index_of(line_id(line), PERCENT))
        self.setFocus(Qt.FocusReason.OtherFocusReason)

    def _show(self) -> None:
        work = self._work
        exponent = column_step(work.shelf, work.rules).normalize().as_tuple().exponent
        places = max(-exponent, 0) if isinstance(exponent, int) else 2
        self._model.set_rows(rows_of(work.formula, work.assessment, work.shelf, work.words, places))
        self._mass.set_segments(segments_of(work.formula, work.assessment.totals))
        self._place_mass()

    def _place_mass(self) -> None:
        """Stand the mass column beside the lines, or beside those that fit."""
        area = self.viewport().geometry()
        lines = (len(self._model.rows) - 2) * self._theme.px(ROW)
        height = min(max(lines, self._theme.px(ROW)), area.height() - 1)
        width = self._theme.px(MASS_WIDTH)
        self._mass.setGeometry(area.left(), area.top(), width, max(height, 1))
        self._mass.raise_()

    def _on_current(self, current: QModelIndex, before: QModelIndex) -> None:
        row = self._model.row_at(current) if current.isValid() else None
        if row is not None and row.phase:
            self._last_phase = row.phase
        was = self._model.row_at(before).line if before.isValid() else 0
        now = row.line if row is not None else 0
        if now != was or not before.isValid():
            self.line_focused.emit(now)

    # Editing.

    def _commit(self, row: SheetRow, key: str, text: str) -> bool:
        if row.kind is not Kind.LINE or key not in (PERCENT, GRAMS):
            return False
        return self._edits.type_amount(row.line, text, bare_is_grams=key == GRAMS)

    def _found(self, text: str, limit: int) -> tuple[Choice, ...]:
        hits = self._work.studio.search(text, limit)
        stock = self._work.words.say("sheet-stock")
        return tuple(Choice(hit.key, hit.name, stock if hit.is_stock else hit.inci) for hit in hits)

    def _leave(self, way: Way) -> None:
        editor, held = self._delegate.editor, self._delegate.index
        if editor is None or not held.isValid():
            return
        index = self._model.index(held.row(), held.column())
        if editor.is_untouched or not editor.text().strip():
            self._delegate.close()
            self._go_on(way)
        elif isinstance(editor, NameEditor):
            self._take_name(editor, self._model.row_at(index), way)
        elif self._model.setData(index, editor.text()):
            self._delegate.close()
            self._go_on(way)

    def _take_name(self, editor: NameEditor, row: SheetRow, way: Way) -> None:
        choice = editor.chosen()
        if way is Way.STAY:
            self._delegate.close()  # a name that was only begun is no choice yet
        elif choice is None:
            text = self._work.words.say("sheet-hits-none", text=editor.text().strip())
            self._work.notices.inform(text)
        elif row.kind is Kind.LINE:
            if self._edits.swap(row.line, choice.key, choice.name):
                self._delegate.close()
                self._go_on(way)
        else:
            line = self._edits.add(choice.key, choice.name, self._last_phase)
            if line:
                self._delegate.close()
                self.focus_line(line)

    def _go_on(self, way: Way) -> None:
        if way is Way.STAY:
            return
        self.setFocus(Qt.FocusReason.OtherFocusReason)
        moves = {
            Way.DOWN: _CURSOR.MoveDown,
            Way.UP: _CURSOR.MoveUp,
            Way.RIGHT: _CURSOR.MoveNext,
            Way.LEFT: _CURSOR.MovePrevious,
        }
        self._go(self.moveCursor(moves[way], _NONE))

    # Cursor and keys.

    def _go(self, index: QModelIndex) -> None:
        if index.isValid():
            self.setCurrentIndex(index)
            self.scrollTo(index)

    def moveCursor(
        self, action: QAbstractItemView.CursorAction, modifiers: Qt.KeyboardModifier
    ) -> QModelIndex:
        """Walk lines only: heads and the total are passed over."""
        places = [
            place for place, row in enumerate(self._model.rows) if row.kind in (Kind.LINE, Kind.NEW)
        ]
        here = self.currentIndex()
        if not here.isValid():
            return self._at(places[0], INGREDIENT)
        key = KEYS[here.column()]
        if action in _STEPS:
            return self._at(_stepped(places, here.row(), _STEPS[action]), key)
        if action in _SIDES:
            return self._sideways(places, here, _SIDES[action])
        if action is _CURSOR.MoveHome:
            is_top = bool(modifiers & Qt.KeyboardModifier.ControlModifier)
            return self._at(places[0] if is_top else here.row(), INGREDIENT)
        if action is _CURSOR.MoveEnd:
            is_end = bool(modifiers & Qt.KeyboardModifier.ControlModifier)
            return self._at(places[-1] if is_end else here.row(), STOPS[-1])
        return here

    def _sideways(self, places: list[int], here: QModelIndex, step: int) -> QModelIndex:
        key = KEYS[here.column()]
        shown = [one for one in STOPS if not self.isColumnHidden(KEYS.index(one))]
        is_new = self._model.row_at(here).kind is Kind.NEW
        place = (shown.index(key) if key in shown else 0) + step
        if 0 <= place < len(shown) and not is_new:
            return self._at(here.row(), shown[place])
        there = _stepped(places, here.row(), step)
        if there == here.row():
            return here
        return self._at(there, shown[0 if step > 0 else -1])

    def _at(self, place: int, key: str) -> QModelIndex:
        if self._model.rows[place].id == NEW_ID or key not in STOPS:
            key = INGREDIENT
        return self._model.index(place, KEYS.index(key))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Act on the keys of the sheet; what is typed opens the cell."""
        if self._on_standard_key(event) or self._on_line_key(event):
            event.accept()
            return
        self._on_typing(event)
        super().keyPressEvent(event)

    def _on_typing(self, event: QKeyEvent) -> None:
        here = self.currentIndex()
        if not here.isValid() or not event.text().isprintable() or not event.text():
            return
        if self._model.row_at(here).kind is Kind.NEW:
            self._go(self._at(here.row(), INGREDIENT))

    def _on_standard_key(self, event: QKeyEvent) -> bool:
        stack = self._work.session.stack
        if event.matches(QKeySequence.StandardKey.Undo):
            stack.undo()
        elif event.matches(QKeySequence.StandardKey.Redo) or _is_ctrl(event, Qt.Key.Key_Y):
            stack.redo()
        elif event.matches(QKeySequence.StandardKey.Copy):
            self._copy()
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._go(self.moveCursor(_CURSOR.MoveDown, _NONE))
        else:
            return False
        return True

    def _on_line_key(self, event: QKeyEvent) -> bool:
        line = self.focused_line
        steps = {int(Qt.Key.Key_Up): -1, int(Qt.Key.Key_Down): 1}
        is_alt = bool(event.modifiers() & Qt.KeyboardModifier.AltModifier)
        if event.key() == Qt.Key.Key_Delete and event.modifiers() == _NONE:
            self._delete()
        elif not line:
            return False
        elif is_alt and event.key() in steps:
            self._edits.move(line, steps[event.key()])
            self.scrollTo(self.currentIndex())
        elif _is_ctrl(event, Qt.Key.Key_L):
            self._edits.toggle_lock(line)
        elif _is_ctrl(event, Qt.Key.Key_R):
            self._edits.make_rest(line)
        else:
            return False
        return True

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Repaint the cell of the cursor; Qt would repaint every cell."""
        if self.currentIndex().isValid():
            self.update(self.currentIndex())
        else:
            super().focusInEvent(event)

    def focusOutEvent(self, _event: QFocusEvent) -> None:
        """Repaint the cell of the cursor; Qt would repaint every cell."""
        self.update(self.currentIndex())

    def focusNextPrevChild(self, forward: bool) -> bool:  # noqa: FBT001 (Qt's own)
        """Go right or left on Tab within the lines; past the ends the focus goes on."""
        here = self.currentIndex()
        there = self.moveCursor(_CURSOR.MoveNext if forward else _CURSOR.MovePrevious, _NONE)
        if not here.isValid() or there == here:
            return super().focusNextPrevChild(forward)
        self._go(there)
        return True

    def _selected(self) -> tuple[SheetRow, ...]:
        chosen = sorted({index.row() for index in self.selectionModel().selectedIndexes()})
        rows = self._model.rows
        return tuple(rows[place] for place in chosen if rows[place].kind is Kind.LINE)

    def _delete(self) -> None:
        here = self.currentIndex()
        if not self._edits.delete(frozenset(row.line for row in self._selected())):
            return
        places = [at for at, row in enumerate(self.rows) if row.kind in (Kind.LINE, Kind.NEW)]
        near = min(places, key=lambda place: (abs(place - here.row()), -place))
        self._go(self._at(near, KEYS[max(here.column(), 0)]))

    def _copy(self) -> None:
        lines = ["\t".join((row.name, row.percent, row.grams)) for row in self._selected()]
        if lines:
            QGuiApplication.clipboard().setText("\n".join(lines) + "\n")

    # Widths.

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Give the names what the other columns leave."""
        super().resizeEvent(event)
        self._share_width()

    def _share_width(self) -> None:
        widths = {key: self._theme.px(width) for key, width in WIDTHS.items()}
        room = self.viewport().width()
        least = self._theme.px(_LEAST_NAME)
        is_narrow = sum(widths.values()) + least > room
        self.setColumnHidden(KEYS.index(columns.PURPOSE), is_narrow)
        if is_narrow:
            del widths[columns.PURPOSE]
        mass = self._theme.px(MASS_WIDTH)
        has_mass = sum(widths.values()) + mass + self._theme.px(_EASY_NAME) <= room
        self._mass.setVisible(has_mass)
        widths[columns.MARGIN] += mass if has_mass else 0
        for key, width in widths.items():
            self.setColumnWidth(KEYS.index(key), width)
        self.setColumnWidth(KEYS.index(INGREDIENT), max(room - sum(widths.values()), least))
        self._place_mass()


def _stepped(places: list[int], here: int, step: int) -> int:
    """Return the place `step` stops away from here, held within the places."""
    if step > 0:
        beyond = [place for place in places if place > here]
        return beyond[min(step, len(beyond)) - 1] if beyond else here
    beyond = [place for place in reversed(places) if place < here]
    return beyond[min(-step, len(beyond)) - 1] if beyond else here


def _is_ctrl(event: QKeyEvent, key: Qt.Key) -> bool:
    return event.key() == key and event.modifiers() == Qt.KeyboardModifier.ControlModifier
