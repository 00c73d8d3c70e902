"""How many decisions lie between two formulas: one change at a time can be read afterwards."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from decimal import Decimal

from workbench.formula.compare import significant
from workbench.formula.difference import (
    ADDED,
    MOVED,
    PERCENT,
    REMOVED,
    STEPS,
    SWAPPED,
    FormulaDifference,
    LineDifference,
    formula_difference,
)
from workbench.formula.edits import EditRefused
from workbench.formula.exchange import Incoming, exchanged, is_water
from workbench.formula.formula import Formula
from workbench.formula.shelf import Shelf
from workbench.formula.stocks import with_powder, with_stock
from workbench.formula.substitute import carried_along
from workbench.formula.totals import totals

HEAD, SCALED = "head", "scaled"
_NO_DECISION = frozenset({"name", "plan", "pack"})


@dataclass(frozen=True, slots=True)
class Decision:
    """Hold one decision: what kind, the field or ingredient it is about, and the lines.

    `kind` is swapped, added, removed, percent, scaled (several lines by one factor), moved,
    steps or head.
    """

    kind: str
    about: str
    lines: tuple[int, ...] = ()


def decisions(before: Formula, after: Formula, shelf: Shelf) -> tuple[Decision, ...]:
    """Return what was decided between two formulas, as few decisions as explain it.

    Notes
    -----
    What follows from a decision is none: the rest line, the water and the preservative that
    give way for a swap, and several lines scaled by one factor. Names, notes, locks and the
    size of a batch are none either.
    """
    found = formula_difference(before, after)
    explained = _explained(before, after, found, shelf)
    free = _free(found, explained)
    taker = _taker(free, found, after, shelf)
    yielded = (*_of_lines(found, explained), *_of_percents([x for x in free if x is not taker]))
    return (*yielded, *_of_method(found))


def _free(found: FormulaDifference, explained: frozenset[int]) -> list[LineDifference]:
    return [
        each
        for each in found.of_kind(PERCENT)
        if SWAPPED not in each.kinds
        and each.after is not None
        and not each.after.is_rest
        and each.after.id not in explained
    ]


def _of_lines(found: FormulaDifference, explained: frozenset[int]) -> Iterator[Decision]:
    for each in found.lines:
        line = each.after or each.before
        if line is None:
            continue
        for kind in (SWAPPED, ADDED, REMOVED):
            if kind in each.kinds and not (kind == ADDED and line.id in explained):
                yield Decision(kind, line.ingredient, (line.id,))
    for each in found.of_kind(MOVED):
        if each.after is not None:
            yield Decision(MOVED, each.after.ingredient, (each.after.id,))


def _of_percents(free: list[LineDifference]) -> Iterator[Decision]:
    by_factor: dict[Decimal, list[LineDifference]] = {}
    for each in free:
        before, after = each.percent or Decimal(0), each.to_percent or Decimal(0)
        factor = significant(after / before, 3) if before else Decimal(-1 - len(by_factor))
        by_factor.setdefault(factor, []).append(each)
    for group in by_factor.values():
        lines = tuple(each.after.id for each in group if each.after is not None)
        kind = PERCENT if len(group) == 1 else SCALED
        first = group[0].after
        yield Decision(kind, first.ingredient if first is not None else "", lines)


def _of_method(found: FormulaDifference) -> Iterator[Decision]:
    for phase in found.phases:
        if STEPS in phase.kinds and phase.after is not None:
            yield Decision(STEPS, phase.after.name)
    for field in found.head:
        if field.field not in _NO_DECISION:
            yield Decision(HEAD, field.field)


def _explained(
    before: Formula, after: Formula, found: FormulaDifference, shelf: Shelf
) -> frozenset[int]:
    """Return the lines that only give way for the swaps, by making those again."""
    replayed = before
    for each in found.of_kind(SWAPPED):
        if each.before is not None and each.after is not None and each.after.percent is not None:
            replayed = _again(replayed, each, shelf)
    now, then = totals(after).percents, totals(replayed).percents
    return frozenset(key for key in now if key in then and now[key] == then[key])


def _again(formula: Formula, each: LineDifference, shelf: Shelf) -> Formula:
    """Make a swap again by each road it may have been made, and keep the one that fits."""
    if each.before is None or each.after is None or each.after.percent is None:
        return formula
    line, key, percent = each.before, each.after.ingredient, each.after.percent
    try:
        if key in shelf.stocks:
            return with_stock(formula, line.id, key, shelf)
        if line.ingredient in shelf.stocks:
            return with_powder(formula, line.id, shelf, key)
    except EditRefused:
        pass
    incoming = Incoming(key, percent)
    carries = carried_along(formula, line, incoming, shelf)
    try:
        return exchanged(formula, line.id, replace(incoming, carries=carries), shelf, stands=True)[
            0
        ]
    except EditRefused:
        return formula


def _taker(
    free: list[LineDifference], found: FormulaDifference, after: Formula, shelf: Shelf
) -> LineDifference | None:
    """Return the line that takes what the others leave where none is the rest line.

    It is the water among those that changed, else the largest, and only where the total stayed.
    """
    if after.rest_line is not None or len(found.lines) == 1 or not free:
        return None
    if sum((each.by for each in found.lines), Decimal(0)) != 0:
        return None
    return max(
        free,
        key=lambda each: (
            each.after is not None and is_water(each.after.ingredient, shelf),
            each.to_percent or Decimal(0),
        ),
    )
