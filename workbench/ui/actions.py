"""The menus and their keys."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import partial
from typing import TYPE_CHECKING, Protocol

from PySide6.QtGui import QAction, QActionGroup, QKeySequence, QUndoGroup

from workbench.ui.theme import SchemeChoice
from workbench.words.catalogue import Words

if TYPE_CHECKING:
    from PySide6.QtWidgets import QMainWindow, QMenu

Act = Callable[[], object]


class FileJobs(Protocol):
    """What the file menu asks for."""

    def open_studio(self) -> None:
        """Ask which studio to open."""

    def open_sample(self) -> None:
        """Open the sample studio."""

    def import_formula(self) -> None:
        """Ask which document to take in."""

    def export_formula(self) -> None:
        """Ask where to export the open formula."""

    def import_sheet(self) -> None:
        """Ask which old sheet to bring in."""

    def export_sheet(self) -> None:
        """Ask where to write the open formula as a sheet."""

    def backup(self) -> None:
        """Ask where to back the studio up."""

    def restore(self) -> None:
        """Ask which backup to restore."""


class ViewJobs(Protocol):
    """What the view menu asks for."""

    def choose_scheme(self, choice: SchemeChoice) -> None:
        """Take a scheme."""

    def step_text_size(self, steps: int) -> None:
        """Change the text size."""

    def reset_text_size(self) -> None:
        """Put the text back to its usual size."""


class Menus:
    """Fill the menu bar of a window; the desk's own keys stay with the desk."""

    def __init__(self, window: QMainWindow, words: Words) -> None:
        self._window = window
        self.words = words
        self._added: list[QAction] = []
        self._schemes: dict[SchemeChoice, QAction] = {}

    @property
    def actions(self) -> tuple[QAction, ...]:
        """Every action of the menus, in their order."""
        return tuple(self._added)

    def add_file(self, files: FileJobs, new: Act, worksheet: Act) -> None:
        """Add the file menu."""
        menu = self._menu("menu-file")
        self._add(menu, "action-new", "Ctrl+N", new)
        self._add(menu, "action-open", "Ctrl+O", files.open_studio)
        self._add(menu, "action-sample", "", files.open_sample)
        menu.addSeparator()
        self._add(menu, "action-import", "Ctrl+I", files.import_formula)
        self._add(menu, "action-export", "Ctrl+E", files.export_formula)
        self._add(menu, "action-sheet-import", "Ctrl+Shift+I", files.import_sheet)
        self._add(menu, "action-sheet-export", "Ctrl+Shift+E", files.export_sheet)
        self._add(menu, "action-backup", "", files.backup)
        self._add(menu, "action-restore", "", files.restore)
        menu.addSeparator()
        self._add(menu, "action-worksheet", "Ctrl+P", worksheet)
        menu.addSeparator()
        self._add(menu, "action-quit", "Ctrl+Q", self._window.close)

    def add_edit(self, steps: QUndoGroup, find: Act, find_formula: Act) -> None:
        """Add the edit menu with the named steps of the place the maker is in."""
        menu = self._menu("menu-edit")
        undo = steps.createUndoAction(self._window, self.words.say("action-undo"))
        undo.setObjectName("action-undo")
        undo.setShortcuts(QKeySequence.keyBindings(QKeySequence.StandardKey.Undo))
        redo = steps.createRedoAction(self._window, self.words.say("action-redo"))
        redo.setObjectName("action-redo")
        redo.setShortcuts([QKeySequence("Ctrl+Shift+Z"), QKeySequence("Ctrl+Y")])
        for action in (undo, redo):
            # Its text names the step as well; where it is named by itself, this is its name.
            action.setProperty("plain_name", self.words.say(action.objectName()))
            menu.addAction(action)
            self._added.append(action)
        menu.addSeparator()
        self._add(menu, "action-find", "Ctrl+K", find)
        self._add(menu, "action-find-formula", "Ctrl+F", find_formula)

    def add_formula(self, actions: Iterable[QAction], shopping: Act) -> None:
        """Add the menu of what can be done with a formula of the list."""
        menu = self._menu("menu-formula")
        for action in actions:
            menu.addAction(action)
        menu.addSeparator()
        self._add(menu, "action-shopping", "", shopping)

    def add_view(self, view: ViewJobs, places: Iterable[tuple[str, str, Act]]) -> None:
        """Add the view menu: the places with their keys, the scheme, the text size."""
        menu = self._menu("menu-view")
        for name, keys, show in places:
            self._add(menu, f"place-{name}", keys, show)
        menu.addSeparator()
        schemes = QActionGroup(self._window)
        for choice in SchemeChoice:
            choose = partial(view.choose_scheme, choice)
            action = self._add(menu, f"action-scheme-{choice.value}", "", choose)
            action.setCheckable(True)
            schemes.addAction(action)
            self._schemes[choice] = action
        menu.addSeparator()
        self._add(menu, "action-larger", "Ctrl++", lambda: view.step_text_size(1))
        self._add(menu, "action-smaller", "Ctrl+-", lambda: view.step_text_size(-1))
        self._add(menu, "action-usual-size", "Ctrl+0", view.reset_text_size)

    def tick_scheme(self, choice: SchemeChoice) -> None:
        """Tick the scheme that is in use."""
        self._schemes[choice].setChecked(True)

    def add_help(self, keys: Act) -> None:
        """Add the help menu."""
        menu = self._menu("menu-help")
        self._add(menu, "action-keys", "F1", keys)

    def _menu(self, name: str) -> QMenu:
        return self._window.menuBar().addMenu(self.words.say(name))

    def _add(self, menu: QMenu, name: str, keys: str, act: Act) -> QAction:
        action = QAction(self.words.say(name), self._window)
        action.setObjectName(name)
        if keys:
            action.setShortcut(QKeySequence(keys))
        action.triggered.connect(lambda _checked=False: act())
        menu.addAction(action)
        self._added.append(action)
        return action
