"""The shape of a finding: octagon for stop, triangle for caution, ring for note."""

from __future__ import annotations

import math

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from workbench.ui.theme import Palette, Theme

SIDE = 14
"""Height of a shape beside body text, in pixels at scale 1."""

_CUT = 1 / (2 + math.sqrt(2))  # of the side: what a regular octagon takes off its square


def paint_severity(painter: QPainter, rect: QRectF, severity: str, palette: Palette) -> None:
    """Paint the shape of stop, caution or note in the middle of the rectangle."""
    square = _middle_square(rect)
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    if severity == "stop":
        _fill(painter, _octagon(square), palette.stop)
    elif severity == "caution":
        _fill(painter, _triangle(square), palette.caution)
    elif severity == "note":
        _ring(painter, square, palette.note)
    else:
        painter.restore()
        raise ValueError(f"{severity!r} is no severity")
    painter.restore()


class SeverityMark(QWidget):
    """Show one shape; the word it always comes with is read out in its place."""

    def __init__(
        self, severity: str, word: str, theme: Theme, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._severity = severity
        self._theme = theme
        self.setAccessibleName(word)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def show_severity(self, severity: str, word: str) -> None:
        """Show another shape, if it is another."""
        if severity != self._severity:
            self._severity = severity
            self.setAccessibleName(word)
            self.update()

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and the size of another theme."""
        self._theme = theme
        self.updateGeometry()
        self.update()

    def sizeHint(self) -> QSize:
        """Return the size of the shape with a pixel around it for its smooth edge."""
        side = self._theme.px(SIDE) + 2
        return QSize(side, side)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint the shape."""
        rect = QRectF(self.rect()).adjusted(1, 1, -1, -1)
        painter = QPainter(self)
        paint_severity(painter, rect, self._severity, self._theme.palette)
        painter.end()


def _middle_square(rect: QRectF) -> QRectF:
    side = min(rect.width(), rect.height())
    square = QRectF(0, 0, side, side)
    square.moveCenter(rect.center())
    return square


def _octagon(square: QRectF) -> QPolygonF:
    cut = square.width() * _CUT
    left, top, right, bottom = square.left(), square.top(), square.right(), square.bottom()
    corners = [
        (left + cut, top),
        (right - cut, top),
        (right, top + cut),
        (right, bottom - cut),
        (right - cut, bottom),
        (left + cut, bottom),
        (left, bottom - cut),
        (left, top + cut),
    ]
    return QPolygonF([QPointF(x, y) for x, y in corners])


def _triangle(square: QRectF) -> QPolygonF:
    # As wide as the square; a little lower, so that it weighs as much as the octagon.
    top = square.top() + square.height() * 0.06
    bottom = square.bottom() - square.height() * 0.06
    return QPolygonF(
        [
            QPointF(square.center().x(), top),
            QPointF(square.right(), bottom),
            QPointF(square.left(), bottom),
        ]
    )


def _fill(painter: QPainter, shape: QPolygonF, colour: str) -> None:
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(colour))
    painter.drawPolygon(shape)


def _ring(painter: QPainter, square: QRectF, colour: str) -> None:
    width = square.width() / 7
    painter.setPen(QPen(QColor(colour), width))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    inset = width / 2 + square.width() * 0.04
    painter.drawEllipse(square.adjusted(inset, inset, -inset, -inset))
