"""Pages of a PDF as plain pictures; runs on the worker, so it touches no widget."""

from __future__ import annotations

from dataclasses import dataclass

MOST_PIXELS = 40_000_000  # of one picture: 160 MB, an A4 page at 650 dots per inch


@dataclass(frozen=True, slots=True)
class PageSize:
    """Hold the size of a page in points of 1/72 inch."""

    width: float
    height: float


@dataclass(frozen=True, slots=True)
class PagePicture:
    """Hold a page as rows of blue, green, red and an unused byte, and the words on it."""

    width: int
    height: int
    stride: int
    pixels: bytes
    text: str


def page_sizes(pdf: bytes) -> tuple[PageSize, ...]:
    """Return the size of every page."""
    import pypdfium2

    document = pypdfium2.PdfDocument(pdf)
    try:
        return tuple(PageSize(*document.get_page_size(page)) for page in range(len(document)))
    finally:
        document.close()


def page_picture(pdf: bytes, number: int, pixels_per_point: float) -> PagePicture:
    """Draw one page, counted from 0; a picture too large to hold is drawn smaller."""
    import pypdfium2

    document = pypdfium2.PdfDocument(pdf)
    try:
        page = document[number]
        width, height = page.get_size()
        most = (MOST_PIXELS / (width * height)) ** 0.5
        bitmap = page.render(scale=min(pixels_per_point, most), prefer_bgrx=True)
        words = page.get_textpage()
        picture = PagePicture(
            bitmap.width,
            bitmap.height,
            bitmap.stride,
            bytes(bitmap.buffer),
            words.get_text_bounded(),
        )
        # Closed here and in this order: left to the collector, another thread might do it.
        for part in (words, bitmap, page):
            part.close()
        return picture
    finally:
        document.close()
