"""What is being edited: one immutable value and the steps that undo takes back."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from typing import Generic, TypeVar

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QUndoCommand, QUndoStack

T = TypeVar("T")


class Session(QObject, Generic[T]):
    """Hold one immutable value; every change of it goes through `edit` and can be undone."""

    changed = Signal(object, object)
    """The value before and the value after, on an edit, an undo, a redo or a load."""

    def __init__(self, value: T, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.stack = QUndoStack(self)
        self._value = value
        self._is_showing = False

    @property
    def value(self) -> T:
        """The value as it is now."""
        return self._value

    def edit(
        self, text: str, change: Callable[[T], T], *, merge_key: Hashable | None = None
    ) -> bool:
        """Change the value as one undo step named by a menu phrase; tell whether it changed.

        Steps in a row with the same merge key become one, as for a slider. What `change` raises
        leaves value and steps as they were.
        """
        self._refuse_within_change()
        after = change(self._value)  # all checking happens here, before the push
        if after == self._value:
            return False
        self.stack.push(_Replace(self, self._value, after, text, merge_key))
        return True

    def load(self, value: T) -> None:
        """Show another value from outside; the steps so far belong to the old one and go."""
        self._refuse_within_change()
        self.stack.clear()
        self.show(value)

    def show(self, value: T) -> None:
        """Take the value and tell of it; only for the undo step, everything else edits."""
        self._refuse_within_change()
        before, self._value = self._value, value
        self._is_showing = True
        try:
            self.changed.emit(before, value)
        finally:
            self._is_showing = False

    def _refuse_within_change(self) -> None:
        # A push from within a push would put the steps in the wrong order without a word.
        if self._is_showing:
            raise RuntimeError("the value cannot be changed while its change is being told")


class _Replace(QUndoCommand, Generic[T]):
    """Put one value in the place of another: the only command there is."""

    def __init__(
        self, session: Session[T], before: T, after: T, text: str, merge_key: Hashable | None
    ) -> None:
        super().__init__(text)
        self._session = session
        self._before = before
        self.after = after
        self.merge_key = merge_key

    def redo(self) -> None:
        """Show the value after; called at once by the push."""
        self._session.show(self.after)

    def undo(self) -> None:
        """Show the value before."""
        self._session.show(self._before)

    def id(self) -> int:
        """Return -1 for a step that stands alone, which Qt never merges."""
        return -1 if self.merge_key is None else 1

    def mergeWith(self, other: QUndoCommand) -> bool:
        """Take the newer step of the same key into this one."""
        if not isinstance(other, _Replace) or other.merge_key != self.merge_key:
            return False
        self.after = other.after
        self.setObsolete(self.after == self._before)  # back where it began: the step goes
        return True
