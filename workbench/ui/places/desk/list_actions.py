"""What can be done with a formula: duplicate, archive, delete, see where it is used."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QMenu

from workbench.errors import WorkbenchError
from workbench.storage.formulas import DeletedFormula
from workbench.ui.places.desk.entries import ListedFormula, Section
from workbench.ui.places.desk.list_steps import ListSteps, Then
from workbench.ui.places.desk.list_view import ListView
from workbench.ui.places.desk.work import DeskWork

Act = Callable[[ListedFormula], None]
MOST_NAMED = 8


class ListActions(QObject):
    """Hold the actions on the open formula, and make the menu of any formula of the list."""

    changed = Signal()
    """Formulas came, went or moved: the list is read again."""
    made = Signal(str)
    """The key of a formula to open."""
    notes_wanted = Signal(str)
    """The key of the formula whose notes and tags are asked for."""

    def __init__(
        self, work: DeskWork, view: ListView, opened: Callable[[], ListedFormula | None]
    ) -> None:
        super().__init__(view)
        self._work = work
        self._view = view
        self._opened = opened
        self.steps = ListSteps(self)
        self._acts: dict[str, Act] = {
            "open": self._open,
            "duplicate": self.duplicate,
            "notes": lambda row: self.notes_wanted.emit(row.key),
            "used": self.tell_users,
            "archive": self.archive,
            "delete": self.delete,
        }
        self._actions: dict[str, QAction] = {}
        self._add("duplicate", "Ctrl+Shift+D")
        self._add("notes", "Ctrl+Shift+N")
        self._add("used", "Ctrl+Shift+U")
        self._add("archive", "")
        self._add("delete", "")
        # Elsewhere in the window this key deletes a line or a letter.
        self._delete_row = QAction(work.words.say("list-delete-row"), self)
        self._delete_row.setObjectName("list-delete-row")
        self._delete_row.setShortcut(QKeySequence("Del"))
        self._delete_row.setShortcutContext(Qt.ShortcutContext.WidgetShortcut)
        self._delete_row.triggered.connect(lambda _checked=False: self._delete_current())
        view.addAction(self._delete_row)
        self._menu = QMenu(view)
        self._menu.setObjectName("formula_list_menu")
        self.refresh()

    def all(self) -> tuple[QAction, ...]:
        """Return the actions on the open formula in the order of a menu."""
        return tuple(self._actions.values())

    def keyed(self) -> tuple[QAction, ...]:
        """Return every action that may have a key, the one of the list itself too."""
        return (*self.all(), self._delete_row)

    def refresh(self) -> None:
        """Name and allow what can be done with the open formula."""
        row = self._opened()
        for action in self._actions.values():
            action.setEnabled(row is not None)
        self._actions["archive"].setText(self._work.words.say(_archive_words(row)))

    def menu_of(self, row: ListedFormula) -> QMenu:
        """Return the menu of what can be done with a formula, each entry naming it."""
        menu, say = self._menu, self._work.words.say
        menu.clear()
        for name in self._acts:
            words = _archive_words(row) if name == "archive" else f"list-{name}"
            # An ampersand in a name is no mnemonic.
            text = say(f"{words}-named", name=row.name.replace("&", "&&"))
            action = menu.addAction(text)
            action.setObjectName(f"row-{name}")
            action.triggered.connect(lambda _checked=False, name=name: self.do(name, row))
        return menu

    def do(self, name: str, row: ListedFormula | None) -> None:
        """Do something with a formula; what cannot be done is told."""
        if row is None:
            return
        if self._work.studio.read_only and name in ("duplicate", "archive", "delete"):
            self._work.notices.inform(self._work.words.say("edit-read-only"))
            return
        try:
            self._acts[name](row)
        except WorkbenchError as error:
            self._work.notices.tell(error)

    def duplicate(self, row: ListedFormula) -> None:
        """Make a formula like this one, notes and tags too, under a name of its own; open it."""
        work = self._work
        work.tasks.flush()

        def copy() -> str:
            formulas = work.studio.formulas
            formula, _ = formulas.draft(row.key)
            name = work.words.say("list-copy-name", name=formula.name)
            key = formulas.create(name, replace(formula, name=name))
            formulas.set_tags(key, row.tags)
            formulas.set_notes(key, formulas.notes(row.key), "")
            return key

        def copied(key: str) -> None:
            self.made.emit(key)
            work.notices.inform(work.words.say("list-copied", name=row.name))

        self._do(copy, copied)

    def archive(self, row: ListedFormula) -> None:
        """Take a formula out of the list, or bring it back, as one step."""
        is_archived = row.section is Section.ARCHIVED
        told = "list-brought-back" if is_archived else "list-archived"
        step = "list-undo-bring-back" if is_archived else "list-undo-archive"

        def again(then: Then) -> None:
            self._archive(row, then, archived=not is_archived)

        def back(then: Then) -> None:
            self._archive(row, then, archived=is_archived)

        again(lambda: self._tell(told, row, self._step(step, row, back, again)))

    def delete(self, row: ListedFormula) -> None:
        """Delete a formula as one step, which brings it back as it was."""
        work = self._work
        held: list[tuple[DeletedFormula, bool]] = []

        def again(then: Then) -> None:
            work.tasks.flush()

            def deleted(gone: DeletedFormula) -> None:
                is_open = work.key == row.key
                held[:] = [(gone, is_open)]
                if is_open:
                    work.close()
                self.changed.emit()
                then()

            self._do(lambda: work.studio.formulas.delete(row.key), deleted)

        def back(then: Then) -> None:
            gone, was_open = held[0]

            def returned(_none: None) -> None:
                if was_open and not work.key:
                    self.made.emit(gone.key)
                self.changed.emit()
                then()

            self._do(lambda: work.studio.formulas.bring_back(gone), returned)

        again(
            lambda: self._tell(
                "list-deleted", row, self._step("list-undo-delete", row, back, again)
            )
        )

    def tell_users(self, row: ListedFormula) -> None:
        """Say which formulas use this one."""
        work, say = self._work, self._work.words.say

        def told(names: tuple[str, ...]) -> None:
            if not names:
                work.notices.inform(say("list-used-nowhere", name=row.name))
                return
            more = len(names) - MOST_NAMED
            text = say("list-used-in", name=row.name, users=names[:MOST_NAMED], more=max(more, 0))
            work.notices.inform(text)

        self._do(lambda: tuple(entry.name for entry in work.studio.formulas.used_in(row.key)), told)

    def bring_back_open(self) -> None:
        """Bring the open formula back from the archive."""
        row = self._opened()
        if row is not None and row.section is Section.ARCHIVED:
            self.do("archive", row)

    def _archive(self, row: ListedFormula, then: Then, *, archived: bool) -> None:
        def moved(_none: None) -> None:
            self.changed.emit()
            then()

        self._do(lambda: self._work.studio.formulas.archive(row.key, archived=archived), moved)

    def _step(
        self,
        words: str,
        row: ListedFormula,
        back: Callable[[Then], None],
        again: Callable[[Then], None],
    ) -> Then:
        """Add a step and return what takes it back; its notice goes when it was taken back."""
        notices = self._work.notices
        ways: list[Then] = []

        def back_and_told(then: Then) -> None:
            def after() -> None:
                then()
                notices.withdraw(ways[0])

            back(after)

        ways.append(
            self.steps.add(self._work.words.say(words, name=row.name), back_and_told, again)
        )
        return ways[0]

    def _tell(self, words: str, row: ListedFormula, undo: Then) -> None:
        self._work.notices.inform(self._work.words.say(words, name=row.name), undo, is_kept=True)

    def _open(self, row: ListedFormula) -> None:
        self.made.emit(row.key)

    def _delete_current(self) -> None:
        self.do("delete", self._view.current())

    def _do(self, job: Callable[[], object], done: Callable[..., None]) -> None:
        self._work.tasks.run(job, done, self._work.notices.tell)

    def _add(self, name: str, keys: str) -> None:
        action = QAction(self._work.words.say(f"list-{name}"), self)
        action.setObjectName(f"list-{name}")
        if keys:
            action.setShortcut(QKeySequence(keys))
        action.triggered.connect(lambda _checked=False: self.do(name, self._opened()))
        self._actions[name] = action


def _archive_words(row: ListedFormula | None) -> str:
    is_archived = row is not None and row.section is Section.ARCHIVED
    return "list-bring-back" if is_archived else "list-archive"
