"""The pH ladder: every pH window side by side on one axis, and where they all meet."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from PySide6.QtCore import QEvent, QPointF, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QAccessible,
    QAccessibleEvent,
    QFontMetrics,
    QHelpEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QPixmap,
    QPolygonF,
)
from PySide6.QtWidgets import QSizePolicy, QToolTip, QWidget

from workbench.ui.theme import Role, Theme

HEIGHT = 238
_AXIS, _TOP, _RIGHT = 26, 8, 2
_FLAT_LABELS, _UPRIGHT_LABELS, _LEAST_FLAT = 34, 84, 56
_MOST_UPRIGHT = 120
_BAR = 26
_LEAST_CUT = 8
_LEAST_SPAN = 5.0
_USUAL = (4.0, 7.0)
_ENDS = (0.0, 14.0)
_ROOM = 0.6
_WIDE = 4.0  # a window wider than this decides little: it may run off the axis


class Kind(Enum):
    """Say how a rung is drawn."""

    TARGET = "target"
    WINDOW = "window"
    ESTIMATE = "estimate"


@dataclass(frozen=True, slots=True)
class Rung:
    """Hold one window of the ladder.

    `low` and `high` [pH], None where the window is open; `mark` a single pH within it, as the
    middle of an estimate; `sentence` says it all in words. `is_at_odds` marks the two that
    keep the windows from meeting.
    """

    kind: Kind
    label: str
    low: float | None
    high: float | None
    sentence: str
    mark: float | None = None
    is_at_odds: bool = False


@dataclass(frozen=True, slots=True)
class Ladder:
    """Hold what the ladder shows: its rungs, and the pH where all windows meet."""

    rungs: tuple[Rung, ...] = ()
    overlap: tuple[float | None, float | None] | None = None


class PhLadder(QWidget):
    """Paint the windows; Left and Right go from one to the next, which is read out."""

    chosen = Signal(str)
    """The sentence of the rung the cursor stands on, or nothing."""

    def __init__(self, name: str, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self._ladder = Ladder()
        self._drawn = QPixmap()
        self._drawn_for: tuple[object, ...] = ()
        self._ends = _span(())
        self._place = -1
        self.setObjectName("ph_ladder")
        self.setAccessibleName(name)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    @property
    def ladder(self) -> Ladder:
        """What is shown."""
        return self._ladder

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._theme = theme
        self.updateGeometry()
        self.update()

    def show_ladder(self, ladder: Ladder, beside: Ladder | None = None) -> None:
        """Show these windows, on an axis that serves the ladder beside it as well."""
        ends = _span((*ladder.rungs, *(beside.rungs if beside is not None else ())))
        before, self._ladder = self._ladder, ladder
        if ends == self._ends and _as_seen(ladder) == _as_seen(before):
            return
        self._ends = ends
        self._place = min(self._place, len(ladder.rungs) - 1)
        self.setAccessibleDescription(" ".join(rung.sentence for rung in ladder.rungs))
        if self.hasFocus():
            self._tell()
        self.update()

    def sizeHint(self) -> QSize:
        """Return the size of the instrument."""
        return QSize(self._theme.px(240), self._theme.px(HEIGHT))

    # The axis.

    def _y(self, ph: float) -> float:
        low, high = self._ends
        top, bottom = self._theme.px(_TOP), self.height() - self._label_room()
        return top + (ph - low) / (high - low) * (bottom - top)

    def _is_upright(self) -> bool:
        return self._column(0).width() < self._theme.px(_LEAST_FLAT)

    def _label_room(self) -> int:
        theme = self._theme
        if not self._is_upright():
            return theme.px(_FLAT_LABELS)
        metrics = QFontMetrics(theme.font(Role.SMALL))
        least, most = theme.px(_UPRIGHT_LABELS), theme.px(_MOST_UPRIGHT)
        labels = (rung.label for rung in self._ladder.rungs)
        lines = (line for label in labels for line in _in_two(label, metrics, least))
        widest = max((metrics.horizontalAdvance(line) for line in lines), default=0)
        return min(max(widest + theme.px(6), least), most)

    def _column(self, place: int) -> QRectF:
        left, right = self._theme.px(_AXIS), self.width() - self._theme.px(_RIGHT)
        width = (right - left) / max(len(self._ladder.rungs), 1)
        return QRectF(left + place * width, 0, width, self.height())

    # Painting.

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint axis, meeting band, windows and their names."""
        painter = QPainter(self)
        painter.drawPixmap(0, 0, self._background())
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        for place, rung in enumerate(self._ladder.rungs):
            if rung.kind is Kind.ESTIMATE:
                self._paint_rung(painter, self._column(place), rung)
            if place == self._place and self.hasFocus():
                self._paint_choice(painter, self._column(place))
        painter.end()

    def _background(self) -> QPixmap:
        """Return axis, band, windows and names, drawn once: an edit mostly moves the estimate."""
        theme, ratio, rungs = self._theme, self.devicePixelRatioF(), self._ladder.rungs
        kept = tuple((rung.label, rung.kind is Kind.ESTIMATE or rung) for rung in rungs)
        wanted = (theme, ratio, self.size(), self._ladder.overlap, self._ends, kept)
        if wanted != self._drawn_for:
            self._drawn_for = wanted
            self._drawn = QPixmap(self.size() * ratio)
            self._drawn.setDevicePixelRatio(ratio)
            self._drawn.fill(Qt.GlobalColor.transparent)
            painter = QPainter(self._drawn)
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            self._paint_band(painter)
            self._paint_axis(painter)
            for place, rung in enumerate(rungs):
                if rung.kind is not Kind.ESTIMATE:
                    self._paint_rung(painter, self._column(place), rung)
                self._paint_label(painter, self._column(place), rung)
            painter.end()
        return self._drawn

    def _paint_band(self, painter: QPainter) -> None:
        if self._ladder.overlap is None:
            return
        low, high = self._ladder.overlap
        ends = self._ends
        top = self._y(max(low if low is not None else ends[0], ends[0]))
        bottom = self._y(min(high if high is not None else ends[1], ends[1]))
        left = self._theme.px(_AXIS)
        band = QRectF(left, top, self.width() - left, max(bottom - top, 2))
        painter.fillRect(band, self._theme.colour("band"))

    def _paint_axis(self, painter: QPainter) -> None:
        theme = self._theme
        low, high = self._ends
        painter.setFont(theme.font(Role.SMALL))
        for ph in range(round(low + 0.5), int(high) + 1):
            y = round(self._y(ph))
            painter.fillRect(QRectF(theme.px(_AXIS), y, self.width(), 1), theme.colour("rule"))
            painter.setPen(theme.colour("ink"))
            box = QRect(0, y - theme.px(9), theme.px(_AXIS - 8), theme.px(18))
            flags = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
            painter.drawText(box, int(flags), str(ph))

    def _paint_rung(self, painter: QPainter, column: QRectF, rung: Rung) -> None:
        theme, ends = self._theme, self._ends
        width = min(theme.px(_BAR), column.width() * 0.6)
        goes_up = rung.low is None or rung.low < ends[0]
        goes_down = rung.high is None or rung.high > ends[1]
        low = ends[0] if rung.low is None else max(rung.low, ends[0])
        high = ends[1] if rung.high is None else min(rung.high, ends[1])
        top, bottom = self._y(low), max(self._y(high), self._y(low) + 2)
        tip = width / 4  # of the arrow that says that a window goes on
        top += tip if goes_up else 0
        bottom -= tip if goes_down else 0
        bar = QRectF(column.center().x() - width / 2, top, width, bottom - top)
        colours = {Kind.TARGET: "accent", Kind.WINDOW: "window_bar", Kind.ESTIMATE: "ink"}
        colour = theme.colour(colours[rung.kind])
        painter.fillRect(bar, colour)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(colour)
        for is_open, y, way in ((goes_up, top, -1), (goes_down, bottom, 1)):
            if is_open:
                painter.drawPolygon(_arrow(bar.center().x(), y, width, way))
        if rung.is_at_odds:
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(theme.colour("caution_text"), theme.px(2), Qt.PenStyle.DashLine))
            painter.drawRect(bar)
        if rung.mark is not None:
            y = self._y(min(max(rung.mark, ends[0]), ends[1]))
            line = QRectF(bar.left() - theme.px(4), y - 1, bar.width() + theme.px(8), 2)
            painter.fillRect(line, colour)
            if bar.height() > theme.px(_LEAST_CUT):
                painter.fillRect(line.intersected(bar), theme.colour("paper"))

    def _paint_label(self, painter: QPainter, column: QRectF, rung: Rung) -> None:
        theme = self._theme
        font = theme.font(Role.SMALL)
        room = self._label_room() - theme.px(4)
        top = self.height() - room
        painter.setFont(font)
        painter.setPen(theme.colour("ink"))
        metrics = QFontMetrics(font)
        if self._is_upright():
            lines = _in_two(rung.label, metrics, room)
            if column.width() < len(lines) * metrics.height():
                lines = [rung.label]
            painter.save()
            painter.translate(column.center().x(), top)
            painter.rotate(90)
            half = metrics.height() * len(lines) / 2
            box = QRectF(0, -half, room, 2 * half)
            flags = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
            painter.drawText(box, int(flags), _cut(lines, metrics, room))
            painter.restore()
        else:
            box = QRectF(column.left() + 1, top, column.width() - 2, room)
            lines = _in_two(rung.label, metrics, int(box.width()))
            flags = Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignTop
            painter.drawText(box, int(flags), _cut(lines, metrics, int(box.width())))

    def _paint_choice(self, painter: QPainter, column: QRectF) -> None:
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(self._theme.colour("accent"), self._theme.px(2)))
        painter.drawRect(column.adjusted(2, 2, -2, -2))

    # Choosing.

    def _choose(self, place: int) -> None:
        if not self._ladder.rungs:
            return
        self._place = min(max(place, 0), len(self._ladder.rungs) - 1)
        self._tell()
        self.update()

    def _tell(self) -> None:
        rungs = self._ladder.rungs
        sentence = rungs[self._place].sentence if 0 <= self._place < len(rungs) else ""
        self.chosen.emit(sentence)
        QAccessible.updateAccessibility(QAccessibleEvent(self, QAccessible.Event.ValueChanged))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Left and Right go through the windows."""
        steps = {Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1}
        step = steps.get(Qt.Key(event.key()))
        if step is None:
            super().keyPressEvent(event)
        else:
            self._choose(self._place + step)

    def sentence_at(self, x: int) -> str:
        """Return what is said of the window under the pointer."""
        rungs = enumerate(self._ladder.rungs)
        under = (rung for place, rung in rungs if self._column(place).contains(QPointF(x, 0)))
        return next((rung.sentence for rung in under), "")

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Choose the window under the pointer."""
        for place in range(len(self._ladder.rungs)):
            if self._column(place).contains(event.position()):
                self._choose(place)
        super().mousePressEvent(event)

    def event(self, event: QEvent) -> bool:
        """Show which window is chosen while the ladder has the keyboard."""
        kind = event.type()
        if kind == QEvent.Type.ToolTip and isinstance(event, QHelpEvent):
            QToolTip.showText(event.globalPos(), self.sentence_at(event.pos().x()), self)
            return True
        if kind == QEvent.Type.FocusIn:
            self._choose(max(self._place, 0))
        elif kind == QEvent.Type.FocusOut:
            self.chosen.emit("")
            self.update()
        return super().event(event)


