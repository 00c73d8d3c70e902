"""The sheet: every line of the draft, typed into as into a spreadsheet."""

from __future__ import annotations

from PySide6.QtCore import QItemSelectionModel, QModelIndex, QPoint, Qt, Signal
from PySide6.QtGui import QAction, QContextMenuEvent, QFocusEvent, QKeyEvent
from PySide6.QtWidgets import QAbstractItemView, QWidget

from workbench.checks.assessed_lines import column_step
from workbench.ui.editors.cell_editor import Way
from workbench.ui.editors.name_editor import NameEditor
from workbench.ui.models.value_table import ValueTableModel
from workbench.ui.places.desk import columns
from workbench.ui.places.desk.add_row import AddRow
from workbench.ui.places.desk.columns import GRAMS, INGREDIENT, KEYS, NOTE, PERCENT, PURPOSE
from workbench.ui.places.desk.delegate import SheetDelegate
from workbench.ui.places.desk.finders import finders
from workbench.ui.places.desk.mass_column import mass_text, segments_of
from workbench.ui.places.desk.phase_panel import PhasePanel
from workbench.ui.places.desk.rows import NEW_ID, Kind, RowId, SheetRow, SheetRows, line_id
from workbench.ui.places.desk.ruled_view import RuledView
from workbench.ui.places.desk.sheet_actions import SheetActions
from workbench.ui.places.desk.sheet_commands import SheetCommands, near_cell
from workbench.ui.places.desk.sheet_cursor import SheetCursor
from workbench.ui.places.desk.sheet_paste import paste_into
from workbench.ui.places.desk.spoken_total import SpokenTotal
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.theme import Theme

_CURSOR = QAbstractItemView.CursorAction
_NONE = Qt.KeyboardModifier.NoModifier
_MAY_BE_EMPTY = (NOTE, PURPOSE)


