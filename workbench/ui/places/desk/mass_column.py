"""The mass column: the whole formula as one bar to scale, phase by phase, beside the sheet."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from decimal import Decimal

from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent
from PySide6.QtWidgets import QWidget

from workbench.formula.formula import Formula
from workbench.formula.totals import WHOLE, Totals
from workbench.ui.places.desk.rows import Kind, SheetRow, letter_of
from workbench.ui.theme import Role, Theme
from workbench.ui.theme.palette import tinted
from workbench.words.catalogue import Words

WIDTH = 62
_BAR, _TICK, _TICKS = 24, 12, 10
_MIDDLE = 0.5
_SHARES = (1.0, 0.8, 0.62, 0.46)


@dataclass(frozen=True, slots=True)
class Segment:
    """Hold one line of the bar: the kind of its phase, its tint, and where it lies [0 to 1].

    `letter` is that of its phase, on the tallest line of each.
    """

    kind: str
    tint: int
    top: float
    bottom: float
    line: int = 0
    letter: str = ""


def segments_of(formula: Formula, sums: Totals) -> tuple[Segment, ...]:
    """Return the segments from the top; more than 100 % fills the whole bar in proportion."""
    shown = [max(percent, Decimal(0)) for percent in sums.percents.values()]
    scale = max(sum(shown, Decimal(0)), WHOLE)
    stacked = tuple(_stacked(formula, sums, scale))
    letters = {}
    for place, phase in enumerate(formula.phases):
        ids = {line.id for line in phase.lines}
        own = [one for one in stacked if one.line in ids]
        if own:
            letters[max(own, key=lambda one: one.bottom - one.top).line] = letter_of(place)
    return tuple(replace(one, letter=letters.get(one.line, "")) for one in stacked)


def _stacked(formula: Formula, sums: Totals, scale: Decimal) -> Iterator[Segment]:
    top = 0.0
    for phase in formula.phases:
        for place, line in enumerate(phase.lines):
            height = float(max(sums.percents[line.id], Decimal(0)) / scale)
            if height:
                yield Segment(phase.kind, place % len(_SHARES), top, top + height, line.id)
            top += height


def mass_text(rows: tuple[SheetRow, ...], words: Words) -> str:
    """Return in words what the bar shows: each phase by its letter, with its percent."""
    heads = (row for row in rows if row.kind is Kind.HEAD)
    return "\n".join(
        words.say("sheet-mass-part", letter=row.letter, name=row.name, percent=row.percent)
        for row in heads
    )


class MassColumn(QWidget):
    """Paint the bar with its scale; what it shows is written in the sheet beside it."""

    def __init__(self, theme: Theme, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)  # spares the cells below
        self._theme = theme
        self._segments: tuple[Segment, ...] = ()
        self._line = 0
        self._shades: dict[tuple[str, int], QColor] = {}

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._theme = theme
        self._shades.clear()
        self.update()

    def set_segments(self, segments: tuple[Segment, ...]) -> None:
        """Show these segments."""
        if segments != self._segments:
            self._segments = segments
            self.update()

    def _shade(self, one: Segment) -> QColor:
        """Return the colour of a segment, mixed once for each kind and tint."""
        key = (one.kind, one.tint)
        if key not in self._shades:
            palette = self._theme.palette
            mixed = tinted(palette.phase(one.kind), palette.paper, _SHARES[one.tint])
            self._shades[key] = QColor(mixed)
        return self._shades[key]

    def mark_line(self, line: int) -> None:
        """Mark the segment of the line the cursor stands in; 0 marks none."""
        if line != self._line:
            self._line = line
            self.update()

    def _name(self, painter: QPainter, bar: QRect, one: Segment) -> None:
        """Write the letter of its phase on a segment, where there is room for it."""
        metrics = painter.fontMetrics()
        if not one.letter or bar.height() < metrics.ascent():
            return
        light, dark = self._inks
        is_dark = self._shade(one).lightnessF() < _MIDDLE
        painter.setPen(light if is_dark else dark)
        painter.drawText(bar, int(Qt.AlignmentFlag.AlignCenter), one.letter)

    @property
    def _inks(self) -> tuple[QColor, QColor]:
        """The lighter and the darker of ink and paper."""
        both = (QColor(self._theme.palette.ink), QColor(self._theme.palette.paper))
        dark, light = sorted(both, key=QColor.lightnessF)
        return light, dark

    def _mark(self, painter: QPainter, bar: QRect) -> None:
        """Point at a segment from the right: a line over its height, at least a tick."""
        theme = self._theme
        left = bar.right() + theme.px(2)
        painter.fillRect(left, bar.top(), theme.px(3), max(bar.height(), 2), theme.colour("ink"))

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint scale and bar."""
        painter = QPainter(self)
        theme = self._theme
        painter.fillRect(self.rect(), theme.colour("paper"))
        bar_left = self.width() - theme.px(_BAR) - theme.px(6)
        height = self.height() - 1
        painter.setFont(theme.font(Role.SMALL))
        for tick in range(_TICKS + 1):
            y = round(height * tick / _TICKS)
            is_middle = tick * 2 == _TICKS
            length = theme.px(_TICK if tick in (0, _TICKS) or is_middle else _TICK / 2)
            left = bar_left - theme.px(3) - length
            painter.fillRect(left, y, length, 1, theme.colour("secondary"))
            if is_middle:
                box = QRect(0, y - theme.px(9), left - theme.px(2), theme.px(18))
                painter.setPen(theme.colour("secondary"))
                side = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
                painter.drawText(box, int(side), "50")
        for one in self._segments:
            top, bottom = round(one.top * height), round(one.bottom * height)
            depth = max(bottom - top - 1, 1)
            painter.fillRect(bar_left, top, theme.px(_BAR), depth, self._shade(one))
            self._name(painter, QRect(bar_left, top, theme.px(_BAR), depth), one)
            if one.line and one.line == self._line:
                self._mark(painter, QRect(bar_left, top, theme.px(_BAR), depth))
        painter.end()
