"""The table of the paste preview: what each pasted row becomes, and how sure that is."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from PySide6.QtCore import (
    QModelIndex,
    QPersistentModelIndex,
    Qt,
    Signal,
)
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHeaderView,
    QStyle,
    QStyleOptionViewItem,
    QTableView,
    QWidget,
)

from workbench.formula.pasted import PastedRow
from workbench.ui.editors.name_editor import Choice, Finder, NameEditor
from workbench.ui.models.value_table import LOOK_ROLE, Column, ValueTableModel
from workbench.ui.places.desk.paste_matching import Confidence, Fate
from workbench.ui.places.desk.paste_state import Seen
from workbench.ui.places.desk.rows import Kind
from workbench.ui.places.desk.taking_delegate import ROW, TakingDelegate
from workbench.ui.theme import Theme
from workbench.words.catalogue import Words
from workbench.words.numbers import percent_text

if TYPE_CHECKING:
    from PySide6.QtGui import QKeyEvent, QPainter, QResizeEvent

Index = QModelIndex | QPersistentModelIndex
NUMBER, TEXT, AMOUNT, PERCENT, BECOMES, SURE = range(6)
_KEYS = ("number", "text", "amount", "percent", "becomes", "sure")
_WIDTHS = {NUMBER: 44, AMOUNT: 90, PERCENT: 84, SURE: 190}
_LEAST, _SHARE = 160, 0.45


@dataclass(frozen=True, slots=True)
class PreviewRow:
    """Hold the texts of one row of the preview; `severity` marks what to look at."""

    number: int
    text: str
    amount: str = ""
    percent: str = ""
    becomes: str = ""
    sure: str = ""
    severity: str = ""
    is_line: bool = False
    pad: int = 0


def preview_row(seen: Seen, words: Words) -> PreviewRow:
    """Return what the preview says of a pasted row."""
    row, match = seen.row, seen.match
    if not isinstance(row, PastedRow) or match is None:
        reason = "" if isinstance(row, PastedRow) else row.reason_id
        heading = reason == "pasted-header"
        return PreviewRow(
            row.row,
            row.text,
            becomes=words.say("paste-not-read"),
            sure=words.say(f"paste-{reason}"),
            severity="" if heading else "caution",
        )
    percent = (
        words.say("sheet-takes-rest")
        if row.percent is None
        else percent_text(row.percent, words.style)
    )
    becomes = match.name if match.fate is Fate.LINE else words.say(f"paste-fate-{match.fate.value}")
    severity = ""
    if row.fault or match.fate is Fate.UNLISTED:
        severity = "stop"
    elif match.confidence is Confidence.DOUBTFUL:
        severity = "caution"
    sure = words.say(f"paste-{row.fault}" if row.fault else f"paste-sure-{match.confidence.value}")
    return PreviewRow(
        row.row, row.name, row.text, percent, becomes, sure, severity, is_line=seen.is_line
    )


class PasteTable(QTableView):
    """Show the pasted rows; the ingredient of each can be typed over."""

    chosen = Signal(int, str, str)
    """Row, key and name of what was chosen for it."""

    def __init__(self, words: Words, theme: Theme, find: Finder, parent: QWidget) -> None:
        super().__init__(parent)
        self._theme = theme
        self._model: ValueTableModel[PreviewRow] = ValueTableModel(
            _columns(words), lambda row: row.number, self
        )
        self.setObjectName("paste_table")
        self.setAccessibleName(words.say("paste-table"))
        self.setModel(self._model)
        self._delegate = _Delegate(words, theme, find, self)
        self._delegate.taken.connect(self._take)
        self.setItemDelegate(self._delegate)
        self._set_up()

    @property
    def rows(self) -> tuple[PreviewRow, ...]:
        """The rows as they are shown."""
        return self._model.rows

    def show_rows(self, rows: tuple[PreviewRow, ...]) -> None:
        """Show these rows, their percents with the decimals under each other."""
        decimals = max((_decimals(row.percent) for row in rows), default=0)
        rows = tuple(
            replace(row, pad=decimals - _decimals(row.percent))
            if row.percent[:1].isdigit()
            else row
            for row in rows
        )
        self._model.set_rows(rows)
        if not self.currentIndex().isValid() and rows:
            doubtful = [place for place, row in enumerate(rows) if row.severity]
            self.setCurrentIndex(self._model.index(doubtful[0] if doubtful else 0, BECOMES))

    def _set_up(self) -> None:
        self.setShowGrid(False)
        self.setWordWrap(False)
        self.verticalHeader().hide()
        self.verticalHeader().setDefaultSectionSize(self._theme.px(ROW))
        self.horizontalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.horizontalHeader().setHighlightSections(False)
        self.setTabKeyNavigation(False)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        trigger = QAbstractItemView.EditTrigger
        self.setEditTriggers(trigger.AnyKeyPressed | trigger.EditKeyPressed | trigger.DoubleClicked)

    def _take(self, place: int, _column: int, choice: Choice) -> None:
        row = self._model.rows[place]
        self.chosen.emit(row.number, choice.key, choice.name)
        self.setFocus(Qt.FocusReason.OtherFocusReason)
        below = self._model.index(min(place + 1, len(self._model.rows) - 1), BECOMES)
        self.setCurrentIndex(below)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Open the choice of a row on Enter and on typing, wherever in the row the cursor is."""
        is_plain = event.modifiers() in (
            Qt.KeyboardModifier.NoModifier,
            Qt.KeyboardModifier.ShiftModifier,
        )
        is_enter = event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter)
        if is_plain and (is_enter or (event.text() and event.text().isprintable())):
            index = self.currentIndex().siblingAtColumn(BECOMES)
            self.setCurrentIndex(index)
            if is_enter:
                self.edit(index)
                event.accept()
                return
        super().keyPressEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Share what is left between the pasted names and what they become."""
        super().resizeEvent(event)
        room = self.viewport().width()
        widths = {column: self._theme.px(width) for column, width in _WIDTHS.items()}
        widths[SURE] = min(widths[SURE], room // 4)
        left = max(room - sum(widths.values()), self._theme.px(_LEAST))
        widths |= {TEXT: round(left * _SHARE), BECOMES: left - round(left * _SHARE)}
        for column, width in widths.items():
            self.setColumnWidth(column, width)


def _decimals(text: str) -> int:
    mark = max(text.rfind("."), text.rfind(","))
    return len(text) - mark - 1 if mark >= 0 else 0


def _columns(words: Words) -> tuple[Column[PreviewRow], ...]:
    def column(place: int, text: Callable[[PreviewRow], str], **more: object) -> Column[PreviewRow]:
        key = _KEYS[place]
        header = words.say(f"paste-column-{key}")
        return Column(
            key,
            header,
            text,
            look=lambda row: (row.severity, row.is_line, row.pad if place == PERCENT else 0),
            accessible=lambda row: ", ".join(
                part for part in (row.text, header, text(row), row.sure) if part
            ),
            **more,  # type: ignore[arg-type]
        )

    return (
        column(NUMBER, lambda row: str(row.number), is_numeric=True),
        column(TEXT, lambda row: row.text),
        column(AMOUNT, lambda row: row.amount, is_numeric=True),
        column(PERCENT, lambda row: row.percent, is_numeric=True),
        column(
            BECOMES,
            lambda row: row.becomes,
            commit=lambda _row, _text: False,
            editable=lambda row: bool(row.percent),
        ),
        column(SURE, lambda row: row.sure),
    )


class _Delegate(TakingDelegate):
    def __init__(self, words: Words, theme: Theme, find: Finder, parent: QWidget) -> None:
        super().__init__(words, theme, parent)
        self._find = find

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        severity, is_line, pad = index.data(LOOK_ROLE)
        paints, rect, column = self.paints, option.rect, index.column()
        is_lit = bool(option.state & QStyle.StateFlag.State_Selected)
        paints.ground(painter, rect, Kind.LINE, is_lit=is_lit)
        colour = paints.ink if is_line else paints.secondary
        text = str(index.data() or "")
        if column in (AMOUNT, PERCENT, NUMBER):
            fitting = paints.body.elided(text, rect.width() - paints.pad)
            room = rect.adjusted(0, 0, paints.pad // 2, 0)  # under the end of its heading
            paints.figure(painter, room, fitting, pad, (paints.body, colour))
        elif column == SURE:
            room = self.paint_mark(painter, rect, severity)
            paints.text(painter, room, text, paints.small, paints.secondary)
        else:
            inner = rect.adjusted(paints.pad // 2, 0, -paints.pad, 0)
            face = paints.strong if column == BECOMES and is_line else paints.body
            paints.text(painter, inner, text, face, colour)
        if option.state & QStyle.StateFlag.State_HasFocus:
            paints.frame(painter, rect)

    def createEditor(self, parent: QWidget, _option: QStyleOptionViewItem, index: Index) -> QWidget:
        return self.editor(self._find, self.words.say("sheet-hits-name"), parent, index)

    def setEditorData(self, editor: QWidget, index: Index) -> None:
        if isinstance(editor, NameEditor) and not editor.is_begun:
            editor.begin(str(index.data(Qt.ItemDataRole.EditRole)))
            editor.textEdited.emit(str(index.model().index(index.row(), TEXT).data()))
