"""What lies over the window when it is asked for: find anything, and the sheet of keys."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Protocol

from PySide6.QtCore import QObject

from workbench.storage.folding import folded
from workbench.storage.search import Search
from workbench.ui.actions import Menus
from workbench.ui.finder_sources import Sources, Thing, action_things
from workbench.ui.keys_sheet import KeyGroup, KeysSheet, key_group
from workbench.ui.places.desk.desk import Desk
from workbench.ui.places.desk.entries import ListedFormula, Section
from workbench.ui.places.shelf.keys import SHELF_KEYS
from workbench.ui.theme import Appearance, Theme
from workbench.words.catalogue import Words

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget

SETTINGS = ("name", "contact", "logo", "currency", "markets", "balances", "paper", "decimals")


class Ways(Protocol):
    """Where a thing that was found leads to."""

    desk: Desk

    def open_formula(self, key: str) -> None:
        """Open a formula."""

    def show_ingredient(self, key: str) -> None:
        """Show an ingredient."""

    def show_setting(self, name: str) -> None:
        """Show a setting."""


class WindowSheets(QObject):
    """Make both sheets when they are first asked for, and fill them with what is there now."""

    def __init__(
        self, window: QWidget, ways: Ways, menus: Menus, search: Search, appearance: Appearance
    ) -> None:
        super().__init__(window)
        self._window = window
        self._ways = ways
        self._menus = menus
        self._words: Words = menus.words
        self._appearance = appearance
        self._finder: object = None
        self._keys: KeysSheet | None = None
        self._sources = Sources(search, self._words, ways.show_ingredient)
        appearance.changed.connect(self._on_theme_changed)

    def find(self) -> None:
        """Show the line that finds anything."""
        from workbench.ui.finder import Finder

        if not isinstance(self._finder, Finder):
            self._finder = Finder(
                self._sources.find, self._words, self._appearance.theme, self._window
            )
        self._sources.set_things(self._things())
        self._finder.begin()

    def show_keys(self) -> None:
        """Show the sheet of keys, or take it away."""
        if self._keys is None:
            self._keys = KeysSheet(self._words, self._appearance.theme, self._window)
        say, desk = self._words.say, self._ways.desk
        self._keys.show_groups(
            (
                key_group(say("keys-window"), self._menus.actions),
                key_group(
                    say("keys-list"),
                    (*desk.versions.all(), *desk.list.actions_of_list.keyed()),
                ),
                KeyGroup(
                    say("keys-shelf"),
                    tuple((say(f"shelf-{name}"), keys) for name, keys in SHELF_KEYS.items()),
                ),
                key_group(say("keys-sheet"), desk.sheet.sheet_actions()),
            )
        )

    def _things(self) -> tuple[Thing, ...]:
        desk, say = self._ways.desk, self._words.say
        kinds = {name: say("find-kind", kind=name) for name in ("formula", "stock", "archived")}
        latest_first = sorted(desk.list.formulas, key=lambda row: row.edited_at, reverse=True)
        formulas = tuple(self._formula(row, kinds) for row in latest_first)
        actions = (
            *self._menus.actions,
            *desk.versions.all(),
            *desk.list.actions_of_list.all(),
            *desk.sheet.sheet_actions(),
        )
        settings = (
            Thing(
                say(f"studio-{name}"),
                say("find-kind", kind="setting"),
                partial(self._ways.show_setting, name),
                folded_name=folded(say(f"studio-{name}")),
            )
            for name in SETTINGS
        )
        return (*formulas, *action_things(actions, self._words), *settings)

    def _formula(self, row: ListedFormula, kinds: dict[str, str]) -> Thing:
        kind = "stock" if row.is_stock else "formula"
        if row.section is Section.ARCHIVED:
            kind = "archived"
        return Thing(
            row.name,
            kinds[kind],
            partial(self._ways.open_formula, row.key),
            ", ".join(row.tags),
            row.folded_name,
        )

    def _on_theme_changed(self, theme: Theme) -> None:
        for sheet in (self._finder, self._keys):
            if sheet is not None:
                sheet.set_theme(theme)  # type: ignore[attr-defined]
