"""The one font family of every paper, and what it cannot write."""

from __future__ import annotations

import unicodedata
from functools import cache
from pathlib import Path

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

from workbench import paths
from workbench.errors import WorkbenchError
from workbench.words.catalogue import Words

REGULAR, BOLD = "Lato", "Lato-Bold"
_FILES = {REGULAR: "Lato-Regular.ttf", BOLD: "Lato-Bold.ttf"}


@cache
def registered() -> bool:
    """Make the family known to reportlab; called before the first paper."""
    for name, file in _FILES.items():
        pdfmetrics.registerFont(TTFont(name, str(_path(file))))
    return True


@cache
def _signs() -> frozenset[int]:
    faces = (TTFont(name, str(_path(file))).face for name, file in _FILES.items())
    return frozenset.intersection(*(frozenset(face.charToGlyph) for face in faces))


def _path(file: str) -> Path:
    return paths.resources() / "fonts" / file


def printable(text: str) -> str:
    """Return a text on one line without control characters."""
    composed = unicodedata.normalize("NFC", text)
    return " ".join("".join(sign if sign.isprintable() else " " for sign in composed).split())


def missing_signs(text: str) -> tuple[str, ...]:
    """Return the signs of a text that the font lacks, each once, in their order."""
    known = _signs()
    return tuple(dict.fromkeys(sign for sign in printable(text) if ord(sign) not in known))


def require_glyphs(text: str, words: Words) -> None:
    """Refuse a text that holds a letter the font lacks.

    Raises
    ------
    WorkbenchError
        Naming the letter and where it stands.
    """
    known = _signs()
    for sign in printable(text):
        if ord(sign) not in known:
            raise WorkbenchError(
                words.say("worksheet-glyph", sign=sign, text=printable(text)[:60]),
                words.say("worksheet-glyph-remedy"),
            )


def width(text: str, font: str, size: float) -> float:
    """Return the width of a text [pt]."""
    return float(pdfmetrics.stringWidth(text, font, size))


def shortened(text: str, font: str, size: float, room: float) -> str:
    """Return a text that fits the room [pt], cut with an ellipsis when it must be."""
    if width(text, font, size) <= room:
        return text
    low, high = 0, min(len(text), 400)
    while low < high:
        middle = (low + high + 1) // 2
        if width(text[:middle].rstrip() + "…", font, size) <= room:
            low = middle
        else:
            high = middle - 1
    return text[:low].rstrip() + "…"


def fitting(text: str, font: str, size: float, room: float) -> float:
    """Return the size [pt], at most the one asked for, at which a text fits the room [pt]."""
    wide = width(text, font, size)
    return size if wide <= room else int(10 * size * room / wide) / 10


def wrapped(text: str, font: str, size: float, room: float) -> list[str]:
    """Return a text in lines that fit the room [pt]; a word too long is broken."""
    lines = [""]
    for word in printable(text).split(" "):
        rest = word
        while rest:
            joined = f"{lines[-1]} {rest}".strip()
            if width(joined, font, size) <= room:
                lines[-1], rest = joined, ""
            elif lines[-1]:
                lines.append("")
            else:
                fits = shortened(rest, font, size, room).rstrip("…") or rest[0]
                lines[-1], rest = fits, rest[len(fits) :]
                lines.append("")
    return [line for line in lines if line] or [""]