def _as_seen(ladder: Ladder) -> tuple[object, ...]:
    """Return what can be told apart on the ladder: an estimate to a hundredth of a pH."""
    rungs = tuple(
        (rung.label, rung.sentence, _seen(rung.low), _seen(rung.high), _seen(rung.mark))
        if rung.kind is Kind.ESTIMATE
        else rung
        for rung in ladder.rungs
    )
    return rungs, ladder.overlap


def _seen(ph: float | None) -> float | None:
    return None if ph is None else round(ph, 2)


def _span(rungs: tuple[Rung, ...]) -> tuple[float, float]:
    """Return the ends of the axis that shows all that decides."""
    known = [end for rung in rungs for end in _deciding(rung)]
    low, high = min([_USUAL[0], *known]) - _ROOM, max([_USUAL[1], *known]) + _ROOM
    missing = max(_LEAST_SPAN - (high - low), 0) / 2
    return max(low - missing, _ENDS[0]), min(high + missing, _ENDS[1])


def _deciding(rung: Rung) -> tuple[float, ...]:
    """Return the ends of a window that must lie on the axis."""
    ends = tuple(end for end in (rung.low, rung.high) if end is not None)
    is_wide = len(ends) > 1 and ends[1] - ends[0] > _WIDE and rung.kind is Kind.WINDOW
    return () if is_wide and not rung.is_at_odds else ends


def _arrow(x: float, y: float, width: float, way: int) -> QPolygonF:
    half, depth = width / 2, width / 4
    return QPolygonF([QPointF(x - half, y), QPointF(x + half, y), QPointF(x, y + way * depth)])


def _in_two(label: str, metrics: QFontMetrics, width: int) -> list[str]:
    """Return a label in at most two lines, as even as can be where one is too long."""
    if metrics.horizontalAdvance(label) <= width:
        return [label]
    words = label.split(" ")
    pairs = [
        [" ".join(words[:place]), " ".join(words[place:])] for place in range(1, len(words))
    ] or [[label]]
    return min(pairs, key=lambda pair: max(metrics.horizontalAdvance(line) for line in pair))


def _cut(lines: list[str], metrics: QFontMetrics, width: int) -> str:
    elide = Qt.TextElideMode.ElideRight
    return "\n".join(metrics.elidedText(line, elide, width) for line in lines)
