"""The fewest steps that turn one order of ids into another."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Hashable, Iterator, Sequence
from dataclasses import dataclass
from typing import TypeVar

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Remove:
    """Take out `count` rows from `first` on."""

    first: int
    count: int


@dataclass(frozen=True, slots=True)
class Move:
    """Put `count` rows from `first` on before the row that is `before` now."""

    first: int
    count: int
    before: int


@dataclass(frozen=True, slots=True)
class Insert:
    """Put in `count` rows of the new order from `first` on."""

    first: int
    count: int


Step = Remove | Move | Insert


def steps_between(old: Sequence[Hashable], new: Sequence[Hashable]) -> Iterator[Step]:
    """Yield the steps, each counted on what the steps before it have left."""
    if list(old) == list(new):
        return
    current = list(old)
    staying = set(new)
    for step in _removals(current, staying):
        del current[step.first : step.first + step.count]
        yield step
    known = set(current)
    for move in _moves(current, [row for row in new if row in known]):
        moved(current, move)
        yield move
    yield from _insertions(known, new)


def moved(rows: list[T], move: Move) -> None:
    """Do a move on a list."""
    block = rows[move.first : move.first + move.count]
    del rows[move.first : move.first + move.count]
    target = move.before - move.count if move.before > move.first else move.before
    rows[target:target] = block


def _removals(current: list[Hashable], staying: set[Hashable]) -> list[Remove]:
    """Return the runs to remove, last first."""
    runs = _runs([row not in staying for row in current])
    return [Remove(first, count) for first, count in reversed(runs)]


def _insertions(known: set[Hashable], new: Sequence[Hashable]) -> list[Insert]:
    """Return the runs to insert, first first."""
    return [Insert(first, count) for first, count in _runs([row not in known for row in new])]


def _moves(current: list[Hashable], target: list[Hashable]) -> Iterator[Move]:
    """Yield moves of all rows but the longest run that is in order already.

    The caller does each move on `current` before it asks for the next.
    """
    places = {row: place for place, row in enumerate(current)}
    still = {target[place] for place in _longest_rising([places[row] for row in target])}
    place = 0
    while place < len(target):
        if target[place] in still:
            place += 1
            continue
        first = current.index(target[place])
        count = _length_of_block(current[first:], target[place:], still)
        before = current.index(target[place - 1]) + 1 if place else 0
        if before not in (first, first + count):
            yield Move(first, count, before)
        place += count


def _length_of_block(current: list[Hashable], target: list[Hashable], still: set[Hashable]) -> int:
    count = 0
    for here, there in zip(current, target, strict=False):
        if here != there or there in still:
            break
        count += 1
    return count


def _runs(marks: list[bool]) -> list[tuple[int, int]]:
    """Return first and length of every run of true marks."""
    runs: list[tuple[int, int]] = []
    for place, is_marked in enumerate(marks):
        if not is_marked:
            continue
        if runs and sum(runs[-1]) == place:
            runs[-1] = (runs[-1][0], runs[-1][1] + 1)
        else:
            runs.append((place, 1))
    return runs


def _longest_rising(numbers: list[int]) -> list[int]:
    """Return the places of a longest rising subsequence of numbers that differ."""
    ends: list[int] = []  # the least number that ends a subsequence of each length
    end_places: list[int] = []
    previous: list[int] = []
    for place, number in enumerate(numbers):
        length = bisect_left(ends, number)
        previous.append(end_places[length - 1] if length else -1)
        if length == len(ends):
            ends.append(number)
            end_places.append(place)
        else:
            ends[length] = number
            end_places[length] = place
    found = []
    place = end_places[-1] if end_places else -1
    while place >= 0:
        found.append(place)
        place = previous[place]
    return found[::-1]
