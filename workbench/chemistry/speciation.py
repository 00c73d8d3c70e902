"""Charges and their squares of the species in a solution, at a pH and ionic strength given."""

from __future__ import annotations

from dataclasses import dataclass

from workbench.chemistry.activity import MOST_IONIC_STRENGTH, Activity
from workbench.chemistry.ladder import Ladder, ladder
from workbench.chemistry.system import OutOfRange, Solution


@dataclass(slots=True)
class Problem:
    """Hold a solution as sums, ready to be looked at for one pH after another."""

    steps: Ladder
    amounts: tuple[float, ...]
    strong_charge: float
    strong_squares: float
    strong_sizes: float
    solutes: float
    activity: Activity


def problem_of(solution: Solution, activity: Activity) -> Problem:
    """Return the sums of a solution that do not depend on its pH."""
    charge = squares = sizes = solutes = 0.0
    for ion in solution.strong:
        z, molality = ion.charge, ion.molality
        charge += z * molality
        squares += z * z * molality
        sizes += abs(z) * molality
        solutes += molality
    if 0.5 * squares > MOST_IONIC_STRENGTH:
        raise OutOfRange("ph-too-salty", {"ionic_strength": 0.5 * squares})
    acids, amounts = tuple(zip(*solution.totals, strict=True)) or ((), ())
    return Problem(
        ladder(acids),
        amounts,
        charge,
        squares,
        sizes,
        solutes + solution.neutral + sum(amounts),
        activity,
    )


def held(problem: Problem, ph: float, ionic: float) -> tuple[float, float]:
    """Return the charge of all but H+ and OH-, and its squares, at a pH and ionic strength.

    Parameters
    ----------
    problem : Problem
        The solution as sums.
    ph, ionic : float
        pH [-] and ionic strength [mol/kg].

    Returns
    -------
    (float, float)
        Sums over the ions of molality times charge, and times its square [mol/kg].
    """
    gammas = inverse_gammas(problem.activity, ionic, problem.steps.most_charge)
    power = 10.0**ph
    charge, squares = problem.strong_charge, problem.strong_squares
    for states, amount in zip(problem.steps.states, problem.amounts, strict=True):
        whole = first = second = 0.0
        reach = 1.0
        for constant, z, z2, _, _, size in states:
            part = constant * reach * gammas[size]
            reach *= power
            whole += part
            first += z * part
            second += z2 * part
        charge += amount * first / whole
        squares += amount * second / whole
    return charge, squares


def water_ions(activity: Activity, ph: float, ionic: float, solutes: float) -> tuple[float, float]:
    """Return the molalities of H+ and OH- [mol/kg].

    Parameters
    ----------
    activity : Activity
        The activity model; its water falls with all that is dissolved.
    ph, ionic, solutes : float
        pH [-], ionic strength and molality of everything dissolved but H+ and OH- [mol/kg].
    """
    return water_at(activity, 10.0**ph, 10.0 ** activity.slope(ionic), solutes)


def inverse_gammas(activity: Activity, ionic: float, most_charge: int) -> list[float]:
    """Return 1 / gamma by size of charge at an ionic strength [mol/kg], uncharged first [-]."""
    slope = activity.slope(ionic)
    one = 10.0**slope
    gammas = [10.0 ** -(activity.neutral * ionic), one]
    for size in range(2, most_charge + 1):
        gammas.append(one ** (size * size))
    return gammas


def water_at(activity: Activity, power: float, one: float, solutes: float) -> tuple[float, float]:
    """Return H+ and OH- [mol/kg] from 10**pH and 1 / gamma of charge one; see `water_ions`."""
    hydrogen = one / power
    most = 10.0**-activity.pkw * power * one
    left = 1.0 - activity.water * (solutes + hydrogen)
    return hydrogen, most * max(left / (1.0 + activity.water * most), activity.driest)
