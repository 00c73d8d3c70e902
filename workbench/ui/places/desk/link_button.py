"""A button that looks like a link: cut in its middle, or wrapped, where room is short."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import QPushButton, QSizePolicy, QStyleOptionButton, QWidget

_LEAST_LETTERS = 4


class LinkButton(QPushButton):
    """Show as much of its words as fits, the start and the end; all of them are read out.

    One that `wraps` goes on in further lines instead.
    """

    def __init__(
        self, text: str, name: str, parent: QWidget | None = None, *, wraps: bool = False
    ) -> None:
        super().__init__(text, parent)
        self._wraps = wraps
        self.setObjectName(name)
        self.setProperty("role", "link")
        # A layout item keeps a fixed height to one line, whatever height is asked for.
        tall = QSizePolicy.Policy.Preferred if wraps else QSizePolicy.Policy.Fixed
        policy = QSizePolicy(QSizePolicy.Policy.Maximum, tall)
        policy.setHeightForWidth(wraps)
        self.setSizePolicy(policy)
        self.setCursor(Qt.CursorShape.PointingHandCursor)

    def minimumSizeHint(self) -> QSize:
        """Return room for a few letters."""
        hint = self.sizeHint()
        letters = self.fontMetrics().horizontalAdvance("n") * _LEAST_LETTERS
        return QSize(min(letters, hint.width()), hint.height())

    def hasHeightForWidth(self) -> bool:
        """Say whether the height depends on the width."""
        return self._wraps

    def heightForWidth(self, width: int) -> int:
        """Return the height its lines take."""
        more = len(self._lines(width)) - 1 if self._wraps else 0
        return self.sizeHint().height() + more * self.fontMetrics().lineSpacing()

    def _lines(self, width: int) -> list[str]:
        """Return the words in lines no wider than a width, where they have breaks."""
        metrics, lines = self.fontMetrics(), [""]
        if metrics.horizontalAdvance(self.text()) <= width:
            return [self.text()]
        for word in self.text().split():
            longer = f"{lines[-1]} {word}".strip()
            if lines[-1] and metrics.horizontalAdvance(longer) > width:
                lines.append(word)
            else:
                lines[-1] = longer
        return lines

    def initStyleOption(self, option: QStyleOptionButton) -> None:
        """Let the style paint what fits."""
        super().initStyleOption(option)
        if self._wraps:
            option.text = "\n".join(self._lines(self.width()))
            return
        cut = self.fontMetrics().elidedText(self.text(), Qt.TextElideMode.ElideMiddle, self.width())
        option.text = cut
        self.setToolTip("" if cut == self.text() else self.text())
