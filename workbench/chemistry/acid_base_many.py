"""The acid–base balance of many solutions at once, as arrays.

The same answers as `acid_base.solve`. Loading this module loads numpy: import it where it is used.
"""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np

from workbench.chemistry.acid_base import FARTHEST, FLATTEST, HIGHEST_PH, LN10, LOWEST_PH, solve
from workbench.chemistry.acid_base_arrays import (
    Floats,
    Places,
    Solutions,
    Tables,
    Truths,
    first_guesses,
    inverse_gammas,
    powers_of,
    tables,
    water_ions,
)
from workbench.chemistry.activity import DAVIES, MOST_IONIC_STRENGTH, Activity
from workbench.chemistry.system import AcidBase, OutOfRange, Solution, StrongIon

_MOST_STEPS = 16
_SMALL_STEP = 1e-6


def solve_many(
    acids: tuple[AcidBase, ...],
    totals: Floats,
    strong_charges: tuple[int, ...] = (),
    strong: Floats | None = None,
    neutral: Floats | float = 0.0,
    activity: Activity = DAVIES,
) -> tuple[Floats, Floats]:
    """Return pH and ionic strength of n solutions of the same acids at 25 °C.

    Parameters
    ----------
    acids : tuple of AcidBase
        The acids all solutions share; the same tuple again costs nothing to prepare.
    totals : array (n, acids)
        Molality of each [mol/kg water].
    strong_charges : tuple of int
        Charges of the strong ions they share [-].
    strong : array (n, strong ions)
        Molality of each [mol/kg water].
    neutral : array (n,) or float
        Uncharged solutes [mol/kg water].
    activity : Activity
        The activity model.

    Returns
    -------
    (array (n,), array (n,))
        pH [-] and ionic strength [mol/kg]; NaN where `acid_base.solve` would refuse.

    Notes
    -----
    Newton in pH and ionic strength together over all rows; a row whose charge does not change
    sign around its answer is left to `acid_base.solve`.

    Examples
    --------
    >>> acetic = AcidBase("acetic", (4.757,), 0)
    >>> ph, _ = solve_many((acetic,), np.array([[0.1], [0.2]]))
    >>> [round(float(each), 2) for each in ph]
    [2.88, 2.73]
    """
    count = len(totals)
    ions = np.zeros((count, len(strong_charges))) if strong is None else strong
    alone = np.broadcast_to(np.asarray(neutral, dtype=float), (count,))
    return solved(Solutions(acids, totals, strong_charges, ions, alone), activity)


def solved(solutions: Solutions, activity: Activity = DAVIES) -> tuple[Floats, Floats]:
    """Return pH and ionic strength of solutions already gathered; see `solve_many`."""
    solutions = _present(solutions)
    charges = np.array(solutions.strong_charges, dtype=float)
    many = _Many(
        tables(solutions.acids),
        activity,
        np.ascontiguousarray(solutions.totals.T),
        np.stack((charges, charges**2)) @ solutions.strong.T,
        solutions.totals.sum(axis=1) + solutions.strong.sum(axis=1) + solutions.neutral,
    )
    with np.errstate(all="ignore"):
        ph, ionic = many.newton()
        good = many.is_bracketed(ph, ionic)
    for row in np.flatnonzero(~good):
        ph[row], ionic[row] = _alone(_row(solutions, int(row)), activity)
    refused = ~(ionic <= MOST_IONIC_STRENGTH)
    ph[refused] = ionic[refused] = math.nan
    return ph, ionic


def shares_many(acid: AcidBase, ph: Floats, ionic: Floats, activity: Activity = DAVIES) -> Floats:
    """Return the share of each protonation state of one acid.

    Parameters
    ----------
    acid : AcidBase
        The acid.
    ph, ionic : array (n,)
        pH [-] and ionic strength [mol/kg].
    activity : Activity
        The activity model.

    Returns
    -------
    array (states, n)
        Most protonated first; each column sums to 1 [-].
    """
    table = tables((acid,))
    gammas = inverse_gammas(activity, ionic, table)
    parts = table.constants * powers_of(ph, table.most_lost)[table.lost] * gammas[table.sizes]
    return np.asarray(parts / parts.sum(axis=0))


def _present(solutions: Solutions) -> Solutions:
    """Return solutions without the acids none of them has."""
    present = np.flatnonzero(solutions.totals.any(axis=0))
    if len(present) == len(solutions.acids):
        return solutions
    acids = tuple(solutions.acids[at] for at in present)
    return replace(solutions, acids=acids, totals=solutions.totals[:, present])


def _row(solutions: Solutions, row: int) -> Solution:
    totals, strong = solutions.totals[row].tolist(), solutions.strong[row].tolist()
    ions = zip(solutions.strong_charges, strong, strict=True)
    return Solution(
        tuple(zip(solutions.acids, totals, strict=True)),
        tuple(StrongIon(charge, molality) for charge, molality in ions),
        float(solutions.neutral[row]),
    )


def _alone(solution: Solution, activity: Activity) -> tuple[float, float]:
    try:
        answer = solve(solution, activity)
    except OutOfRange:
        return math.nan, math.nan
    return answer.ph, answer.ionic_strength


