"""What leads to versions: the keys, the question above the sheet, and the page."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QAction, QKeySequence

from workbench.formula.formula import Formula
from workbench.ui.places.desk.keep_version import KeepVersion
from workbench.ui.places.desk.versions_page import VersionsPage
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.theme import Theme

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget

KEEP_KEY, SHOW_KEY = "Ctrl+S", "Ctrl+Shift+S"
Make = Callable[[Formula], bool]


class VersionWays(QObject):
    """Hold the page and the question, and the actions that open them."""

    page_wanted = Signal()
    """The page of versions is to be shown."""
    desk_wanted = Signal()
    """The Desk is to be shown, which the maker is not on."""
    left = Signal()
    """The maker goes back to the sheet."""
    put_away = Signal()
    """Nothing is asked above the sheet any more."""

    def __init__(self, work: DeskWork, theme: Theme, desk: QWidget, make: Make) -> None:
        """Take the work, and what stores a new formula and opens it."""
        super().__init__(desk)
        self._work = work
        self._desk = desk
        self._make = make
        self.page = VersionsPage(work, theme)
        self.keep = KeepVersion(work, theme)
        self._actions: list[QAction] = []
        self._add("versions-keep", KEEP_KEY, self.ask_to_keep)
        self._add("versions-show", SHOW_KEY, self._show)
        self.page.keep_asked.connect(self.ask_to_keep)
        self.page.branched.connect(self._on_branched)
        self.page.left.connect(self.left)
        self.keep.left.connect(self.put_away)
        work.opened.connect(lambda _key: self.refresh())
        self.refresh()

    def all(self) -> tuple[QAction, ...]:
        """Return the actions in the order of a menu."""
        return tuple(self._actions)

    def refresh(self) -> None:
        """Allow what can be done while a formula is open."""
        for action in self._actions:
            action.setEnabled(bool(self._work.key))

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self.page.set_theme(theme)
        self.keep.set_theme(theme)

    def ask_to_keep(self) -> None:
        """Ask why a version is kept."""
        self._come()
        self.keep.begin()

    def _show(self) -> None:
        self._come()
        self.page_wanted.emit()
        self.page.begin()

    def _come(self) -> None:
        if not self._desk.isVisible():
            self.desk_wanted.emit()

    def _on_branched(self, formula: Formula, notes: str) -> None:
        work = self._work
        if not self._make(formula):
            return
        work.begin_with_notes(notes)
        work.notices.inform(work.words.say("versions-branched", name=work.formula.name))
        self.left.emit()

    def _add(self, name: str, keys: str, act: Callable[[], object]) -> None:
        action = QAction(self._work.words.say(name), self._desk)
        action.setObjectName(name)
        action.setShortcut(QKeySequence(keys))
        action.triggered.connect(lambda _checked=False: act())
        self._desk.addAction(action)
        self._actions.append(action)
