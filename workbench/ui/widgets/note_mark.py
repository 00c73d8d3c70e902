"""The mark of a line that has a note."""

from __future__ import annotations

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF


def paint_note(painter: QPainter, rect: QRectF, colour: str) -> None:
    """Paint a small written sheet with a folded corner in the middle of the rectangle."""
    side = min(rect.width(), rect.height())
    unit = side / 12
    left, top = rect.center().x() - side / 2, rect.center().y() - side / 2
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(QColor(colour), 1.2 * unit))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    outline = ((2.0, 1.0), (7.5, 1.0), (10.0, 3.5), (10.0, 11.0), (2.0, 11.0))
    painter.drawPolygon(QPolygonF([QPointF(left + x * unit, top + y * unit) for x, y in outline]))
    for y in (5.2, 7.6):
        painter.drawLine(QLineF(left + 4 * unit, top + y * unit, left + 8 * unit, top + y * unit))
    painter.restore()
