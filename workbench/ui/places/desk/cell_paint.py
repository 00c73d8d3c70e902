"""How cells of the sheet are painted: ruled paper, figures with their decimals meeting."""

from __future__ import annotations

from decimal import Decimal

from PySide6.QtCore import QLineF, QPointF, QRect, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter

from workbench.ui.places.desk.rows import Kind, UseRange
from workbench.ui.theme import Role, Theme
from workbench.ui.widgets.marks import paint_lock, paint_takes_rest
from workbench.ui.widgets.note_mark import paint_note
from workbench.ui.widgets.severity import SIDE, paint_severity

PAD = 8
MARGIN = 22
"""Width of letter and bracket at scale 1."""
_NOTE = 12
_CACHE_LIMIT = 4000
_HEADROOM = Decimal("1.25")
_FAR = 4
"""A limit so many times beyond everything else would press the rest of the bar to nothing."""


class Face:
    """Hold one font with its measures, so that no paint measures twice."""

    def __init__(self, font: QFont) -> None:
        self.font = font
        self._metrics = QFontMetricsF(font)
        self._widths: dict[str, float] = {}
        self._elided: dict[tuple[str, int], str] = {}
        self.ascent = self._metrics.ascent()
        self.height = self._metrics.height()

    def width(self, text: str) -> float:
        """Return the width of a text in pixels."""
        known = self._widths.get(text)
        if known is None:
            if len(self._widths) > _CACHE_LIMIT:
                self._widths.clear()
            known = self._widths[text] = self._metrics.horizontalAdvance(text)
        return known

    def elided(self, text: str, room: float) -> str:
        """Return the text cut with an ellipsis to fit the room."""
        key = (text, int(room))
        known = self._elided.get(key)
        if known is None:
            if len(self._elided) > _CACHE_LIMIT:
                self._elided.clear()
            known = self._metrics.elidedText(text, Qt.TextElideMode.ElideRight, room)
            self._elided[key] = known
        return known


