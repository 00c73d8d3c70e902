"""The page of the rules of the trade: every rule to read, and the maker's own to write."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QListWidget,
    QListWidgetItem,
    QStackedWidget,
    QTextBrowser,
    QVBoxLayout,
    QWidget,
)

from workbench.checks.compatibility_values import CompatibilityRule
from workbench.errors import WorkbenchError
from workbench.ui.places.desk.link_button import LinkButton
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.places.studio.held import HeldSettings
from workbench.ui.places.studio.rule_editor import RuleEditor
from workbench.ui.places.studio.rule_text import free_key, template, written
from workbench.ui.theme import Theme

_PARTS = ("message", "when", "why", "source", "key", "fault")
_LIST = 420


class RulesPage(QWidget):
    """List the rules at the left; read, write, or see how one is written at the right."""

    left = Signal()

    def __init__(self, work: DeskWork, held: HeldSettings) -> None:
        super().__init__()
        self._work, self._held, self._words = work, held, work.words
        self._own: dict[str, CompatibilityRule | WorkbenchError] = {}
        self._shipped = {r.key: r for r in work.rules.compatibility.rules if not r.is_own}
        self.setObjectName("studio_rules")
        self.editor = RuleEditor(work, held)
        self.editor.kept.connect(self.choose)
        self.editor.discarded.connect(self._show_chosen)
        self._build()
        held.changed.connect(self.refresh)
        self.refresh()

    def set_theme(self, theme: Theme) -> None:
        """Take the sizes of another theme."""
        side = theme.px(20)
        self._column.setContentsMargins(side, theme.px(16), side, theme.px(8))
        for layout, gap in ((self._column, 10), (self._halves, 24), (self._links, 20)):
            layout.setSpacing(theme.px(gap))
        self._rule_column.setSpacing(theme.px(6))
        self._list_half.setMaximumWidth(theme.px(_LIST))
        self.list.setSpacing(theme.px(3))
        self.editor.set_theme(theme)

    def begin(self) -> None:
        """Put the cursor into the line that finds."""
        self.refresh()
        self.find_line.setFocus(Qt.FocusReason.OtherFocusReason)

    def choose(self, key: str) -> None:
        """Show a rule."""
        for row in range(self.list.count()):
            if self.list.item(row).data(Qt.ItemDataRole.UserRole) == key:
                self.list.setCurrentRow(row)
        self._show_chosen()

    def copy(self, key: str) -> None:
        """Write a rule that begins as a shipped one."""
        rule = self._shipped[key]
        self._write(written(rule, free_key(key, self._taken())))

    def refresh(self) -> None:
        """List the rules that hold the words that are sought."""
        self._read_own()
        chosen, sought = self._chosen(), self.find_line.text().casefold().split()
        self.list.blockSignals(True)  # noqa: FBT003
        self.list.clear()
        for key, rule in {**self._own, **self._shipped}.items():
            text, about = self._row(key, rule)
            if all(word in about for word in sought):
                item = QListWidgetItem(text)
                item.setData(Qt.ItemDataRole.UserRole, key)
                self.list.addItem(item)
                if key == chosen:
                    self.list.setCurrentItem(item)
        if self.list.currentRow() < 0:
            self.list.setCurrentRow(0)
        self.list.blockSignals(False)  # noqa: FBT003
        self._none.setVisible(not self.list.count())
        self.show_undo()
        if self._pages.currentWidget() is self._rule_page:
            self._show_chosen()

    def _read_own(self) -> None:
        self._own = {}
        for key, text in self._held.value.rules:
            try:
                self._own[key] = self._work.studio.own_rules.tried(text)
            except WorkbenchError as error:
                self._own[key] = error

    def _row(self, key: str, rule: CompatibilityRule | WorkbenchError) -> tuple[str, str]:
        say = self._words.say
        if isinstance(rule, WorkbenchError):
            return say("own-rules-row", message=key, whose="broken", word=""), key.casefold()
        word = say(f"severity-{rule.severity.word}")
        whose = "own" if key in self._own else "shipped"
        text = say("own-rules-row", message=rule.message, whose=whose, word=word)
        about = (key, rule.message, rule.why, rule.text, rule.source, word)
        return text, " ".join(about).casefold()

    def _chosen(self) -> str:
        item = self.list.currentItem()
        return str(item.data(Qt.ItemDataRole.UserRole)) if item else ""

    def _taken(self) -> frozenset[str]:
        return frozenset({*self._own, *self._shipped})

    def _show_chosen(self) -> None:
        self._pages.setCurrentWidget(self._rule_page)
        going = "own-rules-go-on" if self.editor.is_writing else "own-rules-write"
        self._write_link.setText(self._words.say(going))
        key, say = self._chosen(), self._words.say
        rule = self._own.get(key) or self._shipped.get(key)
        shown = dict.fromkeys(_PARTS, "")
        if isinstance(rule, WorkbenchError):
            shown.update(message=key, fault=rule.what)
        elif rule is not None:
            source = say("own-rules-source-value", source=rule.source, confidence=rule.confidence)
            shown.update(message=rule.message, when=rule.text, why=rule.why, source=source, key=key)
        for name, (head, value) in self._parts.items():
            value.setText(shown[name])
            value.setVisible(bool(shown[name]))
            head.setVisible(bool(shown[name]) and name != "message")
        is_own = key in self._own
        self._copy.setVisible(key in self._shipped and not is_own)
        self._change.setVisible(is_own)
        self._remove.setVisible(is_own)

    def _begin_writing(self) -> None:
        if self.editor.is_writing:
            self._pages.setCurrentWidget(self.editor)
            self.editor.edit.setFocus(Qt.FocusReason.OtherFocusReason)
            return
        self._write(template(free_key("my-rule", self._taken()), self._words))

    def _write(self, text: str, key: str = "") -> None:
        self.editor.begin(text, key)
        self._pages.setCurrentWidget(self.editor)
        self._write_link.setText(self._words.say("own-rules-go-on"))
        self.editor.edit.setFocus(Qt.FocusReason.OtherFocusReason)

    def _change_chosen(self) -> None:
        key = self._chosen()
        self._write(dict(self._held.value.rules)[key], key)

    def _remove_chosen(self) -> None:
        key = self._chosen()
        rules = dict(self._held.value.rules)
        rules.pop(key, None)
        self._held.change_rules(rules)
        self.list.setFocus(Qt.FocusReason.OtherFocusReason)

    def _show_language(self) -> None:
        if not self._language.toPlainText():
            self._language.setMarkdown(self._work.studio.own_rules.language)
        self._pages.setCurrentWidget(self._language)
        self._language.setFocus(Qt.FocusReason.OtherFocusReason)

    def show_undo(self) -> None:
        """Offer to take back the last step, where there is one."""
        stack = self._held.session.stack
        self._undo.setVisible(stack.canUndo())
        self._undo.setText(self._words.say("studio-undo-link", step=stack.undoText()))

    def _build(self) -> None:
        say = self._words.say
        title = QLabel(say("own-rules-title"))
        title.setProperty("role", "title")
        back = self._link("own-rules-back", "own_rules_back", self.left.emit)
        self._write_link = self._link("own-rules-write", "own_rules_write", self._begin_writing)
        language = self._link("own-rules-language", "own_rules_language", self._show_language)
        self._undo = self._link("own-rules-back", "own_rules_undo", self._held.session.stack.undo)
        self._links = QHBoxLayout()
        for link in (back, self._write_link, language):
            self._links.addWidget(link)
        self._links.addStretch(1)
        self._links.addWidget(self._undo)
        rule = QFrame()
        rule.setProperty("role", "rule")
        self._halves = QHBoxLayout()
        self._halves.addWidget(self._make_list(), 2)
        self._halves.addWidget(self._make_pages(), 3)
        self._column = QVBoxLayout(self)
        self._column.addWidget(title)
        self._column.addLayout(self._links)
        self._column.addWidget(rule)
        self._column.addLayout(self._halves, 1)

    def _link(self, words: str, name: str, act: object) -> LinkButton:
        link = LinkButton(self._words.say(words), name)
        link.clicked.connect(lambda *_checked: act())  # type: ignore[operator]
        return link

    def _make_list(self) -> QWidget:
        self.find_line = QLineEdit()
        self.find_line.setObjectName("own_rules_find")
        self.find_line.setPlaceholderText(self._words.say("own-rules-find"))
        self.find_line.setAccessibleName(self._words.say("own-rules-find"))
        self.find_line.textChanged.connect(lambda _text: self.refresh())
        self.list = QListWidget()
        self.list.setObjectName("own_rules_list")
        self.list.setAccessibleName(self._words.say("own-rules-list"))
        self.list.setWordWrap(True)
        self.list.setResizeMode(QListWidget.ResizeMode.Adjust)
        self.list.setTextElideMode(Qt.TextElideMode.ElideNone)
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.list.currentRowChanged.connect(lambda _row: self._show_chosen())
        self.list.itemClicked.connect(lambda _item: self._show_chosen())
        self._none = QLabel(self._words.say("own-rules-none"))
        self._none.setProperty("role", "secondary")
        self._list_half = QWidget()
        column = QVBoxLayout(self._list_half)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.find_line)
        column.addWidget(self._none)
        column.addWidget(self.list, 1)
        return self._list_half

    def _make_pages(self) -> QStackedWidget:
        self._rule_page = QWidget()
        self._rule_column = QVBoxLayout(self._rule_page)
        self._rule_column.setContentsMargins(0, 0, 0, 0)
        self._parts: dict[str, tuple[QLabel, QLabel]] = {}
        for name in _PARTS:
            head = QLabel("" if name == "message" else self._words.say(f"own-rules-{name}"))
            head.setProperty("role", "heading")
            value = QLabel()
            value.setObjectName(f"own_rules_{name}")
            value.setProperty("role", "strong" if name == "message" else "body")
            value.setWordWrap(True)
            value.setTextFormat(Qt.TextFormat.PlainText)
            value.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
            self._parts[name] = (head, value)
            self._rule_column.addWidget(head)
            self._rule_column.addWidget(value)
        self._copy = self._link(
            "own-rules-copy", "own_rules_copy", lambda: self.copy(self._chosen())
        )
        self._change = self._link("own-rules-edit", "own_rules_edit", self._change_chosen)
        self._remove = self._link("own-rules-remove", "own_rules_remove", self._remove_chosen)
        for link in (self._copy, self._change, self._remove):
            self._rule_column.addWidget(link)
        self._rule_column.addStretch(1)
        self._language = QTextBrowser()
        self._language.setObjectName("own_rules_reference")
        self._language.setAccessibleName(self._words.say("own-rules-language"))
        self._pages = QStackedWidget()
        for page in (self._rule_page, self.editor, self._language):
            self._pages.addWidget(page)
        return self._pages
