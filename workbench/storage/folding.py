"""Text as search sees it: without case, accents and punctuation."""

from __future__ import annotations

import unicodedata

_LONGEST = 200
# Most names are plain, and of these there is nothing to decompose.
_ASCII = str.maketrans(
    {code: chr(code).lower() if chr(code).isalnum() else " " for code in range(128)}
)
# Letters that no decomposition splits.
_PLAIN = str.maketrans(
    {"ø": "o", "ł": "l", "đ": "d", "ð": "d", "þ": "th", "æ": "ae", "œ": "oe", "ı": "i"}
)


def folded(text: str) -> str:
    """Return a text in small letters without accents, its words parted by single spaces.

    >>> folded("Crème (2-in-1), 5 %")
    'creme 2 in 1 5'
    """
    if text.isascii():
        return " ".join(text[:_LONGEST].translate(_ASCII).split())
    bare = unicodedata.normalize("NFKD", text[:_LONGEST].casefold())
    letters = (
        " " if not char.isalnum() else char for char in bare if not unicodedata.combining(char)
    )
    return " ".join("".join(letters).translate(_PLAIN).casefold().split())


def tails(text: str) -> tuple[str, ...]:
    """Return a folded text from each of its words to the end.

    >>> tails("sweet almond oil")
    ('sweet almond oil', 'almond oil', 'oil')
    """
    words = text.split()
    return tuple(" ".join(words[place:]) for place in range(len(words)))
