"""A curve with its band, read with a cursor: the one plot a titration needs."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise

from PySide6.QtCore import QEvent, QPointF, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QAccessible,
    QAccessibleEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QPolygonF,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from workbench.ui.theme import Role, Theme

HEIGHT = 190
_AXIS, _FOOT, _TOP, _RIGHT = 26, 24, 24, 8
_STEP, _LONG_STEP = 1, 10
_STEPS = 100
_ACROSS = 4


@dataclass(frozen=True, slots=True)
class Point:
    """Hold one point: x, and y as low, middle and high."""

    x: float
    low: float
    middle: float
    high: float


@dataclass(frozen=True, slots=True)
class Curve:
    """Hold the points by rising x, and the band of y that is wanted."""

    points: tuple[Point, ...]
    wanted: tuple[float, float] | None = None

    def at(self, x: float) -> Point:
        """Return what the curve says between its points."""
        for one, other in pairwise(self.points):
            if one.x <= x <= other.x and other.x > one.x:
                share = (x - one.x) / (other.x - one.x)
                return Point(
                    x,
                    one.low + share * (other.low - one.low),
                    one.middle + share * (other.middle - one.middle),
                    one.high + share * (other.high - one.high),
                )
        return self.points[-1] if x > self.points[-1].x else self.points[0]


@dataclass(frozen=True, slots=True)
class Wording:
    """Hold how an x, a y and a whole point are written, and what the axis of y is called."""

    x: Callable[[float], str]
    y: Callable[[float], str]
    point: Callable[[Point], str]
    y_name: str = ""


class CurvePlot(QWidget):
    """Paint a curve; Left, Right or the pointer read it.

    The least y is at the top, as on the pH ladder above it.
    """

    moved = Signal(str)
    """What the cursor reads now, in words."""

    def __init__(
        self,
        name: str,
        theme: Theme,
        wording: Wording,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._theme = theme
        self._wording = wording
        self._curve: Curve | None = None
        self._cursor = 0.0
        self.setObjectName("curve")
        self.setAccessibleName(name)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    @property
    def reading(self) -> str:
        """What the cursor reads, in words."""
        return "" if self._curve is None else self._wording.point(self._curve.at(self._cursor))

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._theme = theme
        self.updateGeometry()
        self.update()

    def show_curve(self, curve: Curve, cursor: float) -> None:
        """Show a curve of two points or more, the cursor at an x."""
        self._curve = curve
        self._move(cursor)

    def sizeHint(self) -> QSize:
        """Return the size of the plot."""
        return QSize(self._theme.px(240), self._theme.px(HEIGHT))

    # Where things are.

    def _area(self) -> QRectF:
        theme = self._theme
        left, top = theme.px(_AXIS), theme.px(_TOP)
        right, bottom = self.width() - theme.px(_RIGHT), self.height() - theme.px(_FOOT)
        return QRectF(left, top, right - left, bottom - top)

    def _spans(self) -> tuple[tuple[float, float], tuple[float, float]]:
        assert self._curve is not None
        points = self._curve.points
        ys = [y for point in points for y in (point.low, point.high)]
        ys.extend(self._curve.wanted or ())
        low, high = int(min(ys)), int(max(ys)) + 1
        return (points[0].x, points[-1].x), (float(low), float(high))

    def _at(self, x: float, y: float) -> QPointF:
        (x0, x1), (y0, y1) = self._spans()
        area = self._area()
        across = (x - x0) / (x1 - x0 or 1)
        return QPointF(
            area.left() + across * area.width(),
            area.top() + (y - y0) / (y1 - y0) * area.height(),
        )

    # Painting.

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint axes, wanted band, curve and cursor."""
        if self._curve is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._paint_wanted(painter, self._curve)
        self._paint_axes(painter)
        self._paint_curve(painter, self._curve)
        self._paint_cursor(painter, self._curve)
        painter.end()

    def _paint_wanted(self, painter: QPainter, curve: Curve) -> None:
        if curve.wanted is None:
            return
        (x0, x1), _ = self._spans()
        band = QRectF(self._at(x0, curve.wanted[0]), self._at(x1, curve.wanted[1]))
        painter.fillRect(band, self._theme.colour("band"))

    def _paint_axes(self, painter: QPainter) -> None:
        theme, area = self._theme, self._area()
        (x0, x1), (y0, y1) = self._spans()
        painter.setFont(theme.font(Role.SMALL))
        painter.setPen(theme.colour("ink"))
        name = QRect(0, 0, theme.px(_AXIS + 30), theme.px(_TOP - 8))
        painter.drawText(name, int(Qt.AlignmentFlag.AlignLeft), self._wording.y_name)
        for y in range(int(y0), int(y1) + 1):
            at = round(self._at(x0, y).y())
            painter.fillRect(QRectF(area.left(), at, area.width(), 1), theme.colour("rule"))
            box = QRect(0, at - theme.px(9), theme.px(_AXIS - 6), theme.px(18))
            flags = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
            painter.drawText(box, int(flags), self._wording.y(y))
        for step in range(_ACROSS + 1):
            x = x0 + (x1 - x0) * step / _ACROSS
            at = round(self._at(x, y0).x())
            painter.fillRect(QRectF(at, area.bottom(), 1, theme.px(4)), theme.colour("secondary"))
            box = QRect(at - theme.px(30), int(area.bottom()) + theme.px(5), theme.px(60), 99)
            side = Qt.AlignmentFlag.AlignHCenter
            if step == _ACROSS:
                box.moveRight(self.width())
                side = Qt.AlignmentFlag.AlignRight
            painter.drawText(box, int(side | Qt.AlignmentFlag.AlignTop), self._wording.x(x))

    def _paint_curve(self, painter: QPainter, curve: Curve) -> None:
        theme = self._theme
        upper = [self._at(point.x, point.high) for point in curve.points]
        lower = [self._at(point.x, point.low) for point in reversed(curve.points)]
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(theme.colour("window_bar"))
        painter.drawPolygon(QPolygonF([*upper, *lower]))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(theme.colour("ink"), theme.px(2)))
        painter.drawPolyline(QPolygonF([self._at(point.x, point.middle) for point in curve.points]))

    def _paint_cursor(self, painter: QPainter, curve: Curve) -> None:
        theme, area = self._theme, self._area()
        point = curve.at(self._cursor)
        spot = self._at(point.x, point.middle)
        painter.setPen(QPen(theme.colour("accent"), theme.px(2 if self.hasFocus() else 1)))
        painter.drawLine(QPointF(spot.x(), area.top()), QPointF(spot.x(), area.bottom()))
        painter.setBrush(theme.colour("accent"))
        painter.drawEllipse(spot, theme.px(4), theme.px(4))

    # Reading.

    def _move(self, x: float) -> None:
        if self._curve is None:
            return
        (x0, x1), _ = self._spans()
        self._cursor = min(max(x, x0), x1)
        self.setAccessibleDescription(self.reading)
        QAccessible.updateAccessibility(QAccessibleEvent(self, QAccessible.Event.ValueChanged))
        self.update()
        self.moved.emit(self.reading)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Left and Right move the cursor, Shift with them moves it further."""
        step = {Qt.Key.Key_Left: -_STEP, Qt.Key.Key_Right: _STEP}.get(Qt.Key(event.key()))
        if step is None or self._curve is None:
            super().keyPressEvent(event)
            return
        if event.modifiers() & Qt.KeyboardModifier.ShiftModifier:
            step *= _LONG_STEP
        (x0, x1), _ = self._spans()
        self._move(self._cursor + step * (x1 - x0) / _STEPS)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Read where the pointer is."""
        area = self._area()
        if self._curve is not None and area.width() > 0:
            (x0, x1), _ = self._spans()
            share = (event.position().x() - area.left()) / area.width()
            self._move(x0 + share * (x1 - x0))

    def event(self, event: QEvent) -> bool:
        """Show the cursor stronger while it has the keyboard."""
        if event.type() in (QEvent.Type.FocusIn, QEvent.Type.FocusOut):
            self.update()
        return super().event(event)
