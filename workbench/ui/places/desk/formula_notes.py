"""Notes and tags of the open formula: beside the draft, stored as they are typed."""

from __future__ import annotations

from PySide6.QtCore import QObject, Signal

from workbench.errors import WorkbenchError
from workbench.storage.folding import folded
from workbench.ui.places.desk.work import DeskWork


class FormulaNotes(QObject):
    """Hold what is written about the open formula; what is typed is stored at once."""

    changed = Signal()

    def __init__(self, work: DeskWork, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._work = work
        self._key = ""
        self.notes = ""
        self.tags: tuple[str, ...] = ()
        work.opened.connect(self.load)
        self.load(work.key)

    def load(self, key: str) -> None:
        """Read notes and tags of a formula."""
        self._key, self.notes, self.tags = key, "", ()
        if key:
            try:
                self.notes = self._work.studio.formulas.notes(key)
                entry = self._work.studio.formulas.entry(key)
                self.tags = entry.tags if entry else ()
            except WorkbenchError as error:
                self._work.notices.tell(error)
        self.changed.emit()

    def write_notes(self, text: str) -> None:
        """Store the notes in place of the former."""
        before, key = self.notes, self._key
        if text == before or not key or self._refused():
            return
        self.notes = text

        def failed(error: WorkbenchError) -> None:
            if self.notes == text:
                self.notes = before
            self._work.notices.tell(error)

        self._work.tasks.run(
            lambda: self._work.studio.formulas.set_notes(key, text, before),
            lambda _none: self._on_stored(key),
            failed,
        )

    def write_tags(self, typed: str) -> None:
        """Store the tags, which commas part."""
        tags = tuple(" ".join(tag.split()) for tag in typed.split(",") if folded(tag))
        key = self._key
        if tags == self.tags or not key or self._refused():
            return

        def stored(kept: tuple[str, ...]) -> None:
            if key == self._key:
                self.tags = kept
            self._on_stored(key)

        self._work.tasks.run(
            lambda: self._work.studio.formulas.set_tags(key, tags),
            stored,
            self._work.notices.tell,
        )

    def _on_stored(self, key: str) -> None:
        self._work.saved.emit(key)
        if key == self._key:
            self.changed.emit()

    def _refused(self) -> bool:
        if self._work.studio.read_only:
            self._work.notices.inform(self._work.words.say("edit-read-only"))
            return True
        return False
