"""The list of what could come onto a line: a name over why it fits and what differs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRect, QSize, Qt, Signal
from PySide6.QtGui import QFontMetrics, QPainter, QPen
from PySide6.QtWidgets import (
    QAbstractItemView,
    QListView,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QWidget,
)

from workbench.ui.models.column import LOOK_ROLE
from workbench.ui.places.desk.swap_model import CANDIDATE, CandidateRow, candidate_model
from workbench.ui.theme import Role, Theme

if TYPE_CHECKING:
    from workbench.words.catalogue import Words

Index = QModelIndex | QPersistentModelIndex
_BAR = 3


class CandidateList(QListView):
    """Show candidates; the cursor is always on one while there are any."""

    chosen = Signal(object)
    """The CandidateRow the cursor came to, or None where the list is empty."""

    def __init__(self, words: Words, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._rows = candidate_model(words)
        self.setObjectName("swap_candidates")
        self.setAccessibleName(words.say("swap-candidates"))
        self.setModel(self._rows)
        self.setUniformItemSizes(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self._is_showing = False
        self.selectionModel().currentChanged.connect(lambda *_both: self._on_current())
        self.set_theme(theme)

    @property
    def row(self) -> CandidateRow | None:
        """The row of the cursor."""
        index = self.currentIndex()
        return self._rows.row_at(index) if index.isValid() else None

    @property
    def rows(self) -> tuple[CandidateRow, ...]:
        """Every row as it is shown."""
        return self._rows.rows

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._delegate = _Delegate(theme, self)
        self.setItemDelegate(self._delegate)

    def show_rows(self, rows: tuple[CandidateRow, ...]) -> None:
        """Show these rows with the cursor on the first."""
        self._is_showing = True  # told once, when every row stands in its place
        try:
            self._rows.set_rows(rows)
            self.setCurrentIndex(self._rows.index(0, 0) if rows else QModelIndex())
        finally:
            self._is_showing = False
        self.scrollToTop()
        self._on_current()

    def _on_current(self) -> None:
        if not self._is_showing:
            self.chosen.emit(self.row)

    def step(self, by: int) -> None:
        """Go so many rows on, staying in the list."""
        place = min(max(self.currentIndex().row() + by, 0), self._rows.rowCount() - 1)
        if place >= 0:
            self.setCurrentIndex(self._rows.index(place, 0))

    def choose(self, key: str) -> bool:
        """Put the cursor on a candidate; tell whether it is there."""
        index = self._rows.index_of(key, CANDIDATE)
        if index.isValid():
            self.setCurrentIndex(index)
        return index.isValid()


class _Delegate(QStyledItemDelegate):
    def __init__(self, theme: Theme, parent: QWidget) -> None:
        super().__init__(parent)
        self._theme = theme
        self._height = QFontMetrics(theme.font(Role.BODY)).height()
        self._small = QFontMetrics(theme.font(Role.SMALL)).height()

    def sizeHint(self, _option: QStyleOptionViewItem, _index: Index) -> QSize:
        """Return the height of a name over two small lines."""
        return QSize(10, self._height + 2 * self._small + self._theme.px(12))

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        """Paint one candidate."""
        theme, rect = self._theme, QRect(option.rect)
        row: CandidateRow = index.data(LOOK_ROLE)
        is_chosen = bool(option.state & QStyle.StateFlag.State_Selected)
        painter.save()
        if is_chosen:
            painter.fillRect(rect, theme.colour("surface"))
            bar = QRect(rect.topLeft(), QSize(theme.px(_BAR), rect.height()))
            painter.fillRect(bar, theme.colour("accent"))
        painter.fillRect(QRect(rect.left(), rect.bottom(), rect.width(), 1), theme.colour("rule"))
        if option.state & QStyle.StateFlag.State_HasFocus:
            painter.setPen(QPen(theme.colour("accent"), 1))
            painter.drawRect(rect.adjusted(0, 0, -1, -1))
        inner = rect.adjusted(theme.px(10), theme.px(5), -theme.px(8), -theme.px(6))
        self._paint_name(painter, QRect(inner), row, is_chosen=is_chosen)
        inner.setTop(inner.top() + self._height)
        self._write(painter, inner, row.why, Role.SMALL, "secondary")
        inner.setTop(inner.top() + self._small)
        self._write(painter, inner, row.differs, Role.SMALL, "secondary")
        painter.restore()

    def _paint_name(
        self, painter: QPainter, inner: QRect, row: CandidateRow, *, is_chosen: bool
    ) -> None:
        theme = self._theme
        if row.beside:
            font = theme.font(Role.SMALL)
            width = QFontMetrics(font).horizontalAdvance(row.beside)
            painter.setFont(font)
            painter.setPen(theme.colour("accent" if row.on_hand else "secondary"))
            painter.drawText(
                inner, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignTop, row.beside
            )
            inner.setRight(inner.right() - width - theme.px(8))
        self._write(painter, inner, row.name, Role.STRONG if is_chosen else Role.BODY, "ink")

    def _write(self, painter: QPainter, rect: QRect, text: str, role: Role, colour: str) -> None:
        font = self._theme.font(role)
        painter.setFont(font)
        painter.setPen(self._theme.colour(colour))
        cut = QFontMetrics(font).elidedText(text, Qt.TextElideMode.ElideRight, rect.width())
        painter.drawText(rect, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop, cut)