class _Many:
    """Look at many solutions of the same acids, one column each."""

    def __init__(
        self, table: Tables, activity: Activity, totals: Floats, strong: Floats, solutes: Floats
    ) -> None:
        self.table = table
        self.activity = activity
        self.totals = totals
        self.strong_charge, self.strong_squares = strong
        self.solutes = solutes

    def _only(self, rows: Places) -> _Many:
        strong = np.stack((self.strong_charge[rows], self.strong_squares[rows]))
        return _Many(self.table, self.activity, self.totals[:, rows], strong, self.solutes[rows])

    def newton(self) -> tuple[Floats, Floats]:
        """Return pH and ionic strength where the steps of Newton became small."""
        ph, ionic = first_guesses(
            self.table, self.totals, self.strong_charge, self.strong_squares, self.activity
        )
        self.descend(ph, ionic, _MOST_STEPS)
        return ph, ionic

    def descend(self, ph: Floats, ionic: Floats, turns: int) -> None:
        """Step every row until its steps are small; `ph` and `ionic` are changed in place."""
        for turn in range(turns):
            step, change = self._steps(ph, ionic)
            ph += np.minimum(np.maximum(step, -1.0), 1.0)
            np.minimum(np.maximum(ph, LOWEST_PH, out=ph), HIGHEST_PH, out=ph)
            np.minimum(np.maximum(ionic + change, 0.1 * ionic), 10.0, out=ionic)
            small = np.maximum(np.abs(step), np.abs(change) / (ionic + 1e-3))
            rows = np.flatnonzero(~(small < _SMALL_STEP))
            if not len(rows):
                return
            if 2 * len(rows) < len(ph):
                left_ph, left_ionic = ph[rows], ionic[rows]
                self._only(rows).descend(left_ph, left_ionic, turns - turn - 1)
                ph[rows], ionic[rows] = left_ph, left_ionic
                return

    def _steps(self, ph: Floats, ionic: Floats) -> tuple[Floats, Floats]:
        charge, excess, slopes = self._look(ph, ionic)
        by_ph, by_ionic, excess_by_ph, excess_by_ionic = slopes
        scale = by_ph * excess_by_ionic - by_ionic * excess_by_ph
        step = (by_ionic * excess - excess_by_ionic * charge) / scale
        change = (excess_by_ph * charge - by_ph * excess) / scale
        is_far = (scale <= FLATTEST * -by_ph) | (np.abs(excess) >= FARTHEST * ionic)
        if is_far.any():
            step[is_far] = (-charge / by_ph)[is_far]
            change[is_far] = excess[is_far]
        return step, change

    def is_bracketed(self, ph: Floats, ionic: Floats) -> Truths:
        """Say where the charge changes sign around a pH, the ionic strength being that found."""
        below = self._charge(ph - _SMALL_STEP, ionic)[0]
        above, squares = self._charge(ph + _SMALL_STEP, ionic)
        agrees = np.abs(0.5 * squares - ionic) < 1e-5 * (ionic + 1e-3)
        return (below >= 0.0) & (above <= 0.0) & agrees

    def _look(self, ph: Floats, ionic: Floats) -> tuple[Floats, Floats, tuple[Floats, ...]]:
        """Return charge, excess of ionic strength, and their slopes by pH and ionic strength."""
        activity = self.activity
        root = np.sqrt(ionic)
        gain = 0.5 / (root * (1.0 + root) ** 2) - activity.linear
        gain *= LN10 * activity.debye_hueckel
        gammas = inverse_gammas(activity, ionic, self.table)
        powers = powers_of(ph, self.table.most_lost)
        hydrogen, hydroxide = water_ions(activity, 10.0**ph, gammas[1], self.solutes)
        sums = self.table.sums(powers, gammas, 6)
        first, second, third, fourth, uncharged = sums[1:] / sums[0]
        unit = self.totals
        mixed = (unit * (third - first * second)).sum(axis=0)
        alone = (LN10 * activity.neutral) * unit * uncharged
        charge = self.strong_charge + hydrogen - hydroxide + (unit * first).sum(axis=0)
        squares = self.strong_squares + hydrogen + hydroxide + (unit * second).sum(axis=0)
        by_ph = -LN10 * (hydrogen + hydroxide + (unit * (second - first * first)).sum(axis=0))
        by_ionic = gain * (hydrogen - hydroxide + mixed) + (alone * first).sum(axis=0)
        excess_by_ph = 0.5 * LN10 * (hydroxide - hydrogen - mixed)
        spread = hydrogen + hydroxide + (unit * (fourth - second * second)).sum(axis=0)
        excess_by_ionic = 0.5 * (gain * spread + (alone * second).sum(axis=0)) - 1.0
        return charge, 0.5 * squares - ionic, (by_ph, by_ionic, excess_by_ph, excess_by_ionic)

    def _charge(self, ph: Floats, ionic: Floats) -> tuple[Floats, Floats]:
        gammas = inverse_gammas(self.activity, ionic, self.table)
        hydrogen, hydroxide = water_ions(self.activity, 10.0**ph, gammas[1], self.solutes)
        sums = self.table.sums(powers_of(ph, self.table.most_lost), gammas, 3)
        each, squares = (self.totals * (sums[1:] / sums[0])).sum(axis=1)
        return (
            self.strong_charge + hydrogen - hydroxide + each,
            self.strong_squares + hydrogen + hydroxide + squares,
        )
