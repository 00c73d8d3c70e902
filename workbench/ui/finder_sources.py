"""What can be found from anywhere: things of the studio, and what the program does."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from PySide6.QtGui import QAction, QKeySequence

from workbench.storage.folding import folded
from workbench.storage.search import Search
from workbench.words.catalogue import Words

Act = Callable[[], object]
MOST = 12
_PER_KIND = 5
# How well a name fits what is typed, best first.
_WHOLE, _START, _WORD, _INSIDE = range(4)


@dataclass(frozen=True, slots=True)
class Found:
    """Hold one thing found: its name, of what kind it is, what is said beside it, and its act."""

    name: str
    kind: str
    act: Act
    beside: str = ""


@dataclass(frozen=True, slots=True)
class Thing:
    """Hold one thing that is known beforehand, with its name folded for comparing."""

    name: str
    kind: str
    act: Act
    beside: str = ""
    folded_name: str = ""
    keys: str = ""


class Sources:
    """Find by what is typed among the things given and, by the index, among ingredients."""

    def __init__(self, search: Search, words: Words, ingredient: Callable[[str], object]) -> None:
        """Take the index, and what is done with an ingredient that was chosen."""
        self._search = search
        self._words = words
        self._ingredient = ingredient
        self._things: tuple[Thing, ...] = ()

    def set_things(self, things: Iterable[Thing]) -> None:
        """Take the formulas, actions and settings as they are now."""
        self._things = tuple(things)

    def find(self, typed: str) -> tuple[Found, ...]:
        """Return what fits, best first: a whole name, the start of one, of a word in it."""
        asked = folded(typed)
        if not asked:
            return tuple(
                Found(thing.name, thing.kind, thing.act, thing.beside) for thing in self._things
            )[:MOST]
        ranks: tuple[list[Thing], ...] = ([], [], [], [])
        for thing in self._things:
            rank = _rank(thing.folded_name, asked)
            if rank is not None:
                ranks[rank].append(thing)
        found: list[tuple[int, Found]] = []
        counts: dict[str, int] = {}
        for rank, things in enumerate(ranks):
            for thing in things:
                counts[thing.kind] = counts.get(thing.kind, 0) + 1
                if counts[thing.kind] <= _PER_KIND:
                    found.append((rank, Found(thing.name, thing.kind, thing.act, thing.beside)))
        found.extend(self._ingredients(typed, asked))
        found.sort(key=lambda one: one[0])
        return tuple(one for _rank_of, one in found)[:MOST]

    def _ingredients(self, typed: str, asked: str) -> list[tuple[int, Found]]:
        kind = self._words.say("find-kind", kind="ingredient")
        found = []
        for hit in self._search(typed, MOST):
            if hit.is_stock:  # stocks stand among the formulas
                continue
            rank = _rank(folded(hit.name), asked)
            act = _Later(self._ingredient, hit.key)
            one = Found(hit.name, kind, act, hit.inci if hit.inci != hit.name else "")
            found.append((_INSIDE if rank is None else rank, one))
        return found


@dataclass(frozen=True, slots=True)
class _Later:
    """Do something with a key when it is called."""

    act: Callable[[str], object]
    key: str

    def __call__(self) -> object:
        """Do it."""
        return self.act(self.key)


def action_things(actions: Iterable[QAction], kind: str) -> tuple[Thing, ...]:
    """Return what the actions of a window do, each as it is named in its menu."""
    things = []
    for action in actions:
        name = plain(action.text())
        if not name or not action.isVisible() or not action.isEnabled():
            continue
        keys = ", ".join(
            key.toString(QKeySequence.SequenceFormat.NativeText) for key in action.shortcuts()[:1]
        )
        things.append(Thing(name, kind, action.trigger, keys, folded(name)))
    return tuple(things)


def plain(text: str) -> str:
    """Return the text of an action without its mnemonic and the dots of a question."""
    return text.replace("&&", "\0").replace("&", "").replace("\0", "&").rstrip("…. ")


def _rank(name: str, asked: str) -> int | None:
    if asked in name:
        if name == asked:
            return _WHOLE
        if name.startswith(asked):
            return _START
        return _WORD if f" {asked}" in name else _INSIDE
    if " " not in asked:
        return None
    # Words typed apart may stand apart: "dup for" finds "duplicate formula".
    words = asked.split()
    is_each_there = all(name.startswith(word) or f" {word}" in name for word in words)
    return _WORD if is_each_there else None
