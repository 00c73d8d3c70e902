"""Keeping a version: a reason, a hint about what was decided since, and Enter."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QSizePolicy,
    QVBoxLayout,
)

from workbench.errors import WorkbenchError
from workbench.formula.decisions import decisions
from workbench.formula.versions import Version, same_design
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.theme import Theme
from workbench.words.rework import decisions_text

if TYPE_CHECKING:
    from PySide6.QtGui import QKeyEvent

LONGEST_REASON = 300
_ROOM_FOR_WHY = 480


class KeepVersion(QFrame):
    """Ask above the sheet why a version is kept, and keep it."""

    kept = Signal(int)
    """The number of the version that was kept."""
    left = Signal()
    """The question was put away, with or without a version."""

    def __init__(self, work: DeskWork, theme: Theme) -> None:
        super().__init__()
        self._work = work
        self._words = work.words
        self._latest: Version | None = None
        self.setObjectName("keep_version")
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self._build()
        self.set_theme(theme)
        self.hide()
        work.opened.connect(lambda _key: self.hide())
        work.assessed.connect(lambda _assessment: self._show_hint())

    def set_theme(self, theme: Theme) -> None:
        """Take the sizes of another theme."""
        self._theme = theme
        side = theme.px(20)
        self._column.setContentsMargins(side, theme.px(10), side, theme.px(12))
        self._column.setSpacing(theme.px(4))
        self._row.setSpacing(theme.px(12))

    def begin(self) -> None:
        """Ask, with an empty reason."""
        work = self._work
        if work.studio.read_only:
            work.notices.inform(self._words.say("edit-read-only"))
            return
        work.tasks.flush()
        try:
            numbers = work.studio.versions.numbers(work.key)
            self._latest = work.studio.versions.get(work.key, numbers[-1]) if numbers else None
        except WorkbenchError as error:
            work.notices.tell(error)
            return
        number = 1 if self._latest is None else self._latest.number + 1
        title = self._words.say("versions-keep-title", number=number)
        self._title.setText(title)
        self.setAccessibleName(title)
        self._reason.clear()
        # In a low window with large letters the sheet under it would be gone.
        self._why.setVisible(self.window().height() >= self._theme.px(_ROOM_FOR_WHY))
        self.show()
        self._show_hint()
        self._reason.setFocus(Qt.FocusReason.OtherFocusReason)

    def keep(self) -> None:
        """Keep the draft as it is stored as the next version."""
        work, words = self._work, self._words
        reason = " ".join(self._reason.text().split())
        if not reason:
            self._hint.setText(words.say("versions-keep-needs-reason"))
            self._reason.setFocus(Qt.FocusReason.OtherFocusReason)
            return
        work.tasks.flush()
        key, now, shelf = work.key, work.clock().astimezone(), work.shelf
        name = work.formula.name

        def kept(version: Version) -> None:
            self.put_away()
            work.saved.emit(key)
            self.kept.emit(version.number)
            work.notices.inform(words.say("versions-kept", number=version.number, name=name))

        work.tasks.run(
            lambda: work.studio.versions.make_version(key, reason, now, shelf),
            kept,
            work.notices.tell,
        )

    def put_away(self) -> None:
        """Ask no longer."""
        self.hide()
        self.left.emit()

    @property
    def hint(self) -> str:
        """What is said about the decisions since the last version."""
        return self._hint.text()

    def _show_hint(self) -> None:
        if self.isHidden():  # nobody reads it otherwise, and every edit would pay for it
            return
        latest, work = self._latest, self._work
        if latest is None:
            text = self._words.say("versions-keep-first")
        elif same_design(latest.formula, work.formula):
            text = self._words.say("versions-keep-same", number=latest.number)
        else:
            found = decisions(latest.formula, work.formula, work.shelf)
            text = decisions_text(found, work.shelf, self._words)
        self._hint.setText(text)
        self._hint.setVisible(bool(text))
        self._reason.setAccessibleDescription(text)

    def _build(self) -> None:
        say = self._words.say
        self._title = QLabel()
        self._title.setProperty("role", "strong")
        self._why = QLabel(say("versions-keep-why"))
        self._why.setProperty("role", "secondary")
        self._why.setWordWrap(True)
        self.setAccessibleDescription(self._why.text())
        self._reason = QLineEdit()
        self._reason.setObjectName("keep_version_reason")
        self._reason.setAccessibleName(say("versions-keep-reason"))
        self._reason.setPlaceholderText(say("versions-keep-example"))
        self._reason.setMaxLength(LONGEST_REASON)
        self._reason.returnPressed.connect(self.keep)
        label = QLabel(say("versions-keep-reason"))
        label.setProperty("role", "secondary")
        label.setBuddy(self._reason)
        self._keep = QPushButton(say("versions-keep-do"))
        self._keep.setObjectName("keep_version_do")
        self._keep.setProperty("role", "primary")
        self._keep.clicked.connect(lambda *_checked: self.keep())
        self._cancel = QPushButton(say("versions-keep-cancel"))
        self._cancel.setObjectName("keep_version_cancel")
        self._cancel.clicked.connect(lambda *_checked: self.put_away())
        self._hint = QLabel()
        self._hint.setObjectName("keep_version_hint")
        self._hint.setWordWrap(True)
        self._row = QHBoxLayout()
        for widget in (label, self._reason, self._cancel, self._keep):
            self._row.addWidget(widget, 1 if widget is self._reason else 0)
        self._column = QVBoxLayout(self)
        for part in (self._title, self._why, self._hint):
            self._column.addWidget(part)
        self._column.addLayout(self._row)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Esc keeps nothing."""
        if event.key() == Qt.Key.Key_Escape:
            self.put_away()
        else:
            super().keyPressEvent(event)
