"""A label on one line that is cut with an ellipsis where there is too little room."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QLabel, QSizePolicy, QWidget

_LEAST_LETTERS = 6


class ElidedLabel(QLabel):
    """Show as much of one line as fits; pointer and screen reader get the whole text."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)

    @property
    def is_cut(self) -> bool:
        """Whether there is too little room for the whole text."""
        return self.fontMetrics().horizontalAdvance(self.text()) > self.contentsRect().width()

    def setText(self, text: str) -> None:
        """Show a text."""
        super().setText(text)
        self.setAccessibleName(text)
        self._tell_whole()

    def _tell_whole(self) -> None:
        self.setToolTip(self.text() if self.is_cut else "")

    def minimumSizeHint(self) -> QSize:
        """Return room for a few letters."""
        width = self.fontMetrics().horizontalAdvance("n") * _LEAST_LETTERS
        return QSize(min(width, self.sizeHint().width()), self.sizeHint().height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Offer the whole text to the pointer when it is cut."""
        super().resizeEvent(event)
        self._tell_whole()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint what fits."""
        painter = QPainter(self)
        painter.setFont(self.font())
        painter.setPen(self.palette().color(self.foregroundRole()))
        rect = self.contentsRect()
        text = self.fontMetrics().elidedText(self.text(), Qt.TextElideMode.ElideRight, rect.width())
        painter.drawText(rect, self.alignment(), text)
        painter.end()
