"""Bring a formula back to 100 %: from one line, or over every unlocked line."""

from __future__ import annotations

from dataclasses import replace
from decimal import ROUND_FLOOR, Decimal

from workbench.formula.edits import PERCENT_STEP, EditRefused, with_percent
from workbench.formula.formula import Formula, Line
from workbench.formula.totals import WHOLE, totals


def short_taken_from(formula: Formula, line_id: int) -> Formula:
    """Add what is short of 100 to one line, or take what is over from it.

    Raises
    ------
    EditRefused
        If the line holds less than the excess, is locked, or a line takes the rest already.
    """
    line = formula.line(line_id)
    if line.percent is None:
        raise EditRefused("rebalance-has-rest")
    percent = line.percent + totals(formula).short
    if percent < 0:
        raise EditRefused("rebalance-line-too-small", line=line.ingredient, short=-percent)
    return with_percent(formula, line_id, percent)


def scaled_to_whole(formula: Formula) -> Formula:
    """Scale every unlocked line in proportion so that the total is exactly 100.

    Raises
    ------
    EditRefused
        If locked lines alone reach 100, nothing unlocked holds anything, or a line takes
        the rest already.

    Notes
    -----
    Percents are kept to 0.0001; what rounding leaves goes to the largest remainders.
    """
    if formula.rest_line is not None:
        raise EditRefused("rebalance-has-rest")
    free = [line for line in formula.lines() if not line.locked and line.percent]
    locked = sum(
        (line.percent or Decimal(0) for line in formula.lines() if line.locked), Decimal(0)
    )
    have = sum((line.percent or Decimal(0) for line in free), Decimal(0))
    if locked >= WHOLE:
        raise EditRefused("rebalance-locked-full", locked=locked)
    if not free:
        raise EditRefused("rebalance-nothing-free")
    for line in shared_out(free, have, WHOLE - locked):
        formula = formula.with_line(line)
    return formula


def shared_out(lines: list[Line], have: Decimal, want: Decimal) -> list[Line]:
    """Scale lines that hold `have` together so that they hold exactly `want` [% w/w]."""
    exact = [(line.percent or Decimal(0)) * want / have for line in lines]
    floors = [value.quantize(PERCENT_STEP, ROUND_FLOOR) for value in exact]
    left = int((want - sum(floors, Decimal(0))) / PERCENT_STEP)
    by_remainder = sorted(range(len(lines)), key=lambda i: (floors[i] - exact[i], -exact[i], i))
    for i in by_remainder[:left]:
        floors[i] += PERCENT_STEP
    return [replace(line, percent=value) for line, value in zip(lines, floors, strict=True)]
