"""What a text on an old sheet is beside names and amounts: a title, a phase, a total."""

from __future__ import annotations

import re

from workbench.formula.pasted_guess import TOTAL_WORDS

LABEL = re.compile(
    r"(?:formula(?:tion)?|recipe|product|formula name|product name|recipe name|name|title"
    r"|rezept(?:ur)?|produkt)\s*(?::\s*(?P<said>.*))?",
    re.IGNORECASE,
)
NO_TITLE = re.compile(
    r"(?:date|batch|version|ver|rev|revision|page|made|maker|by|author|studio|ph|weight|size|total"
    r"|yield|makes|notes?|lot|last|printed|updated|created|for|quantity|client)\b.*|v?\d[\d./ -]*",
    re.IGNORECASE,
)
# A title of many formulas: that of one of them stands nearer to it.
COLLECTION = re.compile(
    r".*\b(?:recipes|recipe book|formulas|formulary|rezepte|rezeptbuch|recettes|ricette)\b.*",
    re.IGNORECASE,
)
# What stands between a title and the headings: "Batch (g) | 250".
ABOVE_HEADINGS = re.compile(
    r"(?:batch(?: size| weight| mass)?|makes|yield|version|date)\s*(?:\([a-z]{1,5}\))?\s*:?",
    re.IGNORECASE,
)
_PHASE = re.compile(
    r"(?:phase|part|stage)\s*[-\u2013]?\s*[a-z0-9]{1,3}\b.*|.*\bphase\s*[a-z0-9]?\s*:?|[a-h]:?"
    r"|(?:heated |cold )?(?:water|oil|cool[ -]?down|aqueous|oils?)\s*(?:part|phase)?\s*:"
    r"|cool[ -]?down|[a-z\u00e4\u00f6\u00fc]{2,12}phase\s*:?"
    r"|(?:phase|fase)\s+(?:aqueuse|huileuse|grasse|acquosa|oleosa|grassa|[a-h0-9])\s*:?",
    re.IGNORECASE,
)
_LONGEST_PHASE = 40
_SUBTOTALS = frozenset(
    {"sub-total", "zwischensumme", "teilsumme", "sous-total", "subtotale", "subtotaal"}
)
_TOTALS = frozenset({"totale", "totaal", "gesamtsumme", "endsumme", "gesamtmenge"})


def is_phase_text(text: str) -> bool:
    """Tell whether a text alone in its row names a phase."""
    is_short = len(text) <= _LONGEST_PHASE and not is_total_text(text)
    return is_short and _PHASE.fullmatch(text.strip()) is not None


def is_total_text(text: str) -> bool:
    """Tell whether a text names a total.

    >>> is_total_text("Zwischensumme Salze")
    True
    """
    bare = text.strip().casefold().rstrip(":")
    first = bare.split(" ")[0].rstrip(":") if bare else ""
    words = TOTAL_WORDS | _TOTALS | _SUBTOTALS
    return bare in words or first in words or bare.endswith((" total", "subtotal"))


def is_subtotal_text(text: str) -> bool:
    """Tell whether a text that names a total names that of a part."""
    lower = text.casefold()
    return "sub" in lower or "phase" in lower or any(one in lower for one in _SUBTOTALS)
