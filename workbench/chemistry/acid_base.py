"""The pH at which the charges in water balance, one solution at a time."""

from __future__ import annotations

import math
from collections.abc import Callable

from workbench.chemistry.activity import DAVIES, MOST_IONIC_STRENGTH, Activity
from workbench.chemistry.ladder import first_guess
from workbench.chemistry.speciation import (
    Problem,
    held,
    inverse_gammas,
    problem_of,
    water_at,
    water_ions,
)
from workbench.chemistry.system import Equilibrium, OutOfRange, Solution

LN10 = math.log(10.0)
LOWEST_PH, HIGHEST_PH = -2.0, 16.0
MOST_RESIDUAL = 1e-9
FLATTEST, FARTHEST = 0.05, 3.0
_MOST_STEPS = 16
_SMALL_STEP = 1e-6
_NARROWEST = 1e-14


def solve(solution: Solution, activity: Activity = DAVIES) -> Equilibrium:
    """Return the pH, ionic strength and species of a solution at 25 °C.

    Parameters
    ----------
    solution : Solution
        What is dissolved [mol/kg water].
    activity : Activity
        The activity model.

    Returns
    -------
    Equilibrium
        Balanced to 1e-9 of the charge present; pH is -log10 a(H+) [-].

    Raises
    ------
    OutOfRange
        `ph-too-salty` above an ionic strength of 2 mol/kg, `ph-no-root` where no pH from -2 to 16
        balances the charges.

    Notes
    -----
    Mass action at ionic strength 0 with activity coefficients; no ion pairs. The balance falls
    strictly with pH at a given ionic strength, so there is one root. Newton in pH and ionic
    strength together finds it nearly always, and is believed only where the sign of the charge
    changes around its answer; where it fails both are bracketed.

    Examples
    --------
    >>> from workbench.chemistry.system import AcidBase, Solution
    >>> round(solve(Solution(((AcidBase("acetic", (4.757,), 0), 0.1),))).ph, 2)
    2.88
    """
    problem = problem_of(solution, activity)
    found = _newton(problem, *_guess(problem)) or _newton(problem, *_safe_guess(problem))
    if found is not None:
        answer = _equilibrium(problem, *found)
        if answer.ionic_strength > MOST_IONIC_STRENGTH:
            raise OutOfRange("ph-too-salty", {"ionic_strength": answer.ionic_strength})
        if answer.residual < MOST_RESIDUAL:
            return answer
    return _equilibrium(problem, *_nested(problem))


def _guess(problem: Problem) -> tuple[float, float]:
    return first_guess(
        problem.steps,
        problem.amounts,
        problem.strong_charge,
        problem.strong_squares,
        problem.activity,
    )


def _safe_guess(problem: Problem) -> tuple[float, float]:
    """Return the pH that balances at an ordinary ionic strength, and what that makes of it."""
    ordinary = 0.5 * problem.strong_squares + 0.1
    ph = _root(lambda ph: _charge(problem, ph, ordinary)[0], LOWEST_PH, HIGHEST_PH)
    return ph, _charge(problem, ph, ordinary)[1]


def _newton(problem: Problem, ph: float, ionic: float) -> tuple[float, float] | None:
    for _ in range(_MOST_STEPS):
        charge, excess, by_ph, by_ionic, excess_by_ph, excess_by_ionic = _look(problem, ph, ionic)
        scale = by_ph * excess_by_ionic - by_ionic * excess_by_ph
        if by_ph >= 0.0:
            return None
        if scale > FLATTEST * -by_ph and abs(excess) < FARTHEST * ionic:
            step = (by_ionic * excess - excess_by_ionic * charge) / scale
            change = (excess_by_ph * charge - by_ph * excess) / scale
        else:
            # Far from the root one step for both may lead away: pH at these ions, then the ions.
            step, change = -charge / by_ph, excess
        ph += min(max(step, -1.0), 1.0)
        ionic = min(max(ionic + change, 0.1 * ionic), 10.0)
        if not LOWEST_PH < ph < HIGHEST_PH:
            return None
        if abs(step) < _SMALL_STEP and abs(change) < _SMALL_STEP * (ionic + 1e-3):
            return (ph, ionic) if _is_bracketed(problem, ph, ionic) else None
    return None


