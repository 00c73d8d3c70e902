"""How high the letters of the font are, read from their outlines, and contrast."""

from __future__ import annotations

import math
import struct
from dataclasses import dataclass
from functools import cache

from reportlab.lib.units import mm
from reportlab.pdfbase import pdfmetrics

from workbench.bench.label_sheets import CAPITAL, FIGURE, SMALL_O, X_HEIGHT
from workbench.documents.fonts import REGULAR, registered

_SIGNS = {X_HEIGHT: "x", SMALL_O: "o", CAPITAL: "H", FIGURE: "0"}
_LONG_OFFSETS = 1
_STEP_PT = 0.05


@dataclass(frozen=True, slots=True)
class Heights:
    """Hold heights of type [mm]: of x, o, capitals and figures."""

    x: float
    o: float
    capital: float
    figure: float


@cache
def share(measures: str, font: str = REGULAR) -> float:
    """Return a height as a share of the type size [-]: top of the outline of x, o, H or 0.

    A round letter overshoots its line; of o only what x has too is counted, so that the height
    is never given too high.
    """
    registered()
    face = pdfmetrics.getFont(font).face  # type: ignore[attr-defined]
    head = face.get_table("head")
    units: int = struct.unpack(">H", head[18:20])[0]
    is_long = struct.unpack(">h", head[50:52])[0] == _LONG_OFFSETS
    signs = "xo" if measures == SMALL_O else "H0" if measures == FIGURE else _SIGNS[measures]
    tops = []
    for sign in signs:
        glyph = face.charToGlyph[ord(sign)]
        loca = face.get_table("loca")
        if is_long:
            start = struct.unpack(">L", loca[4 * glyph : 4 * glyph + 4])[0]
        else:
            start = 2 * struct.unpack(">H", loca[2 * glyph : 2 * glyph + 2])[0]
        tops.append(struct.unpack(">h", face.get_table("glyf")[start + 8 : start + 10])[0])
    return float(min(tops)) / units


def heights(size: float, font: str = REGULAR) -> Heights:
    """Return the heights of a type size [pt] in millimetres."""
    in_mm = size / mm
    found = (share(measures, font) * in_mm for measures in (X_HEIGHT, SMALL_O, CAPITAL, FIGURE))
    return Heights(*found)


def size_for(least_mm: float, measures: str, font: str = REGULAR) -> float:
    """Return the smallest type size whose height is at least some millimetres [pt]."""
    exact = least_mm * mm / share(measures, font)
    return round(math.ceil(exact / _STEP_PT - 1e-9) * _STEP_PT, 2)


def contrast(ink: str, ground: str) -> float:
    """Return the contrast of two colours such as "#000000" [-], as WCAG 2 computes it."""
    light, dark = sorted((_luminance(ink), _luminance(ground)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def _luminance(colour: str) -> float:
    parts = [int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5)]
    red, green, blue = (
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4  # noqa: PLR2004
        for part in parts
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue
