"""The menus and their keys."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING, Protocol

from PySide6.QtGui import QAction, QKeySequence

from workbench.formula.formula import Formula
from workbench.ui.session import Session
from workbench.ui.theme import SchemeChoice
from workbench.words.catalogue import Words

if TYPE_CHECKING:
    from PySide6.QtWidgets import QMainWindow, QMenu

Act = Callable[[], object]


class FileJobs(Protocol):
    """What the file menu asks for."""

    def open_studio(self) -> None:
        """Ask which studio to open."""

    def import_formula(self) -> None:
        """Ask which document to take in."""

    def export_formula(self) -> None:
        """Ask where to export the open formula."""

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


class Menus:
    """Fill the menu bar of a window; the desk's own keys stay with the desk."""

    def __init__(self, window: QMainWindow, words: Words) -> None:
        self._window = window
        self._words = words

    def add_file(self, files: FileJobs, worksheet: Act) -> None:
        """Add the file menu."""
        menu = self._menu("menu-file")
        self._add(menu, "action-open", "Ctrl+O", files.open_studio)
        menu.addSeparator()
        self._add(menu, "action-import", "Ctrl+I", files.import_formula)
        self._add(menu, "action-export", "Ctrl+E", files.export_formula)
        self._add(menu, "action-backup", "", files.backup)
        self._add(menu, "action-restore", "", files.restore)
        menu.addSeparator()
        self._add(menu, "action-worksheet", "Ctrl+P", worksheet)
        menu.addSeparator()
        self._add(menu, "action-quit", "Ctrl+Q", self._window.close)

    def add_edit(self, session: Session[Formula]) -> None:
        """Add the edit menu with its named steps."""
        menu = self._menu("menu-edit")
        stack = session.stack
        undo = stack.createUndoAction(self._window, self._words.say("action-undo"))
        undo.setShortcuts(QKeySequence.keyBindings(QKeySequence.StandardKey.Undo))
        redo = stack.createRedoAction(self._window, self._words.say("action-redo"))
        redo.setShortcuts([QKeySequence("Ctrl+Shift+Z"), QKeySequence("Ctrl+Y")])
        menu.addAction(undo)
        menu.addAction(redo)

    def add_view(self, view: ViewJobs) -> None:
        """Add the view menu."""
        menu = self._menu("menu-view")
        for choice in SchemeChoice:
            self._add(
                menu,
                f"action-scheme-{choice.value}",
                "",
                partial(view.choose_scheme, choice),
            )
        menu.addSeparator()
        self._add(menu, "action-larger", "Ctrl++", lambda: view.step_text_size(1))
        self._add(menu, "action-smaller", "Ctrl+-", lambda: view.step_text_size(-1))

    def _menu(self, name: str) -> QMenu:
        return self._window.menuBar().addMenu(self._words.say(name))

    def _add(self, menu: QMenu, name: str, keys: str, act: Act) -> None:
        action = QAction(self._words.say(name), self._window)
        action.setObjectName(name)
        if keys:
            action.setShortcut(QKeySequence(keys))
        action.triggered.connect(lambda _checked=False: act())
        menu.addAction(action)
