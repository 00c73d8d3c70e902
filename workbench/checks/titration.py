"""The curve of one adjuster in a formula, and what another would take for the same pH."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

from workbench.checks.adjusters import dosable_of, dose_to
from workbench.checks.ph import ChemistrySituation, chemistry_situation
from workbench.checks.ph_situation import KG
from workbench.checks.ph_values import PER_100_G, Titration, TitrationPoint
from workbench.checks.rules import Rules
from workbench.formula.absent import Absent
from workbench.formula.formula import Formula
from workbench.formula.shelf import Shelf

if TYPE_CHECKING:
    from workbench.chemistry.dosing import Dosable

Curve = tuple[tuple[float, float, float, float], ...]

LOWEST_PH, HIGHEST_PH = 2.0, 11.0
# Where no dose reaches the end of the curve, it is drawn to a tenth of the product.
SOME = 0.1 * KG


def titration_of(
    formula: Formula,
    shelf: Shelf,
    rules: Rules,
    adjuster: str,
    batch_g: Decimal | None = None,
) -> Titration | Absent:
    """Return the curve of an adjuster in a formula without its to-pH lines, at 25 °C.

    Notes
    -----
    It runs from nothing to a little past the wanted window, or past the estimate without one, as
    far as the rest line has room; points stand closer where the pH changes fast.
    """
    from workbench.chemistry.dosing import curve_ranges

    situation = chemistry_situation(formula, shelf, rules)
    if isinstance(situation, Absent):
        return situation
    dosable = dosable_of(adjuster, situation, shelf)
    if dosable is None:
        return Absent("absent-titration-no-effect")
    per_g = PER_100_G if batch_g is None or batch_g <= 0 else float(batch_g)
    far = _far_ph(formula, situation, adjuster)
    most = _most(situation, shelf, adjuster, far)
    curve = curve_ranges(situation.work_at(far), dosable, most)
    if situation.undissolved:
        curve = _redissolved(situation, dosable, curve)
    points = tuple(TitrationPoint(grams * per_g / KG, *values) for grams, *values in curve)
    target = None
    if formula.target_ph is not None:
        target = (float(formula.target_ph[0]), float(formula.target_ph[1]))
    return Titration(adjuster, per_g, points, target)


def _redissolved(situation: ChemistrySituation, dosable: Dosable, curve: Curve) -> Curve:
    """Return a curve on which as much of every acid is dissolved as dissolves at each pH."""
    from workbench.chemistry.dosing import ph_range_after

    start = situation.interval
    found = [(0.0, start.low, start.estimate, start.high)]
    for grams, _, middle, _ in curve[1:]:
        after = ph_range_after(situation.work_at(middle), dosable, grams)
        if after is not None:
            found.append((grams, *after))
    return tuple(found)


def converted(
    dose_g: float,
    from_adjuster: str,
    to_adjuster: str,
    situation: ChemistrySituation,
    shelf: Shelf,
) -> float | None:
    """Return the grams of another adjuster that lead to the same pH, or None where none will do.

    Parameters
    ----------
    dose_g : float
        Of `from_adjuster` in one kilogram of product [g].
    from_adjuster, to_adjuster : str
        Keys on the shelf.
    situation : ChemistrySituation
        The water of the formula without its to-pH lines.
    shelf : Shelf
        Where the adjusters stand.

    Returns
    -------
    float or None
        In one kilogram of product [g].
    """
    from workbench.chemistry.dosing import ph_after

    dosable = dosable_of(from_adjuster, situation, shelf)
    if dosable is None:
        return None
    reached = ph_after(situation.work, dosable, dose_g)
    if reached is not None and situation.undissolved:
        reached = ph_after(situation.work_at(reached), dosable, dose_g)
    if reached is None:
        return None
    other = dose_to(situation, shelf, to_adjuster, reached)
    return None if other is None else other.estimate


def _far_ph(formula: Formula, situation: ChemistrySituation, adjuster: str) -> float:
    """Return where the curve is to end: past the window, or past the estimate."""
    span = situation.facts.figures["doses_span"]
    estimate = situation.interval.estimate
    ends = (estimate,) if formula.target_ph is None else formula.target_ph
    is_base = any(
        known.is_base for known in situation.facts.adjusters if known.ingredient == adjuster
    )
    if is_base:
        return min(max(*map(float, ends), estimate) + span, HIGHEST_PH)
    return max(min(*map(float, ends), estimate) - span, LOWEST_PH)


def _most(situation: ChemistrySituation, shelf: Shelf, adjuster: str, far: float) -> float:
    found = dose_to(situation, shelf, adjuster, far)
    most = SOME if found is None or found.estimate is None else found.estimate
    room = situation.situation.rest_g
    return min(most, room) if room else most
