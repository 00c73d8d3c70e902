"""The list of versions as ruled paper: arrows choose, Space marks, Enter shows."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QSize, Qt, Signal
from PySide6.QtWidgets import (
    QAbstractItemView,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableView,
    QWidget,
)

from workbench.ui.models.value_table import ValueTableModel
from workbench.ui.places.desk.aligned_header import AlignedHeader
from workbench.ui.places.desk.cell_paint import CellPainter
from workbench.ui.places.desk.rows import Kind
from workbench.ui.places.desk.version_rows import (
    BATCHES,
    DATE,
    MARK,
    NUMBER,
    REASON,
    VersionRow,
    version_columns,
)
from workbench.ui.theme import Theme
from workbench.words.catalogue import Words

if TYPE_CHECKING:
    from PySide6.QtGui import QKeyEvent, QPainter, QResizeEvent

Index = QModelIndex | QPersistentModelIndex
_ROW = 30
_WIDTHS = {NUMBER: 92, DATE: 132, BATCHES: 76, MARK: 116}
_LEAST_REASON = 120


class VersionTable(QTableView):
    """Show the versions of one formula."""

    chosen = Signal()
    """The cursor stands on another row."""
    marked = Signal(int)
    """The number of the row to compare with."""
    wanted = Signal()
    """Enter was pressed."""

    def __init__(self, words: Words, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self._model: ValueTableModel[VersionRow] = ValueTableModel(
            version_columns(words), lambda row: row.number, self
        )
        self._head = AlignedHeader(theme, self)
        self.setHorizontalHeader(self._head)
        self.setObjectName("versions_table")
        self.setAccessibleName(words.say("versions-table"))
        self.setModel(self._model)
        self.setShowGrid(False)
        self.setWordWrap(False)
        self.verticalHeader().hide()
        self.setTabKeyNavigation(False)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.set_theme(theme)
        self.selectionModel().currentRowChanged.connect(lambda *_rows: self.chosen.emit())

    @property
    def rows(self) -> tuple[VersionRow, ...]:
        """The rows as they are shown."""
        return self._model.rows

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._theme = theme
        self._head.set_theme(theme)
        self.setItemDelegate(_Delegate(theme, self))
        self.verticalHeader().setDefaultSectionSize(theme.px(_ROW))
        self._arrange()
        self.viewport().update()

    def show_rows(self, rows: tuple[VersionRow, ...]) -> None:
        """Show these rows; the cursor stays on its row."""
        self._model.set_rows(rows)
        if not self.currentIndex().isValid() and rows:
            self.go_to(rows[0].number)
        self.updateGeometry()

    def go_to(self, number: int) -> None:
        """Put the cursor on a row."""
        index = self._model.index_of(number, "version")
        if index.isValid():
            self.setCurrentIndex(index)

    def current(self) -> VersionRow | None:
        """Return the row the cursor stands on."""
        index = self.currentIndex()
        return self._model.row_at(index) if index.isValid() else None

    def full_height(self) -> int:
        """Return the height in which every row is seen."""
        return self._head.height() + self._theme.px(_ROW) * len(self.rows) + self._theme.px(2)

    def _arrange(self) -> None:
        room = self.viewport().width()
        widths = {place: self._theme.px(width) for place, width in _WIDTHS.items()}
        left = room - sum(widths.values())
        if left < self._theme.px(_LEAST_REASON):
            # The date goes before the reason does: it is what people remember least.
            left += widths[DATE]
            widths[DATE] = 0
        widths[REASON] = max(left, self._theme.px(_LEAST_REASON) // 2)
        for place, width in widths.items():
            self.setColumnHidden(place, width == 0)
            self.setColumnWidth(place, width)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Give the reason what the other columns leave."""
        super().resizeEvent(event)
        self._arrange()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Space marks the row to compare with, Enter goes to the comparison."""
        row = self.current()
        if event.key() == Qt.Key.Key_Space and row is not None:
            self.marked.emit(row.number)
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.wanted.emit()
        else:
            super().keyPressEvent(event)


class _Delegate(QStyledItemDelegate):
    def __init__(self, theme: Theme, parent: QWidget) -> None:
        super().__init__(parent)
        self._theme = theme
        self._paints = CellPainter(theme)

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        paints, rect, column = self._paints, option.rect, index.column()
        is_lit = bool(option.state & QStyle.StateFlag.State_Selected)
        paints.ground(painter, rect, Kind.LINE, is_lit=is_lit)
        text = str(index.data() or "")
        if column == BATCHES:
            paints.figure(painter, rect, text, 0, (paints.body, paints.ink))
        elif column == MARK:
            self._mark(painter, rect.adjusted(paints.pad // 2, 0, -paints.pad, 0), text)
        else:
            face = paints.strong if column == NUMBER else paints.body
            colour = paints.secondary if column == DATE else paints.ink
            inner = rect.adjusted(paints.pad // 2, 0, -paints.pad, 0)
            paints.text(painter, inner, text, face, colour)
        if is_lit and column == NUMBER and option.widget is not None and option.widget.hasFocus():
            painter.fillRect(
                rect.left(), rect.top(), self._theme.px(3), rect.height(), paints.accent
            )

    def _mark(self, painter: QPainter, rect: object, text: str) -> None:
        if text:
            self._paints.text(painter, rect, text, self._paints.small, self._paints.accent)  # type: ignore[arg-type]

    def sizeHint(self, _option: QStyleOptionViewItem, _index: Index) -> QSize:
        return QSize(0, self._theme.px(_ROW))
