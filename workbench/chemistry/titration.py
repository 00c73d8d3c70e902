"""How much of an adjuster brings a solution to a pH, and the pH on the way there."""

from __future__ import annotations

import math
from dataclasses import dataclass

from workbench.chemistry.acid_base import solve
from workbench.chemistry.activity import DAVIES, MOST_IONIC_STRENGTH, Activity
from workbench.chemistry.speciation import Problem, held, problem_of, water_ions
from workbench.chemistry.system import OutOfRange, Solution, StrongIon, dissolved

_SAME_PH = 1e-6
_MOST_OFF_PH = 1e-3
_STEEPEST = -0.1
_BOTH_ENDS = 2
_MOST_TURNS = 60
_SMALL = 1e-10


@dataclass(frozen=True, slots=True)
class Adjuster:
    """Hold what one gram of an adjuster brings.

    Attributes
    ----------
    per_gram : Solution
        Amounts in place of molalities [mol/g].
    water_per_gram : float
        Water it brings, less the water it takes the place of: 0.001 for pure water that is added,
        -0.001 for a powder that replaces rest-line water [kg/g].
    """

    per_gram: Solution
    water_per_gram: float = 0.0


def with_dose(solution: Solution, adjuster: Adjuster, dose_g: float) -> Solution:
    """Return a solution after an addition.

    Parameters
    ----------
    solution : Solution
        What one kilogram of water has dissolved before.
    adjuster : Adjuster
        What a gram brings.
    dose_g : float
        Grams for that kilogram of water [g].

    Returns
    -------
    Solution
        Per kilogram of the water then present.

    Raises
    ------
    OutOfRange
        `ph-no-water` where the addition leaves none.

    Examples
    --------
    >>> soda = Adjuster(Solution(strong=(StrongIon(1, 0.025),)))
    >>> with_dose(Solution(), soda, 4.0).strong
    (StrongIon(charge=1, molality=0.1),)
    """
    added = adjuster.per_gram
    return dissolved(
        (
            *solution.totals,
            *((acid, amount * dose_g) for acid, amount in added.totals),
        ),
        (
            *solution.strong,
            *(StrongIon(ion.charge, ion.molality * dose_g) for ion in added.strong),
        ),
        solution.neutral + added.neutral * dose_g,
        1.0 + adjuster.water_per_gram * dose_g,
    )


def dose(
    solution: Solution,
    adjuster: Adjuster,
    target_ph: float,
    most_g: float = math.inf,
    activity: Activity = DAVIES,
) -> float | None:
    """Return the grams of an adjuster that bring a solution to a pH at 25 °C.

    Parameters
    ----------
    solution : Solution
        What one kilogram of water has dissolved before.
    adjuster : Adjuster
        What a gram brings.
    target_ph : float
        The pH wanted [-].
    most_g : float
        The most that may be added to that kilogram of water [g].
    activity : Activity
        The activity model.

    Returns
    -------
    float or None
        Grams for one kilogram of the water before; None where no dose fits: the adjuster moves
        the pH the other way, is itself not sharp enough, takes more than `most_g`, leaves no
        water, or the water grows too salty for the model.

    Notes
    -----
    At a given pH and ionic strength the charge balance is linear in the dose; the ionic strength
    is iterated, and the answer is solved for its pH before it is given.

    Examples
    --------
    >>> from workbench.chemistry.system import AcidBase
    >>> acetic = Solution(((AcidBase("acetic", (4.757,), 0), 0.1),))
    >>> soda = Adjuster(Solution(strong=(StrongIon(1, 0.025),)))
    >>> round(dose(acetic, soda, 4.757), 1)
    2.2
    """
    try:
        if abs(solve(solution, activity).ph - target_ph) <= _SAME_PH:
            return 0.0
        grams = _balancing(solution, adjuster, target_ph, activity)
        if grams is None or grams > most_g:
            return None
        reached = solve(with_dose(solution, adjuster, grams), activity).ph
    except OutOfRange:
        return None
    return grams if abs(reached - target_ph) < _MOST_OFF_PH else None


