"""A layout that sets its items side by side and goes on in the next row where it must."""

from __future__ import annotations

from PySide6.QtCore import QRect, QSize, Qt
from PySide6.QtWidgets import QLayout, QLayoutItem, QWidget


class FlowLayout(QLayout):
    """Place items like words in a paragraph, each at its own width and never wider than the row."""

    def __init__(self, across: int, down: int, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._items: list[QLayoutItem] = []
        self._heights: dict[int, int] = {}
        self._across = across
        self._down = down
        self.setContentsMargins(0, 0, 0, 0)

    def set_gaps(self, across: int, down: int) -> None:
        """Take other distances between items."""
        self._across, self._down = across, down
        self.invalidate()

    def insert_widget(self, place: int, widget: QWidget) -> None:
        """Take a widget before the item at a place."""
        self.addWidget(widget)
        self._items.insert(place, self._items.pop())
        self.invalidate()

    def invalidate(self) -> None:
        """Forget every height; the items are not what they were."""
        self._heights.clear()
        super().invalidate()

    def _placed(self, rect: QRect, *, is_moving: bool) -> int:
        """Place the items of every row and return the height they take."""
        x, top, height = rect.left(), rect.top(), 0
        for item in self._items:
            if item.isEmpty():
                continue
            hint = item.sizeHint()
            width = min(hint.width(), max(rect.width(), 1))
            if height and x + width > rect.left() + rect.width():
                x, top, height = rect.left(), top + height + self._down, 0
            tall = item.heightForWidth(width) if item.hasHeightForWidth() else hint.height()
            if is_moving:
                item.setGeometry(QRect(x, top, width, tall))
            x += width + self._across
            height = max(height, tall)
        return top + height - rect.top()

    def addItem(self, item: QLayoutItem) -> None:
        """Take an item as the last one."""
        self._items.append(item)

    def count(self) -> int:
        """Return how many items there are."""
        return len(self._items)

    def itemAt(self, index: int) -> QLayoutItem | None:
        """Return an item, or None past the last."""
        return self._items[index] if 0 <= index < len(self._items) else None

    def takeAt(self, index: int) -> QLayoutItem | None:
        """Give an item away, or None past the last."""
        return self._items.pop(index) if 0 <= index < len(self._items) else None

    def expandingDirections(self) -> Qt.Orientation:
        """Ask for no more room than the items need."""
        return Qt.Orientation(0)

    def hasHeightForWidth(self) -> bool:
        """Say that the height depends on the width."""
        return True

    def heightForWidth(self, width: int) -> int:
        """Return the height all rows take at a width."""
        if width not in self._heights:
            self._heights[width] = self._placed(QRect(0, 0, width, 0), is_moving=False)
        return self._heights[width]

    def setGeometry(self, rect: QRect) -> None:
        """Place the items."""
        super().setGeometry(rect)
        self._placed(rect, is_moving=True)

    def sizeHint(self) -> QSize:
        """Return the size with everything in one row."""
        hints = [item.sizeHint() for item in self._items if not item.isEmpty()]
        width = sum(hint.width() for hint in hints) + self._across * max(len(hints) - 1, 0)
        return QSize(width, max((hint.height() for hint in hints), default=0))

    def minimumSize(self) -> QSize:
        """Return the size of the widest item at its least."""
        size = QSize()
        for item in self._items:
            size = size.expandedTo(item.minimumSize())
        return size
