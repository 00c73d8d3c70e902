"""Marks of a line on the sheet: locked, and takes the rest."""

from __future__ import annotations

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF


def paint_lock(painter: QPainter, rect: QRectF, colour: str) -> None:
    """Paint a closed padlock in the middle of the rectangle."""
    unit, left, top = _grid(painter, rect, colour)
    shackle = QRectF(left + 3.25 * unit, top + 1.0 * unit, 5.5 * unit, 7.0 * unit)
    painter.drawArc(shackle, 0, 180 * 16)
    middle = shackle.center().y()
    for x in (shackle.left(), shackle.right()):
        painter.drawLine(QLineF(x, middle, x, top + 6.0 * unit))
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(colour))
    body = QRectF(left + 1.75 * unit, top + 5.25 * unit, 8.5 * unit, 6.0 * unit)
    painter.drawRoundedRect(body, unit * 0.75, unit * 0.75)
    painter.restore()


def paint_takes_rest(painter: QPainter, rect: QRectF, colour: str) -> None:
    """Paint an arrow that comes down on a line: what is left to 100 % falls here."""
    unit, left, top = _grid(painter, rect, colour)
    painter.drawLine(
        QLineF(left + 1.5 * unit, top + 11 * unit, left + 10.5 * unit, top + 11 * unit)
    )
    painter.drawLine(QLineF(left + 6 * unit, top + 1 * unit, left + 6 * unit, top + 6 * unit))
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(colour))
    head = ((2.6, 4.8), (9.4, 4.8), (6.0, 9.0))
    painter.drawPolygon(QPolygonF([QPointF(left + x * unit, top + y * unit) for x, y in head]))
    painter.restore()


def _grid(painter: QPainter, rect: QRectF, colour: str) -> tuple[float, float, float]:
    """Save the painter, set the pen, and return unit, left and top of a grid of 12 by 12."""
    side = min(rect.width(), rect.height())
    unit = side / 12
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    pen = QPen(QColor(colour), 1.5 * unit)
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    painter.setPen(pen)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    return unit, rect.center().x() - side / 2, rect.center().y() - side / 2