def curve(
    solution: Solution,
    adjuster: Adjuster,
    most_g: float,
    points: int = 60,
    activity: Activity = DAVIES,
) -> tuple[tuple[float, float], ...]:
    """Return a titration curve one can read doses and pH from.

    Parameters
    ----------
    solution : Solution
        What one kilogram of water has dissolved before.
    adjuster : Adjuster
        What a gram brings.
    most_g : float
        The last dose for that kilogram of water [g].
    points : int
        Points at even doses; as many again at even pH keep the steep part smooth.
    activity : Activity
        The activity model.

    Returns
    -------
    tuple of (float, float)
        Dose [g for one kilogram of the water before] and pH [-], doses rising; it ends early
        where the water grows too salty or runs out.

    Examples
    --------
    >>> soda = Adjuster(Solution(strong=(StrongIon(1, 0.025),)))
    >>> [(grams, round(ph, 2)) for grams, ph in curve(Solution(), soda, 0.4, points=2)][0]
    (0.0, 7.0)
    """
    even = _solved(
        solution, adjuster, [most_g * at / (points - 1) for at in range(points)], activity
    )
    if len(even) < _BOTH_ENDS:
        return tuple(even)
    (_, first), (last_dose, last) = even[0], even[-1]
    between = []
    for at in range(1, points):
        ph = first + (last - first) * at / points
        grams = _balancing(solution, adjuster, ph, activity)
        if grams is not None and grams < last_dose:
            between.append(grams)
    return tuple(sorted({*even, *_solved(solution, adjuster, sorted(between), activity)}))


def _solved(
    solution: Solution, adjuster: Adjuster, doses_g: list[float], activity: Activity
) -> list[tuple[float, float]]:
    points = []
    for grams in doses_g:
        try:
            ph = solve(with_dose(solution, adjuster, grams), activity).ph
        except OutOfRange:
            break
        points.append((grams, ph))
    return points


def _balancing(
    solution: Solution, adjuster: Adjuster, ph: float, activity: Activity
) -> float | None:
    """Return the dose that balances the charges at a pH, the ionic strength iterated."""
    before = problem_of(solution, activity)
    added = problem_of(adjuster.per_gram, activity)
    ionic, last_ionic, last_excess = 0.5 * before.strong_squares + 0.01, 0.0, math.nan
    grams = 0.0
    for _ in range(_MOST_TURNS):
        grams, found = _at_ionic(before, added, adjuster.water_per_gram, (ph, ionic, grams))
        excess = found - ionic
        if abs(excess) < _SMALL * (ionic + 1e-3):
            return grams if grams >= 0.0 and ionic <= MOST_IONIC_STRENGTH else None
        slope = (excess - last_excess) / (ionic - last_ionic)
        last_ionic, last_excess = ionic, excess
        # The secant, once there are two points and it falls as it must; else the value found.
        ionic = min(max(ionic - excess / slope if slope < _STEEPEST else found, 1e-9), 10.0)
        if not math.isfinite(grams) or ionic == last_ionic:
            return None
    return None


def _at_ionic(
    before: Problem, added: Problem, more_water: float, guess: tuple[float, float, float]
) -> tuple[float, float]:
    """Return the dose that balances at a pH and ionic strength, and the ionic strength it has."""
    ph, ionic, last_grams = guess
    solutes = (before.solutes + added.solutes * last_grams) / (1.0 + more_water * last_grams)
    hydrogen, hydroxide = water_ions(before.activity, ph, ionic, solutes)
    charge, squares = held(before, ph, ionic)
    more_charge, more_squares = held(added, ph, ionic)
    excess = charge + hydrogen - hydroxide
    per_gram = more_charge + more_water * (hydrogen - hydroxide)
    if per_gram == 0.0:
        return math.nan, math.nan
    grams = -excess / per_gram
    water = 1.0 + more_water * grams
    if water <= 0.0:
        return math.nan, math.nan
    return grams, 0.5 * ((squares + more_squares * grams) / water + hydrogen + hydroxide)
