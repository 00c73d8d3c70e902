"""The editor of an ingredient cell: what fits is listed below as the maker types."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import QPoint, Qt, Signal
from PySide6.QtWidgets import QListWidget, QListWidgetItem, QWidget

from workbench.ui.editors.cell_editor import CellEditor
from workbench.ui.theme import Role, Theme

if TYPE_CHECKING:
    from PySide6.QtGui import QHideEvent, QKeyEvent, QResizeEvent

MOST_HITS = 12
_SHOWN = 8
_ROW = 30
_STEPS = {Qt.Key.Key_Up: -1, Qt.Key.Key_Down: 1}


@dataclass(frozen=True, slots=True)
class Choice:
    """Hold one thing that can be chosen: its key, its name, and what is said beside it."""

    key: str
    name: str
    secondary: str


Finder = Callable[[str, int], tuple[Choice, ...]]


class NameEditor(CellEditor):
    """Take a name; Up and Down choose among what fits."""

    taken = Signal()
    """A choice of the list was clicked."""

    def __init__(self, theme: Theme, find: Finder, label: str, parent: QWidget) -> None:
        super().__init__(theme, parent, is_numeric=False)
        self._theme = theme
        self._find = find
        self._choices: tuple[Choice, ...] = ()
        self._label = label
        self.popup = self._made_popup()
        self.textEdited.connect(self._search)
        self.destroyed.connect(self.popup.deleteLater)

    def _made_popup(self) -> QListWidget:
        theme = self._theme
        popup = QListWidget(self.window())
        popup.setObjectName("sheet_hits")
        popup.setAccessibleName(self._label)
        popup.setFocusPolicy(Qt.FocusPolicy.ClickFocus)
        popup.setFocusProxy(self)  # a click on the list must not end the typing
        popup.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        popup.setTextElideMode(Qt.TextElideMode.ElideRight)
        popup.setUniformItemSizes(True)
        popup.setFont(theme.font(Role.BODY))
        shade = theme.palette
        popup.setStyleSheet(
            f"QListWidget {{ background: {shade.surface}; color: {shade.ink};"
            f" border: 1px solid {shade.secondary}; outline: none; }}"
            f"QListWidget::item {{ height: {theme.px(_ROW)}px; padding-left: {theme.px(6)}px; }}"
            f"QListWidget::item:selected {{ background: {shade.accent};"
            f" color: {shade.on_accent}; }}"
        )
        popup.hide()
        popup.itemClicked.connect(self._on_clicked)
        return popup

    @property
    def choices(self) -> tuple[Choice, ...]:
        """What fits the text, best first."""
        return self._choices

    def chosen(self) -> Choice | None:
        """Return the choice the list stands on; None where nothing fits."""
        row = self.popup.currentRow()
        return self._choices[row] if 0 <= row < len(self._choices) else None

    def renew(self) -> None:
        """Forget the cell before and what fitted there."""
        super().renew()
        self._choices = ()
        self.popup.clear()

    def _search(self, text: str) -> None:
        self._choices = self._find(text, MOST_HITS)
        self.popup.clear()
        for choice in self._choices:
            label = f"{choice.name}   {choice.secondary}" if choice.secondary else choice.name
            self.popup.addItem(QListWidgetItem(label))
        self.popup.setCurrentRow(0)
        self.popup.setVisible(bool(self._choices))
        self._place()

    def _place(self) -> None:
        if not self._choices:
            return
        window = self.window()
        height = min(len(self._choices), _SHOWN) * self._theme.px(_ROW) + 2
        width = max(self.width(), self._theme.px(420))
        corner = self.mapTo(window, QPoint(0, self.height()))
        if corner.y() + height > window.height():
            above = self.mapTo(window, QPoint(0, 0)).y() - height
            corner.setY(max(above, 0))
        width = min(width, window.width())
        corner.setX(max(min(corner.x(), window.width() - width), 0))
        if self.popup.parentWidget() is not window:
            self.popup.setParent(window)  # the sheet was put into another window meanwhile
            self.popup.show()
        self.popup.setGeometry(corner.x(), corner.y(), width, height)
        self.popup.raise_()

    def _on_clicked(self, _item: QListWidgetItem) -> None:
        self.taken.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Walk the list on Up and Down; everything else is typing."""
        step = _STEPS.get(Qt.Key(event.key()))
        if step is None or not self._choices:
            super().keyPressEvent(event)
            return
        row = (self.popup.currentRow() + step) % len(self._choices)
        self.popup.setCurrentRow(row)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keep the list under the cell."""
        super().resizeEvent(event)
        self._place()

    def hideEvent(self, event: QHideEvent) -> None:
        """Take the list away with the editor."""
        super().hideEvent(event)
        self.popup.hide()