class CellPainter:
    """Paint what a cell holds, in the fonts and colours of one theme."""

    def __init__(self, theme: Theme) -> None:
        self.theme = theme
        shade = theme.palette
        self.body = Face(theme.font(Role.BODY))
        self.strong = Face(theme.font(Role.STRONG))
        self.small = Face(theme.font(Role.SMALL))
        self.ink = QColor(shade.ink)
        self.secondary = QColor(shade.secondary)
        self.rule = QColor(shade.rule)
        self.accent = QColor(shade.accent)
        self.stop = QColor(shade.stop)
        self.surface = QColor(shade.surface)
        self.paper = QColor(shade.paper)
        self.bar = QColor(shade.range_bar)
        self.bar_line = QColor(shade.range_line)
        self.pad = theme.px(PAD)
        self.note_room = theme.px(_NOTE) + 2 * self.pad

    def text(self, painter: QPainter, rect: QRect, text: str, face: Face, colour: QColor) -> float:
        """Write at the left of the rectangle, elided; return where the text ends."""
        fitting = face.elided(text, rect.width())
        self._write(painter, rect.left(), rect, fitting, face, colour)
        return rect.left() + face.width(fitting)

    def note(self, painter: QPainter, inner: QRect, beside: QRect, note: str) -> QRect:
        """Draw the mark of a note and what fits of it; return the room that is left before it."""
        side = self.theme.px(_NOTE)
        width = min(self.small.width(note), max(beside.width() // 2, 0))
        fits = beside.width() >= self.theme.px(90)
        left = round(inner.right() - width - side - self.pad) if fits else inner.right() - side
        box = QRectF(left, inner.top() + (inner.height() - side) / 2, side, side)
        paint_note(painter, box, self.theme.palette.secondary)
        if fits:
            room = QRect(left + side + 4, inner.top(), round(width) + 4, inner.height())
            self.text(painter, room, note, self.small, self.secondary)
        return beside.adjusted(0, 0, left - self.pad - beside.right(), 0)

    def link(self, painter: QPainter, rect: QRect, text: str) -> None:
        """Write a word that opens something, underlined as every link is."""
        inner = rect.adjusted(self.pad, 0, -self.pad, 0)
        end = self.text(painter, inner, text, self.small, self.accent)
        middle = rect.top() + rect.height() / 2
        y = round(middle + self.small.height / 2)
        painter.fillRect(inner.left(), y, round(end) - inner.left(), 1, self.accent)

    def figure(
        self, painter: QPainter, rect: QRect, text: str, pad: int, look: tuple[Face, QColor]
    ) -> None:
        """Write a figure at the right, moved left by the decimals it is short of."""
        face, colour = look
        room = rect.adjusted(0, 0, -self.pad, 0)
        left = room.right() + 1 - face.width(text) - pad * self.body.width("0")
        self._write(painter, left, rect, text, face, colour)

    def _write(
        self, painter: QPainter, left: float, rect: QRect, text: str, face: Face, colour: QColor
    ) -> None:
        baseline = rect.top() + (rect.height() - face.height) / 2 + face.ascent
        painter.setFont(face.font)
        painter.setPen(colour)
        painter.drawText(QPointF(left, round(baseline)), text)

    def ground(self, painter: QPainter, rect: QRect, kind: Kind, *, is_lit: bool) -> None:
        """Lay the ground of a cell and rule it below."""
        if is_lit:
            painter.fillRect(rect, self.surface)
        if kind is Kind.TOTAL:
            top = rect.top()
            painter.fillRect(rect.left(), top - 1, rect.width(), 1, self.ink)
            painter.fillRect(rect.left(), rect.bottom() - 4, rect.width(), 2, self.ink)
            painter.fillRect(rect.left(), rect.bottom() - 1, rect.width(), 1, self.ink)
        elif kind is not Kind.NEW:
            painter.fillRect(rect.left(), rect.bottom(), rect.width(), 1, self.rule)

    def frame(self, painter: QPainter, rect: QRect) -> None:
        """Frame the cell the cursor stands in."""
        for edge in (
            QRect(rect.left(), rect.top(), rect.width(), 2),
            QRect(rect.left(), rect.bottom() - 1, rect.width(), 2),
            QRect(rect.left(), rect.top(), 2, rect.height()),
            QRect(rect.right() - 1, rect.top(), 2, rect.height()),
        ):
            painter.fillRect(edge, self.accent)

    def margin(self, painter: QPainter, rect: QRect, letter: str, look: tuple[Kind, bool]) -> None:
        """Paint the letter of a phase, or its bracket beside a line."""
        kind, is_last = look
        painter.fillRect(rect, self.paper)  # the margin is never part of a lit row
        rect = rect.adjusted(rect.width() - self.theme.px(MARGIN), 0, 0, 0)
        middle = rect.left() + self.theme.px(7)
        if kind in (Kind.HEAD, Kind.NEW):
            colour = self.ink if kind is Kind.HEAD else self.secondary
            self.text(painter, rect.adjusted(2, 0, 0, 0), letter, self.strong, colour)
        elif kind is Kind.LINE:
            bottom = rect.bottom() - (self.theme.px(3) if is_last else -1)
            painter.fillRect(middle, rect.top(), 1, bottom - rect.top(), self.ink)
            if is_last:
                painter.fillRect(middle, bottom - 1, self.theme.px(9), 1, self.ink)

    def marks(self, painter: QPainter, rect: QRect, look: tuple[Kind, str, bool, bool]) -> None:
        """Paint severity first, then the lock or the sign of the rest line, from the right."""
        _kind, severity, is_locked, is_rest = look
        side = self.theme.px(SIDE)
        box = QRectF(rect.right() - side - self.theme.px(4), 0, side, side)
        box.moveTop(rect.top() + (rect.height() - side) / 2)
        if severity:
            paint_severity(painter, box, severity, self.theme.palette)
            box.translate(-side - self.theme.px(4), 0)
        if is_locked:
            paint_lock(painter, box, self.theme.palette.secondary)
        elif is_rest:
            paint_takes_rest(painter, box, self.theme.palette.accent)

    def use_range(self, painter: QPainter, rect: QRect, use: UseRange, *, is_stop: bool) -> None:
        """Paint the usual range as a bar, the value and the legal limit on it, and its figures."""
        room = rect.adjusted(self.pad, 0, -self.pad, 0)
        width = min(self.theme.px(78), room.width() // 2)
        middle = room.center().y()
        known = [one for one in (use.high, use.value, use.low) if one is not None]
        has_gate = use.limit is not None and use.limit <= max(known) * _FAR
        top = max([*known, *([use.limit] if use.limit is not None and has_gate else [])])
        top = top * _HEADROOM or Decimal(1)

        def at(value: Decimal) -> int:
            return room.left() + round(float(value / top) * width)

        thin, thick = self.theme.px(2), self.theme.px(8)
        painter.fillRect(room.left(), middle - thin // 2, width, thin, self.bar_line)
        left = at(use.low) if use.low is not None else room.left()
        right = at(use.high) if use.high is not None else room.left() + width
        if use.low is not None or use.high is not None:
            painter.fillRect(left, middle - thick // 2, max(right - left, 1), thick, self.bar)
        if use.limit is not None and has_gate:
            self._limit(painter, at(use.limit), middle)
        tick = self.theme.px(3)
        colour = self.stop if is_stop else self.ink
        tall = self.theme.px(16)
        painter.fillRect(at(use.value) - tick // 2, middle - tall // 2, tick, tall, colour)
        words = rect.adjusted(self.pad * 2 + width, 0, -2, 0)
        self.text(painter, words, use.text, self.small, self.secondary)

    def _limit(self, painter: QPainter, x: int, middle: int) -> None:
        """Paint the legal limit as a gate: thin, with feet, so it differs from the value."""
        half, foot = self.theme.px(8), self.theme.px(3)
        painter.setPen(self.stop)
        painter.drawLine(QLineF(x, middle - half, x, middle + half))
        for y in (middle - half, middle + half):
            painter.drawLine(QLineF(x - foot, y, x + foot, y))
