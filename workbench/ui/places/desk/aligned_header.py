"""Headings that stand exactly over what the cells below them hold."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QHeaderView, QWidget

from workbench.ui.places.desk.cell_paint import PAD
from workbench.ui.theme import Role, Theme

if TYPE_CHECKING:
    from PySide6.QtCore import QRect
    from PySide6.QtGui import QPainter

_HEIGHT = 30


class AlignedHeader(QHeaderView):
    """Set the headings over a line of ink, with the margins of the cells."""

    def __init__(self, theme: Theme, parent: QWidget) -> None:
        super().__init__(Qt.Orientation.Horizontal, parent)
        self.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.setSectionsClickable(False)
        self.setHighlightSections(False)
        self.set_theme(theme)

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._theme = theme
        self.setMinimumSectionSize(1)
        self.setFixedHeight(theme.px(_HEIGHT))
        self.viewport().update()

    def paintSection(self, painter: QPainter, rect: QRect, place: int) -> None:  # noqa: N802
        """Paint one heading, over figures at the right."""
        theme, pad = self._theme, self._theme.px(PAD)
        painter.fillRect(rect.left(), rect.bottom() - 1, rect.width(), 2, theme.colour("ink"))
        painter.setFont(theme.font(Role.COLUMN))
        painter.setPen(QColor(theme.palette.secondary))
        model, across = self.model(), Qt.Orientation.Horizontal
        side = model.headerData(place, across, Qt.ItemDataRole.TextAlignmentRole)
        room = rect.adjusted(pad // 2, 0, -pad, -2)
        text = painter.fontMetrics().elidedText(
            str(model.headerData(place, across)), Qt.TextElideMode.ElideRight, room.width()
        )
        painter.drawText(room, int(side), text)
