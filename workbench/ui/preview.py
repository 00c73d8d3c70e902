"""A paper in the window: look at it page by page, export it, print it."""

from __future__ import annotations

from collections.abc import Callable
from enum import Enum
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QKeySequence, QShortcut, QShowEvent
from PySide6.QtWidgets import (
    QDialog,
    QFileDialog,
    QFrame,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from workbench.errors import WorkbenchError
from workbench.ui.notices import Notices
from workbench.ui.tasks import Tasks
from workbench.ui.theme import Theme
from workbench.ui.widgets.page_printing import PrintJob, new_printer
from workbench.ui.widgets.page_stack import PageStack
from workbench.ui.widgets.pdf_pages import PagePicture, PageSize, page_picture, page_sizes
from workbench.words.catalogue import Words

if TYPE_CHECKING:
    from PySide6.QtPrintSupport import QPrinter

TRUE_SIZE = 96 / 72
"""Pixels to a point at 100 %: Qt counts 96 pixels to the inch on every screen."""
ZOOM_STEP = 1.25
LEAST_ZOOM, MOST_ZOOM = 0.2, 4.0
NEAR = 2
"""Pages on either side of those in view that keep their pictures."""


class Fit(Enum):
    """What decides the size of the pages."""

    WIDTH = "width"
    PAGE = "page"
    FREE = "free"


class PaperPreview(QWidget):
    """Show one PDF; Esc or Close tells the window to put it away."""

    closed = Signal()
    page_changed = Signal(int)
    """The page in the middle of the view, counted from 0."""

    def __init__(
        self,
        tasks: Tasks,
        notices: Notices,
        words: Words,
        theme: Theme,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._tasks = tasks
        self._notices = notices
        self._words = words
        self._pdf = b""
        self._title = ""
        self._file_name = ""
        self._request = 0
        self._page = 0
        self._fit = Fit.WIDTH
        self._stack = PageStack(theme)
        self._build()
        self._add_keys()

    @property
    def page(self) -> int:
        """The page in the middle of the view, counted from 0."""
        return self._page

    @property
    def zoom(self) -> float:
        """The size of the pages on the screen; 1 is true size."""
        return self._stack.scale / TRUE_SIZE

    def set_theme(self, theme: Theme) -> None:
        """Take the colours of another theme."""
        self._stack.set_theme(theme)

    def show_pdf(self, pdf: bytes, title: str, file_name: str) -> None:
        """Show a paper under its title; the file name is what export proposes."""
        self._pdf, self._title, self._file_name = pdf, title, file_name
        self._request += 1
        request = self._request
        self._title_label.setText(title)
        name = self._words.say("preview-pages", title=title)
        self._stack.setAccessibleName(name)
        self._scroll.setAccessibleName(name)
        self._stack.set_pages(())
        self._tell_page()
        self._tasks.run(
            lambda: page_sizes(pdf),
            lambda sizes: self._on_sizes_known(request, sizes),
            self._notices.tell,
        )

    def set_fit(self, fit: Fit) -> None:
        """Size the pages to the view, and again whenever the view changes."""
        self._fit = fit
        self._refit()

    def zoom_by(self, factor: float) -> None:
        """Make the pages larger or smaller about the middle of the view."""
        self._fit = Fit.FREE
        self._set_zoom(self.zoom * factor)

    def go_to(self, page: int) -> None:
        """Bring the top of a page into view."""
        if self._stack.sizes:
            page = max(0, min(page, len(self._stack.sizes) - 1))
            top = self._stack.page_rect(page).top() - self._stack.gap
            self._scroll.verticalScrollBar().setValue(top)

    def turn(self, pages: int) -> None:
        """Go a page on or back; where a page is taller than the view, a view on or back."""
        if not self._stack.sizes:
            return
        height = self._scroll.viewport().height()
        if self._stack.page_rect(self._page).height() <= height:
            self.go_to(self._page + pages)
        else:
            bar = self._scroll.verticalScrollBar()
            bar.setValue(bar.value() + pages * (height - 2 * self._stack.gap))

    def export(self) -> None:
        """Ask for a file, without blocking the window, and write the paper to it."""
        dialog = QFileDialog(self, self._words.say("preview-export-title", title=self._title))
        dialog.setObjectName("preview_export_dialog")
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
        dialog.setFileMode(QFileDialog.FileMode.AnyFile)
        dialog.setNameFilter(self._words.say("preview-pdf-files"))
        dialog.setDefaultSuffix("pdf")
        dialog.selectFile(self._file_name)
        dialog.fileSelected.connect(self._on_file_chosen)
        dialog.open()

    def export_to(self, file: Path) -> None:
        """Write the paper to a file, whole or not at all."""
        pdf, words = self._pdf, self._words
        self._tasks.run(
            lambda: _write(file, pdf, words),
            lambda _nothing: self._notices.inform(words.say("preview-exported", file=str(file))),
            self._notices.tell,
        )

    def print_paper(self) -> None:
        """Ask for a printer, without blocking the window, and print."""
        from PySide6.QtPrintSupport import QAbstractPrintDialog, QPrintDialog

        printer = new_printer()
        printer.setDocName(self._title)
        dialog = QPrintDialog(printer, self)
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.setOption(QAbstractPrintDialog.PrintDialogOption.PrintPageRange)
        dialog.setMinMax(1, len(self._stack.sizes))
        dialog.finished.connect(lambda result: self.print_to(printer) if result else None)
        QDialog.open(dialog)  # the print dialog's own open() is another one

    def print_to(self, printer: QPrinter) -> None:
        """Print every chosen page at its true size."""
        title, words = self._title, self._words
        job = PrintJob(printer, self._pdf, self._stack.sizes, self._tasks)
        job.start(
            lambda: self._notices.inform(words.say("preview-printed", title=title)),
            lambda: self._notices.tell(
                WorkbenchError(
                    words.say("preview-not-printed", title=title),
                    words.say("preview-not-printed-remedy"),
                )
            ),
        )

    def _build(self) -> None:
        bar = QFrame()
        bar.setObjectName("preview_bar")
        row = QHBoxLayout(bar)
        row.setContentsMargins(20, 8, 20, 8)
        row.setSpacing(16)
        self._title_label = QLabel()
        self._title_label.setTextFormat(Qt.TextFormat.PlainText)
        self._title_label.setProperty("role", "strong")
        self._page_label = QLabel()
        self._page_label.setObjectName("preview_page")
        self._page_label.setProperty("role", "secondary")
        self._zoom_label = QLabel()
        self._zoom_label.setObjectName("preview_zoom")
        row.addWidget(self._title_label)
        row.addWidget(self._page_label)
        row.addStretch(1)
        row.addWidget(self._button("zoom-out", lambda: self.zoom_by(1 / ZOOM_STEP)))
        row.addWidget(self._zoom_label)
        row.addWidget(self._button("zoom-in", lambda: self.zoom_by(ZOOM_STEP)))
        row.addWidget(self._button("fit-width", lambda: self.set_fit(Fit.WIDTH)))
        row.addWidget(self._button("fit-page", lambda: self.set_fit(Fit.PAGE)))
        row.addSpacing(16)
        row.addWidget(self._button("export", self.export))
        row.addWidget(self._button("print", self.print_paper))
        row.addWidget(self._button("close", self.closed.emit))
        self._scroll = QScrollArea()
        self._scroll.setObjectName("preview_pages")
        self._scroll.setAccessibleName(self._words.say("preview-no-pages"))
        self._scroll.setWidget(self._stack)
        self._scroll.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self._scroll.viewport().installEventFilter(self)
        self._scroll.verticalScrollBar().valueChanged.connect(self._on_scrolled)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(bar)
        column.addWidget(self._scroll, 1)
        self.setFocusProxy(self._scroll)

    def _button(self, name: str, act: Callable[[], None]) -> QPushButton:
        button = QPushButton(self._words.say(f"preview-{name}"))
        button.setObjectName(f"preview_{name.replace('-', '_')}")
        button.setProperty("role", "link")
        button.clicked.connect(lambda *_checked: act())
        return button

    def _add_keys(self) -> None:
        keys: list[tuple[QKeySequence | QKeySequence.StandardKey | str, Callable[[], None]]] = [
            ("Esc", self.closed.emit),
            ("PgUp", lambda: self.turn(-1)),
            ("PgDown", lambda: self.turn(1)),
            ("Home", lambda: self.go_to(0)),
            ("End", lambda: self.go_to(len(self._stack.sizes) - 1)),
            (QKeySequence.StandardKey.ZoomIn, lambda: self.zoom_by(ZOOM_STEP)),
            ("Ctrl+=", lambda: self.zoom_by(ZOOM_STEP)),
            (QKeySequence.StandardKey.ZoomOut, lambda: self.zoom_by(1 / ZOOM_STEP)),
            ("Ctrl+0", lambda: self.set_fit(Fit.PAGE)),
            ("Ctrl+1", lambda: self.zoom_by(1 / self.zoom)),
            (QKeySequence.StandardKey.Save, self.export),
            (QKeySequence.StandardKey.Print, self.print_paper),
        ]
        for key, act in keys:
            shortcut = QShortcut(QKeySequence(key), self)
            shortcut.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
            shortcut.activated.connect(act)

    def _on_sizes_known(self, request: int, sizes: tuple[PageSize, ...]) -> None:
        if request != self._request:
            return
        self._stack.set_pages(sizes)
        self._refit()
        self.go_to(0)
        self._tell_page()

    def _on_file_chosen(self, name: str) -> None:
        self.export_to(Path(name))

    def _on_scrolled(self) -> None:
        self._tell_page()
        self._ask_for_pictures()

    def _refit(self) -> None:
        sizes = self._stack.sizes
        if not sizes or self._fit is Fit.FREE:
            self._set_zoom(self.zoom)
            return
        view, gap = self._scroll.viewport().size(), 2 * self._stack.gap
        scale = (view.width() - gap) / max(size.width for size in sizes)
        if self._fit is Fit.PAGE:
            scale = min(scale, (view.height() - gap) / max(size.height for size in sizes))
        self._set_zoom(scale / TRUE_SIZE)

    def _set_zoom(self, zoom: float) -> None:
        zoom = max(LEAST_ZOOM, min(zoom, MOST_ZOOM))
        bar = self._scroll.verticalScrollBar()
        half = self._scroll.viewport().height() / 2
        page = self._stack.page_at(round(bar.value() + half))
        depth = self._depth(page, bar.value() + half)
        self._stack.set_scale(zoom * TRUE_SIZE)
        wanted = self._stack.sizeHint()
        self._stack.resize(max(wanted.width(), self._scroll.viewport().width()), wanted.height())
        if self._stack.sizes:
            rect = self._stack.page_rect(page)
            bar.setValue(round(rect.top() + depth * rect.height() - half))
        percent = str(round(zoom * 100))
        self._zoom_label.setText(self._words.say("preview-percent", percent=percent))
        self._tell_page()
        self._ask_for_pictures()

    def _depth(self, page: int, height: float) -> float:
        """Return how far down a page a height is, as a share of the page."""
        if not self._stack.sizes:
            return 0.0
        rect = self._stack.page_rect(page)
        return (height - rect.top()) / max(1, rect.height())

    def _tell_page(self) -> None:
        pages = len(self._stack.sizes)
        bar, height = self._scroll.verticalScrollBar(), self._scroll.viewport().height()
        page = self._stack.page_at(bar.value() + height // 2)
        text = self._words.say("preview-page", page=str(page + 1), pages=str(pages))
        self._page_label.setText(text if pages else "")
        self._stack.setAccessibleDescription(f"{text}. {self._stack.text(page)}" if pages else "")
        if page != self._page:
            self._page = page
            self.page_changed.emit(page)

    def _ask_for_pictures(self) -> None:
        # A page nobody sees is not drawn: the view has no true size before it is shown.
        if not self._stack.sizes or not self.isVisible():
            return
        top = self._scroll.verticalScrollBar().value()
        seen = self._stack.pages_within(top, top + self._scroll.viewport().height())
        if not seen:
            return
        self._stack.keep_only(range(seen[0] - NEAR, seen[-1] + NEAR + 1))
        scale = self._stack.scale * self.devicePixelRatioF()
        for number in seen:
            if not self._stack.has_picture(number, scale):
                self._ask_for_picture(number, scale)

    def _ask_for_picture(self, number: int, scale: float) -> None:
        pdf, request = self._pdf, self._request

        def put(picture: PagePicture) -> None:
            if request == self._request:
                self._stack.set_picture(number, picture, scale)
                self._tell_page()

        self._tasks.latest(
            ("preview", id(self), number),
            lambda: page_picture(pdf, number, scale),
            put,
            self._notices.tell,
        )

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Fit the pages again when the view changes its size."""
        if event.type() == QEvent.Type.Resize and watched is self._scroll.viewport():
            self._refit()
        return super().eventFilter(watched, event)

    def showEvent(self, event: QShowEvent) -> None:
        """Draw what is in view now."""
        super().showEvent(event)
        self._refit()


def _write(file: Path, pdf: bytes, words: Words) -> None:
    part = file.with_name(file.name + ".part")
    try:
        part.write_bytes(pdf)
        part.replace(file)
    except OSError as error:
        part.unlink(missing_ok=True)
        raise WorkbenchError(
            words.say("preview-not-written", file=str(file)),
            words.say("preview-not-written-remedy"),
            str(error),
        ) from error
