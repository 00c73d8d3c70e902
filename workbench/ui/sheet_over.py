"""A sheet laid over the window: takes the focus while it is there, and gives it back."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, QRect, Qt
from PySide6.QtGui import QPainter
from PySide6.QtWidgets import QApplication, QFrame, QLayout, QWidget

from workbench.ui.theme import Theme

if TYPE_CHECKING:
    from PySide6.QtGui import QKeyEvent, QPaintEvent

_TOP, _SIDE, _FOOT = 44, 20, 40


class SheetOver(QFrame):
    """Stand over the middle of the window; Esc, or a focus that goes elsewhere, takes it away."""

    def __init__(self, name: str, title: str, theme: Theme, window: QWidget) -> None:
        super().__init__(window)
        self._theme = theme
        self._window = window
        self._before: QWidget | None = None
        self._width = 0
        self._gap = 0
        self._foot = 0
        self.setObjectName(name)
        self.setAccessibleName(title)
        # It paints all of itself, so what lies under it is not painted with every letter.
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.hide()
        window.installEventFilter(self)

    def dress(self, theme: Theme, width: int) -> None:
        """Take the colours of a theme and a width of the design."""
        self._width = theme.px(width)
        self._gap = theme.px(_TOP)
        self._foot = theme.px(_FOOT)
        self._theme = theme
        shade = theme.palette
        self.setStyleSheet(
            f"#{self.objectName()} QAbstractScrollArea {{ background: {shade.surface}; }}"
            f"#{self.objectName()} #sheet_over_held {{ background: {shade.surface}; }}"
        )

    def rise(self, first: QWidget) -> None:
        """Show the sheet and put the focus on a widget of it."""
        if not self.isVisible():
            self._before = QApplication.focusWidget()
            QApplication.instance().focusChanged.connect(self._on_focus_changed)  # type: ignore[union-attr]
        self.show()
        self.place()
        self.raise_()
        first.setFocus(Qt.FocusReason.PopupFocusReason)

    def leave(self) -> None:
        """Take the sheet away and give the focus back."""
        if self.isHidden():
            return
        QApplication.instance().focusChanged.disconnect(self._on_focus_changed)  # type: ignore[union-attr]
        had_focus = self.isAncestorOf(QApplication.focusWidget() or self._window)
        self.hide()
        if had_focus and self._before is not None:
            self._before.setFocus(Qt.FocusReason.PopupFocusReason)
        self._before = None

    def place(self) -> None:
        """Stand in the middle of the window, as tall as is needed and fits."""
        if self.isHidden():
            return
        room = self._window.rect()
        width = min(self._width, room.width() - 2 * _SIDE)
        layout = self.layout()
        wanted = self.sizeHint().height()
        if layout is not None:
            layout.activate()
            wanted = self._wanted_height(width, layout)
        height = min(wanted, room.height() - self._gap - self._foot)
        self.setGeometry(QRect((room.width() - width) // 2, self._gap, width, height))

    def _wanted_height(self, width: int, layout: QLayout) -> int:
        """Return how tall the sheet would be at a width."""
        has_turn = layout.hasHeightForWidth()
        return layout.totalHeightForWidth(width) if has_turn else layout.totalSizeHint().height()

    def _on_focus_changed(self, _old: QWidget | None, new: QWidget | None) -> None:
        if new is not None and new is not self and not self.isAncestorOf(new):
            self._before = None
            self.leave()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Paint the ground and the line around it."""
        painter = QPainter(self)
        painter.fillRect(self.rect(), self._theme.colour("surface"))
        painter.setPen(self._theme.colour("secondary"))
        painter.drawRect(self.rect().adjusted(0, 0, -1, -1))
        painter.end()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Stay in the middle of a window that changes its size."""
        if watched is self._window and event.type() is QEvent.Type.Resize:
            self.place()
        return super().eventFilter(watched, event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Esc takes the sheet away; no other key reaches what lies under it."""
        if event.key() == Qt.Key.Key_Escape:
            self.leave()
        event.accept()
