"""A panel in a scrolling column, which has its width from outside."""

from __future__ import annotations

from PySide6.QtCore import QSize
from PySide6.QtWidgets import QWidget


class ColumnPanel(QWidget):
    """Ask for the height its words take at the width it has.

    Qt would ask how high it were at the width it likes best, which it never gets; measuring every
    text at two widths in turn keeps none of them measured, and each edit would pay for all.
    """

    def sizeHint(self) -> QSize:
        """Return the width it has, and the height that takes."""
        layout, width = self.layout(), self.width()
        if layout is None or not self.isVisible():
            return super().sizeHint()
        if layout.hasHeightForWidth():
            return QSize(width, layout.totalHeightForWidth(width))
        return QSize(width, layout.totalSizeHint().height())
