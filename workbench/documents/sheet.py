"""The frame of a paper: pages, margins, a repeated head and foot, a place to write at."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from enum import Enum
from io import BytesIO

from reportlab.lib.pagesizes import A4, A5, LETTER
from reportlab.lib.units import mm
from reportlab.lib.utils import ImageReader
from reportlab.pdfgen.canvas import Canvas

from workbench.documents.fonts import REGULAR, fitting, printable, registered, shortened, width

MARGIN = 12 * mm
HAIR, FINE, THICK = 0.3, 0.8, 1.6
_WIDEST_PICTURE = 4


class Paper(Enum):
    """Choose the paper; sizes lie landscape [pt]."""

    A4 = (A4[1], A4[0])
    LETTER = (LETTER[1], LETTER[0])


class Upright(Enum):
    """Choose the paper of what is held in the hand; sizes stand upright [pt]."""

    A5 = A5
    A4 = A4
    LETTER = LETTER


@dataclass(frozen=True, slots=True)
class Spot:
    """Hold where a text goes and how: left edge, base line [pt], room, size, font, side."""

    x: float
    y: float
    room: float
    size: float = 9
    font: str = REGULAR
    side: str = "left"


class Sheet:
    """Draw down a page and turn to the next when there is no room."""

    def __init__(self, paper: Paper | Upright, title: str, pages: int = 0) -> None:
        """Begin a document; `pages` is how many there will be, as far as is known."""
        registered()
        size: tuple[float, float] = paper.value
        self.wide, self.high = size
        self.pages = pages
        self.page = 1
        self.left, self.right = MARGIN, self.wide - MARGIN
        self._out = BytesIO()
        self.canvas = Canvas(self._out, pagesize=paper.value, invariant=1, pageCompression=1)
        self.canvas.setTitle(title)
        self.canvas.setCreator("Formulation Workbench")
        self.y = self.high - MARGIN
        self.head: Callable[[], None] = _nothing
        self.foot: Callable[[], None] = _nothing

    @property
    def bottom(self) -> float:
        """Return how far down the page may be filled [pt]."""
        return MARGIN + 7.5 * mm

    @property
    def room(self) -> float:
        """Return the height that is left on the page [pt]."""
        return self.y - self.bottom

    @property
    def breadth(self) -> float:
        """Return the width between the margins [pt]."""
        return self.right - self.left

    def begin(self) -> None:
        """Draw the head of the first page."""
        self.head()

    def need(self, height: float) -> bool:
        """Turn the page when less than a height [pt] is left; tell whether it was turned."""
        if self.room >= height:
            return False
        self.turn()
        return True

    def turn(self) -> None:
        """Finish this page and begin the next."""
        self.foot()
        self.canvas.showPage()
        self.page += 1
        self.y = self.high - MARGIN
        self.head()

    def done(self) -> bytes:
        """Finish the document and return its bytes."""
        self.foot()
        self.canvas.showPage()
        self.canvas.save()
        return self._out.getvalue()

    def text(self, text: str, spot: Spot) -> None:
        """Write one line of text, cut to its room."""
        self.canvas.setFont(spot.font, spot.size)
        shown = shortened(printable(text), spot.font, spot.size, spot.room)
        x = spot.x
        if spot.side == "right":
            x += spot.room - width(shown, spot.font, spot.size)
        self.canvas.drawString(x, spot.y, shown)

    def figure(self, text: str, spot: Spot) -> None:
        """Write a number: smaller where its room asks for it, never cut."""
        self.text(text, replace(spot, size=fitting(text, spot.font, spot.size, spot.room)))

    def rule(self, y: float, thickness: float = HAIR) -> None:
        """Draw a line across the page."""
        self.line(self.left, y, self.right, y, thickness)

    def line(self, x: float, y: float, to_x: float, to_y: float, thickness: float = HAIR) -> None:
        """Draw a line."""
        self.canvas.setLineWidth(thickness)
        self.canvas.line(x, y, to_x, to_y)

    def picture(self, data: bytes, right: float, top: float, tall: float) -> float:
        """Draw a picture to the left of an edge, below a line; return how wide it is [pt].

        A picture that cannot be read is left out: a paper is never held up by it.
        """
        try:
            read = ImageReader(BytesIO(data))
            across, down = read.getSize()
        except (OSError, ValueError):
            return 0
        wide = min(tall * across / down, _WIDEST_PICTURE * tall)
        self.canvas.drawImage(
            read,
            right - wide,
            top - tall,
            wide,
            tall,
            mask="auto",
            preserveAspectRatio=True,
            anchor="ne",
        )
        return wide

    def tick(self, x: float, y: float, side: float) -> None:
        """Draw an empty tick box."""
        self.canvas.setLineWidth(FINE)
        self.canvas.rect(x, y, side, side, stroke=1, fill=0)


def _nothing() -> None:
    return
