"""The total, said to assistive technology when an edit has changed it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer
from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget

    from workbench.ui.places.desk.rows import SheetRow
    from workbench.words.catalogue import Words

_AFTER_MS = 600


class SpokenTotal(QObject):
    """Announce the total politely, once the maker pauses; only when it is another than before."""

    def __init__(self, words: Words, view: QWidget) -> None:
        super().__init__(view)
        self._words = words
        self._view = view
        self._said = ""
        self._next = ""
        self._timer = QTimer(self, singleShot=True, interval=_AFTER_MS)
        self._timer.timeout.connect(self._say)

    @property
    def said(self) -> str:
        """What was announced last."""
        return self._said

    def hear(self, total: SheetRow) -> None:
        """Take the row of the total after an edit."""
        message = "sheet-announced-off" if total.alarm else "sheet-announced"
        self._next = self._words.say(message, percent=total.percent, alarm=total.alarm)
        if self._next != self._said:
            self._timer.start()

    def begin(self, total: SheetRow) -> None:
        """Take the total of a draft that was only just opened, which needs no announcing."""
        self._timer.stop()
        message = "sheet-announced-off" if total.alarm else "sheet-announced"
        self._said = self._words.say(message, percent=total.percent, alarm=total.alarm)

    def _say(self) -> None:
        self._said = self._next
        event = QAccessibleAnnouncementEvent(self._view, self._said)
        event.setPoliteness(QAccessible.AnnouncementPoliteness.Polite)
        QAccessible.updateAccessibility(event)
