"""Texts as a paper can write them: what the font lacks is named, never a silent box."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable

from workbench.documents.fonts import missing_signs, printable
from workbench.words.catalogue import Words

MOST_NAMED = 12


def shown(text: str) -> str:
    """Return a text on one line in which each sign the font lacks stands as its number."""
    clean = printable(text)
    for sign in missing_signs(clean):
        clean = clean.replace(sign, _number(sign))
    return clean


def missing_notes(texts: Iterable[str], words: Words) -> tuple[str, ...]:
    """Return what stands for which sign, for every sign of the texts that the font lacks."""
    signs = dict.fromkeys(sign for text in texts for sign in missing_signs(text))
    return tuple(
        words.say(
            "card-missing-sign",
            sign=unicodedata.name(sign, "?").lower(),
            shown=_number(sign),
        )
        for sign in list(signs)[:MOST_NAMED]
    )


def _number(sign: str) -> str:
    return f"[U+{ord(sign):04X}]"
