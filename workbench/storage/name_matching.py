"""Finding what a name on a sheet means: by name, INCI, other names and CAS, then what is near."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Mapping, Sequence
from decimal import Decimal
from difflib import SequenceMatcher
from functools import cache
from pathlib import Path

from workbench import paths
from workbench.formula.ingredient import Ingredient
from workbench.formula.old_sheet_names import Candidate, NameMatch, Sureness
from workbench.storage.filling import shipped_ingredients
from workbench.storage.folding import folded
from workbench.storage.search import Hit
from workbench.storage.studio import Studio

_MOST = 40
_CHOICES = 5
_LEAST_NEAR = 0.45
_LEAST_WORD = 3
_NEAT = Decimal("0.95")
_STRONG = (Sureness.EXACT, Sureness.INCI, Sureness.CAS)
_CAS = re.compile(r"(?<![0-9])([0-9]{2,7}-[0-9]{2}-[0-9])(?![0-9])")
_ASIDE = re.compile(r"\([^()]*\)|\[[^\[\]]*\]|,.*")
# Spellings of one thing: what is written before "water" says how clean it is.
_WATER = re.compile(
    r"(?:purified|distilled|deioni[sz]ed|demineraliz?sed|de ioni[sz]ed|di|boiled|spring|tap|d i"
    r"|filtered)*\s*(?:water|aqua)(?:\s(?:distilled|deioni[sz]ed|purified|demineralised))?"
)
_JOINS = re.compile(r"\s*(?:\(and\)|/|,|;|&|\+|\band\b)\s*", re.IGNORECASE)


class NameMatching:
    """Find what names mean in one studio; each name is looked up once."""

    def __init__(self, studio: Studio, reference_folder: Path | None = None) -> None:
        """Take the studio, and the folder of the shipped tables for the other names."""
        self._studio = studio
        self._folder = reference_folder or paths.resources() / "reference"
        self._known: dict[tuple[str, str, str], NameMatch] = {}

    def __call__(self, name: str, inci: str = "", cas: str = "") -> NameMatch:
        """Return what a name means; INCI and CAS beside it decide where they can."""
        asked = (name, inci, cas)
        if asked not in self._known:
            self._known[asked] = self._match(name, inci, cas)
        return self._known[asked]

    def _match(self, name: str, inci: str, cas: str) -> NameMatch:
        found = [
            (Sureness.EXACT, self._by_name(name)),
            (Sureness.INCI, self._by_inci(inci or name)),
            (Sureness.CAS, self._by_cas(cas or name)),
            (Sureness.FOLDED, self._by_bare_name(name)),
            (Sureness.OTHER_NAME, self._by_other_name(name)),
        ]
        if not any(hits for _, hits in found):
            return self._near(name, inci)
        return _decided(found, name)

    # Each way gives by key what fits exactly.

    def _by_name(self, name: str) -> dict[str, str]:
        asked = folded(name)
        return {hit.key: hit.name for hit in self._found(name) if folded(hit.name) == asked}

    def _by_bare_name(self, name: str) -> dict[str, str]:
        """Return what has this name when remarks in brackets are left out on both sides.

        With it comes whatever has the name inside a longer one: sunflower oil may be the
        high-oleic one as well.
        """
        asked = folded(_ASIDE.sub(" ", name))
        if not asked:
            return {}
        bare = {
            hit.key: (hit.name, folded(_ASIDE.sub(" ", hit.name)))
            for hit in (*self._found(name), *self._found(asked))
        }
        if asked not in {short for _, short in bare.values()}:
            return {}
        return {key: said for key, (said, short) in bare.items() if f" {asked} " in f" {short} "}

    def _by_inci(self, inci: str) -> dict[str, str]:
        asked = _parts(inci)
        hits = self._found(inci) or (self._found(asked[0]) if asked else ())
        return {hit.key: hit.name for hit in hits if _parts(hit.inci) == asked}

    def _by_cas(self, text: str) -> dict[str, str]:
        keys: dict[str, str] = {}
        for number in _CAS.findall(text):
            hits = self._found(number)
            items = self._studio.ingredients.get(hit.key for hit in hits)
            keys |= {
                item.key: item.name
                for item in items.values()
                if number in item.cas and "(and)" not in item.inci
            }
        return keys

    def _by_other_name(self, name: str) -> dict[str, str]:
        asked = folded(name)
        if _WATER.fullmatch(asked):
            asked = "water"
        keys = _other_names(self._folder).get(asked, ())
        items = self._studio.ingredients.get(keys)
        return {key: item.name for key, item in items.items()}

    def _near(self, name: str, inci: str) -> NameMatch:
        hits: dict[str, Hit] = {}
        for text in (name, inci, _ASIDE.sub(" ", name), *_words(name)):
            for hit in self._found(text):
                hits.setdefault(hit.key, hit)
        scored = sorted(
            ((_nearness(name, hit), hit) for hit in hits.values()),
            key=lambda one: (-one[0], one[1].name),
        )
        near = tuple(
            Candidate(hit.key, hit.name) for score, hit in scored[:_CHOICES] if score > _LEAST_NEAR
        )
        return NameMatch(Sureness.CLOSE if near else Sureness.NONE, near)

    def _found(self, text: str) -> tuple[Hit, ...]:
        return self._studio.search(text, _MOST) if text.strip() else ()


def _decided(found: Sequence[tuple[Sureness, dict[str, str]]], name: str) -> NameMatch:
    """Bring together what the ways found: what all strong ones know, else all as rivals.

    Name, INCI and CAS narrow each other down; a name without its remark, or another name, only
    counts where these say nothing, but may contradict them.
    """
    ways = [(how, hits) for how, hits in found if hits]
    strong = [(how, hits) for how, hits in ways if how in _STRONG] or ways[:1]
    names = {key: said for _, hits in ways for key, said in hits.items()}
    common = set(strong[0][1])
    for _, hits in strong[1:]:
        common = (common & set(hits)) or common
    is_split = any(not (common & set(hits)) for _, hits in ways)
    keys = set(names) if is_split else common
    order = sorted(keys, key=lambda key: (-_alike(name, names[key]), key))
    candidates = tuple(Candidate(key, names[key]) for key in order[:_CHOICES])
    return NameMatch(strong[0][0], candidates, has_rivals=len(keys) > 1)


@cache
def _other_names(folder: Path) -> Mapping[str, tuple[str, ...]]:
    """Return by folded name the ingredients that are nothing but the substance called so."""
    items, others = shipped_ingredients(folder)
    found: defaultdict[str, set[str]] = defaultdict(set)
    for key, names in others.items():
        if _is_neat(items[key]):
            for name in names:
                found[folded(name)].add(key)
    return {name: tuple(sorted(keys)) for name, keys in found.items()}


def _is_neat(item: Ingredient) -> bool:
    """Tell whether an ingredient is one substance; a solution is not what its solute is called."""
    return max((part.fraction for part in item.composition), default=0) >= _NEAT


def _parts(inci: str) -> tuple[str, ...]:
    """Return the label names of a blend, folded, in any order."""
    return tuple(sorted(part for piece in _JOINS.split(inci) if (part := folded(piece))))


def _words(text: str) -> tuple[str, ...]:
    words = [word for word in folded(text).split() if len(word) >= _LEAST_WORD]
    return tuple(sorted(words, key=len, reverse=True)[:4])


def _nearness(name: str, hit: Hit) -> float:
    return max(_alike(name, hit.name), _alike(name, hit.inci) * 0.9)


def _alike(one: str, other: str) -> float:
    """Return how alike two texts are, from 0 to 1: by letters, and by words of their own."""
    first, second = folded(one), folded(other)
    if not first or not second:
        return 0.0
    letters = SequenceMatcher(None, first, second).ratio()
    words, others = set(first.split()), set(second.split())
    shared = len(words & others) / min(len(words), len(others))
    return max(letters, 0.9 * shared)
