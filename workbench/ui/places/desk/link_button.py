"""A button that looks like a link and is cut in its middle where there is too little room."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import QPushButton, QSizePolicy, QStyleOptionButton, QWidget

_LEAST_LETTERS = 4


class LinkButton(QPushButton):
    """Show as much of its words as fits, the start and the end; all of them are read out."""

    def __init__(self, text: str, name: str, parent: QWidget | None = None) -> None:
        super().__init__(text, parent)
        self.setObjectName(name)
        self.setProperty("role", "link")
        self.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
        self.setCursor(Qt.CursorShape.PointingHandCursor)

    def minimumSizeHint(self) -> QSize:
        """Return room for a few letters."""
        hint = self.sizeHint()
        letters = self.fontMetrics().horizontalAdvance("n") * _LEAST_LETTERS
        return QSize(min(letters, hint.width()), hint.height())

    def initStyleOption(self, option: QStyleOptionButton) -> None:
        """Let the style paint what fits."""
        super().initStyleOption(option)
        cut = self.fontMetrics().elidedText(self.text(), Qt.TextElideMode.ElideMiddle, self.width())
        option.text = cut
        self.setToolTip("" if cut == self.text() else self.text())
