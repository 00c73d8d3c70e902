"""The files of an ingredient: data sheets and certificates, kept inside the studio."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog, QHBoxLayout, QVBoxLayout, QWidget

from workbench.errors import WorkbenchError
from workbench.storage.attachments import (
    CERTIFICATE,
    DATA_SHEET,
    KINDS,
    MEGABYTE,
    OTHER,
    Attachment,
)
from workbench.ui.places.desk.flow import FlowLayout
from workbench.ui.places.desk.link_button import LinkButton
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.places.shelf.fact_rows import plain_label
from workbench.ui.theme import Theme

_KILOBYTE = 1000


class FilesBlock(QWidget):
    """List the files of one ingredient; add one, write one out, take one away."""

    def __init__(self, work: DeskWork, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._work = work
        self._theme = theme
        self._ingredient = ""
        self._rows: list[QWidget] = []
        words = work.words
        self._empty = plain_label("small")
        self._empty.setText(words.say("shelf-files-none"))
        self._empty.setWordWrap(True)
        self._list = QVBoxLayout()
        self._add = FlowLayout(16, 4)
        self._buttons: dict[str, LinkButton] = {}
        for kind in (DATA_SHEET, CERTIFICATE, OTHER):
            button = LinkButton(words.say("shelf-file-add", kind=kind), f"shelf_add_{kind}")
            button.clicked.connect(lambda *_checked, kind=kind: self._ask_for(kind))
            self._buttons[kind] = button
            self._add.addWidget(button)
        self._column = QVBoxLayout(self)
        self._column.addWidget(self._empty)
        self._column.addLayout(self._list)
        self._column.addLayout(self._add)
        self.set_theme(theme)

    def set_theme(self, theme: Theme) -> None:
        """Take the sizes of another theme."""
        self._theme = theme
        self._column.setContentsMargins(theme.px(8), theme.px(6), 0, theme.px(2))
        self._column.setSpacing(theme.px(6))
        self._list.setSpacing(theme.px(4))
        self._add.set_gaps(theme.px(16), theme.px(4))

    def show_files(self, ingredient: str) -> None:
        """Show the files of an ingredient."""
        self._ingredient = ingredient
        files = self._work.studio.attachments.of(ingredient)
        for row in self._rows:
            self._list.removeWidget(row)
            row.hide()
            row.deleteLater()
        self._rows = [self._row(file) for file in files]
        for row in self._rows:
            self._list.addWidget(row)
        self._empty.setVisible(not files)
        for button in self._buttons.values():
            button.setEnabled(not self._work.studio.read_only)

    def add(self, path: Path, kind: str) -> None:
        """Copy a file into the studio, or say why it cannot be kept."""
        try:
            added = self._work.studio.attachments.add(self._ingredient, path, kind)
        except WorkbenchError as error:
            self._work.notices.tell(error)
            return
        self._work.notices.inform(self._work.words.say("shelf-file-added", file=added.file_name))
        self.show_files(self._ingredient)

    def write_out(self, file: Attachment, path: Path) -> None:
        """Write a file of the studio to a place of the maker's choice."""
        try:
            self._work.studio.attachments.write_to(file.id, path)
        except WorkbenchError as error:
            self._work.notices.tell(error)
            return
        said = self._work.words.say("shelf-file-written", file=file.file_name, place=str(path))
        self._work.notices.inform(said)

    def take_out(self, file: Attachment) -> None:
        """Take a file out of the studio; it can be put back while the notice stands."""
        ingredient = self._ingredient
        try:
            content = self._work.studio.attachments.content(file.id)
            self._work.studio.attachments.delete(file.id)
        except WorkbenchError as error:
            self._work.notices.tell(error)
            return
        self.show_files(ingredient)

        def put_back() -> None:
            self._work.studio.attachments.put_back(file, content)
            if self._ingredient == ingredient:
                self.show_files(ingredient)

        said = self._work.words.say("shelf-file-taken", file=file.file_name)
        self._work.notices.inform(said, put_back)

    def _row(self, file: Attachment) -> QWidget:
        words = self._work.words
        row = QWidget()
        line = QHBoxLayout(row)
        line.setContentsMargins(0, 0, 0, 0)
        line.setSpacing(self._theme.px(16))
        name = plain_label("")
        name.setWordWrap(True)
        name.setText(
            words.say(
                "shelf-file-row",
                file=file.file_name,
                kind=file.kind if file.kind in KINDS else OTHER,
                size=_size_text(file.size),
                day=file.added_at.date().isoformat(),
            )
        )
        save = LinkButton(words.say("shelf-file-write"), "shelf_file_write")
        save.setAccessibleName(words.say("shelf-file-write-name", file=file.file_name))
        save.clicked.connect(lambda *_checked: self._ask_where(file))
        drop = LinkButton(words.say("shelf-file-take"), "shelf_file_take")
        drop.setAccessibleName(words.say("shelf-file-take-name", file=file.file_name))
        drop.clicked.connect(lambda *_checked: self.take_out(file))
        drop.setEnabled(not self._work.studio.read_only)
        line.addWidget(name, 1)
        for button in (save, drop):
            line.addWidget(button, 0, Qt.AlignmentFlag.AlignTop)
        return row

    def _ask_for(self, kind: str) -> None:
        title = self._work.words.say("shelf-file-add", kind=kind)
        path, _filter = QFileDialog.getOpenFileName(self, title)
        if path:
            self.add(Path(path), kind)

    def _ask_where(self, file: Attachment) -> None:
        title = self._work.words.say("shelf-file-write-name", file=file.file_name)
        path, _filter = QFileDialog.getSaveFileName(self, title, file.file_name)
        if path:
            self.write_out(file, Path(path))


def _size_text(size: int) -> str:
    if size >= MEGABYTE:
        return f"{size / MEGABYTE:.1f} MB"
    return f"{max(1, round(size / _KILOBYTE))} kB"
