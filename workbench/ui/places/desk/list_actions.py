"""What can be done with a formula of the list: duplicate, archive, delete, see where it is used."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QAction, QKeySequence

from workbench.errors import WorkbenchError
from workbench.storage.formulas import DeletedFormula
from workbench.ui.places.desk.entries import ListedFormula, Section
from workbench.ui.places.desk.list_view import ListView
from workbench.ui.places.desk.work import DeskWork

Act = Callable[[ListedFormula], None]
MOST_NAMED = 8


class ListActions(QObject):
    """Hold the actions on the formula the cursor of the list stands on."""

    changed = Signal()
    """Formulas came, went or moved: the list is read again."""
    made = Signal(str)
    """The key of a formula to open."""
    notes_wanted = Signal(str)
    """The key of the formula whose notes and tags are asked for."""

    def __init__(self, work: DeskWork, view: ListView) -> None:
        super().__init__(view)
        self._work = work
        self._view = view
        self._actions: dict[str, QAction] = {}
        self._add("open", "", self._open)
        self._add("duplicate", "Ctrl+Shift+D", self.duplicate)
        self._add("notes", "Ctrl+Shift+N", lambda row: self.notes_wanted.emit(row.key))
        self._add("used", "Ctrl+Shift+U", self.tell_users)
        self._add("archive", "", self.archive)
        self._add("delete", "Del", self.delete)
        # Elsewhere in the window this key deletes a line or a letter.
        self._actions["delete"].setShortcutContext(Qt.ShortcutContext.WidgetShortcut)
        selection = view.selectionModel()
        selection.currentChanged.connect(lambda *_rows: self.refresh())
        self.refresh()

    def all(self) -> tuple[QAction, ...]:
        """Return the actions in the order of a menu."""
        return tuple(self._actions.values())

    def refresh(self) -> None:
        """Name and allow what can be done with the formula the cursor stands on."""
        row = self._view.current()
        for action in self._actions.values():
            action.setEnabled(row is not None)
        is_archived = row is not None and row.section is Section.ARCHIVED
        say = self._work.words.say
        self._actions["archive"].setText(say("list-bring-back" if is_archived else "list-archive"))

    def duplicate(self, row: ListedFormula) -> None:
        """Make a formula like this one, under a name of its own, and open it."""
        work = self._work

        def copy() -> str:
            formula, _ = work.studio.formulas.draft(row.key)
            name = work.words.say("list-copy-name", name=formula.name)
            key = work.studio.formulas.create(name, replace(formula, name=name))
            if row.tags:
                work.studio.formulas.set_tags(key, row.tags)
            return key

        def copied(key: str) -> None:
            self.made.emit(key)
            work.notices.inform(work.words.say("list-copied", name=row.name))

        self._do(copy, copied)

    def archive(self, row: ListedFormula) -> None:
        """Take a formula out of the list, or bring it back; both can be undone."""
        is_archived = row.section is Section.ARCHIVED
        self._archive(row, archived=not is_archived)

    def delete(self, row: ListedFormula) -> None:
        """Delete a formula and offer to bring it back as it was."""
        work = self._work
        work.tasks.flush()

        def deleted(gone: DeletedFormula) -> None:
            is_open = work.key == row.key
            if is_open:
                work.close()
            self.changed.emit()
            work.notices.inform(
                work.words.say("list-deleted", name=row.name),
                lambda: self._bring_back(gone, is_open=is_open),
            )

        self._do(lambda: work.studio.formulas.delete(row.key), deleted)

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

    def _archive(self, row: ListedFormula, *, archived: bool) -> None:
        work = self._work

        def moved(_none: None) -> None:
            self.changed.emit()
            work.notices.inform(
                work.words.say("list-archived" if archived else "list-brought-back", name=row.name),
                lambda: self._archive(row, archived=not archived),
            )

        self._do(lambda: work.studio.formulas.archive(row.key, archived=archived), moved)

    def _bring_back(self, gone: DeletedFormula, *, is_open: bool) -> None:
        def back(_none: None) -> None:
            if is_open and not self._work.key:
                self.made.emit(gone.key)
            self.changed.emit()

        self._do(lambda: self._work.studio.formulas.bring_back(gone), back)

    def _open(self, row: ListedFormula) -> None:
        self.made.emit(row.key)

    def _do(self, job: Callable[[], object], done: Callable[..., None]) -> None:
        self._work.tasks.run(job, done, self._work.notices.tell)

    def _add(self, name: str, keys: str, act: Act) -> None:
        action = QAction(self._work.words.say(f"list-{name}"), self)
        action.setObjectName(f"list-{name}")
        if keys:
            action.setShortcut(QKeySequence(keys))
        action.triggered.connect(lambda _checked=False: self._on_triggered(act))
        self._actions[name] = action
        self._view.addAction(action)

    def _on_triggered(self, act: Act) -> None:
        row = self._view.current()
        if row is None:
            return
        if self._work.studio.read_only and act in (self.duplicate, self.archive, self.delete):
            self._work.notices.inform(self._work.words.say("edit-read-only"))
            return
        try:
            act(row)
        except WorkbenchError as error:
            self._work.notices.tell(error)