def _look(
    problem: Problem, ph: float, ionic: float
) -> tuple[float, float, float, float, float, float]:
    """Return charge and excess of ionic strength, and their slopes by pH and ionic strength."""
    activity = problem.activity
    root = math.sqrt(ionic)
    gain = LN10 * activity.debye_hueckel * (0.5 / (root * (1.0 + root) ** 2) - activity.linear)
    loss = -LN10 * activity.neutral
    gammas = inverse_gammas(activity, ionic, problem.steps.most_charge)
    power = 10.0**ph
    hydrogen, hydroxide = water_at(problem.activity, power, gammas[1], problem.solutes)
    charge = problem.strong_charge + hydrogen - hydroxide
    squares = problem.strong_squares + hydrogen + hydroxide
    by_ph, by_ionic = -(hydrogen + hydroxide), gain * (hydrogen - hydroxide)
    squares_by_ph, squares_by_ionic = hydroxide - hydrogen, gain * (hydrogen + hydroxide)
    for states, amount in zip(problem.steps.states, problem.amounts, strict=True):
        whole = first = second = third = fourth = uncharged = 0.0
        reach = amount
        for constant, z, z2, z3, z4, size in states:
            part = constant * reach * gammas[size]
            reach *= power
            whole += part
            if z:
                first += z * part
                second += z2 * part
                third += z3 * part
                fourth += z4 * part
            else:
                uncharged = part
        if whole:
            unit = amount / whole
            mean, square = first / whole, second / whole
            mixed = unit * (third - mean * second)
            alone = loss * uncharged * unit
            charge += unit * first
            squares += unit * second
            by_ph -= unit * (second - mean * first)
            squares_by_ph -= mixed
            by_ionic += gain * mixed - alone * mean
            squares_by_ionic += gain * unit * (fourth - square * second) - alone * square
    return (
        charge,
        0.5 * squares - ionic,
        LN10 * by_ph,
        by_ionic,
        0.5 * LN10 * squares_by_ph,
        0.5 * squares_by_ionic - 1.0,
    )


def _charge(problem: Problem, ph: float, ionic: float) -> tuple[float, float]:
    charge, squares = held(problem, ph, ionic)
    hydrogen, hydroxide = water_ions(problem.activity, ph, ionic, problem.solutes)
    return charge + hydrogen - hydroxide, 0.5 * (squares + hydrogen + hydroxide)


def _is_bracketed(problem: Problem, ph: float, ionic: float) -> bool:
    return (
        _charge(problem, ph - _SMALL_STEP, ionic)[0]
        >= 0.0
        >= _charge(problem, ph + _SMALL_STEP, ionic)[0]
    )


def _nested(problem: Problem) -> tuple[float, float]:
    def ph_at(ionic: float) -> float:
        return _root(lambda ph: _charge(problem, ph, ionic)[0], LOWEST_PH, HIGHEST_PH)

    def excess_at(ionic: float) -> float:
        return _charge(problem, ph_at(ionic), ionic)[1] - ionic

    if excess_at(MOST_IONIC_STRENGTH) > 0.0:
        raise OutOfRange("ph-too-salty", {"ionic_strength": MOST_IONIC_STRENGTH})
    ionic = _root(excess_at, 0.0, MOST_IONIC_STRENGTH)
    return ph_at(ionic), ionic


def _root(function: Callable[[float], float], low: float, high: float) -> float:
    """Return where a falling function crosses zero: false position, halving when it stalls."""
    at_low, at_high = function(low), function(high)
    if at_low < 0.0 or at_high > 0.0:
        raise OutOfRange("ph-no-root")
    for turn in range(200):
        middle = 0.5 * (low + high)
        if turn % 3 and at_low > at_high:
            middle = low + (high - low) * at_low / (at_low - at_high)
        if not low < middle < high or high - low < _NARROWEST:
            break
        value = function(middle)
        if value > 0.0:
            low, at_low, at_high = middle, value, at_high * 0.5
        else:
            high, at_high, at_low = middle, value, at_low * 0.5
    return 0.5 * (low + high)


def _equilibrium(problem: Problem, ph: float, ionic: float) -> Equilibrium:
    gammas = inverse_gammas(problem.activity, ionic, problem.steps.most_charge)
    power = 10.0**ph
    hydrogen, hydroxide = water_at(problem.activity, power, gammas[1], problem.solutes)
    charge = problem.strong_charge + hydrogen - hydroxide
    scale = problem.strong_sizes + hydrogen + hydroxide
    shares = []
    for states, amount in zip(problem.steps.states, problem.amounts, strict=True):
        parts = []
        whole = first = sizes = 0.0
        reach = 1.0
        for constant, z, _, _, _, size in states:
            part = constant * reach * gammas[size]
            reach *= power
            whole += part
            first += z * part
            sizes += size * part
            parts.append(part)
        charge += amount * first / whole
        scale += amount * sizes / whole
        shares.append(tuple([part / whole for part in parts]))
    return Equilibrium(ph, ionic, abs(charge) / scale, tuple(shares))
