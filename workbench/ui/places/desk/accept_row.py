"""The row in which a maker says why a caution may stand."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QWidget

from workbench.ui.places.desk.link_button import LinkButton

if TYPE_CHECKING:
    from PySide6.QtGui import QKeyEvent

    from workbench.words.catalogue import Words

LONGEST_REASON = 500


class AcceptRow(QWidget):
    """Take a reason: Enter keeps it, Esc leaves the caution as it was."""

    given = Signal(str)
    """The reason, never blank."""
    left = Signal()
    """The maker wants no reason kept."""

    def __init__(self, words: Words, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._reason = QLineEdit()
        self._reason.setObjectName("finding_reason")
        self._reason.setMaxLength(LONGEST_REASON)
        self._reason.setPlaceholderText(words.say("desk-finding-reason-hint"))
        self._reason.setAccessibleName(words.say("desk-finding-reason"))
        self._reason.returnPressed.connect(self._give)
        self._keep = LinkButton(words.say("desk-finding-reason-keep"), "finding_reason_keep")
        self._keep.clicked.connect(lambda *_checked: self._give())
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.addWidget(self._reason, 1)
        row.addWidget(self._keep)
        self._row = row
        self.hide()

    @property
    def stops(self) -> tuple[QWidget, QWidget]:
        """The widgets at which Tab stops, in order."""
        return self._reason, self._keep

    def set_gap(self, gap: int) -> None:
        """Take another distance between reason and button."""
        self._row.setSpacing(gap)

    def begin(self) -> None:
        """Ask for a reason."""
        self._reason.clear()
        self.show()
        self._reason.setFocus(Qt.FocusReason.OtherFocusReason)

    def _give(self) -> None:
        reason = " ".join(self._reason.text().split())
        if reason:
            self.hide()
            self.given.emit(reason)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Esc leaves it."""
        if event.key() == Qt.Key.Key_Escape:
            self.hide()
            self.left.emit()
        else:
            super().keyPressEvent(event)
