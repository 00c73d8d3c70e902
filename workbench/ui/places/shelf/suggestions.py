"""The list of names that a typed text may mean, under the line it is typed in."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QStringListModel, Qt
from PySide6.QtWidgets import QCompleter, QLineEdit, QListView

from workbench.ui.theme import Theme

MOST_SHOWN = 8
_ROW, _SIDE = 28, 8


class Suggestions(QCompleter):
    """Offer names on a solid ground, the one the cursor stands on marked."""

    def __init__(self, edit: QLineEdit) -> None:
        super().__init__(edit)
        self._names = QStringListModel(self)
        self._list = QListView()
        self._list.setObjectName("shelf_suggestions")
        self._list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._list.setTextElideMode(Qt.TextElideMode.ElideRight)
        self._list.setUniformItemSizes(True)
        self._list.setMouseTracking(True)
        self.setModel(self._names)
        self.setPopup(self._list)
        self.setCompletionMode(QCompleter.CompletionMode.UnfilteredPopupCompletion)
        self.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
        self.setMaxVisibleItems(MOST_SHOWN)
        self._list.setAccessibleName(edit.accessibleName())
        edit.setCompleter(self)

    @property
    def names(self) -> tuple[str, ...]:
        """What is offered, best first."""
        return tuple(self._names.stringList())

    @property
    def is_open(self) -> bool:
        """Whether the list is on screen."""
        return self._list.isVisible()

    def offer(self, names: Sequence[str]) -> None:
        """Offer names in the place of those before."""
        self._names.setStringList(list(names))

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        shade = theme.palette
        self._list.setFont(theme.font())
        self._list.setStyleSheet(
            f"QListView {{ background: {shade.surface}; color: {shade.ink};"
            f" border: 1px solid {shade.secondary}; outline: none; }}"
            f"QListView::item {{ height: {theme.px(_ROW)}px; padding-left: {theme.px(_SIDE)}px; }}"
            f"QListView::item:hover {{ background: {shade.wash}; color: {shade.ink}; }}"
            f"QListView::item:selected {{ background: {shade.accent};"
            f" color: {shade.on_accent}; }}"
        )
