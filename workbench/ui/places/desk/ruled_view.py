"""The ruled paper under the sheet: its columns, the mass column, the total, and dragging."""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtCore import (
    QEvent,
    QItemSelection,
    QItemSelectionModel,
    QModelIndex,
    QPersistentModelIndex,
    QPoint,
    Qt,
    Signal,
)
from PySide6.QtGui import QCursor, QHelpEvent, QMouseEvent, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableView, QToolTip, QWidget

from workbench.ui.models.value_table import ValueTableModel
from workbench.ui.places.desk import columns, sheet_layout
from workbench.ui.places.desk.columns import INGREDIENT, KEYS, PERCENT
from workbench.ui.places.desk.delegate import ROW
from workbench.ui.places.desk.line_drag import LineDrag
from workbench.ui.places.desk.mass_column import WIDTH as MASS_WIDTH
from workbench.ui.places.desk.mass_column import MassColumn
from workbench.ui.places.desk.rows import Kind, RowId, SheetRow
from workbench.ui.places.desk.sheet_header import SheetHeader
from workbench.ui.places.desk.total_bar import TotalBar
from workbench.ui.theme import Theme

_EDGE = 24
_FLAG = QItemSelectionModel.SelectionFlag
_Hint = QAbstractItemView.ScrollHint


