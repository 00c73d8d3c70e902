"""The frame of the window: the bar of places at the head, the line at the foot."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QFontMetrics, QPainter, QPaintEvent
from PySide6.QtWidgets import (
    QAbstractButton,
    QButtonGroup,
    QFrame,
    QHBoxLayout,
    QLabel,
    QSizePolicy,
    QWidget,
)

from workbench.ui.theme import Role, Theme

_LINE = 3


class PlaceBar(QWidget):
    """Name the program and its places; the current one is bold, underlined and read out so."""

    chosen = Signal(str)
    """The name of the place the maker wants to be in."""

    def __init__(self, title: str, label: str, theme: Theme) -> None:
        super().__init__()
        self._theme = theme
        self._buttons: dict[str, _PlaceButton] = {}
        self._group = QButtonGroup(self)
        self.setAccessibleName(label)
        name = QLabel(title)
        name.setProperty("role", "strong")
        self._row = QHBoxLayout(self)
        self._row.addWidget(name)
        self._row.addStretch(1)
        self.set_theme(theme)

    @property
    def names(self) -> tuple[str, ...]:
        """The places, from the left."""
        return tuple(self._buttons)

    @property
    def buttons(self) -> tuple[QAbstractButton, ...]:
        """The buttons of the places, from the left."""
        return tuple(self._buttons.values())

    def add(self, name: str, text: str, keys: str, *, is_apart: bool = False) -> None:
        """Add a place; one that stands apart goes to the right end."""
        button = _PlaceButton(name, text, self._theme)
        button.setToolTip(keys)
        button.setAccessibleDescription(keys)
        button.clicked.connect(lambda _checked=False: self.chosen.emit(name))
        self._group.addButton(button)
        self._buttons[name] = button
        place = self._row.count() if is_apart else len(self._buttons)
        self._row.insertWidget(place, button)

    def show_current(self, name: str) -> None:
        """Mark the place the maker is in."""
        self._buttons[name].setChecked(True)

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._theme = theme
        self._row.setContentsMargins(theme.px(20), 0, theme.px(20), 0)
        self._row.setSpacing(theme.px(28))
        for button in self._buttons.values():
            button.set_theme(theme)


class _PlaceButton(QAbstractButton):
    """Paint the name of a place, bold over a thick line when it is the current one."""

    def __init__(self, name: str, text: str, theme: Theme) -> None:
        super().__init__()
        self._theme = theme
        self.setObjectName(f"place_{name}")
        self.setText(text)
        self.setCheckable(True)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._theme = theme
        self.updateGeometry()
        self.update()

    def sizeHint(self) -> QSize:
        """Return room for the name in bold, so that nothing moves when it becomes current."""
        metrics = QFontMetrics(self._theme.font(Role.STRONG))
        pad = self._theme.px(10)
        return QSize(
            metrics.horizontalAdvance(self.text()) + self._theme.px(8), metrics.height() + 2 * pad
        )

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint the name and the line under it."""
        painter, theme = QPainter(self), self._theme
        is_current = self.isChecked()
        if self.hasFocus():
            painter.fillRect(self.rect(), theme.colour("surface"))
        is_lit = is_current or self.underMouse() or self.hasFocus()
        painter.setFont(theme.font(Role.STRONG if is_current else Role.BODY))
        painter.setPen(theme.colour("ink" if is_lit else "secondary"))
        painter.drawText(self.rect(), Qt.AlignmentFlag.AlignCenter, self.text())
        if is_current or self.hasFocus():
            thick = theme.px(_LINE if is_current else 1)
            painter.fillRect(0, self.height() - thick, self.width(), thick, theme.colour("accent"))
        painter.end()


class FootLine(QWidget):
    """Say at the foot what is stored, where, and what it is checked against."""

    LEFT = ("saved", "studio", "lines")
    RIGHT = ("rules",)

    def __init__(self, label: str, theme: Theme) -> None:
        super().__init__()
        self._labels: dict[str, QLabel] = {}
        self.setAccessibleName(label)
        self._row = QHBoxLayout(self)
        for key in self.LEFT:
            self._row.addWidget(self._small(key))
        self._row.addStretch(1)
        for key in self.RIGHT:
            self._row.addWidget(self._small(key))
        self.set_theme(theme)

    def say(self, key: str, text: str) -> None:
        """Show a text in one of the places of the line."""
        self._labels[key].setText(text)

    def said(self, key: str) -> str:
        """Return what stands in one of the places."""
        return self._labels[key].text()

    def set_theme(self, theme: Theme) -> None:
        """Take the sizes of another theme."""
        self._row.setContentsMargins(theme.px(20), theme.px(5), theme.px(20), theme.px(5))
        self._row.setSpacing(theme.px(24))

    def _small(self, key: str) -> QLabel:
        label = QLabel()
        label.setObjectName(f"foot_{key}")
        label.setProperty("role", "small")
        label.setTextFormat(Qt.TextFormat.PlainText)
        label.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
        label.setMinimumWidth(1)
        self._labels[key] = label
        return label


def ruled(role: str) -> QFrame:
    """Return a thin rule across."""
    line = QFrame()
    line.setFrameShape(QFrame.Shape.NoFrame)
    line.setProperty("role", role)
    line.setFixedHeight(1)
    return line
