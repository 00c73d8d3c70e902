"""Put one material in the place of another, and let the lines give way that carry the same."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from decimal import Decimal
from types import MappingProxyType

from workbench.formula.edits import EditRefused, to_percent_step
from workbench.formula.formula import Formula, Line
from workbench.formula.line_change import Standing
from workbench.formula.shelf import Shelf
from workbench.formula.totals import WHOLE, totals

NOTHING = Decimal(0)


@dataclass(frozen=True, slots=True)
class Incoming:
    """Hold what comes onto a line: its key, its percent, and what it carries along.

    `carries` is, by ingredient key, how much of the lines of that ingredient it stands for
    [% w/w of the formula]; negative where what goes off the line carried it.
    """

    key: str
    percent: Decimal
    carries: Mapping[str, Decimal] = field(default_factory=lambda: MappingProxyType({}))


def exchanged(
    formula: Formula, line_id: int, incoming: Incoming, shelf: Shelf, *, stands: bool = False
) -> tuple[Formula, tuple[Standing, ...]]:
    """Put a material on a line and rebalance what it carries and the water it brings.

    Parameters
    ----------
    formula : Formula
        The formula; its total stays as it is.
    line_id : int
        The line that changes; a rest line goes on taking the rest.
    incoming : Incoming
        What comes, how much of it [% w/w as supplied], and what it carries along.
    shelf : Shelf
        Where both materials are known.
    stands : bool
        Whether what no line can give way for may stand beside it.

    Raises
    ------
    EditRefused
        If the line is locked, the material is unknown, a line that should give way holds too
        little, or the water or the rest cannot take the difference.

    Notes
    -----
    Mass in = mass out: the difference goes to a line of water as far as it is water, and to
    the rest line beyond that.
    """
    line = formula.line(line_id)
    _refuse_at_once(line, incoming, shelf)
    before = totals(formula)
    new = before.percents[line_id] if line.is_rest else to_percent_step(incoming.percent)
    after = formula.with_line(
        replace(
            line,
            ingredient=incoming.key,
            percent=None if line.is_rest else new,
            purpose=_purpose(line, incoming.key, shelf),
        )
    )
    taken: dict[int, Decimal] = {}
    left: list[Standing] = []
    for key, amount in incoming.carries.items():
        after = _given_way(after, _Carried(key, to_percent_step(amount), line_id), taken, left)
    if left and not stands:
        raise _refusal(left[0], incoming.key, after)
    mass = new - before.percents[line_id] - sum(taken.values(), NOTHING)
    water = _water(incoming.key, new, shelf) - _water(
        line.ingredient, before.percents[line_id], shelf
    )
    water -= sum(
        (_water(after.line(key).ingredient, by, shelf) for key, by in taken.items()), NOTHING
    )
    after = _balanced(after, _Over(line_id, mass, to_percent_step(water), frozenset(taken)), shelf)
    _refuse_overfull(before.rest, after, incoming.key)
    return after, tuple(left)


def _refuse_at_once(line: Line, incoming: Incoming, shelf: Shelf) -> None:
    if line.locked:
        raise EditRefused("edit-line-locked", line=line.ingredient)
    if not shelf.knows(incoming.key):
        raise EditRefused("swap-unknown", ingredient=incoming.key)
    if not (line.is_rest or NOTHING <= incoming.percent <= WHOLE):
        raise EditRefused(
            "swap-too-much", ingredient=incoming.key, percent=to_percent_step(incoming.percent)
        )


@dataclass(frozen=True, slots=True)
class _Carried:
    key: str
    amount: Decimal
    beside: int


@dataclass(frozen=True, slots=True)
class _Over:
    """Hold the mass a change brings in, and how much of that is water [% w/w]."""

    line: int
    mass: Decimal
    water: Decimal
    taken: frozenset[int]


def is_water(key: str, shelf: Shelf) -> bool:
    """Tell whether a material is nothing but water."""
    return sum((part.water for part in shelf.parts(key)), NOTHING) >= 1


def water_line(formula: Formula, shelf: Shelf, without: frozenset[int]) -> Line | None:
    """Return the line water is taken from: the rest line if it is water, else the largest."""
    rest = formula.rest_line
    if rest is not None and rest.id not in without and is_water(rest.ingredient, shelf):
        return rest
    free = [
        line
        for line in formula.lines()
        if line.id not in without
        and not (line.locked or line.to_ph or line.is_rest)
        and is_water(line.ingredient, shelf)
    ]
    return max(free, default=None, key=lambda line: line.percent or NOTHING)


def _purpose(line: Line, key: str, shelf: Shelf) -> str:
    """Return what the line is there for, as long as what comes does that job."""
    if key in shelf.stocks or line.ingredient in shelf.stocks:
        return line.purpose
    item = shelf.ingredients.get(key)
    return line.purpose if item is not None and line.purpose in item.functions else ""


def _water(key: str, percent: Decimal, shelf: Shelf) -> Decimal:
    return percent * sum((part.water for part in shelf.parts(key)), NOTHING)


def _givers(formula: Formula, carried: _Carried) -> Iterator[Line]:
    """Yield the lines of the same ingredient, the largest first; none that takes the rest."""
    same = (line for line in formula.lines() if line.ingredient == carried.key)
    free = [line for line in same if line.id != carried.beside and not line.is_rest]
    yield from sorted(free, key=lambda line: (-(line.percent or NOTHING), line.id))


def _given_way(
    formula: Formula, carried: _Carried, taken: dict[int, Decimal], left: list[Standing]
) -> Formula:
    lines = list(_givers(formula, carried))
    free = [line for line in lines if not line.locked]
    want = carried.amount
    if want < 0:
        if free:
            taken[free[0].id] = want
            return formula.with_line(_less(free[0], want))
        return formula
    for line in free:
        by = min(want, line.percent or NOTHING)
        if by:
            taken[line.id] = by
            formula = formula.with_line(_less(line, by))
            want -= by
    if want:
        left.append(Standing(carried.key, want, is_locked=len(free) < len(lines)))
    return formula


def _less(line: Line, by: Decimal) -> Line:
    return replace(line, percent=(line.percent or NOTHING) - by)


def _refusal(left: Standing, incoming: str, formula: Formula) -> EditRefused:
    if left.is_locked:
        return EditRefused(
            "swap-carried-locked", ingredient=incoming, line=left.ingredient, percent=left.percent
        )
    has_line = any(line.ingredient == left.ingredient for line in formula.lines())
    return EditRefused(
        "swap-carried-short" if has_line else "swap-carried-no-line",
        ingredient=incoming,
        line=left.ingredient,
        percent=left.percent,
    )


def _balanced(formula: Formula, over: _Over, shelf: Shelf) -> Formula:
    rest = formula.rest_line
    if over.mass == 0 or (rest is not None and rest.id == over.line):
        return formula
    wet = water_line(formula, shelf, over.taken | {over.line})
    if wet is None and rest is None:
        raise EditRefused("swap-no-rest", percent=abs(over.mass), more=str(over.mass > 0).lower())
    if wet is None or wet.is_rest:
        return formula
    if over.mass > 0:
        by = min(over.mass, max(over.water, NOTHING))
    else:
        by = max(over.mass, min(over.water, NOTHING))
    by = by if rest is not None else over.mass
    have = wet.percent or NOTHING
    if by > have:
        raise EditRefused("swap-water-short", line=wet.ingredient, needed=by, have=have)
    return formula.with_line(_less(wet, by))


def _refuse_overfull(before: Decimal | None, after: Formula, incoming: str) -> None:
    rest = totals(after).rest
    line = after.rest_line
    if rest is None or line is None or rest >= 0 or (before is not None and rest >= before):
        return
    raise EditRefused("swap-rest-short", ingredient=incoming, line=line.ingredient, short=-rest)
