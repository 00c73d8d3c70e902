"""Files in and out of the studio: take in, export, back up, restore, open another."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QFileDialog, QWidget

from workbench import paths
from workbench.ui.places.desk.work import DeskWork


class Files(QObject):
    """Ask for a file without blocking, and do the job beside the window."""

    studio_asked = Signal(object)
    """The path of another studio to open."""
    sheet_chosen = Signal(object)
    """The path of an old sheet to bring in."""
    sheet_export_chosen = Signal(object)
    """The path to write the open formula to as a sheet."""
    folder_used = Signal(str)
    """The folder a file was chosen in, where the next dialog begins."""

    def __init__(self, work: DeskWork, window: QWidget, folder: str = "") -> None:
        super().__init__(window)
        self._folder = folder
        self._work = work
        self._window = window

    def open_studio(self) -> None:
        """Ask which studio to open."""
        self._ask("action-open", "studio-files", self.studio_asked.emit)

    def import_formula(self) -> None:
        """Ask which document to take in."""
        self._ask("action-import", "formula-files", self.import_from)

    def export_formula(self) -> None:
        """Ask where to export the open formula."""
        name = f"{self._work.key or 'formula'}.formula.json"
        self._ask("action-export", "formula-files", self.export_to, save_as=name)

    def import_sheet(self) -> None:
        """Ask which old sheet to bring in."""
        self._ask("action-sheet-import", "sheet-files", self.sheet_chosen.emit)

    def export_sheet(self) -> None:
        """Ask where to write the open formula as a sheet."""
        name, kinds = f"{self._work.key or 'formula'}.xlsx", "sheet-import-written-files"
        self._ask("action-sheet-export", kinds, self.sheet_export_chosen.emit, save_as=name)

    def backup(self) -> None:
        """Ask where to back the studio up."""
        day = self._work.clock().date().isoformat()
        name = f"{self._work.studio.path.stem}-{day}.studio"
        self._ask("action-backup", "studio-files", self.backup_to, save_as=name)

    def restore(self) -> None:
        """Ask which backup to restore, then into which new file."""
        self._ask("action-restore", "studio-files", self._restore_from)

    def open_sample(self) -> None:
        """Open the sample studio; it is written beside the maker's own at the first time."""
        path = paths.sample_studio()

        def write() -> Path:
            if not path.exists():
                from workbench.storage.sample import build_sample
                from workbench.storage.studio_file import utc_now

                build_sample(paths.sample_db(), path.parent, utc_now)
            return path

        self._work.tasks.run(write, self.studio_asked.emit, self._work.notices.tell)

    def import_from(self, path: Path) -> None:
        """Take a document into the studio and open it."""
        work = self._work

        def take() -> tuple[str, str]:
            from workbench.storage.formula_document import load_document
            from workbench.storage.reference.shipped import Shipped

            document = load_document(path, Shipped(paths.resources() / "reference"))
            key = work.studio.take_in(document.formula, document.stocks, document.ingredients)
            return key, document.formula.name

        def taken(answer: tuple[str, str]) -> None:
            key, name = answer
            work.open(key)
            work.saved.emit(key)
            work.notices.inform(work.words.say("imported", name=name))

        work.tasks.run(take, taken, work.notices.tell)

    def export_to(self, path: Path) -> None:
        """Write the open formula as a self-contained document."""
        formula, shelf = self._work.formula, self._work.shelf

        def write() -> None:
            from workbench.storage.formula_document import write_document

            write_document(path, formula, shelf)

        self._do(write, "exported", path)

    def backup_to(self, path: Path) -> None:
        """Copy the studio whole."""
        studio = self._work.studio.path

        def copy() -> None:
            from workbench.storage.backup import backup

            backup(studio, path)

        self._do(copy, "backed-up", path)

    def _restore_from(self, source: Path) -> None:
        def into(target: Path) -> None:
            def copy() -> None:
                from workbench.storage.backup import restore

                restore(source, target)

            self._do(copy, "restored", target)

        self._ask("action-restore", "studio-files", into, save_as="restored.studio")

    def _do(self, job: Callable[[], None], told: str, path: Path) -> None:
        work = self._work
        work.tasks.run(
            job,
            lambda _: work.notices.inform(work.words.say(told, file=path.name)),
            work.notices.tell,
        )

    def _ask(
        self, title: str, kinds: str, then: Callable[[Path], object], *, save_as: str = ""
    ) -> None:
        say = self._work.words.say
        dialog = QFileDialog(self._window, say(title).rstrip("…"), self._folder, say(kinds))
        if save_as:
            dialog.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
            dialog.selectFile(save_as)
        dialog.fileSelected.connect(lambda name: self._on_chosen(Path(name), then))
        dialog.finished.connect(dialog.deleteLater)
        dialog.open()

    def _on_chosen(self, path: Path, then: Callable[[Path], object]) -> None:
        self._folder = str(path.parent)
        self.folder_used.emit(self._folder)
        then(path)
