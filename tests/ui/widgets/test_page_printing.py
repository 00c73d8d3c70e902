from __future__ import annotations

import pypdfium2
import pytest
from PySide6.QtPrintSupport import QPrinter

from tests.ui.papers import A4, LANDSCAPE, paper
from workbench.ui.tasks import InlineTasks, ThreadTasks
from workbench.ui.widgets.page_printing import DOTS_PER_INCH, PrintJob, new_printer
from workbench.ui.widgets.pdf_pages import MOST_PIXELS, page_picture, page_sizes

MM_PER_POINT = 25.4 / 72
LETTER = (612.0, 792.0)  # 8.5 by 11 inches


def pdf_printer(file) -> QPrinter:
    printer = new_printer()
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(file))
    return printer


def printed(pdf: bytes, file, first: int = 0, last: int = 0) -> list[str]:
    printer = pdf_printer(file)
    printer.setFromTo(first, last)
    told: list[str] = []
    job = PrintJob(printer, pdf, page_sizes(pdf), InlineTasks())
    job.start(lambda: told.append("done"), lambda: told.append("failed"))
    return told


def square_mm(pdf: bytes, number: int) -> tuple[float, float, float, float]:
    """Return left, top, width and height of what is black on a page."""
    per_mm = 10
    picture = page_picture(pdf, number, per_mm * MM_PER_POINT)
    rows = [
        picture.pixels[y * picture.stride : y * picture.stride + 4 * picture.width : 4]
        for y in range(picture.height)
    ]
    # The square alone is 100 mm wide; the line of words below it is left out.
    inked = [(y, row) for y, row in enumerate(rows) if row.count(0) > 50 * per_mm]
    left = min(row.index(0) for _y, row in inked)
    right = max(row.rindex(0) for _y, row in inked)
    top, bottom = inked[0][0], inked[-1][0]
    return tuple(n / per_mm for n in (left, top, right + 1 - left, bottom + 1 - top))


def test_that_print_keeps_number_and_size_of_pages(qapp, tmp_path):
    file = tmp_path / "out.pdf"
    assert printed(paper(A4, LANDSCAPE, A4), file) == ["done"]
    document = pypdfium2.PdfDocument(file)
    sizes = [document.get_page_size(page) for page in range(len(document))]
    document.close()
    assert len(sizes) == 3
    for size, expected in zip(sizes, (A4, LANDSCAPE, A4), strict=True):
        assert size == pytest.approx(expected, abs=1.0)


@pytest.mark.parametrize("size", [A4, LETTER, LANDSCAPE], ids=["a4", "letter", "landscape"])
def test_that_a_hundred_millimetres_print_as_a_hundred_millimetres(qapp, tmp_path, size):
    file = tmp_path / "out.pdf"
    assert printed(paper(size), file) == ["done"]
    left, top, width, height = square_mm(file.read_bytes(), 0)
    assert (left, top) == pytest.approx((20, 20), abs=0.4)
    assert (width, height) == pytest.approx((100, 100), abs=0.3)


def test_that_only_the_chosen_pages_print(qapp, tmp_path):
    file = tmp_path / "out.pdf"
    assert printed(paper(A4, LANDSCAPE, A4), file, first=2, last=2) == ["done"]
    sizes = page_sizes(file.read_bytes())
    assert len(sizes) == 1
    assert sizes[0].width > sizes[0].height


def test_that_pages_print_fine_enough_for_small_type(qapp, tmp_path):
    assert pdf_printer(tmp_path / "out.pdf").resolution() == DOTS_PER_INCH == 300


def test_that_a_printer_that_takes_nothing_is_told(qapp, tmp_path, qtlog):
    with qtlog.disabled():  # Qt says on its own log that the file cannot be opened
        assert printed(paper(A4), tmp_path / "no folder" / "out.pdf") == ["failed"]


def test_that_printing_beside_the_window_ends_as_printing_at_once(qapp, tmp_path):
    tasks, told = ThreadTasks(), []
    pdf = paper(A4, A4)
    job = PrintJob(pdf_printer(tmp_path / "out.pdf"), pdf, page_sizes(pdf), tasks)
    job.start(lambda: told.append("done"), lambda: told.append("failed"))
    tasks.close()
    assert told == ["done"]
    assert len(page_sizes((tmp_path / "out.pdf").read_bytes())) == 2


def test_that_a_paper_without_pages_is_done_at_once(qapp, tmp_path):
    told: list[str] = []
    job = PrintJob(pdf_printer(tmp_path / "out.pdf"), b"", (), InlineTasks())
    job.start(lambda: told.append("done"), lambda: told.append("failed"))
    assert told == ["done"]


def test_that_a_picture_is_never_larger_than_can_be_held():
    picture = page_picture(paper((3000.0, 3000.0)), 0, 20.0)
    assert picture.width * picture.height <= MOST_PIXELS * 1.01


def test_that_the_words_of_a_page_come_with_its_picture():
    assert "Harbour Fog lotion, sheet 2" in page_picture(paper(A4, A4), 1, 1.0).text
