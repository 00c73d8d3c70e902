"""How long a keystroke takes in the search of a very large studio."""

from __future__ import annotations

import random
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

from workbench.formula.ingredient import Ingredient
from workbench.storage.ingredients import write_ingredients
from workbench.storage.search import Search
from workbench.storage.studio_file import StudioFile

INGREDIENTS = 50_000
_STARTS = """
    gly pan xan ceto lauro capry sorbi toco ben phen decy coco stea pal oli ole mari alo avo bor cal
    cham ros lav jojo shea kuku arga mango riz zin tita magne sodi potas disodi poly
"""
_ENDS = """
    cerin thenol than aryl glucoside lyl tate pherol zoate oxyethanol ol amide rate mitate vate ate
    gold vera cado age endula omile hip ender ba nut butter ine oxide nium cium um mer quat
"""
_KINDS = "oil butter extract acid gum wax powder hydrosol protein glucoside ester salt"
_WITH_GRADE = 0.3
_FUNCTIONS = ("emollient", "humectant", "preservative", "emulsifier", "thickener", "surfactant")


@dataclass(frozen=True, slots=True)
class SearchTimes:
    """Hold the times of single keystrokes [ms] and how many were typed."""

    keystrokes: int
    median_ms: float
    p95_ms: float
    longest_ms: float
    slowest: str


def invented_ingredients(count: int, seed: int = 1) -> Iterator[Ingredient]:
    """Yield ingredients with invented names that share their beginnings as real ones do."""
    chance = random.Random(seed)
    starts, ends, kinds = _STARTS.split(), _ENDS.split(), _KINDS.split()
    for place in range(count):
        words = [chance.choice(starts) + chance.choice(ends) for _ in range(chance.randint(1, 3))]
        kind = chance.choice(kinds)
        grade = f" {chance.randint(1, 99)} %" if chance.random() < _WITH_GRADE else ""
        first, last = chance.randint(50, 99999), chance.randint(10, 99)
        yield Ingredient(
            key=f"invented-{place}",
            name=f"{' '.join(words).capitalize()} {kind}{grade}",
            inci=" ".join(word.capitalize() for word in (*words, kind)),
            cas=(f"{first}-{last}-{place % 10}",),
            functions=(chance.choice(_FUNCTIONS),),
            is_own=True,
        )


def fill_with_invented(path: Path, count: int = INGREDIENTS) -> None:
    """Put invented ingredients into an existing studio that nobody else has open."""
    file = StudioFile(path)
    try:
        with file.writing() as connection:
            write_ingredients(connection, invented_ingredients(count))
    finally:
        file.close()


def time_search(
    path: Path,
    texts: int = 200,
    seed: int = 2,
    clock: Callable[[], float] = time.perf_counter,
) -> SearchTimes:
    """Type names, words in any order, numbers and nonsense, and time each key by a clock [s]."""
    file = StudioFile(path, read_only=True)
    try:
        search = Search(file)
        search("warm up")
        times = [(_timed(search, typed, clock), typed) for typed in _keystrokes(texts, seed)]
    finally:
        file.close()
    times.sort()
    return SearchTimes(
        keystrokes=len(times),
        median_ms=times[len(times) // 2][0],
        p95_ms=times[len(times) * 95 // 100][0],
        longest_ms=times[-1][0],
        slowest=times[-1][1],
    )


def _keystrokes(texts: int, seed: int) -> Iterator[str]:
    chance = random.Random(seed)
    items = list(invented_ingredients(2000))
    for _ in range(texts):
        item = chance.choice(items)
        words = item.name.split()
        chance.shuffle(words)
        text = chance.choice(
            (item.name, " ".join(words), words[0], item.inci, item.cas[0], "qzx vwk", "a e o")
        )
        for length in range(1, len(text) + 1):
            yield text[:length]


def _timed(search: Search, typed: str, clock: Callable[[], float]) -> float:
    start = clock()
    search(typed)
    return (clock() - start) * 1000
