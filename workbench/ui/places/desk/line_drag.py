"""Dragging lines by the margin: where they would go is drawn as a rule."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QApplication

from workbench.ui.places.desk.rows import Kind, SheetRow

if TYPE_CHECKING:
    from PySide6.QtCore import QPoint, QRect
    from PySide6.QtGui import QPainter

    from workbench.ui.theme import Theme

_THICK, _FOOT = 3, 5


@dataclass(frozen=True, slots=True)
class Target:
    """Hold where lines would go: the phase, the lines of it that stay before, the row below."""

    phase: int
    place: int
    row: int


def target_of(rows: tuple[SheetRow, ...], boundary: int) -> Target | None:
    """Return where lines dropped between two rows go; `boundary` counts the rows above.

    Above the first head there is no phase, so that is the top of the first one; below the last
    line is the end of its phase.
    """
    heads = [place for place, row in enumerate(rows) if row.kind is Kind.HEAD]
    if not heads:
        return None
    last = max(place for place, row in enumerate(rows) if row.kind in (Kind.HEAD, Kind.LINE))
    row = min(max(boundary, heads[0] + 1), last + 1)
    head = max(place for place in heads if place < row)
    return Target(rows[head].phase, row - head - 1, row)


class LineDrag:
    """Follow one drag from the press to the drop."""

    def __init__(self, origin: QPoint, lines: frozenset[int]) -> None:
        """Begin at a point with the lines that would move."""
        self._origin = origin
        self.lines = lines
        self.target: Target | None = None
        self.is_moving = False

    def move(self, at: QPoint, rows: tuple[SheetRow, ...], boundary: int) -> None:
        """Follow the pointer; a hand that only trembles drags nothing."""
        far = (at - self._origin).manhattanLength() >= QApplication.startDragDistance()
        self.is_moving = self.is_moving or far
        self.target = target_of(rows, boundary) if self.is_moving else None

    def paint(self, painter: QPainter, theme: Theme, y: int, room: QRect) -> None:
        """Draw the rule between the rows where the lines would stand."""
        colour = theme.colour("accent")
        thick, foot = theme.px(_THICK), theme.px(_FOOT)
        top = max(y - thick // 2 - 1, 0)
        painter.fillRect(room.left(), top, room.width(), thick, colour)
        for left in (room.left(), room.right() - thick + 1):
            painter.fillRect(left, top - foot, thick, 2 * foot + thick, colour)
