"""The head of a paper as it will be printed: picture, name, contact."""

from __future__ import annotations

from PySide6.QtCore import QRect, QSize, Qt
from PySide6.QtGui import QColor, QFontMetrics, QImage, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from workbench.ui.theme import Role, Theme

_WIDTH, _HEIGHT, _PICTURE = 420, 76, 44
# Paper is white and its ink dark, whatever the window looks like.
_PAPER, _INK, _RULE = QColor("#FFFFFF"), QColor("#1E2A2E"), QColor("#DAD5C9")


class HeadPreview(QWidget):
    """Paint a strip of paper with the studio's block on it."""

    def __init__(self, theme: Theme, name: str) -> None:
        super().__init__()
        self._theme = theme
        self._name, self._contact, self._empty = "", "", ""
        self._picture = QImage()
        self.setObjectName("head_preview")
        self.setAccessibleName(name)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)

    def set_theme(self, theme: Theme) -> None:
        """Take the sizes of another theme."""
        self._theme = theme
        self.updateGeometry()
        self.update()

    def show_block(self, name: str, contact: str, picture: bytes, empty: str) -> None:
        """Show a block; `empty` is said where there is neither name nor contact."""
        self._name, self._contact, self._empty = name, contact, empty
        self._picture = QImage.fromData(picture) if picture else QImage()
        self.setAccessibleDescription(", ".join(part for part in (name, contact) if part) or empty)
        self.update()

    def sizeHint(self) -> QSize:
        """Return the size of the strip."""
        return QSize(self._theme.px(_WIDTH), self._theme.px(_HEIGHT))

    def minimumSizeHint(self) -> QSize:
        """Return half the width of the strip."""
        return QSize(self._theme.px(_WIDTH) // 2, self._theme.px(_HEIGHT))

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint paper, picture and text."""
        painter, theme = QPainter(self), self._theme
        sheet = self.rect()
        painter.fillRect(sheet, _PAPER)
        painter.setPen(_RULE)
        painter.drawRect(sheet.adjusted(0, 0, -1, -1))
        inner = sheet.adjusted(theme.px(16), theme.px(12), -theme.px(16), -theme.px(12))
        if not self._picture.isNull():
            side = theme.px(_PICTURE)
            fitted = self._picture.scaled(
                2 * side,
                side,
                Qt.AspectRatioMode.KeepAspectRatio,
                Qt.TransformationMode.SmoothTransformation,
            )
            painter.drawImage(inner.topLeft(), fitted)
            inner.setLeft(inner.left() + fitted.width() + theme.px(12))
        self._text(painter, inner)
        painter.end()

    def _text(self, painter: QPainter, inner: QRect) -> None:
        rows = [(self._name, Role.STRONG), (self._contact, Role.SMALL)]
        shown = [row for row in rows if row[0]] or [(self._empty, Role.SMALL)]
        painter.setPen(_INK)
        for text, role in shown:
            font = self._theme.font(role)
            metrics = QFontMetrics(font)
            painter.setFont(font)
            cut = metrics.elidedText(text, Qt.TextElideMode.ElideRight, inner.width())
            painter.drawText(inner, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop, cut)
            inner.setTop(inner.top() + metrics.height() + self._theme.px(2))
