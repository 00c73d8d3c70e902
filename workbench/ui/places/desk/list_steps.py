"""What was done to the list of formulas, as steps that undo takes back."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QUndoCommand, QUndoStack
from PySide6.QtWidgets import QApplication, QWidget
from shiboken6 import isValid

Then = Callable[[], None]
Act = Callable[[Then], None]
"""Do something beside the window, and call what follows once it is done."""


class ListSteps(QObject):
    """Keep the steps of the list apart from those of a draft, which end with the draft."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.stack = QUndoStack(self)

    def add(self, text: str, back: Act, again: Act) -> Then:
        """Take a step that was done, named by a menu phrase; return what takes it back."""
        step = _Step(text, back, again)
        self.stack.push(step)

        def take_back() -> None:
            place = self.stack.index() - 1
            if place >= 0 and self.stack.command(place) is step:
                self.stack.undo()
            else:
                step.undo()

        return take_back


class _Step(QUndoCommand):
    """Take something back and do it again, each only where it holds."""

    def __init__(self, text: str, back: Act, again: Act) -> None:
        super().__init__(text)
        self._back = back
        self._again = again
        self._is_done = True

    def redo(self) -> None:
        """Do it again; the push calls this for what is done already."""
        if not self._is_done:
            self._again(lambda: self._note(is_done=True))

    def undo(self) -> None:
        """Take it back, where it was not taken back in another way."""
        if self._is_done:
            self._back(lambda: self._note(is_done=False))

    def _note(self, *, is_done: bool) -> None:
        self._is_done = is_done


class DeskSteps(QObject):
    """Choose what Undo reaches on the Desk: the draft, or the list.

    It is the list while the list has the focus, after an act in the list until the draft is
    edited, and while the draft has no steps.
    """

    changed = Signal()
    """Another stack is the active one."""

    def __init__(self, draft: QUndoStack, of_list: QUndoStack, panel: QWidget) -> None:
        super().__init__(panel)
        self._draft = draft
        self._of_list = of_list
        self._panel = panel
        self._latest = draft
        self._is_in_list = False
        self.active = draft
        draft.indexChanged.connect(lambda _index: self._on_moved(draft))
        of_list.indexChanged.connect(lambda _index: self._on_moved(of_list))
        application = QApplication.instance()
        if isinstance(application, QApplication):
            application.focusChanged.connect(self._on_focus_changed)

    def _on_moved(self, stack: QUndoStack) -> None:
        # A stack that goes with the window tells of that as well.
        if not isValid(self._draft) or not isValid(self._of_list):
            return
        if stack.count():
            self._latest = stack
        self._choose()

    def _on_focus_changed(self, _before: QWidget | None, now: QWidget | None) -> None:
        # A menu takes the focus as well; what it offers must not change while it is open.
        desk = self._panel.parentWidget()
        if now is None or desk is None or not self._panel.window().isAncestorOf(now):
            return
        self._is_in_list = self._panel.isAncestorOf(now)
        self._choose()

    def _choose(self) -> None:
        is_list = self._is_in_list or self._latest is self._of_list or not self._draft.count()
        active = self._of_list if is_list and self._of_list.count() else self._draft
        if active is not self.active:
            self.active = active
            self.changed.emit()
