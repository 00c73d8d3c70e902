"""Doses of several adjusters for many solutions at once, as arrays.

The same answers as `titration.dose`. Loading this module loads numpy: import it where it is used.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from workbench.chemistry.acid_base_arrays import (
    Floats,
    Solutions,
    Tables,
    Truths,
    gathered,
    inverse_gammas,
    tables,
    water_ions,
)
from workbench.chemistry.activity import DAVIES, MOST_IONIC_STRENGTH, Activity
from workbench.chemistry.system import AcidBase
from workbench.chemistry.titration import Adjuster

_MOST_TURNS = 25
_TURNS_TO_A_SIGN = 4
_SMALL = 1e-9
_STEEPEST = -0.1


def dose_many(
    solutions: Solutions,
    adjusters: Sequence[Adjuster],
    target_ph: float,
    most_g: Floats | float = math.inf,
    activity: Activity = DAVIES,
) -> Floats:
    """Return the grams of k adjusters that bring each of n solutions to a pH at 25 °C.

    Parameters
    ----------
    solutions : Solutions
        What each kilogram of water has dissolved before [mol/kg].
    adjusters : sequence of Adjuster
        What a gram of each brings.
    target_ph : float
        The pH wanted [-].
    most_g : float or array (n, k)
        The most that may be added to that kilogram of water [g].
    activity : Activity
        The activity model.

    Returns
    -------
    array (n, k)
        Grams for one kilogram of the water before; NaN where no dose fits.

    Examples
    --------
    >>> from workbench.chemistry.system import AcidBase, Solution, StrongIon
    >>> acetic = gathered([Solution(((AcidBase("acetic", (4.757,), 0), 0.1),))])
    >>> soda = Adjuster(Solution(strong=(StrongIon(1, 0.025),)))
    >>> round(float(dose_many(acetic, (soda,), 4.757)[0, 0]), 1)
    2.2
    """
    with np.errstate(all="ignore"):
        grams, ionic, is_settled = _Doses(solutions, adjusters, target_ph, activity).settled()
        grams = np.where(np.abs(grams) < _SMALL, 0.0, grams)
        fits = is_settled & (grams >= 0.0) & (grams <= most_g) & (ionic <= MOST_IONIC_STRENGTH)
    return np.where(fits, grams, math.nan)


class _Doses:
    """Balance the charges at one pH; arrays are (n, k), with acids or sizes of charge before."""

    def __init__(
        self,
        solutions: Solutions,
        adjusters: Sequence[Adjuster],
        target_ph: float,
        activity: Activity,
    ) -> None:
        added = gathered([each.per_gram for each in adjusters])
        acids = tuple(dict.fromkeys((*solutions.acids, *added.acids)))
        self.table = tables(acids)
        self.activity = activity
        self.power = 10.0**target_ph
        self.by_size = _moments_at(self.table, target_ph)
        self.shape = (len(solutions.totals), len(adjusters))
        self.before = _columns(solutions, acids)[:, :, None]
        self.added = _columns(added, acids)[:, None, :]
        self.strong = _strong_sums(solutions)[:, :, None]
        self.more_strong = _strong_sums(added)[:, None, :]
        self.more_water = np.array([each.water_per_gram for each in adjusters])

    def settled(self) -> tuple[Floats, Floats, Truths]:
        """Return doses, ionic strengths, and where these agree with each other."""
        grams = np.zeros(self.shape)
        ionic = np.broadcast_to(0.5 * self.strong[1] + 0.01, self.shape)
        last_ionic = last_excess = np.full(self.shape, math.nan)
        for turn in range(_MOST_TURNS):
            grams, found = self._at_ionic(ionic, grams)
            excess = found - ionic
            agrees = np.abs(excess) < _SMALL * (ionic + 1e-3)
            is_wrong_way = (grams < 0.0) & (turn >= _TURNS_TO_A_SIGN)
            if (agrees | is_wrong_way | np.isnan(excess)).all():
                break
            slope = (excess - last_excess) / (ionic - last_ionic)
            last_ionic, last_excess = ionic, excess
            # The secant, once there are two points and it falls as it must; else the value found.
            step = np.where(slope < _STEEPEST, ionic - excess / slope, found)
            ionic = np.where(agrees, ionic, np.clip(step, 1e-9, 10.0))
        return grams, ionic, agrees

    def _at_ionic(self, ionic: Floats, last_grams: Floats) -> tuple[Floats, Floats]:
        gammas = inverse_gammas(self.activity, ionic.reshape(-1), self.table)
        whole, first, second = (self.by_size @ gammas).reshape(3, len(self.before), *self.shape)
        first, second = first / whole, second / whole
        water = 1.0 + self.more_water * last_grams
        solutes = (self.strong[2] + self.more_strong[2] * last_grams) / water
        one = gammas[1].reshape(self.shape)
        hydrogen, hydroxide = water_ions(self.activity, self.power, one, solutes)
        free = hydrogen - hydroxide
        charge = self.strong[0] + (self.before * first).sum(axis=0) + free
        more = self.more_strong[0] + (self.added * first).sum(axis=0) + self.more_water * free
        grams = -charge / more
        water = 1.0 + self.more_water * grams
        squares = self.strong[1] + (self.before * second).sum(axis=0)
        squares = squares + (self.more_strong[1] + (self.added * second).sum(axis=0)) * grams
        found = 0.5 * (squares / water + hydrogen + hydroxide)
        is_dry = (water <= 0.0) | ~np.isfinite(grams)
        return np.where(is_dry, math.nan, grams), np.where(is_dry, math.nan, found)


def _moments_at(table: Tables, ph: float) -> Floats:
    """Return what makes 1, z and z² sums of 1 / gamma at one pH, shape (3 * acids, sizes)."""
    sizes = np.arange(len(table.squares))
    weights = table.constants[:, 0] * 10.0 ** (ph * table.lost)
    by_size = (table.sizes[:, None] == sizes) * weights[:, None]
    return np.asarray(table.moments[:3].reshape(3 * table.count, len(weights)) @ by_size)


def _columns(solutions: Solutions, acids: tuple[AcidBase, ...]) -> Floats:
    found = np.zeros((len(acids), len(solutions.totals)))
    for at, acid in enumerate(solutions.acids):
        found[acids.index(acid)] = solutions.totals[:, at]
    return found


def _strong_sums(solutions: Solutions) -> Floats:
    """Return charge, its squares, and the molality of everything, shape (3, n)."""
    charges = np.array(solutions.strong_charges, dtype=float)
    solutes = solutions.totals.sum(axis=1) + solutions.strong.sum(axis=1) + solutions.neutral
    return np.stack((solutions.strong @ charges, solutions.strong @ charges**2, solutes))
