"""The protonation steps of a list of acids, and a first guess of the pH from them."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

from workbench.chemistry.activity import Activity
from workbench.chemistry.system import AcidBase

# One protonation state: cumulative constant, charge to the powers 1, 2, 3, 4, and size of charge.
State = tuple[float, int, int, int, int, int]
# One loss of a proton: which acid, its constant, charge before it.
Step = tuple[int, float, int]


@dataclass(frozen=True, slots=True)
class Ladder:
    """Hold a list of acids as the solver reads it.

    Attributes
    ----------
    states : tuple of tuple of State
        For each acid its protonation states, most protonated first.
    steps : tuple of Step
        All losses of a proton, the easiest first.
    charges : tuple of int
        For each acid the charge with all protons [-].
    most_charge : int
        Greatest size of a charge, at least 1 [-].
    """

    states: tuple[tuple[State, ...], ...]
    steps: tuple[Step, ...]
    charges: tuple[int, ...]
    most_charge: int


@lru_cache(maxsize=512)
def ladder(acids: tuple[AcidBase, ...]) -> Ladder:
    """Return the protonation steps of acids, in an order the solver can walk."""
    steps = [
        (pka, index, acid.charge - lost)
        for index, acid in enumerate(acids)
        for lost, pka in enumerate(acid.pkas)
    ]
    steps.sort()
    return Ladder(
        tuple(_states(acid) for acid in acids),
        tuple((index, 10.0**-pka, charge) for pka, index, charge in steps),
        tuple(acid.charge for acid in acids),
        max([1, *(abs(charge) for acid in acids for charge in acid.charges)]),
    )


def _states(acid: AcidBase) -> tuple[State, ...]:
    states, together = [], 0.0
    for lost, charge in enumerate(acid.charges):
        if lost:
            together += acid.pkas[lost - 1]
        states.append((10.0**-together, charge, charge**2, charge**3, charge**4, abs(charge)))
    return tuple(states)


def first_guess(
    steps: Ladder,
    amounts: tuple[float, ...],
    strong_charge: float,
    strong_squares: float,
    activity: Activity,
) -> tuple[float, float]:
    """Return a pH and an ionic strength near the answer.

    Parameters
    ----------
    steps : Ladder
        The acids.
    amounts : tuple of float
        Their molalities, in the same order [mol/kg].
    strong_charge, strong_squares : float
        Sum over the strong ions of molality times charge, and times its square [mol/kg].
    activity : Activity
        The activity model.

    Returns
    -------
    (float, float)
        pH [-] and ionic strength [mol/kg].

    Notes
    -----
    Protons leave in the order of the pKa until the charges balance; around that step the balance
    is a quadratic in the activity of H+, with the steps above and below it in their limits.
    """
    charge, squares = strong_charge, strong_squares
    for amount, top in zip(amounts, steps.charges, strict=True):
        charge += amount * top
        squares += amount * top * top
    above = below = here = None
    excess = charge
    for step in steps.steps:
        amount = amounts[step[0]]
        if not amount:
            continue
        if here is not None:
            below = step
            break
        if excess < amount:
            here = step
            part = excess / amount if excess > 0.0 else 0.0
            squares += amount * part * (1 - 2 * step[2])
        else:
            excess -= amount
            squares += amount * (1 - 2 * step[2])
            above = step
    ionic = 0.5 * squares + 0.5 * abs(excess) * (here is None or excess < 0.0)
    ionic = min(max(ionic, 1e-7), 2.0)
    ph = _ph_around((above, here, below), amounts, excess, activity, ionic)
    return ph, max(ionic, 10.0**-ph, 10.0 ** (ph - activity.pkw))


def _ph_around(
    around: tuple[Step | None, Step | None, Step | None],
    amounts: tuple[float, ...],
    excess: float,
    activity: Activity,
    ionic: float,
) -> float:
    slope = activity.slope(ionic)
    ion = 10.0**slope
    neutral = 10.0 ** -(activity.neutral * ionic)
    water = 10.0**-activity.pkw * ion
    (amount1, k1), (amount2, k2), (amount3, k3) = (
        _apparent(step, amounts, slope, neutral) for step in around
    )
    if excess > 0.5 * amount2 and amount2:
        # Nearer the end of this step: a quadratic in 1 / a(H+).
        short = amount2 - excess
        beyond = amount3 * k3 + water
        square, linear = beyond * k2, short * k2 + beyond
        constant = excess + k2
        return math.log10(2.0 * constant) - math.log10(
            linear + math.sqrt(linear * linear + 4.0 * square * constant)
        )
    square = ion + (amount1 / k1 if amount1 else 0.0)
    linear = excess + square * k2
    constant = k2 * (amount2 - excess) + water
    root = math.sqrt(linear * linear + 4.0 * square * constant)
    if linear > 0.0:
        return math.log10(linear + root) - math.log10(2.0 * constant)
    return math.log10(2.0 * square) - math.log10(root - linear)


def _apparent(
    step: Step | None, amounts: tuple[float, ...], slope: float, neutral: float
) -> tuple[float, float]:
    if step is None:
        return 0.0, 0.0
    index, constant, charge = step
    if charge == 0:
        return amounts[index], constant * 10.0**slope / neutral
    if charge == 1:
        return amounts[index], constant * neutral / 10.0**slope
    return amounts[index], constant * 10.0 ** (slope * (1 - 2 * charge))
