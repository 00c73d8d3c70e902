"""From percent to grams: batch mass from a plan, and a column that adds up."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import ROUND_FLOOR, ROUND_HALF_UP, Decimal

from workbench.formula.formula import Formula, Plan
from workbench.formula.totals import WHOLE, totals


def filled_mass(plan: Plan) -> Decimal | None:
    """Return the mass [g] that fills packs, retains and test samples; None if not planned so.

    Notes
    -----
    (n + retains) · V · ρ + tests; mass from volume needs the density, never a guess.
    """
    if plan.units is None or plan.fill is None or plan.density is None:
        return None
    return (plan.units + plan.retains) * plan.fill * plan.density + plan.tests_g


def needed_mass(plan: Plan) -> Decimal | None:
    """Return the mass [g] to make so that the packs can be filled after hold-up losses."""
    filled = filled_mass(plan)
    if filled is None or plan.hold_up_percent >= WHOLE:
        return None
    return filled / (1 - plan.hold_up_percent / WHOLE)


def batch_mass(plan: Plan) -> Decimal | None:
    """Return the batch mass [g]: the one given, else the one needed, else None."""
    return plan.batch_mass if plan.batch_mass is not None else needed_mass(plan)


def to_step(value: Decimal, step: Decimal) -> Decimal:
    """Round to whole steps, half up."""
    return ((value / step).to_integral_value(ROUND_HALF_UP) * step).quantize(step)


def exact_grams(formula: Formula, batch_g: Decimal) -> Mapping[int, Decimal]:
    """Return the exact grams of every line, by its id."""
    return {key: percent * batch_g / WHOLE for key, percent in totals(formula).percents.items()}


def column_grams(
    formula: Formula,
    batch_g: Decimal,
    step: Decimal,
    at_maximum: frozenset[int] = frozenset(),
) -> dict[int, Decimal]:
    """Round every line to the balance so that the column adds up to the batch exactly.

    Parameters
    ----------
    formula : Formula
        What is weighed.
    batch_g : Decimal
        Batch mass [g]; taken to the nearest step first.
    step : Decimal
        Readability the column is printed to [g].
    at_maximum : frozenset of int
        Lines that stand at a legal maximum: these are rounded down and never up.

    Returns
    -------
    dict of int to Decimal
        Grams by line id [g]; their sum is the batch, or the same share of it as the
        percents are of 100.

    Notes
    -----
    With a rest line all others are rounded half up and the rest line absorbs; without one,
    largest remainder: a tie goes to the larger target, then to the earlier line.
    """
    sums = totals(formula)
    batch = to_step(batch_g, step)
    exact = exact_grams(formula, batch)
    rest = formula.rest_line
    whole = to_step(batch * sums.percent / WHOLE, step)
    if rest is not None:
        column = {
            key: _floored(mass, step) if key in at_maximum else to_step(mass, step)
            for key, mass in exact.items()
            if key != rest.id
        }
        others = sum(column.values(), Decimal(0))
        return {key: column.get(key, whole - others) for key in exact}
    return _largest_remainder(exact, whole, step, at_maximum)


def _floored(mass: Decimal, step: Decimal) -> Decimal:
    return ((mass / step).to_integral_value(ROUND_FLOOR) * step).quantize(step)


def _largest_remainder(
    exact: Mapping[int, Decimal], whole: Decimal, step: Decimal, at_maximum: frozenset[int]
) -> dict[int, Decimal]:
    column = {key: _floored(mass, step) for key, mass in exact.items()}
    left = int((whole - sum(column.values(), Decimal(0))) / step)
    places = {key: index for index, key in enumerate(exact)}
    free = sorted(
        (key for key in exact if key not in at_maximum),
        key=lambda key: (column[key] - exact[key], -exact[key], places[key]),
    )
    for key in free * (left // len(free) + 1) if free else ():
        if left == 0:
            break
        column[key] += step
        left -= 1
    return column
