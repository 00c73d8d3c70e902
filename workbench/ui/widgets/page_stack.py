"""The pages of a paper under each other, as they lie on the desk."""

from __future__ import annotations

from PySide6.QtCore import QRect, QSize, Qt
from PySide6.QtGui import QImage, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from workbench.ui.theme import Theme
from workbench.ui.widgets.pdf_pages import PagePicture, PageSize

GAP = 16
"""Between pages and around them, in pixels at scale 1."""


class PageStack(QWidget):
    """Paint pages at a scale; a page whose picture is not there yet is a blank sheet."""

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._theme = theme
        self._sizes: tuple[PageSize, ...] = ()
        self._scale = 1.0
        self._images: dict[int, QImage] = {}
        self._scales: dict[int, float] = {}
        self._texts: dict[int, str] = {}

    @property
    def sizes(self) -> tuple[PageSize, ...]:
        """The sizes of the pages in points."""
        return self._sizes

    @property
    def scale(self) -> float:
        """Pixels of the window to a point."""
        return self._scale

    @property
    def gap(self) -> int:
        """The space around a page in pixels."""
        return self._theme.px(GAP)

    def set_theme(self, theme: Theme) -> None:
        """Take the colours of another theme; paper stays white."""
        self._theme = theme
        self.update()

    def set_pages(self, sizes: tuple[PageSize, ...]) -> None:
        """Show other pages, all still blank."""
        self._sizes = sizes
        self._images.clear()
        self._scales.clear()
        self._texts.clear()
        self._lay_out()

    def set_scale(self, scale: float) -> None:
        """Show the pages at so many pixels to a point."""
        self._scale = scale
        self._lay_out()

    def set_picture(self, number: int, picture: PagePicture, scale: float) -> None:
        """Put the picture of a page, drawn for a scale, in its place."""
        image = QImage(
            picture.pixels,
            picture.width,
            picture.height,
            picture.stride,
            QImage.Format.Format_RGB32,
        )
        self._images[number] = image.copy()  # the bytes go with this call
        self._scales[number] = scale
        self._texts[number] = picture.text
        self.update(self.page_rect(number))

    def has_picture(self, number: int, scale: float) -> bool:
        """Tell whether a page has its picture for a scale."""
        return self._scales.get(number) == scale

    def text(self, number: int) -> str:
        """Return the words on a page that has its picture."""
        return self._texts.get(number, "")

    def keep_only(self, numbers: range) -> None:
        """Drop the pictures of pages far from view."""
        for number in [kept for kept in self._images if kept not in numbers]:
            del self._images[number]
            del self._scales[number]

    def page_rect(self, number: int) -> QRect:
        """Return where a page lies, in this widget's pixels."""
        top = self.gap
        for size in self._sizes[:number]:
            top += round(size.height * self._scale) + self.gap
        width = round(self._sizes[number].width * self._scale)
        height = round(self._sizes[number].height * self._scale)
        return QRect((self.width() - width) // 2, top, width, height)

    def pages_within(self, top: int, bottom: int) -> list[int]:
        """Return the pages of which something lies between two heights."""
        rects = [self.page_rect(number) for number in range(len(self._sizes))]
        return [n for n, rect in enumerate(rects) if rect.bottom() >= top and rect.top() <= bottom]

    def page_at(self, height: int) -> int:
        """Return the page at a height, or the nearest above it."""
        above = [
            number
            for number in range(len(self._sizes))
            if self.page_rect(number).top() - self.gap <= height
        ]
        return above[-1] if above else 0

    def sizeHint(self) -> QSize:
        """Return the space all pages need."""
        widest = max((size.width for size in self._sizes), default=0.0)
        tall = sum(round(size.height * self._scale) + self.gap for size in self._sizes)
        return QSize(round(widest * self._scale) + 2 * self.gap, tall + self.gap)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the pages that are in view."""
        painter = QPainter(self)
        painter.fillRect(event.rect(), self._theme.colour("wash"))
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        for number in self.pages_within(event.rect().top(), event.rect().bottom()):
            rect = self.page_rect(number)
            painter.fillRect(rect, Qt.GlobalColor.white)
            image = self._images.get(number)
            if image is not None:
                painter.drawImage(rect, image)
            painter.setPen(QPen(self._theme.colour("rule"), 1))
            painter.drawRect(rect.adjusted(-1, -1, 0, 0))
        painter.end()

    def _lay_out(self) -> None:
        self.updateGeometry()
        self.update()