class SheetView(RuledView):
    """Show the draft as ruled paper and take what is typed into it."""

    line_focused = Signal(int)
    """The id of the line the cursor stands in, or 0."""

    def __init__(self, work: DeskWork, theme: Theme, parent: QWidget | None = None) -> None:
        model: ValueTableModel[SheetRow] = ValueTableModel(
            columns.sheet_columns(work.words, self._commit), lambda row: row.id
        )
        super().__init__(model, theme, parent)
        self._work = work
        self._maker = SheetRows(work.words)
        self._add_row = AddRow(work.words)
        self._is_opening = True
        self._is_showing = False
        self._commands = SheetCommands(self, work)
        self._cursor = SheetCursor(self, model)
        self._delegate = SheetDelegate(theme, work.words, self)
        self._delegate.finders = finders(work)
        self._delegate.leaving.connect(self._leave)
        self._spoken = SpokenTotal(work.words, self)
        self._actions = SheetActions(self, work.words, self._commands.acts())
        self._panel: PhasePanel | None = None
        self._wire()
        self.set_theme(theme)
        self._show()

    def _wire(self) -> None:
        self.setObjectName("sheet")
        self.setAccessibleName(self._work.words.say("sheet-name"))
        self.mass.setAccessibleName(self._work.words.say("sheet-mass"))
        self.setItemDelegate(self._delegate)
        trigger = QAbstractItemView.EditTrigger
        self.setEditTriggers(trigger.AnyKeyPressed | trigger.EditKeyPressed | trigger.DoubleClicked)
        self.selectionModel().currentChanged.connect(self._on_current)
        self._actions.add_columns(lambda key, shown: self.show_column(key, shown=shown))
        self._head.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
        self._head.customContextMenuRequested.connect(self._show_columns_menu)
        self.dropped.connect(self._commands.drop)
        self.steps_asked.connect(self.open_phase)
        self._work.assessed.connect(lambda _assessment: self._show())
        self._work.opened.connect(self._on_opened)

    def sheet_actions(self) -> list[QAction]:
        """Return every action of the sheet by group, groups parted by separators."""
        return self._actions.all()

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._delegate.close()
        self._delegate.set_theme(theme)
        super().set_theme(theme)
        if self._panel is not None:
            self._panel.set_theme(theme)

    def focus_line(self, line: int) -> None:
        """Put the cursor on the percent of a line."""
        self._go(self._model.index_of(line_id(line), PERCENT))
        self.setFocus(Qt.FocusReason.OtherFocusReason)

    def _show(self) -> None:
        work = self._work
        exponent = column_step(work.shelf, work.rules).normalize().as_tuple().exponent
        places = max(-exponent, 0) if isinstance(exponent, int) else 2
        rows = self._maker.of(work.formula, work.assessment, work.shelf, places)
        self._close_if_gone({row.id for row in rows})
        self._is_showing = True
        try:
            self._model.set_rows(self._add_row.said(rows))
        finally:
            self._is_showing = False
        self._name_target()  # rows that went may have put the cursor into another phase
        self.mass.set_segments(segments_of(work.formula, work.assessment.totals))
        self.mass.setAccessibleDescription(mass_text(rows, work.words))
        self.place_beside()
        (self._spoken.begin if self._is_opening else self._spoken.hear)(rows[-2])
        if self._is_opening:
            self._begin_at_first_line()
        self._is_opening = False
        self._actions.show_state(self.current_row)

    def _begin_at_first_line(self) -> None:
        first = next((row.id for row in self.rows if row.kind is Kind.LINE), NEW_ID)
        index = self._model.index_of(first, INGREDIENT if first == NEW_ID else PERCENT)
        # Keys may still be down that would choose rows as well.
        self.selectionModel().setCurrentIndex(index, QItemSelectionModel.SelectionFlag.Clear)

    def _close_if_gone(self, ids: set[RowId]) -> None:
        """Close the open cell before its row goes; Qt would take it for open for ever."""
        held = self._delegate.index
        if self._delegate.editor is not None and (
            not held.isValid() or self._model.row_at(held).id not in ids
        ):
            self._delegate.close()

    def _name_target(self) -> None:
        if not self._is_showing:
            self._model.set_rows(self._add_row.said(self._model.rows))

    def _on_opened(self, _key: str) -> None:
        self._delegate.close()
        self.cancel_drag()
        self._is_opening = True
        self._add_row.reset()
        if self._panel is not None:
            self._panel.close()

    def _on_current(self, current: QModelIndex, before: QModelIndex) -> None:
        row = self._model.row_at(current) if current.isValid() else None
        was = self._model.row_at(before).line if before.isValid() else 0
        now = row.line if row is not None else 0
        self._actions.show_state(row)
        if row is not None and self._add_row.stand(row):
            self._name_target()
        self.mass.mark_line(now)
        if now != was or not before.isValid():
            self.line_focused.emit(now)

    def arranged(self, shown: frozenset[str]) -> None:
        """Let the name stand without what has a column of its own."""
        self._delegate.shown = shown
        for key, action in self._actions.columns.items():
            action.setChecked(key in self.shown_columns)
            has_room = key in shown or key not in self.shown_columns
            message = "sheet-action-column" if has_room else "sheet-action-column-no-room"
            name = self._work.words.say(f"sheet-column-{key}")
            action.setText(self._work.words.say(message, column=name))

    # Editing.

    def _commit(self, row: SheetRow, key: str, text: str) -> bool:
        edits = self._commands.lines
        if row.kind is Kind.LINE and self._add_row.typed(row.phase):
            self._name_target()
        if row.kind is Kind.HEAD:
            return self._commands.phases.rename(row.phase, text)
        if row.kind is not Kind.LINE:
            return False
        if key == NOTE:
            return edits.set_note(row.line, text)
        if key in (PERCENT, GRAMS):
            return edits.type_amount(row.line, text, bare_is_grams=key == GRAMS)
        return False

    def _leave(self, way: Way) -> None:
        editor, held = self._delegate.editor, self._delegate.index
        if editor is None or not held.isValid():
            return
        index = self._model.index(held.row(), held.column())
        row, key = self._model.row_at(index), KEYS[held.column()]
        if self._delegate.is_note:
            index, key = self._model.index_of(row.id, NOTE), NOTE
        may_be_empty = key in _MAY_BE_EMPTY or row.kind is Kind.HEAD
        if editor.is_untouched or not (editor.text().strip() or may_be_empty):
            self._close_and(way)
        elif isinstance(editor, NameEditor):
            take = self._take_purpose if key == PURPOSE else self._take_name
            take(editor, row, way)
        elif self._model.setData(index, editor.text()):
            self._close_and(way)

    def _close_and(self, way: Way) -> None:
        self._delegate.close()
        self._go_on(way)

    def _take_purpose(self, editor: NameEditor, row: SheetRow, way: Way) -> None:
        choice = editor.chosen()
        if way is Way.STAY:
            self._delegate.close()
        elif not editor.text().strip():
            if self._commands.lines.set_purpose(row.line, ""):
                self._close_and(way)
        elif choice is None:
            said = self._work.words.say("sheet-purpose-none", text=editor.text().strip())
            self._work.notices.inform(said)
        elif self._commands.lines.set_purpose(row.line, choice.key):
            self._close_and(way)

    def _take_name(self, editor: NameEditor, row: SheetRow, way: Way) -> None:
        choice = editor.chosen()
        edits = self._commands.lines
        if way is Way.STAY:
            self._delegate.close()  # a name that was only begun is no choice yet
        elif choice is None:
            text = self._work.words.say("sheet-hits-none", text=editor.text().strip())
            self._work.notices.inform(text)
        elif row.kind is Kind.LINE:
            if edits.swap(row.line, choice.key, choice.name):
                self._close_and(way)
        else:
            line = edits.add(choice.key, choice.name, self._add_row.phase, self._add_row.after)
            if line:
                self._delegate.close()
                self.focus_line(line)
                self._add_row.typed(self._work.formula.phase_of(line).id)

    def _go_on(self, way: Way) -> None:
        if way is Way.STAY:
            return
        self.setFocus(Qt.FocusReason.OtherFocusReason)
        if way in (Way.DOWN, Way.UP):
            there = self._cursor.after_typing(1 if way is Way.DOWN else -1)
        else:
            side = _CURSOR.MoveNext if way is Way.RIGHT else _CURSOR.MovePrevious
            there = self._cursor.moved(side, _NONE)
        self._walk(there)

    def begin_below(self, line: int) -> None:
        """Go to the empty row; the name that is typed there becomes a line below this one."""
        row = self.current_row
        self._add_row.typed(row.phase if row is not None else 0)
        self._go(self._model.index_of(NEW_ID, INGREDIENT))
        self._add_row.after = line
        self._name_target()

    def edit_here(self) -> None:
        """Open the cell of the cursor; a head opens at its name."""
        row = self.current_row
        if row is not None:
            key = INGREDIENT if row.kind is not Kind.LINE else KEYS[self.currentIndex().column()]
            self.edit_at(row.id, key)

    def edit_note(self, line: int) -> None:
        """Open the note of a line: in its column, else beside the name, the columns left alone."""
        if not self.isColumnHidden(KEYS.index(NOTE)):
            self.edit_at(line_id(line), NOTE)
            return
        self.scrollTo(self._model.index_of(line_id(line), INGREDIENT))
        with self._delegate.as_note():
            self.edit(self._model.index_of(line_id(line), INGREDIENT))

    def edit_at(self, row_id: RowId, key: str) -> None:
        """Open a cell, where it can be typed into."""
        index = self._model.index_of(row_id, key)
        self._go(index)
        self.setFocus(Qt.FocusReason.OtherFocusReason)
        if index.isValid() and index.flags() & Qt.ItemFlag.ItemIsEditable:
            self.edit(index)

    def open_phase(self, phase: int) -> None:
        """Open the panel with kind, name and steps of a phase below its head."""
        if self._panel is None:
            self._panel = PhasePanel(self._work, self._commands.phases, self._theme, self)
            self._panel.left.connect(lambda: self.setFocus(Qt.FocusReason.OtherFocusReason))
        index = self._model.index_of(("phase", phase), INGREDIENT)
        self.scrollTo(index)
        rect = self.visualRect(index)
        corner = self.viewport().mapTo(self.window(), rect.bottomLeft())
        self._panel.open_at(phase, corner, self._theme)

    def paste(self) -> None:
        """Take what is on the clipboard: one cell into the cell, lines through a preview."""
        paste_into(self, self._work, self._theme, self._add_row.phase)

    def set_here(self, text: str) -> None:
        """Take a text for the cell of the cursor."""
        self._model.setData(self.currentIndex(), text)

    def seek_here(self, text: str) -> None:
        """Open the cell of the cursor with a text as if it had been typed."""
        self.edit_here()
        if self._delegate.editor is not None:
            self._delegate.editor.seek(text)

    # Cursor and keys.

    def _go(self, index: QModelIndex) -> None:
        if index.isValid():
            self.setCurrentIndex(index)
            self.scrollTo(index)

    def _walk(self, index: QModelIndex) -> None:
        with self._add_row.walking():
            self._go(index)

    def go_near(self, place: int, column: int) -> None:
        """Put the cursor on the line nearest to a place where lines were taken out."""
        self._go(self._model.index_of(*near_cell(self.rows, place, column)))

    def moveCursor(
        self, action: QAbstractItemView.CursorAction, modifiers: Qt.KeyboardModifier
    ) -> QModelIndex:
        """Walk heads and lines; the total is passed over."""
        return self._cursor.moved(action, modifiers)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Act on the keys of the sheet; what is typed opens the cell."""
        if self._delegate.editor is not None:
            event.ignore()  # what an open cell does not take is not for the lines either
            return
        is_let_go = event.key() == Qt.Key.Key_Escape and self.cancel_drag()
        if is_let_go or self._commands.on_history_key(event) or self._actions.on_key(event):
            event.accept()
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._walk(self._cursor.after_typing(-1 if _has_shift(event) else 1))
            event.accept()
        else:
            self._on_typing(event)
            with self._add_row.walking():
                super().keyPressEvent(event)

    def _on_typing(self, event: QKeyEvent) -> None:
        here, row = self.currentIndex(), self.current_row
        if row is None or not event.text().isprintable() or not event.text():
            return
        if row.kind in (Kind.NEW, Kind.HEAD):
            self._go(self._cursor.at(here.row(), INGREDIENT))

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        """Show what can be done with the line or phase, with its keys."""
        at = event.pos()
        if event.reason() == QContextMenuEvent.Reason.Keyboard:
            at = self.visualRect(self.currentIndex()).bottomLeft()
        elif self.indexAt(at).isValid() and not self.selectionModel().isSelected(self.indexAt(at)):
            self._go(self.indexAt(at))
        self._actions.show_state(self.current_row)
        self._pop_up(self.viewport().mapToGlobal(at))

    def _pop_up(self, at: QPoint) -> None:
        menu = self._actions.menu()
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        menu.popup(at)

    def _show_columns_menu(self, at: QPoint) -> None:
        menu = self._actions.columns_menu()
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        menu.popup(self._head.viewport().mapToGlobal(at))

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
        if self._panel is not None and self._panel.isVisible():
            return super().focusNextPrevChild(forward)
        here = self.currentIndex()
        there = self.moveCursor(_CURSOR.MoveNext if forward else _CURSOR.MovePrevious, _NONE)
        if not here.isValid() or there == here:
            return super().focusNextPrevChild(forward)
        self._walk(there)
        return True


def _has_shift(event: QKeyEvent) -> bool:
    return bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
