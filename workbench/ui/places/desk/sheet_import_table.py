"""The table of an old sheet: what each row becomes, its percent, and what is still open."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import (
    QModelIndex,
    QPersistentModelIndex,
    Qt,
    Signal,
)
from PySide6.QtWidgets import (
    QAbstractItemView,
    QStyle,
    QStyleOptionViewItem,
    QTableView,
    QWidget,
)

from workbench.formula.old_sheet_names import NameMatch
from workbench.ui.editors.name_editor import Choice, NameEditor
from workbench.ui.models.value_table import LOOK_ROLE, Column, ValueTableModel
from workbench.ui.places.desk.aligned_header import AlignedHeader
from workbench.ui.places.desk.paste_matching import Confidence, Fate
from workbench.ui.places.desk.rows import Kind
from workbench.ui.places.desk.sheet_import_model import Seen
from workbench.ui.places.desk.taking_delegate import ROW, TakingDelegate
from workbench.ui.theme import Theme
from workbench.words.catalogue import Words
from workbench.words.numbers import percent_text

if TYPE_CHECKING:
    from PySide6.QtGui import QKeyEvent, QPainter, QResizeEvent

Index = QModelIndex | QPersistentModelIndex
RowFinder = Callable[[int, str, int], tuple[Choice, ...]]
"""What fits a text typed for a row, at most so many."""
NUMBER, TEXT, AMOUNT, PERCENT, BECOMES, SURE = range(6)
_KEYS = ("number", "text", "amount", "percent", "becomes", "sure")
_WIDTHS = {NUMBER: 44, AMOUNT: 104, PERCENT: 96, SURE: 190}
_LEAST, _SHARE = 160, 0.45


@dataclass(frozen=True, slots=True)
class ImportRow:
    """Hold the texts of one row; `is_name_open` and `is_amount_open` mark what to decide."""

    row: int
    name: str
    amount: str
    percent: str
    becomes: str
    sure: str
    is_name_open: bool
    is_amount_open: bool
    is_line: bool

    @property
    def is_open(self) -> bool:
        """Tell whether anything about the row is to be decided."""
        return self.is_name_open or self.is_amount_open


def import_row(seen: Seen, words: Words) -> ImportRow:
    """Return what the table says of a row."""
    row, say = seen.row, words.say
    rest = say("sheet-takes-rest")
    percent = rest if row.percent is None else percent_text(row.percent, words.style)
    is_amount_open = seen.is_line and seen.is_amount_open
    is_name_open = seen.is_line and seen.is_name_open
    sure = say(f"sheet-import-sure-{_sure(seen)}")
    if seen.is_line and row.doubt is not None:
        sure = say(row.doubt.reason_id, text=row.amount)
    return ImportRow(
        row.row,
        row.name,
        row.amount,
        say("sheet-import-amount-open") if is_amount_open else percent,
        _becomes(seen, words),
        sure,
        is_name_open,
        is_amount_open,
        seen.is_line,
    )


def _becomes(seen: Seen, words: Words) -> str:
    best = seen.match.best
    if seen.is_name_open:
        if best is not None:
            return words.say("sheet-import-perhaps", name=best.name)
        return words.say("sheet-import-choose")
    if seen.becomes.fate is Fate.LINE:
        return seen.becomes.name
    return words.say(f"sheet-import-{seen.becomes.fate.value}")


def _sure(seen: Seen) -> str:
    match: NameMatch = seen.match
    if not seen.is_name_open and seen.becomes.confidence is Confidence.CHOSEN:
        return "chosen"
    return "rivals" if match.has_rivals else match.sureness.value


class SheetImportTable(QTableView):
    """Show the rows; what each becomes and its amount can be typed over."""

    stood_on = Signal()
    """The cursor stands on another row."""
    name_chosen = Signal(int, str, str)
    """Row of the sheet, key and name of what was chosen for it."""
    amount_chosen = Signal(int, str, str)
    """Row of the sheet, key and text of the amount that was chosen for it."""

    def __init__(
        self, words: Words, theme: Theme, find: RowFinder, amounts: RowFinder, parent: QWidget
    ) -> None:
        super().__init__(parent)
        self._words = words
        self._find = {BECOMES: find, PERCENT: amounts}
        self._model: ValueTableModel[ImportRow] = ValueTableModel(
            _columns(words), lambda row: row.row, self
        )
        self.setObjectName("sheet_import_table")
        self.setAccessibleName(words.say("sheet-import-table"))
        self._head = AlignedHeader(theme, self)
        self.setHorizontalHeader(self._head)
        self.setModel(self._model)
        self._set_up()
        self.set_theme(theme)
        self.selectionModel().currentRowChanged.connect(lambda *_rows: self.stood_on.emit())

    @property
    def rows(self) -> tuple[ImportRow, ...]:
        """The rows as they are shown."""
        return self._model.rows

    def current(self) -> ImportRow | None:
        """Return the row the cursor stands on."""
        index = self.currentIndex()
        return self._model.row_at(index) if index.isValid() else None

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._theme = theme
        self._head.set_theme(theme)
        self._delegate = _Delegate(self._words, theme, self._found, self)
        self._delegate.taken.connect(self._take)
        self.setItemDelegate(self._delegate)
        self.verticalHeader().setDefaultSectionSize(theme.px(ROW))
        self._arrange()
        self.viewport().update()

    def show_rows(self, rows: tuple[ImportRow, ...]) -> None:
        """Show these rows, the cursor at first on the first open one."""
        self._model.set_rows(rows)
        if not self.currentIndex().isValid() and rows:
            self.go_to_open(0)

    def go_to_open(self, place: int) -> None:
        """Put the cursor on what is to be decided next, from a place on and round."""
        rows = self._model.rows
        order = (*range(place, len(rows)), *range(place))
        at = next((one for one in order if rows[one].is_open), min(place, len(rows) - 1))
        if at < 0:
            return
        is_amount = rows[at].is_amount_open and not rows[at].is_name_open
        self.setCurrentIndex(self._model.index(at, PERCENT if is_amount else BECOMES))

    def _set_up(self) -> None:
        self.setShowGrid(False)
        self.setWordWrap(False)
        self.verticalHeader().hide()
        self.setTabKeyNavigation(False)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        trigger = QAbstractItemView.EditTrigger
        self.setEditTriggers(trigger.AnyKeyPressed | trigger.EditKeyPressed | trigger.DoubleClicked)

    def _found(self, place: int, column: int, text: str, limit: int) -> tuple[Choice, ...]:
        return self._find[column](self._model.rows[place].row, text, limit)

    def _take(self, place: int, column: int, choice: Choice) -> None:
        signal = self.name_chosen if column == BECOMES else self.amount_chosen
        signal.emit(self._model.rows[place].row, choice.key, choice.name)
        self.setFocus(Qt.FocusReason.OtherFocusReason)
        self.go_to_open(place)

    def _arrange(self) -> None:
        room = self.viewport().width()
        widths = {column: self._theme.px(width) for column, width in _WIDTHS.items()}
        widths[SURE] = max(min(widths[SURE], room // 4), room // 5)
        left = max(room - sum(widths.values()), self._theme.px(_LEAST))
        widths |= {TEXT: round(left * _SHARE), BECOMES: left - round(left * _SHARE)}
        for column, width in widths.items():
            self.setColumnWidth(column, width)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Open the choice of a row on Enter and on typing; of its amount in that column."""
        is_plain = event.modifiers() in (
            Qt.KeyboardModifier.NoModifier,
            Qt.KeyboardModifier.ShiftModifier,
            Qt.KeyboardModifier.KeypadModifier,
        )
        is_enter = event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter)
        is_typing = bool(event.text()) and event.text().isprintable()
        index = self.currentIndex()
        if is_plain and index.isValid() and (is_enter or is_typing):
            if index.column() not in self._find:
                index = index.siblingAtColumn(BECOMES)
                self.setCurrentIndex(index)
            if is_enter:
                self.edit(index)
                event.accept()
                return
        super().keyPressEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Share what is left between the names on the sheet and what they become."""
        super().resizeEvent(event)
        self._arrange()


def _columns(words: Words) -> tuple[Column[ImportRow], ...]:
    def column(place: int, text: Callable[[ImportRow], str], **more: object) -> Column[ImportRow]:
        header = words.say(f"sheet-import-column-{_KEYS[place]}")
        return Column(
            _KEYS[place],
            header,
            text,
            look=lambda row: (row.is_name_open, row.is_amount_open, row.is_line),
            accessible=lambda row: ", ".join(
                part for part in (row.name, header, text(row), row.sure) if part
            ),
            **more,  # type: ignore[arg-type]
        )

    editable: dict[str, object] = {"commit": lambda _row, _text: False}
    return (
        column(NUMBER, lambda row: str(row.row + 1), is_numeric=True),
        column(TEXT, lambda row: row.name, tip=lambda row: row.name),
        column(AMOUNT, lambda row: row.amount, is_numeric=True),
        column(PERCENT, lambda row: row.percent, is_numeric=True, **editable),
        column(BECOMES, lambda row: row.becomes, tip=lambda row: row.becomes, **editable),
        column(SURE, lambda row: row.sure, tip=lambda row: row.sure),
    )


class _Delegate(TakingDelegate):
    def __init__(
        self,
        words: Words,
        theme: Theme,
        find: Callable[[int, int, str, int], tuple[Choice, ...]],
        parent: QWidget,
    ) -> None:
        super().__init__(words, theme, parent)
        self._find = find

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        is_name_open, is_amount_open, is_line = index.data(LOOK_ROLE)
        paints, rect, column = self.paints, option.rect, index.column()
        is_lit = bool(option.state & QStyle.StateFlag.State_Selected)
        paints.ground(painter, rect, Kind.LINE, is_lit=is_lit)
        colour = paints.ink if is_line else paints.secondary
        text = str(index.data() or "")
        if (column == PERCENT and is_amount_open) or (column == BECOMES and is_name_open):
            room = self.paint_mark(painter, rect, "caution")
            paints.text(painter, room, text, paints.body, paints.ink)
        elif column in (AMOUNT, PERCENT, NUMBER):
            fitting = paints.body.elided(text, rect.width() - paints.pad)
            paints.figure(painter, rect, fitting, 0, (paints.body, colour))
        else:
            inner = rect.adjusted(paints.pad // 2, 0, -paints.pad, 0)
            face = {BECOMES: paints.strong if is_line else paints.body, SURE: paints.small}
            shade = paints.secondary if column == SURE else colour
            paints.text(painter, inner, text, face.get(column, paints.body), shade)
        if option.state & QStyle.StateFlag.State_HasFocus:
            paints.frame(painter, rect)

    def createEditor(self, parent: QWidget, _option: QStyleOptionViewItem, index: Index) -> QWidget:
        is_name = index.column() == BECOMES
        label = self.words.say("sheet-hits-name" if is_name else "sheet-import-amount-editor")
        find = partial(self._find, index.row(), index.column())
        return self.editor(find, label, parent, index)

    def setEditorData(self, editor: QWidget, index: Index) -> None:
        if isinstance(editor, NameEditor) and not editor.is_begun:
            is_name = index.column() == BECOMES
            shown = index.model().index(index.row(), TEXT if is_name else AMOUNT)
            editor.begin(str(shown.data()))
            editor.textEdited.emit(editor.text())
