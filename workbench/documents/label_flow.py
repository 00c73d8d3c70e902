"""Text that flows down a rectangle or a circle, line by line."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import Protocol

from workbench.documents.fonts import REGULAR, width

LEAD, RISE = 1.16, 0.80
WIDEST = 1.9
LEFT, CENTRE, RIGHT = "left", "centre", "right"


@dataclass(frozen=True, slots=True)
class Run:
    """Hold one piece of text: left edge and base line from the top left of the label [pt]."""

    x: float
    y: float
    text: str
    font: str
    size: float


@dataclass(frozen=True, slots=True)
class Para:
    """Hold one paragraph: pieces that stay whole, each with its font.

    `scale` is its size against the smallest type, `least` a size it never goes under [pt],
    `before` the space above it as a share of the smallest type.
    """

    pieces: tuple[tuple[str, str], ...]
    scale: float = 1
    least: float = 0
    before: float = 0.25
    side: str = LEFT

    def size(self, base: float) -> float:
        """Return its type size where the smallest type has a size [pt]."""
        return max(base * self.scale, self.least)


class Region(Protocol):
    """Say how much room a line has between two heights, both from the top of the label [pt]."""

    @property
    def bottom(self) -> float:
        """Return where it ends [pt]."""

    @property
    def widest(self) -> float:
        """Return the width of its widest line [pt]."""

    def room(self, top: float, bottom: float) -> tuple[float, float]:
        """Return left edge and width [pt]; a width of 0 where there is none."""


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle [pt]."""

    left: float
    top: float
    wide: float
    bottom: float

    @property
    def widest(self) -> float:
        """Return the width of every line."""
        return self.wide

    def room(self, top: float, bottom: float) -> tuple[float, float]:
        """Return the whole width, or none outside."""
        inside = top >= self.top - 1e-6 and bottom <= self.bottom + 1e-6
        return (self.left, self.wide) if inside else (self.left, 0)


@dataclass(frozen=True, slots=True)
class Disc:
    """A circle [pt], of which the text keeps within the radius."""

    middle: float
    radius: float
    top: float
    bottom: float

    @property
    def widest(self) -> float:
        """Return nearly the diameter: what a line at the middle has."""
        return WIDEST * self.radius

    def room(self, top: float, bottom: float) -> tuple[float, float]:
        """Return the chord that both edges of a line keep to."""
        far = max(abs(top - self.middle), abs(bottom - self.middle))
        if far >= self.radius or top < self.top - 1e-6 or bottom > self.bottom + 1e-6:
            return (self.middle, 0)
        half = math.sqrt(self.radius**2 - far**2)
        return (self.middle - half, 2 * half)


@dataclass(frozen=True, slots=True)
class Flowed:
    """Hold what a flow gave: its runs, and where it ended from the top [pt]."""

    runs: tuple[Run, ...]
    end: float


def para(text: str, font: str = REGULAR, **more: float | str) -> Para:
    """Return a paragraph that may be broken between any two words."""
    return Para(tuple((word, font) for word in text.split()), **more)  # type: ignore[arg-type]


def flow(paras: tuple[Para, ...], region: Region, base: float, start: float) -> Flowed | None:
    """Return paragraphs set below a height, or None where they do not fit the region."""
    runs: list[Run] = []
    y = start
    for number, each in enumerate(paras):
        size = each.size(base)
        y += each.before * base if number else 0
        left = list(each.pieces)
        while left:
            set_line = _line(left, region, y, size)
            if set_line is None:
                # Near the edge of a circle a lower line has more room.
                y += LEAD * size / 4
                if y + LEAD * size > region.bottom + 1e-6:
                    return None
                continue
            line, left, x, wide = set_line
            runs.extend(_runs(line, x, wide, y + RISE * size, (size, each.side)))
            y += LEAD * size
    return Flowed(tuple(runs), y)


def _line(
    pieces: list[tuple[str, str]], region: Region, y: float, size: float
) -> tuple[list[tuple[str, str]], list[tuple[str, str]], float, float] | None:
    x, wide = region.room(y, y + LEAD * size)
    if not wide:
        return None
    taken, used = 0, 0.0
    for text, font in pieces:
        more = _wide(text, font) * size + (_wide(" ", font) * size if taken else 0)
        if used + more > wide + 1e-6:
            break
        used, taken = used + more, taken + 1
    if taken:
        return pieces[:taken], pieces[taken:], x, wide
    if wide < region.widest:
        # Only where no other line has more room is a name broken.
        return None
    broken = _broken(pieces[0], size, wide)
    return ([broken[0]], [broken[1], *pieces[1:]], x, wide) if broken else None


def _broken(
    piece: tuple[str, str], size: float, wide: float
) -> tuple[tuple[str, str], tuple[str, str]] | None:
    """Break a piece that no line can hold: at a space, else after a slash or hyphen, else anywhere.

    Nothing is put in: a hyphen would change the name.
    """
    text, font = piece
    fits = 0
    while fits < len(text) and _wide(text[: fits + 1].rstrip(), font) * size <= wide:
        fits += 1
    if not fits:
        return None
    place = text.rfind(" ", 1, fits + 1)
    if place < 1:
        place = max(text.rfind(sign, 1, fits) for sign in "/-") + 1
    place = place if place >= 1 else fits
    return (text[:place].rstrip(), font), (text[place:].lstrip(), font)


def _runs(
    line: list[tuple[str, str]], x: float, wide: float, y: float, look: tuple[float, str]
) -> Iterator[Run]:
    size, side = look
    joined: list[tuple[str, str]] = []
    for text, font in line:
        if joined and joined[-1][1] == font:
            joined[-1] = (f"{joined[-1][0]} {text}", font)
        else:
            joined.append((text, font))
    gap = _wide(" ", REGULAR) * size
    total = sum(_wide(text, font) * size for text, font in joined) + gap * (len(joined) - 1)
    x += {CENTRE: (wide - total) / 2, RIGHT: wide - total}.get(side, 0)
    for text, font in joined:
        yield Run(x, y, text, font, size)
        x += _wide(text, font) * size + gap


@lru_cache(maxsize=20_000)
def _wide(text: str, font: str) -> float:
    return width(text, font, 1)
