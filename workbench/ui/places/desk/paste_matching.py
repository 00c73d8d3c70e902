"""Which ingredient of the shelf a pasted name means, and how sure that is."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from enum import Enum

from workbench.storage.folding import folded
from workbench.storage.search import Hit

MOST = 12
_FILLERS = frozenset({"and", "or", "of", "in", "the", "with"})
_LEAST_STEM = 4
_MARGIN = 0.1
_SINGLE = 0.2
# The two label names that differ between the markets.
_ON_LABELS = {"water": "Aqua", "fragrance": "Parfum", "perfume": "Parfum"}
Search = Callable[[str, int], tuple[Hit, ...]]


class Confidence(Enum):
    """How sure it is that a name means an ingredient."""

    EXACT = "exact"
    LIKELY = "likely"
    DOUBTFUL = "doubtful"
    NONE = "none"
    CHOSEN = "chosen"


class Fate(Enum):
    """What becomes of a pasted row."""

    LINE = "line"
    UNLISTED = "unlisted"
    NOTE = "note"
    OUT = "out"


@dataclass(frozen=True, slots=True)
class Match:
    """Hold what a pasted row becomes: an ingredient, or one of the ways without one."""

    fate: Fate
    key: str = ""
    name: str = ""
    confidence: Confidence = Confidence.NONE


@dataclass(frozen=True, slots=True)
class _Scored:
    hit: Hit
    covers: float
    fit: float


def matched(name: str, inci: str, search: Search) -> Match:
    """Return the best match of a name; INCI text beside it decides where it fits one."""
    inci = inci or _ON_LABELS.get(folded(name), "")
    by_inci = _best(inci, search) if inci and inci != name else None
    if by_inci is not None and by_inci.confidence is Confidence.EXACT:
        return by_inci
    by_name = _best(name, search)
    return by_name or by_inci or Match(Fate.UNLISTED, name=name)


def _best(text: str, search: Search) -> Match | None:
    words = _words(text)
    scored = sorted(
        (_scored(words, hit) for hit in _hits(text, words, search)),
        key=lambda one: (-one.covers, -one.fit, one.hit.is_stock),
    )
    if not scored:
        return None
    best = scored[0]
    return Match(Fate.LINE, best.hit.key, best.hit.name, _confidence(best, scored[1:]))


def _hits(text: str, words: Sequence[str], search: Search) -> tuple[Hit, ...]:
    """Return what the whole text finds, else what its single words find, the longest first."""
    found = search(text, MOST)
    for word in sorted(words, key=len, reverse=True) if not found else ():
        if len(word) >= _LEAST_STEM:
            found = search(word, MOST)
        if found:
            break
    return found


def _confidence(best: _Scored, others: Sequence[_Scored]) -> Confidence:
    if best.covers == 1 and best.fit >= 1 + _SINGLE:
        return Confidence.EXACT
    rivals = [one for one in others if one.covers == 1]
    is_ahead = not rivals or best.fit - rivals[0].fit >= _MARGIN
    if best.covers == 1 and best.fit >= 1 and is_ahead:
        return Confidence.EXACT
    return Confidence.LIKELY if best.covers == 1 and is_ahead else Confidence.DOUBTFUL


def _scored(words: Sequence[str], hit: Hit) -> _Scored:
    name, inci = _words(hit.name), _words(hit.inci)
    covers = sum(_holds(word, (*name, *inci)) for word in words) / max(len(words), 1)
    fit = max(_fit(words, name), _fit(words, inci))
    is_single = "(and)" not in hit.inci
    return _Scored(hit, covers, fit + (_SINGLE if is_single else 0))


def _fit(words: Sequence[str], of: Sequence[str]) -> float:
    """Return which share of a name its words explain; its end alone counts for much."""
    if not of:
        return 0
    share = sum(_holds(word, words) for word in of) / len(of)
    ends = tuple(of[-len(words) :]) == tuple(words) or tuple(of[: len(words)]) == tuple(words)
    return max(share, 0.75) if ends else share


def _holds(word: str, words: Sequence[str]) -> bool:
    return any(
        word == other
        or (len(word) >= _LEAST_STEM and other.startswith(word))
        or (len(other) >= _LEAST_STEM and word.startswith(other))
        for other in words
    )


def _words(text: str) -> tuple[str, ...]:
    return tuple(word for word in folded(text).split() if word not in _FILLERS)
