"""A PDF on the printer: each page drawn at the printer's resolution, at its true size."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import QMarginsF, QRectF, QSizeF
from PySide6.QtGui import QImage, QPageLayout, QPageSize, QPainter

from workbench.errors import WorkbenchError
from workbench.ui.tasks import Tasks
from workbench.ui.widgets.pdf_pages import PagePicture, PageSize, page_picture

if TYPE_CHECKING:
    from PySide6.QtPrintSupport import QPrinter

DOTS_PER_INCH = 300
POINTS_PER_INCH = 72


def new_printer() -> QPrinter:
    """Return the default printer, set to print fine enough for small type."""
    from PySide6.QtPrintSupport import QPrinter

    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setResolution(DOTS_PER_INCH)
    return printer


class PrintJob:
    """Print pages one after the other; each is drawn beside the window, one at a time."""

    def __init__(
        self,
        printer: QPrinter,
        pdf: bytes,
        sizes: tuple[PageSize, ...],
        tasks: Tasks,
    ) -> None:
        """Take the printer as the maker set it, and the pages."""
        self._printer = printer
        self._pdf = pdf
        self._sizes = sizes
        self._tasks = tasks
        self._painter = QPainter()
        self._numbers = _chosen(printer, len(sizes))

    def start(self, done: Callable[[], None], failed: Callable[[], None]) -> None:
        """Print, then call done; or call failed when the printer does not take it."""
        self._done = done
        self._failed = failed
        if not self._numbers:
            done()
            return
        self._printer.setFullPage(True)
        self._set_paper(self._numbers[0])
        if not self._painter.begin(self._printer):
            failed()
            return
        self._draw_next(0)

    def _draw_next(self, turn: int) -> None:
        if turn == len(self._numbers):
            is_whole = self._painter.end()
            (self._done if is_whole else self._failed)()
            return
        number = self._numbers[turn]
        dots_per_point = self._printer.resolution() / POINTS_PER_INCH
        pdf = self._pdf
        self._tasks.run(
            lambda: page_picture(pdf, number, dots_per_point),
            lambda picture: self._put(turn, picture),
            self._give_up,
        )

    def _put(self, turn: int, picture: PagePicture) -> None:
        number = self._numbers[turn]
        if turn:
            self._set_paper(number)
            if not self._printer.newPage():
                self._give_up(None)
                return
        image = QImage(
            picture.pixels,
            picture.width,
            picture.height,
            picture.stride,
            QImage.Format.Format_RGB32,
        )
        dots_per_point = self._printer.resolution() / POINTS_PER_INCH
        size = self._sizes[number]
        place = QRectF(0, 0, size.width * dots_per_point, size.height * dots_per_point)
        self._painter.drawImage(place, image)
        self._draw_next(turn + 1)

    def _give_up(self, _error: WorkbenchError | None) -> None:
        self._printer.abort()
        self._painter.end()
        self._failed()

    def _set_paper(self, number: int) -> None:
        """Ask for the paper the page was made for, so that nothing is scaled to fit."""
        size = self._sizes[number]
        is_wide = size.width > size.height
        upright = QSizeF(min(size.width, size.height), max(size.width, size.height))
        paper = QPageSize(upright, QPageSize.Unit.Point)
        turned = QPageLayout.Orientation.Landscape if is_wide else QPageLayout.Orientation.Portrait
        layout = QPageLayout(paper, turned, QMarginsF())
        layout.setMode(QPageLayout.Mode.FullPageMode)
        self._printer.setPageLayout(layout)


def _chosen(printer: QPrinter, pages: int) -> list[int]:
    """Return the pages the maker chose in the print dialog, counted from 0."""
    first, last = printer.fromPage(), printer.toPage()
    if first <= 0:
        return list(range(pages))
    return list(range(first - 1, min(last or pages, pages)))
