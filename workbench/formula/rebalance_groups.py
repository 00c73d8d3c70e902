"""Rebalance some lines against the rest: a phase, a group to a level, two lines to a ratio."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from decimal import Decimal

from workbench.formula.edits import EditRefused, to_percent_step, with_rest_line
from workbench.formula.exchange import water_line
from workbench.formula.formula import Formula, Line
from workbench.formula.line_change import Rework, reworked
from workbench.formula.line_moves import phase_of_id
from workbench.formula.rebalance import scaled_to_whole, shared_out, short_taken_from
from workbench.formula.shelf import Shelf
from workbench.formula.totals import WHOLE, totals

NOTHING = Decimal(0)
KEEP_SUM, KEEP_FIRST, KEEP_SECOND = "sum", "first", "second"


def rested(formula: Formula, line_id: int) -> Rework:
    """Let a line take the rest from now on."""
    after = with_rest_line(formula, line_id)
    short = totals(after).rest
    if short is not None and short < 0:
        raise EditRefused(
            "rebalance-line-too-small", line=formula.line(line_id).ingredient, short=-short
        )
    return reworked(formula, after)


def taken(formula: Formula, line_id: int) -> Rework:
    """Let a line take once what is short of 100, or give what is over."""
    return reworked(formula, short_taken_from(formula, line_id))


def scaled(formula: Formula) -> Rework:
    """Scale every unlocked line in proportion, to 100 in all."""
    return reworked(formula, scaled_to_whole(formula))


def scaled_within_phase(formula: Formula, phase_id: int) -> Rework:
    """Scale the unlocked lines of one phase so that the whole formula adds up to 100.

    Raises
    ------
    EditRefused
        If a line takes the rest already, the phase has nothing unlocked, or it would have to
        hold less than its locked lines.
    """
    if formula.rest_line is not None:
        raise EditRefused("rebalance-has-rest")
    sums = totals(formula)
    return phase_to(formula, phase_id, sums.phases[phase_id] + sums.short)


def phase_to(formula: Formula, phase_id: int, percent: Decimal) -> Rework:
    """Scale the unlocked lines of a phase so that the phase holds so much [% w/w].

    A rest line in another phase takes the difference; without one the total changes.

    Raises
    ------
    EditRefused
        If the phase holds the rest line, has nothing unlocked, or cannot hold so much.
    """
    _refuse_outside(percent)
    phase = phase_of_id(formula, phase_id)
    if any(line.is_rest for line in phase.lines):
        raise EditRefused("rebalance-phase-has-rest", phase=phase.name)
    locked = _sum(line for line in phase.lines if line.locked)
    free = [line for line in phase.lines if not line.locked and line.percent]
    if not free:
        raise EditRefused("rebalance-phase-nothing-free", phase=phase.name)
    want = to_percent_step(percent) - locked
    if want < 0:
        raise EditRefused("rebalance-phase-locked", phase=phase.name, locked=locked, wanted=percent)
    after = _with(formula, shared_out(free, _sum(free), want))
    _refuse_negative_rest(formula, after)
    return reworked(formula, after)


def group_to_active(
    formula: Formula, line_ids: frozenset[int], active: Decimal, shelf: Shelf
) -> Rework:
    """Scale a group of lines until it holds so much pure matter [% w/w of the formula].

    Parameters
    ----------
    formula : Formula
        The formula; what the group gains comes from the rest line, or from the water.
    line_ids : frozenset of int
        The group; its locked lines count and stay.
    active : Decimal
        The wanted level of pure matter [% w/w].
    shelf : Shelf
        Where the strengths are known.

    Raises
    ------
    EditRefused
        If the group holds the rest line or nothing unlocked, its locked lines alone hold more,
        or the rest or water cannot give so much.

    Notes
    -----
    Pure matter = sum(percent x strength / 100) over the group. Percents are kept to 0.0001; the
    last of them goes to the line of the largest remainder, so the level is met within 0.0001 %.
    """
    _refuse_outside(active)
    lines = [line for line in formula.lines() if line.id in line_ids]
    _refuse_unknown(lines, shelf)
    if any(line.is_rest for line in lines):
        raise EditRefused("rebalance-group-has-rest")
    locked = _active((line for line in lines if line.locked), shelf)
    free = [line for line in lines if not line.locked and line.percent]
    have = _active(free, shelf)
    if have <= 0:
        raise EditRefused("rebalance-group-nothing-free")
    if active < locked:
        raise EditRefused("rebalance-group-locked", locked=to_percent_step(locked), wanted=active)
    now = _sum(free)
    want = to_percent_step(now * (active - locked) / have)
    after = _with(formula, shared_out(free, now, want))
    return reworked(formula, _given(formula, after, line_ids, shelf))


def lines_to_ratio(
    formula: Formula,
    line_ids: tuple[int, int],
    parts: tuple[Decimal, Decimal],
    shelf: Shelf,
    keep: str = KEEP_SUM,
) -> Rework:
    """Bring two lines to a ratio of parts by mass as supplied.

    Parameters
    ----------
    formula : Formula
        The formula.
    line_ids, parts : pair of int, pair of Decimal
        The two lines, and the parts of each [-].
    shelf : Shelf
        Where the water is known.
    keep : str
        sum: both together hold what they held; first or second: that line stays and the other
        one follows, the rest line or the water taking the difference.

    Raises
    ------
    EditRefused
        If a line that must move is locked or takes the rest, the parts are no ratio, the lines
        hold nothing, or the rest cannot give so much.
    """
    first, second = formula.line(line_ids[0]), formula.line(line_ids[1])
    is_ratio = all(part.is_finite() and part > 0 for part in parts)
    if not is_ratio or first.id == second.id:
        raise EditRefused("rebalance-no-ratio")
    moving = {KEEP_SUM: (first, second), KEEP_FIRST: (second,), KEEP_SECOND: (first,)}[keep]
    for line in moving:
        _refuse_fixed(line)
    shown = totals(formula).percents
    one, other = _shares((shown[first.id], shown[second.id]), parts, keep)
    _refuse_outside(one)
    _refuse_outside(other)
    after = formula
    for line, percent in ((first, one), (second, other)):
        if line in moving:
            after = after.with_line(replace(line, percent=percent))
    return reworked(formula, _given(formula, after, frozenset(line_ids), shelf))


def _shares(
    have: tuple[Decimal, Decimal], parts: tuple[Decimal, Decimal], keep: str
) -> tuple[Decimal, Decimal]:
    if keep == KEEP_FIRST:
        pair = (have[0], to_percent_step(have[0] * parts[1] / parts[0]))
    elif keep == KEEP_SECOND:
        pair = (to_percent_step(have[1] * parts[0] / parts[1]), have[1])
    else:
        both = have[0] + have[1]
        one = to_percent_step(both * parts[0] / (parts[0] + parts[1]))
        pair = (one, both - one)
    if min(pair) <= 0:
        raise EditRefused("rebalance-ratio-of-nothing")
    return pair


def _given(before: Formula, after: Formula, group: frozenset[int], shelf: Shelf) -> Formula:
    """Let the rest line, or else the water, give what the other lines gained."""
    if after.rest_line is not None:
        _refuse_negative_rest(before, after)
        return after
    gain = totals(after).percent - totals(before).percent
    if gain == 0:
        return after
    giver = water_line(after, shelf, group)
    if giver is None:
        raise EditRefused("swap-no-rest", percent=abs(gain), more=str(gain > 0).lower())
    have = giver.percent or NOTHING
    if gain > have:
        raise EditRefused("swap-water-short", line=giver.ingredient, needed=gain, have=have)
    return after.with_line(replace(giver, percent=have - gain))


def _refuse_negative_rest(before: Formula, after: Formula) -> None:
    rest, was = totals(after).rest, totals(before).rest
    line = after.rest_line
    if rest is None or line is None or rest >= 0 or (was is not None and rest >= was):
        return
    raise EditRefused("rebalance-rest-short", line=line.ingredient, short=-rest)


def _refuse_fixed(line: Line) -> None:
    if line.locked:
        raise EditRefused("edit-line-locked", line=line.ingredient)
    if line.is_rest:
        raise EditRefused("rebalance-ratio-of-rest", line=line.ingredient)


def _refuse_unknown(lines: Iterable[Line], shelf: Shelf) -> None:
    for line in lines:
        if not shelf.knows(line.ingredient):
            raise EditRefused("swap-unknown", ingredient=line.ingredient)


def _refuse_outside(percent: Decimal) -> None:
    if not percent.is_finite() or not NOTHING <= percent <= WHOLE:
        raise EditRefused("edit-percent-outside", percent=percent)


def _sum(lines: Iterable[Line]) -> Decimal:
    return sum((line.percent or NOTHING for line in lines), NOTHING)


def _active(lines: Iterable[Line], shelf: Shelf) -> Decimal:
    return sum(
        ((line.percent or NOTHING) * shelf.strength(line.ingredient) / WHOLE for line in lines),
        NOTHING,
    )


def _with(formula: Formula, lines: Iterable[Line]) -> Formula:
    for line in lines:
        formula = formula.with_line(line)
    return formula
