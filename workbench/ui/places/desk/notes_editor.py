"""The editor of notes and tags under the form row."""

from __future__ import annotations

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QLabel, QPlainTextEdit

from workbench.ui.places.desk.form_editors import FieldEditor
from workbench.ui.places.desk.form_inputs import TextInput
from workbench.ui.places.desk.formula_notes import FormulaNotes
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.theme import Theme
from workbench.words.catalogue import Words

PAUSE_MS = 800
_TALL = 96


class NotesEditor(FieldEditor):
    """Type tags, separated by commas, and notes, stored at every pause."""

    def __init__(self, work: DeskWork, kept: FormulaNotes) -> None:
        super().__init__(work)
        self._kept = kept
        self._tags = TextInput("tags", self.words.say("form-tags-label"), 320)
        self._tags.edit.setPlaceholderText(self.words.say("form-tags-example"))
        self._tags.typed.connect(self._on_tags_typed)
        self.flow.addWidget(self._tags)
        label = QLabel(self.words.say("form-notes-label"))
        label.setProperty("role", "small")
        self._text = QPlainTextEdit()
        self._text.setObjectName("form_notes")
        self._text.setAccessibleName(label.text())
        self._text.setTabChangesFocus(True)
        self._text.setReadOnly(work.studio.read_only)
        label.setBuddy(self._text)
        self.column.addWidget(label)
        self.column.addWidget(self._text)
        self._timer = QTimer(self, singleShot=True, interval=PAUSE_MS)
        self._timer.timeout.connect(self._store)
        self._text.setPlainText(kept.notes)
        self._text.textChanged.connect(self._timer.start)
        self.refresh()

    def field(self) -> str:
        """Return the key of the field."""
        return "notes"

    def set_theme(self, theme: Theme) -> None:
        """Take the sizes of another theme."""
        super().set_theme(theme)
        self._text.setFixedHeight(theme.px(_TALL))

    def refresh(self) -> None:
        """Show what is stored, but leave what is being typed."""
        self._tags.show_text(", ".join(self._kept.tags))

    def take_back(self) -> None:
        """Store what was typed: notes are never lost."""
        self._store()
        super().take_back()

    def _store(self) -> None:
        self._timer.stop()
        self._kept.write_notes(self._text.toPlainText())

    def _on_tags_typed(self, text: str) -> None:
        self._tags.accept()
        self._kept.write_tags(text)


def notes_text(kept: FormulaNotes, words: Words) -> str:
    """Return what the form row shows: only whether something is written, so that nothing moves."""
    is_written = bool(kept.notes.strip() or kept.tags)
    return words.say("form-notes-written" if is_written else "form-notes-none")
