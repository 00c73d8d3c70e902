"""What brings old sheets in and gives formulas out as sheets: menu, dropped files, pasted text."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import (
    QAction,
    QDragEnterEvent,
    QDropEvent,
    QGuiApplication,
    QKeySequence,
)

from workbench.errors import WorkbenchError
from workbench.formula.formula import Formula
from workbench.formula.old_sheet import Grid
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.theme import Theme

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget

    from workbench.ui.places.desk.sheet_import_page import SheetImportPage

_DOCUMENT = ".json"
Make = Callable[[Formula], bool]


class SheetImportWays(QObject):
    """Hold the page and what leads to it."""

    page_wanted = Signal()
    """The page is to be shown."""
    desk_wanted = Signal()
    """The Desk is to be shown, which the maker is not on."""
    left = Signal()
    """The maker goes back to the sheet of the open formula."""
    document_dropped = Signal(object)
    """The path of a formula document that was let go over the window."""

    def __init__(self, work: DeskWork, theme: Theme, desk: QWidget, make: Make) -> None:
        """Take the work, and what stores a new formula and opens it."""
        super().__init__(desk)
        self._work = work
        self._desk = desk
        self._make = make
        self._theme = theme
        self._page: SheetImportPage | None = None

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._theme = theme
        if self._page is not None:
            self._page.set_theme(theme)

    @property
    def page(self) -> SheetImportPage:
        """The page, made when it is wanted first: what reads sheets is not needed before."""
        if self._page is None:
            from workbench.ui.places.desk.sheet_import_page import SheetImportPage

            self._page = SheetImportPage(self._work, self._theme)
            self._page.left.connect(self.left)
            self._page.begun.connect(self._on_begun)
        return self._page

    def is_page(self, widget: QWidget | None) -> bool:
        """Tell whether a widget is the page."""
        return widget is not None and widget is self._page

    def bring_in(self, path: Path) -> None:
        """Read a file beside the window and show what is in it."""
        from workbench.storage.sheet_files import read_sheets

        work = self._work
        if self._refused():
            return
        work.tasks.run(
            lambda: read_sheets(path),
            lambda grids: self._begin(path.name, grids),
            work.notices.tell,
        )

    def bring_in_text(self, text: str) -> None:
        """Show what was pasted."""
        from workbench.storage.sheet_files import sheets_of

        if self._refused():
            return
        if not text.strip():
            self._work.notices.inform(self._work.words.say("paste-nothing"))
            return
        name = self._work.words.say("sheet-import-pasted")
        try:
            grids = sheets_of(text.encode("utf-8", "replace"), name)
        except WorkbenchError as error:
            self._work.notices.tell(error)
            return
        self._begin(name, grids, self._work.words.say("sheet-import-pasted-name"))

    def export_to(self, path: Path) -> None:
        """Write the open formula as a sheet, by the ending of the path."""
        from workbench.formula.sheet_export import sheet_rows
        from workbench.storage.sheet_files import write_sheet

        work = self._work
        rows, name = sheet_rows(work.formula, work.shelf), work.formula.name
        work.tasks.run(
            lambda: write_sheet(path, name, rows),
            lambda _none: work.notices.inform(work.words.say("exported", file=path.name)),
            work.notices.tell,
        )

    def listen_for_paste(self, view: QWidget) -> None:
        """Bring in what is pasted on a view, which edits no text itself."""
        action = QAction(self._work.words.say("action-sheet-import"), view)
        action.setObjectName("sheet_import_paste")
        action.setShortcut(QKeySequence(QKeySequence.StandardKey.Paste))
        action.setShortcutContext(Qt.ShortcutContext.WidgetShortcut)
        action.triggered.connect(
            lambda _checked=False: self.bring_in_text(QGuiApplication.clipboard().text())
        )
        view.addAction(action)

    def listen_for_drops(self, window: QWidget) -> None:
        """Bring in what is let go over a window."""
        window.setAcceptDrops(True)
        window.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Take sheets and documents that are dragged onto the window."""
        if isinstance(event, QDragEnterEvent) and _dropped(event):
            event.acceptProposedAction()
            return True
        if isinstance(event, QDropEvent) and event.type() == QEvent.Type.Drop:
            paths = _dropped(event)
            if paths:
                event.acceptProposedAction()
                self._take(paths)
                return True
        return super().eventFilter(watched, event)

    def _take(self, paths: tuple[Path, ...]) -> None:
        first = paths[0]
        if len(paths) > 1:
            said = self._work.words.say("sheet-import-dropped-many", file=first.name)
            self._work.notices.inform(said)
        if first.suffix.casefold() == _DOCUMENT:
            self.document_dropped.emit(first)
        else:
            self.bring_in(first)

    def _begin(self, file: str, grids: tuple[Grid, ...], name: str = "") -> None:
        if not self._desk.isVisible():
            self.desk_wanted.emit()
        self.page_wanted.emit()
        self.page.begin(file, grids, name)

    def _refused(self) -> bool:
        if not self._work.studio.read_only:
            return False
        self._work.notices.inform(self._work.words.say("sheet-import-read-only"))
        return True

    def _on_begun(self, formula: Formula, notes: str) -> None:
        work = self._work
        if not self._make(formula):
            return
        work.begin_with_notes(notes)
        work.notices.inform(work.words.say("sheet-import-made", name=work.formula.name))
        self.left.emit()


def _dropped(event: QDropEvent) -> tuple[Path, ...]:
    from workbench.storage.sheet_files import is_sheet_file

    urls = event.mimeData().urls()
    paths = (Path(url.toLocalFile()) for url in urls if url.isLocalFile())
    return tuple(
        path for path in paths if is_sheet_file(path) or path.suffix.casefold() == _DOCUMENT
    )
