"""The editor of a rule of the maker's own, judged while it is typed."""

from __future__ import annotations

import json

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPlainTextEdit, QPushButton, QVBoxLayout, QWidget

from workbench.errors import WorkbenchError
from workbench.ui.places.desk.link_button import LinkButton
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.places.studio.held import HeldSettings
from workbench.ui.theme import Theme

PAUSE_MS = 250


class RuleEditor(QWidget):
    """Write one rule; what is wrong stands under the text, and only a good one is kept."""

    kept = Signal(str)
    """The key of a rule that was stored."""
    discarded = Signal()

    def __init__(self, work: DeskWork, held: HeldSettings) -> None:
        super().__init__()
        self._work = work
        self._held = held
        self._key = ""
        self.is_writing = False
        say = work.words.say
        label = QLabel(say("own-rules-text"))
        label.setProperty("role", "small")
        self.edit = QPlainTextEdit()
        self.edit.setObjectName("own_rule_text")
        self.edit.setAccessibleName(label.text())
        self.edit.setTabChangesFocus(True)
        label.setBuddy(self.edit)
        self.said = QLabel()
        self.said.setObjectName("own_rule_said")
        self.said.setWordWrap(True)
        self.said.setTextFormat(Qt.TextFormat.PlainText)
        keep = QPushButton(say("own-rules-keep"))
        keep.setObjectName("own_rule_keep")
        keep.setProperty("role", "primary")
        keep.clicked.connect(lambda *_checked: self.keep())
        discard = LinkButton(say("own-rules-discard"), "own_rule_discard")
        discard.clicked.connect(lambda *_checked: self._discard())
        self._buttons = QHBoxLayout()
        self._buttons.addWidget(keep)
        self._buttons.addWidget(discard)
        self._buttons.addStretch(1)
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.addWidget(label)
        self._column.addWidget(self.edit, 1)
        self._column.addWidget(self.said)
        self._column.addLayout(self._buttons)
        self._pause = QTimer(self, singleShot=True, interval=PAUSE_MS)
        self._pause.timeout.connect(self.judge)
        self.edit.textChanged.connect(self._pause.start)

    def set_theme(self, theme: Theme) -> None:
        """Take the sizes of another theme."""
        self._column.setSpacing(theme.px(8))
        self._buttons.setSpacing(theme.px(16))

    def begin(self, text: str, key: str = "") -> None:
        """Write on a text; with a key it is the rule that is stored under it."""
        self._key = key
        self.is_writing = True
        self.edit.setPlainText(text)
        self.judge()

    def judge(self) -> bool:
        """Say what is wrong with the text, or that nothing is."""
        self._pause.stop()
        fault = self._fault()
        self.said.setProperty("role", "stop" if fault else "secondary")
        self.said.setText(fault or self._work.words.say("own-rules-good"))
        self.said.style().unpolish(self.said)
        self.said.style().polish(self.said)
        self.edit.setAccessibleDescription(self.said.text())
        return not fault

    def keep(self) -> None:
        """Store the rule, if it is one."""
        if not self.judge():
            self.edit.setFocus(Qt.FocusReason.OtherFocusReason)
            return
        if self._work.studio.read_only:
            self._work.notices.inform(self._work.words.say("edit-read-only"))
            return
        text = self.edit.toPlainText()
        key = str(json.loads(text)["key"])
        self.is_writing = False
        self._held.change_rules({**dict(self._held.value.rules), key: text})
        self.kept.emit(key)

    def _discard(self) -> None:
        self.is_writing = False
        self.discarded.emit()

    def _fault(self) -> str:
        say = self._work.words.say
        try:
            rule = self._work.studio.own_rules.tried(self.edit.toPlainText())
        except WorkbenchError as error:
            return error.what
        if self._key and rule.key != self._key:
            return say("own-rules-key-stays", rule=self._key)
        if not self._key and rule.key in dict(self._held.value.rules):
            reason = say("rule-key-taken", word=rule.key)
            return say("storage-own-rule", rule=rule.key, reason=reason)
        return ""