class RuledView(QTableView):
    """Lay out rows of the sheet; lines are dragged by the margin."""

    columns_changed = Signal(object)
    """The keys of the shown columns in their order, when the maker changes them."""
    dropped = Signal(object, int, int)
    """Lines let go, the phase, and how many lines of it stay before them."""
    steps_asked = Signal(int)
    """The phase whose steps are wanted."""
    rework_asked = Signal(str)
    """Which change of several lines is wanted: swap, stock or rebalance."""

    def __init__(
        self, model: ValueTableModel[SheetRow], theme: Theme, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._theme = theme
        self._model = model
        model.setParent(self)
        self._columns: tuple[str, ...] = columns.USUAL
        self._drag: LineDrag | None = None
        self._head = SheetHeader(theme, self)
        self.setHorizontalHeader(self._head)
        self.setModel(model)
        self.mass = MassColumn(theme, self)
        self.total_bar = TotalBar(self, model, theme)
        self._head.sectionMoved.connect(self._on_section_moved)
        self._set_up()

    def _set_up(self) -> None:
        self.setShowGrid(False)
        self.setWordWrap(False)
        self.verticalHeader().hide()
        self.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.verticalHeader().setMinimumSectionSize(1)
        self.setTabKeyNavigation(False)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.viewport().setMouseTracking(True)

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._theme = theme
        self._head.set_theme(theme)
        self.mass.set_theme(theme)
        self.total_bar.set_theme(theme)
        self.verticalHeader().setDefaultSectionSize(theme.px(ROW))
        self._arrange()
        self.viewport().update()

    # Rows.

    @property
    def rows(self) -> tuple[SheetRow, ...]:
        """The rows as they are shown."""
        return self._model.rows

    @property
    def current_row(self) -> SheetRow | None:
        """The row the cursor stands in."""
        index = self.currentIndex()
        return self._model.row_at(index) if index.isValid() else None

    @property
    def focused_line(self) -> int:
        """The line the cursor stands in, or 0."""
        row = self.current_row
        return row.line if row is not None else 0

    def holds(self, row_id: RowId) -> bool:
        """Tell whether a row is shown."""
        return self._model.index_of(row_id, INGREDIENT).isValid()

    def selected_rows(self) -> tuple[SheetRow, ...]:
        """Return the chosen lines in the order of the sheet; else the one of the cursor."""
        chosen = sorted(index.row() for index in self.selectionModel().selectedRows())
        rows = self._model.rows
        lines = tuple(rows[place] for place in chosen if rows[place].kind is Kind.LINE)
        here = self.current_row
        return lines or ((here,) if here is not None and here.line else ())

    def ask_rework(self, name: str) -> None:
        """Ask for a change of several lines, from the line of the cursor."""
        self.rework_asked.emit(name)

    def selected_lines(self) -> frozenset[int]:
        """Return the ids of the chosen lines."""
        return frozenset(row.line for row in self.selected_rows())

    def choose(self, lines: frozenset[int], row_id: RowId) -> None:
        """Choose lines, with the cursor in a row at the column where it stands."""
        column = max(self.currentIndex().column(), KEYS.index(INGREDIENT))
        current = self._model.index_of(row_id, KEYS[column])
        selection = QItemSelection()
        for place, row in enumerate(self._model.rows):
            if (row.line and row.line in lines) or row.id == row_id:
                index = self._model.index(place, 0)
                selection.select(index, index)
        model = self.selectionModel()
        model.setCurrentIndex(current, _FLAG.NoUpdate)
        model.select(selection, _FLAG.ClearAndSelect | _FLAG.Rows)
        self.scrollTo(current)

    # Columns.

    @property
    def shown_columns(self) -> tuple[str, ...]:
        """The columns the maker wants, in their order; some may have no room."""
        return self._columns

    def set_columns(self, stored: Iterable[str]) -> None:
        """Show these columns in this order."""
        self._columns = sheet_layout.chosen_columns(stored)
        self._order()
        self._arrange()

    def show_column(self, key: str, *, shown: bool) -> None:
        """Show or hide one column."""
        self._change_columns(sheet_layout.with_column(self._columns, key, shown=shown))

    def move_column(self, step: int) -> None:
        """Move the column of the cursor left (-1) or right (+1)."""
        index = self.currentIndex()
        if index.isValid():
            key = KEYS[index.column()]
            self._change_columns(sheet_layout.with_moved(self._columns, key, step))

    def _change_columns(self, wanted: tuple[str, ...]) -> None:
        if wanted != self._columns:
            self.set_columns(wanted)
            self.columns_changed.emit(self._columns)

    def _order(self) -> None:
        self._head.blockSignals(True)  # noqa: FBT003 (Qt's own)
        for place, key in enumerate(sheet_layout.order_of(self._columns)):
            self._head.moveSection(self._head.visualIndex(KEYS.index(key)), place)
        self._head.blockSignals(False)  # noqa: FBT003 (Qt's own)
        self._head.viewport().update()

    def _on_section_moved(self, *_places: int) -> None:
        order = [KEYS[self._head.logicalIndex(place)] for place in range(len(KEYS))]
        self._change_columns(
            sheet_layout.chosen_columns(key for key in order if key in self._columns)
        )
        self._order()  # margin and mark go back to the left

    def _arrange(self) -> None:
        """Share the width out, and stand the mass column beside the lines where it fits."""
        theme = self._theme
        room = self.viewport().width()
        mass = theme.px(MASS_WIDTH)
        easy = theme.px(sheet_layout.EASY_NAME)
        empty = self._empty_columns()
        widths = sheet_layout.widths_for(self._columns, room - mass, theme.px, empty)
        wanted = [key for key in self._columns if key != columns.PURPOSE and key not in empty]
        fits = sum(widths.values()) <= room - mass
        has_mass = fits and widths[INGREDIENT] >= easy and all(key in widths for key in wanted)
        if not has_mass:
            widths = sheet_layout.widths_for(self._columns, room, theme.px, empty)
        self.mass.setVisible(has_mass)
        widths[columns.MARGIN] += mass if has_mass else 0
        for place, key in enumerate(KEYS):
            self.setColumnHidden(place, key not in widths)
            if key in widths:
                self.setColumnWidth(place, widths[key])
        self.arranged(frozenset(widths))
        self.place_beside()

    def _empty_columns(self) -> frozenset[str]:
        """Return the columns nothing stands in, which give way first."""
        has_cost = any(row.cost for row in self._model.rows)
        return frozenset() if has_cost else frozenset({columns.COST})

    def arranged(self, shown: frozenset[str]) -> None:
        """Hear which columns have room now."""

    def place_beside(self) -> None:
        """Stand mass column and total where the lines are now."""
        area = self.viewport().geometry()
        lines = (len(self._model.rows) - 2) * self._theme.px(ROW)
        height = min(max(lines, self._theme.px(ROW)), area.height() - 1)
        width = self._theme.px(MASS_WIDTH)
        self.mass.setGeometry(area.left(), area.top(), width, max(height, 1))
        self.mass.raise_()
        self.total_bar.place()

    # Dragging.

    def _lines_under(self, at: QPoint) -> frozenset[int]:
        """Return the lines a press in the margin takes hold of."""
        index = self.indexAt(at)
        if not self._is_handle(index):
            return frozenset()
        row = self._model.row_at(index)
        chosen = self.selected_lines()
        return chosen if row.line in chosen else frozenset({row.line})

    def _is_handle(self, index: QModelIndex) -> bool:
        """Tell whether a cell is the margin of a line, by which it is taken."""
        is_margin = index.isValid() and KEYS[index.column()] in columns.FIXED
        return is_margin and self._model.row_at(index).kind is Kind.LINE

    def _boundary(self, at: QPoint) -> int:
        """Return how many rows are above the gap nearest to a point."""
        row = self.rowAt(at.y())
        if row < 0:
            return len(self._model.rows) if at.y() > 0 else 0
        is_lower = at.y() > self.rowViewportPosition(row) + self.rowHeight(row) // 2
        return row + 1 if is_lower else row

    def cancel_drag(self) -> bool:
        """Let go of the lines where they were; tell whether any were held."""
        was = self._drag is not None
        self._drag = None
        self.viewport().update()
        return was

    def _is_steps(self, index: QModelIndex) -> bool:
        return (
            index.isValid()
            and self._model.row_at(index).kind is Kind.HEAD
            and KEYS[index.column()] == columns.RANGE
        )

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take hold of lines by the margin; everywhere else choose as usual."""
        at = event.position().toPoint()
        is_plain = event.modifiers() == Qt.KeyboardModifier.NoModifier
        lines = self._lines_under(at) if event.button() == Qt.MouseButton.LeftButton else None
        if not lines or not is_plain:
            super().mousePressEvent(event)
            return
        self.setFocus(Qt.FocusReason.MouseFocusReason)
        if lines != self.selected_lines():
            self.setCurrentIndex(self.indexAt(at).siblingAtColumn(KEYS.index(PERCENT)))
        self._drag = LineDrag(at, lines)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Follow a drag, and show by the hand where lines can be taken."""
        at = event.position().toPoint()
        if self._drag is None:
            self._show_hand(at)
            super().mouseMoveEvent(event)
            return
        self._drag.move(at, self._model.rows, self._boundary(at))
        bar, edge = self.verticalScrollBar(), self._theme.px(_EDGE)
        if at.y() < edge:
            bar.setValue(bar.value() - edge // 2)
        elif at.y() > self.viewport().height() - edge - self.total_bar.covered:
            bar.setValue(bar.value() + edge // 2)
        self.viewport().setCursor(Qt.CursorShape.ClosedHandCursor)
        self.viewport().update()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Put the lines down where the rule is drawn."""
        drag, self._drag = self._drag, None
        if drag is None:
            super().mouseReleaseEvent(event)
            index = self.indexAt(event.position().toPoint())
            if event.button() == Qt.MouseButton.LeftButton and self._is_steps(index):
                self.steps_asked.emit(self._model.row_at(index).phase)
            return
        self.viewport().unsetCursor()
        self.viewport().update()
        if drag.target is not None:
            self.dropped.emit(drag.lines, drag.target.phase, drag.target.place)
        elif not drag.is_moving:
            index = self.indexAt(event.position().toPoint())
            self.setCurrentIndex(index.siblingAtColumn(KEYS.index(PERCENT)))

    def _show_hand(self, at: QPoint) -> None:
        index = self.indexAt(at)
        if self._is_handle(index):
            self.viewport().setCursor(Qt.CursorShape.OpenHandCursor)
        elif self._is_steps(index):
            self.viewport().setCursor(Qt.CursorShape.PointingHandCursor)
        else:
            self.viewport().unsetCursor()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the rows, and the rule where dragged lines would go."""
        super().paintEvent(event)
        drag = self._drag
        if drag is None or drag.target is None:
            return
        painter = QPainter(self.viewport())
        room = self.viewport().rect()
        room.setLeft(self.columnViewportPosition(KEYS.index(columns.MARK)))
        y = self.rowViewportPosition(min(drag.target.row, len(self._model.rows) - 1))
        drag.paint(painter, self._theme, y, room)
        painter.end()

    def viewportEvent(self, event: QEvent) -> bool:  # noqa: N802 (Qt's own)
        """Say beside the pointer what the bar of masses shows."""
        is_asked = isinstance(event, QHelpEvent) and self._is_on_mass(event.pos())
        if is_asked and event.type() == QEvent.Type.ToolTip:
            QToolTip.showText(QCursor.pos(), self.mass.accessibleDescription(), self)
            return True
        return super().viewportEvent(event)

    def _is_on_mass(self, at: QPoint) -> bool:
        area = self.mass.geometry().translated(-self.viewport().pos())
        return self.mass.isVisible() and area.contains(at)

    # Geometry.

    def scrollTo(
        self,
        index: QModelIndex | QPersistentModelIndex,
        hint: QAbstractItemView.ScrollHint = _Hint.EnsureVisible,
    ) -> None:
        """Bring a cell into view, above the total where that covers the foot."""
        super().scrollTo(index, hint)
        self.total_bar.place()
        hidden = self.visualRect(index).bottom() - (
            self.viewport().height() - self.total_bar.covered
        )
        if hidden >= 0 and self.total_bar.covered:
            bar = self.verticalScrollBar()
            bar.setValue(bar.value() + hidden + 1)

    def scrollContentsBy(self, dx: int, dy: int) -> None:  # noqa: N802 (Qt's own)
        """Keep the total in view while the lines scroll."""
        super().scrollContentsBy(dx, dy)
        self.total_bar.place()
        if self._drag is None:
            self.viewport().update()  # what the total covered was not painted before

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Give the names what the other columns leave."""
        super().resizeEvent(event)
        self._arrange()
