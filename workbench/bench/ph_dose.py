"""The next addition of one adjuster: as much as is prudent, as weighed.

Loading this module loads numpy: import it where it is used.
"""

from __future__ import annotations

import math
from collections.abc import Mapping

import numpy as np

from workbench.bench.ph_belief import Belief
from workbench.bench.ph_family import CHARGES
from workbench.bench.ph_log import BeakerState, Composed, PhAdjuster
from workbench.bench.ph_reading import HIGH, LOW
from workbench.bench.ph_values import Dose, Limits, PhSpan, Weaker, Window
from workbench.chemistry.acid_base_arrays import Floats, Solutions
from workbench.chemistry.sampling import MIDDLE
from workbench.chemistry.system import Solution, StrongIon
from workbench.chemistry.titration import Adjuster
from workbench.chemistry.titration_many import dose_many

# Where the model is taken as faultless there is still a distance to divide by [pH].
_LEAST_REACH = 1e-3


def dose_towards(
    belief: Belief, state: BeakerState, adjuster: PhAdjuster, window: Window, limits: Limits
) -> Dose | None:
    """Return the next addition of one adjuster; None where no dose moves the pH nearer.

    Parameters
    ----------
    belief : Belief
        What the product may be.
    state : BeakerState
        What stands in the beaker.
    adjuster : PhAdjuster
        One of the belief's.
    window : Window
        Where the pH is to be.
    limits : Limits
        What can be weighed.

    Notes
    -----
    The least of: the dose that passes the far edge with the chance allowed; the dose whose middle
    lands mid-window; a twentieth of the batch. A dose that cannot be weighed is thinned.
    """
    figures = belief.family.figures
    far = window.high if adjuster.is_base else window.low
    to_far, to_middle = _doses(belief, state, adjuster, (far, window.middle))
    wanted = belief.quantile(to_middle, MIDDLE)
    grams = min(
        belief.quantile(to_far, belief.family.pass_chance),
        wanted,
        figures["most_addition"] * state.mass_g,
    )
    if not grams > 0.0:
        return None
    mass, weaker = _weighable(grams, limits, figures)
    fold = 1.0 if weaker is None else float(weaker.fold)
    landing, passing = _landing(belief, state, adjuster, (mass, fold), far)
    total = wanted if math.isfinite(wanted) else None
    reach = belief.chance(np.isfinite(to_middle))
    return Dose(adjuster.key, mass, weaker, landing, passing, total, reach)


def after(state: BeakerState, key: str, mass_g: float, fold: float = 1.0) -> Composed:
    """Return what a gram of product has beside it after some more of an adjuster [g]."""
    added = dict(state.composed.added)
    stated = mass_g / fold
    added[key] = added.get(key, 0.0) + stated / state.product_g
    thinning = state.composed.thinning + (mass_g - stated) / state.product_g
    return Composed(tuple(added.items()), thinning)


def _doses(
    belief: Belief, state: BeakerState, adjuster: PhAdjuster, targets: tuple[float, ...]
) -> list[Floats]:
    """Return what each sample takes to each pH [g in the whole batch]; infinite out of reach."""
    family = belief.family
    products = family.products(belief.numbers)
    rows, model = family.beside(products, state.composed), products.model
    count = len(family.acids)
    solutions = Solutions(
        family.acids, rows[:, :count], CHARGES, rows[:, count:], np.zeros(len(rows))
    )
    now = belief.ph(state.composed)
    strength = products.strengths[:, family.place(adjuster.key)]
    scale = family.water(state.composed) * state.product_g / (1000.0 * strength)
    reach = max(float(np.abs(model).max()), _LEAST_REACH)
    found = []
    for target in targets:
        aims = (target - reach, target, target + reach)
        below, there, above = (_per_kg(solutions, adjuster, aim) for aim in aims)
        grams = scale * _between(below, there, above, -model / reach)
        is_past = now >= target if adjuster.is_base else now <= target
        found.append(np.where(is_past, 0.0, grams))
    return found


def _per_kg(solutions: Solutions, adjuster: PhAdjuster, ph: float) -> Floats:
    grams = dose_many(solutions, (_as_weighed(adjuster),), ph)[:, 0]
    return np.where(np.isfinite(grams), grams, np.inf)


def _between(below: Floats, there: Floats, above: Floats, share: Floats) -> Floats:
    """Return doses to a pH shifted by a share of the distance to its neighbours."""
    end = np.where(share < 0.0, below, above)
    is_known = np.isfinite(end) & np.isfinite(there)
    with np.errstate(all="ignore"):
        shifted = there + (end - there) * np.abs(share)
    return np.where(is_known, shifted, there)


def _as_weighed(adjuster: PhAdjuster) -> Adjuster:
    return Adjuster(
        Solution(
            adjuster.gift.acids,
            tuple(StrongIon(charge, amount) for charge, amount in adjuster.gift.ions),
        ),
        adjuster.water_g / 1000.0,
    )


def _weighable(
    grams: float, limits: Limits, figures: Mapping[str, float]
) -> tuple[float, Weaker | None]:
    """Return what to pour and the weaker solution it is of, rounded down to the balance."""
    if grams >= limits.least_g:
        return _stepped(grams, limits), None
    fold = next((k for k in limits.folds if k * grams >= limits.least_g), limits.folds[-1])
    make = max(figures["dilution_make"], fold * limits.least_g, 2.0 * fold * grams)
    stock = make / fold
    return (
        max(_stepped(grams * fold, limits), limits.step_g),
        Weaker(fold, stock, make - stock),
    )


def _stepped(grams: float, limits: Limits) -> float:
    steps = math.floor(grams / limits.step_g + 1e-9)
    return round(steps * limits.step_g, 9)


def _landing(
    belief: Belief,
    state: BeakerState,
    adjuster: PhAdjuster,
    poured: tuple[float, float],
    far: float,
) -> tuple[PhSpan, float]:
    ph = belief.ph(after(state, adjuster.key, *poured))
    span = PhSpan(*(belief.quantile(ph, chance) for chance in (LOW, MIDDLE, HIGH)))
    passing = belief.chance(ph > far if adjuster.is_base else ph < far)
    return span, passing
