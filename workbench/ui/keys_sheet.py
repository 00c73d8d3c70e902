"""The sheet of keys, made of the actions that listen to them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QLayout,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from workbench.ui.finder_sources import plain, shown_keys
from workbench.ui.sheet_over import SheetOver
from workbench.ui.theme import Theme
from workbench.words.catalogue import Words

if TYPE_CHECKING:
    from PySide6.QtGui import QAction, QKeyEvent

KEY = "F1"
_WIDTH = 860
_COLUMNS = 2


@dataclass(frozen=True, slots=True)
class KeyGroup:
    """Hold what a part of the window listens to: a heading, and (what it does, its keys)."""

    title: str
    rows: tuple[tuple[str, str], ...]


def key_group(title: str, actions: Iterable[QAction]) -> KeyGroup:
    """Return the keys of actions, each action once; what has no key is left out."""
    rows: dict[str, str] = {}
    for action in actions:
        keys = shown_keys(action.shortcuts())
        name = str(action.property("plain_name") or plain(action.text()))
        if keys and name:
            rows.setdefault(name, keys)
    return KeyGroup(title, tuple(rows.items()))


class KeysSheet(SheetOver):
    """List every key, part by part."""

    def __init__(self, words: Words, theme: Theme, window: QWidget) -> None:
        super().__init__("keys_sheet", words.say("keys-title"), theme, window)
        self._held: QWidget | None = None
        self._title = QLabel(words.say("keys-title"))
        self._title.setProperty("role", "title")
        self._hint = QLabel(words.say("keys-hint"))
        self._hint.setProperty("role", "small")
        self._scroll = QScrollArea()
        self._scroll.setObjectName("keys_scroll")
        self._scroll.setAccessibleName(words.say("keys-title"))
        self._scroll.setWidgetResizable(True)
        self._scroll.setFrameShape(QFrame.Shape.NoFrame)
        self._scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._scroll.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self._column = QVBoxLayout(self)
        for widget in (self._title, self._hint):
            self._column.addWidget(widget)
        self._column.addWidget(self._scroll, 1)
        self.set_theme(theme)

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._theme = theme
        pad = theme.px(20)
        self._column.setContentsMargins(pad, theme.px(14), pad, theme.px(14))
        self._column.setSpacing(theme.px(8))
        self.dress(theme, _WIDTH)

    def show_groups(self, groups: Iterable[KeyGroup]) -> None:
        """Show the keys of the parts, or take the sheet away when it is there."""
        if self.isVisible():
            self.leave()
            return
        held = QWidget()
        held.setObjectName("sheet_over_held")
        row = QHBoxLayout(held)
        row.setContentsMargins(0, 0, self._theme.px(8), 0)
        row.setSpacing(self._theme.px(36))
        filled = tuple(group for group in groups if group.rows)
        is_narrow = self._window.width() < self._theme.px(_WIDTH)
        for column in (filled,) if is_narrow else _parted(filled):
            row.addLayout(self._laid(column), 1)
        self._held = held
        self._scroll.setWidget(held)
        self.rise(self._scroll)
        held.setAccessibleName(
            "\n".join(f"{name}: {keys}" for group in groups for name, keys in group.rows)
        )

    def _wanted_height(self, width: int, layout: QLayout) -> int:
        held = self._held.layout() if self._held else None
        if held is None:
            return super()._wanted_height(width, layout)
        around = layout.contentsMargins()
        inside = width - around.left() - around.right() - self._theme.px(12)
        keys = held.totalHeightForWidth(inside)
        head = self._title.sizeHint().height() + self._hint.sizeHint().height()
        return keys + head + around.top() + around.bottom() + 3 * layout.spacing()

    def _laid(self, groups: tuple[KeyGroup, ...]) -> QGridLayout:
        grid = QGridLayout()
        grid.setHorizontalSpacing(self._theme.px(16))
        grid.setVerticalSpacing(self._theme.px(4))
        grid.setColumnStretch(0, 1)
        place = 0
        for group in groups:
            head = QLabel(group.title)
            head.setProperty("role", "heading")
            head.setContentsMargins(0, self._theme.px(8) if place else 0, 0, 0)
            grid.addWidget(head, place, 0, 1, 2)
            for name, keys in group.rows:
                place += 1
                said, key = QLabel(name), QLabel(keys)
                said.setWordWrap(True)
                key.setProperty("role", "strong")
                grid.addWidget(said, place, 0)
                grid.addWidget(key, place, 1)
            place += 1
        grid.setRowStretch(place, 1)
        return grid

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Take the sheet away on the key that showed it."""
        if event.key() == Qt.Key.Key_F1:
            self.leave()
            event.accept()
            return
        super().keyPressEvent(event)


def _parted(groups: tuple[KeyGroup, ...]) -> tuple[tuple[KeyGroup, ...], ...]:
    """Part groups into columns of about the same height, in their order."""
    if not groups:
        return ()
    half = sum(len(group.rows) + 2 for group in groups) / _COLUMNS
    left: list[KeyGroup] = []
    height = 0.0
    for place, group in enumerate(groups):
        tall = len(group.rows) + 2
        if left and height + tall / 2 > half:
            return tuple(left), groups[place:]
        left.append(group)
        height += tall
    return (tuple(left),)
