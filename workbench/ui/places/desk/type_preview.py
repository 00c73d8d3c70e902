"""What a draft of a product type starts with, as a small ruled sheet."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QRect, QSize, Qt
from PySide6.QtGui import QFontMetrics, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from workbench.formula.formula import Formula
from workbench.formula.shelf import Shelf
from workbench.formula.totals import totals
from workbench.ui.theme import Role, Theme
from workbench.words.catalogue import Words
from workbench.words.numbers import percent_text

_ROW, _MARGIN, _PERCENT = 24, 24, 70
_WIDEST_NAME = 0.42


@dataclass(frozen=True, slots=True)
class PreviewRow:
    """Hold one row: a phase, or a line with its percent and its range."""

    name: str
    percent: str = ""
    note: str = ""
    letter: str = ""

    @property
    def is_phase(self) -> bool:
        """Tell whether this row heads a phase."""
        return bool(self.letter)


def preview_rows(formula: Formula, shelf: Shelf, words: Words) -> tuple[PreviewRow, ...]:
    """Return what the preview of a formula shows."""
    percents = totals(formula).percents
    rows: list[PreviewRow] = []
    for place, phase in enumerate(formula.phases):
        rows.append(PreviewRow(phase.name, letter=chr(ord("A") + place)))
        for line in phase.lines:
            note = words.say("types-takes-rest") if line.is_rest else line.note
            if line.to_ph:
                note = words.say("types-to-ph")
            percent = percent_text(percents[line.id], words.style)
            rows.append(PreviewRow(shelf.name(line.ingredient), percent, note))
    return tuple(rows)


class TypePreview(QWidget):
    """Paint phases and lines on ruled paper; the same is read out as text."""

    def __init__(self, theme: Theme, name: str) -> None:
        super().__init__()
        self._theme = theme
        self._rows: tuple[PreviewRow, ...] = ()
        self.setObjectName("type_preview")
        self.setAccessibleName(name)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    @property
    def rows(self) -> tuple[PreviewRow, ...]:
        """What is shown."""
        return self._rows

    def show_rows(self, rows: tuple[PreviewRow, ...]) -> None:
        """Show rows."""
        self._rows = rows
        said = (
            row.name if row.is_phase else f"{row.name} {row.percent} % {row.note}".rstrip()
            for row in rows
        )
        self.setAccessibleDescription("\n".join(said))
        self.updateGeometry()
        self.update()

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._theme = theme
        self.updateGeometry()
        self.update()

    def sizeHint(self) -> QSize:
        """Return room for every row."""
        return QSize(self._theme.px(420), self._theme.px(_ROW) * len(self._rows) + 2)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint the rows."""
        painter = QPainter(self)
        height = self._theme.px(_ROW)
        for place, row in enumerate(self._rows):
            rect = QRect(0, place * height, self.width(), height)
            following = self._rows[place + 1 : place + 2]
            is_last = not following or following[0].is_phase
            self._paint_row(painter, rect, row, is_last=is_last)
        painter.end()

    def _paint_row(self, painter: QPainter, rect: QRect, row: PreviewRow, *, is_last: bool) -> None:
        theme = self._theme
        margin = theme.px(_MARGIN)
        painter.fillRect(
            QRect(margin, rect.bottom(), rect.width() - margin, 1), theme.colour("rule")
        )
        if row.is_phase:
            self._write(painter, rect.adjusted(2, 0, 0, 0), row.letter, Role.STRONG, "ink")
            self._write(painter, rect.adjusted(margin, 0, 0, 0), row.name, Role.HEADING, "ink")
            return
        self._bracket(painter, rect, is_last=is_last)
        name = QRect(rect)
        name.setLeft(margin)
        name.setWidth(round((rect.width() - margin) * _WIDEST_NAME))
        self._write(painter, name, row.name, Role.BODY, "ink")
        figure = QRect(name.right(), rect.top(), theme.px(_PERCENT), rect.height())
        right = Qt.AlignmentFlag.AlignRight
        self._write(painter, figure, row.percent, Role.BODY, "ink", right)
        note = rect.adjusted(figure.right() + theme.px(16), 0, 0, 0)
        self._write(painter, note, row.note, Role.SMALL, "secondary")

    def _bracket(self, painter: QPainter, rect: QRect, *, is_last: bool) -> None:
        theme, middle = self._theme, rect.left() + self._theme.px(7)
        foot = rect.bottom() - (theme.px(3) if is_last else -1)
        painter.fillRect(QRect(middle, rect.top(), 1, foot - rect.top()), theme.colour("ink"))
        if is_last:
            painter.fillRect(QRect(middle, foot - 1, theme.px(8), 1), theme.colour("ink"))

    def _write(
        self,
        painter: QPainter,
        rect: QRect,
        text: str,
        role: Role,
        colour: str,
        side: Qt.AlignmentFlag = Qt.AlignmentFlag.AlignLeft,
    ) -> None:
        font = self._theme.font(role)
        painter.setFont(font)
        painter.setPen(self._theme.colour(colour))
        cut = QFontMetrics(font).elidedText(text, Qt.TextElideMode.ElideRight, rect.width())
        painter.drawText(rect, side | Qt.AlignmentFlag.AlignVCenter, cut)
