"""A list to choose from, with the arrow of the house drawn on it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QPainter, QPalette, QPolygonF
from PySide6.QtWidgets import QComboBox

if TYPE_CHECKING:
    from PySide6.QtGui import QPaintEvent, QWheelEvent


class Combo(QComboBox):
    """Change only on purpose: the wheel over it scrolls what is behind it."""

    def __init__(self) -> None:
        super().__init__()
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToContents)
        self.setMinimumContentsLength(6)

    def showPopup(self) -> None:  # noqa: N802 (Qt's own)
        """Be as wide as the widest words need."""
        view = self.view()
        view.setMinimumWidth(view.sizeHintForColumn(0) + 2 * self.fontMetrics().height())
        super().showPopup()

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Leave the wheel to what is behind."""
        event.ignore()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the arrow over what the style paints; its own has an edge that stands out."""
        super().paintEvent(event)
        half = self.fontMetrics().height() / 4.5
        x, y = self.width() - 2 * half, self.height() / 2 - half / 2
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(self.palette().color(QPalette.ColorRole.Text))
        corners = [QPointF(x - half, y), QPointF(x + half, y), QPointF(x, y + half * 1.1)]
        painter.drawPolygon(QPolygonF(corners))
        painter.end()
