"""The headings of the sheet."""

from __future__ import annotations

from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QColor, QPainter
from PySide6.QtWidgets import QHeaderView, QWidget

from workbench.ui.places.desk import columns
from workbench.ui.places.desk.columns import KEYS
from workbench.ui.theme import Role, Theme


class SheetHeader(QHeaderView):
    """Set the headings over a line of ink that leaves the margin free."""

    def __init__(self, theme: Theme, parent: QWidget) -> None:
        super().__init__(Qt.Orientation.Horizontal, parent)
        self.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.setSectionsClickable(False)
        self.setSectionsMovable(True)
        self.setHighlightSections(False)
        self.set_theme(theme)

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._theme = theme
        self.setMinimumSectionSize(1)
        self.setFixedHeight(theme.px(30))
        self.viewport().update()

    def paintSection(self, painter: QPainter, rect: QRect, place: int) -> None:  # noqa: N802
        """Paint one heading, over figures at the right."""
        theme, key = self._theme, KEYS[place]
        if key == columns.MARGIN:
            return
        painter.fillRect(rect.left(), rect.bottom() - 1, rect.width(), 2, theme.colour("ink"))
        painter.setFont(theme.font(Role.COLUMN))
        painter.setPen(QColor(theme.palette.secondary))
        is_figure = key in columns.FIGURES
        side = Qt.AlignmentFlag.AlignRight if is_figure else Qt.AlignmentFlag.AlignLeft
        left = 4 if key == columns.INGREDIENT else theme.px(8)
        room = rect.adjusted(left, 0, -theme.px(8) if is_figure else 0, -2)
        text = str(self.model().headerData(place, Qt.Orientation.Horizontal))
        text = painter.fontMetrics().elidedText(text, Qt.TextElideMode.ElideRight, room.width())
        painter.drawText(room, int(side | Qt.AlignmentFlag.AlignVCenter), text)
