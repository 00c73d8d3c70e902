"""Which line of one formula is which of another, and which of them has moved."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Hashable, Sequence
from dataclasses import dataclass

from workbench.formula.formula import Formula, Line


@dataclass(frozen=True, slots=True)
class Pair:
    """Hold a line of two formulas; None on a side where it is not there."""

    before: Line | None
    after: Line | None
    is_moved: bool = False


def paired(before: Formula, after: Formula) -> tuple[Pair, ...]:
    """Return every line of both formulas once, in the later order, what is gone last.

    Notes
    -----
    By id and ingredient first, then by ingredient alone, then by id alone: a line whose
    ingredient was swapped is still that line.
    """
    partners: dict[int, Line] = {}
    left = list(before.lines())
    for sign in (_id_and_ingredient, _ingredient, _id):
        _pair_up(after, left, partners, sign)
    moved = _moved(before, after, partners)
    pairs = [Pair(partners.get(line.id), line, line.id in moved) for line in after.lines()]
    return (*pairs, *(Pair(line, None) for line in left))


def _id_and_ingredient(line: Line) -> Hashable:
    return (line.id, line.ingredient)


def _ingredient(line: Line) -> Hashable:
    return line.ingredient


def _id(line: Line) -> Hashable:
    return line.id


def _pair_up(
    after: Formula, left: list[Line], partners: dict[int, Line], sign: Callable[[Line], Hashable]
) -> None:
    for line in after.lines():
        if line.id in partners:
            continue
        old = next((old for old in left if sign(old) == sign(line)), None)
        if old is not None:
            partners[line.id] = old
            left.remove(old)


def _moved(before: Formula, after: Formula, partners: dict[int, Line]) -> frozenset[int]:
    """Return the fewest lines that must be put elsewhere to get from one order to the other.

    Lines whose phase is another have moved; among the others, those outside the longest run
    that kept its order.
    """
    place = {line.id: at for at, line in enumerate(before.lines())}
    homes = {line.id: phase.id for phase in before.phases for line in phase.lines}
    names = {phase.id: phase.name for phase in before.phases}
    moved: set[int] = set()
    stayed: list[int] = []
    for phase in after.phases:
        for line in phase.lines:
            old = partners.get(line.id)
            if old is None:
                continue
            home = homes[old.id]
            if home == phase.id or names[home] == phase.name:
                stayed.append(line.id)
            else:
                moved.add(line.id)
    kept = _longest_rise([place[partners[key].id] for key in stayed])
    return frozenset(moved | {key for at, key in enumerate(stayed) if at not in kept})


def _longest_rise(values: Sequence[int]) -> frozenset[int]:
    """Return the places of a longest rising run, by patience sorting."""
    tops: list[int] = []
    ends: list[int] = []
    comes_from: list[int] = []
    for at, value in enumerate(values):
        pile = bisect_left(tops, value)
        comes_from.append(ends[pile - 1] if pile else -1)
        tops[pile : pile + 1] = [value]
        ends[pile : pile + 1] = [at]
    kept: set[int] = set()
    at = ends[-1] if ends else -1
    while at >= 0:
        kept.add(at)
        at = comes_from[at]
    return frozenset(kept)
