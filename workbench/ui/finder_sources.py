"""What can be found from anywhere: things of the studio, and what the program does."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from PySide6.QtCore import Qt
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
    """Hold one thing found: its name, of what kind it is, what is said beside it, and its act.

    What is not ready is known, but cannot be done now.
    """

    name: str
    kind: str
    act: Act
    beside: str = ""
    is_ready: bool = True

    @property
    def under(self) -> str:
        """What is said under the name: the kind, and what there is beside it."""
        return ", ".join(part for part in (self.kind, self.beside) if part)


@dataclass(frozen=True, slots=True)
class Thing:
    """Hold one thing that is known beforehand, with its name folded for comparing.

    `other_words` are folded too: what else somebody may call it.
    """

    name: str
    kind: str
    act: Act
    beside: str = ""
    folded_name: str = ""
    other_words: tuple[str, ...] = ()
    is_ready: bool = True

    def found(self) -> Found:
        """Return the thing as one that was found."""
        return Found(self.name, self.kind, self.act, self.beside, self.is_ready)


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
            return tuple(thing.found() for thing in self._things if thing.is_ready)[:MOST]
        ranks: tuple[list[Thing], ...] = ([], [], [], [])
        for thing in self._things:
            rank = _rank_of(thing, asked)
            if rank is not None:
                ranks[rank].append(thing)
        found: list[tuple[int, Found]] = []
        counts: dict[str, int] = {}
        for rank, things in enumerate(ranks):
            for thing in things:
                counts[thing.kind] = counts.get(thing.kind, 0) + 1
                if counts[thing.kind] <= _PER_KIND:
                    found.append((rank, thing.found()))
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
            one = Found(
                hit.name, kind, act, "" if folded(hit.inci) == folded(hit.name) else hit.inci
            )
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


def action_things(actions: Iterable[QAction], words: Words) -> tuple[Thing, ...]:
    """Return what the actions of a window do, each as it is named in its menu."""
    kind, not_now = words.say("find-kind", kind="action"), words.say("find-not-now")
    things = []
    for action in actions:
        name = plain(action.text())
        if not name or not action.isVisible():
            continue
        is_ready = action.isEnabled()
        beside = shown_keys(action.shortcuts()[:1]) if is_ready else not_now
        other = words.say("find-words", action=action.objectName()).split(",")
        folded_other = tuple(folded(word) for word in other if folded(word))
        things.append(
            Thing(name, kind, action.trigger, beside, folded(name), folded_other, is_ready)
        )
    return tuple(things)


def shown_keys(keys: Iterable[QKeySequence]) -> str:
    """Return the keys as they are written on a keyboard; those that few keyboards have are not."""
    common = (key for key in keys if not key.isEmpty() and _is_common(_first(key)))
    said = (key.toString(QKeySequence.SequenceFormat.NativeText) for key in common)
    # Both keys of that kind do the same, and both are called so.
    return ", ".join(dict.fromkeys(text.replace("Return", "Enter") for text in said))


def _first(keys: QKeySequence) -> Qt.Key:
    return keys[0].key()  # type: ignore[index,no-any-return]


def _is_common(key: Qt.Key) -> bool:
    # The keys beyond F12 are those of media, of phones and of keyboards long gone.
    return int(key) <= int(Qt.Key.Key_F12)


def plain(text: str) -> str:
    """Return the text of an action without its mnemonic and the dots of a question."""
    return text.replace("&&", "\0").replace("&", "").replace("\0", "&").rstrip("…. ")


def _rank_of(thing: Thing, asked: str) -> int | None:
    ranks = [rank for word in thing.other_words if (rank := _rank(word, asked)) is not None]
    # Another word for a thing never comes before a thing of that very name.
    by_word = max(min(ranks), _START) if ranks else None
    by_name = _rank(thing.folded_name, asked)
    return min((rank for rank in (by_name, by_word) if rank is not None), default=None)


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
