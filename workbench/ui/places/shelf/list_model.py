"""The list of ingredients: rows that are painted only where they are seen."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import (
    QAbstractListModel,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    QPointF,
    QRect,
    QSize,
    Qt,
)
from PySide6.QtGui import QColor, QFontMetrics, QPainter, QPen, QPolygonF
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem, QWidget

from workbench.storage.shelf_list import ListedIngredient
from workbench.ui.theme import Role, Theme
from workbench.words.catalogue import Words
from workbench.words.ingredients import function_name

ROW_ROLE = Qt.ItemDataRole.UserRole
Index = QModelIndex | QPersistentModelIndex


class IngredientListModel(QAbstractListModel):
    """Hold the ingredients in the order they are shown."""

    def __init__(self, words: Words, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._words = words
        self.rows: tuple[ListedIngredient, ...] = ()

    def set_rows(self, rows: tuple[ListedIngredient, ...]) -> None:
        """Show these ingredients; a single one that differs is told alone."""
        changed = self._changed(rows)
        if changed is None:
            self.beginResetModel()
            self.rows = rows
            self.endResetModel()
            return
        self.rows = rows
        for place in changed:
            index = self.index(place, 0)
            self.dataChanged.emit(index, index)

    def place_of(self, key: str) -> int | None:
        """Return where an ingredient stands, or None."""
        return next((place for place, row in enumerate(self.rows) if row.key == key), None)

    def _changed(self, rows: tuple[ListedIngredient, ...]) -> list[int] | None:
        if len(rows) != len(self.rows):
            return None
        pairs = enumerate(zip(self.rows, rows, strict=True))
        changed = [place for place, (old, new) in pairs if old is not new and old != new]
        if any(self.rows[place].key != rows[place].key for place in changed):
            return None
        return changed

    def rowCount(self, parent: Index | None = None) -> int:
        """Return how many rows there are; a row has none below it."""
        return 0 if parent is not None and parent.isValid() else len(self.rows)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        """Return the row, its name, or how it is read out."""
        if not index.isValid() or index.row() >= len(self.rows):
            return None
        row = self.rows[index.row()]
        answers: dict[int, Callable[[], object]] = {
            ROW_ROLE: lambda: row,
            Qt.ItemDataRole.DisplayRole: lambda: row.name,
            Qt.ItemDataRole.ToolTipRole: lambda: f"{row.name}\n{row.inci}",
            Qt.ItemDataRole.AccessibleTextRole: lambda: spoken(row, self._words),
        }
        return answers[role]() if role in answers else None


def spoken(row: ListedIngredient, words: Words) -> str:
    """Return a row as it is read out."""
    functions = ", ".join(dict.fromkeys(function_name(name, words) for name in row.functions))
    return words.say(
        "shelf-row-spoken",
        name=row.name,
        inci=row.inci,
        functions=functions or "none",
        own="yes" if row.is_own else "no",
        there="yes" if row.is_there else "no",
    )


class IngredientDelegate(QStyledItemDelegate):
    """Paint a name over its INCI, and beside them whether it is one's own and on hand."""

    def __init__(self, words: Words, theme: Theme, parent: QWidget) -> None:
        super().__init__(parent)
        self._words = words
        self.theme = theme
        self.open_key = ""

    def sizeHint(self, _option: QStyleOptionViewItem, _index: Index) -> QSize:
        """Return the height of two lines, the same for every row."""
        small = QFontMetrics(self.theme.font(Role.SMALL)).height()
        body = QFontMetrics(self.theme.font()).height()
        return QSize(10, body + small + self.theme.px(13))

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        """Paint one row on its rule."""
        row = index.data(ROW_ROLE)
        if not isinstance(row, ListedIngredient):
            return
        painter.save()
        rect = QRect(option.rect)
        is_open = row.key == self.open_key
        if is_open:
            painter.fillRect(rect, self.theme.colour("surface"))
            bar = QRect(rect.topLeft(), QSize(self.theme.px(3), rect.height()))
            painter.fillRect(bar, self.theme.colour("accent"))
        painter.setPen(QPen(self.theme.colour("rule"), 1))
        painter.drawLine(rect.bottomLeft(), rect.bottomRight())
        if option.state & QStyle.StateFlag.State_HasFocus:
            painter.setPen(QPen(self.theme.colour("accent"), 2))
            painter.drawRect(rect.adjusted(1, 1, -1, -2))
        self._paint_texts(painter, rect, row, is_open=is_open)
        painter.restore()

    def _paint_texts(
        self, painter: QPainter, rect: QRect, row: ListedIngredient, *, is_open: bool
    ) -> None:
        side, above = self.theme.px(10), self.theme.px(6)
        inner = rect.adjusted(side, above, -side, -above)
        body = Role.STRONG if is_open else Role.BODY
        line = QFontMetrics(self.theme.font(body)).height()
        first = QRect(inner.left(), inner.top(), inner.width(), line)
        second = QRect(inner.left(), first.bottom() + 1, inner.width(), inner.height() - line)
        if row.is_own:
            first.setRight(first.right() - self._mark(painter, first, "own"))
        if row.is_there:
            second.setRight(second.right() - self._mark(painter, second, "there"))
        self._write(painter, first, row.name, body, "ink")
        self._write(painter, second, row.inci, Role.SMALL, "secondary")

    def _mark(self, painter: QPainter, rect: QRect, kind: str) -> int:
        """Paint a word at the right, a tick before "on hand", and return the room they take."""
        text = self._words.say(f"shelf-row-{kind}")
        font = self.theme.font(Role.SMALL)
        colour = self.theme.colour("accent")
        painter.setFont(font)
        painter.setPen(colour)
        align = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignTop
        painter.drawText(rect, align, text)
        width = QFontMetrics(font).horizontalAdvance(text) + self.theme.px(8)
        if kind == "there":
            size = self.theme.px(9)
            left = rect.right() - width - size + self.theme.px(3)
            middle = rect.top() + QFontMetrics(font).height() / 2
            self._tick(painter, QPointF(left, middle), size, colour)
            width += size + self.theme.px(4)
        return width

    def _tick(self, painter: QPainter, start: QPointF, size: float, colour: QColor) -> None:
        steps = ((0, 0), (0.35, 0.35), (1, -0.45))
        points = [start + QPointF(x * size, y * size) for x, y in steps]
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        pen = QPen(colour, max(1.5, self.theme.px(15) / 10))
        pen.setCapStyle(Qt.PenCapStyle.RoundCap)
        pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
        painter.setPen(pen)
        painter.drawPolyline(QPolygonF(points))
        painter.restore()

    def _write(self, painter: QPainter, rect: QRect, text: str, role: Role, colour: str) -> None:
        font = self.theme.font(role)
        painter.setFont(font)
        painter.setPen(self.theme.colour(colour))
        cut = QFontMetrics(font).elidedText(text, Qt.TextElideMode.ElideRight, rect.width())
        painter.drawText(rect, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop, cut)
