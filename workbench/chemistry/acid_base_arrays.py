"""The protonation states of a list of acids as arrays. Loading this module loads numpy."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import numpy.typing as npt

from workbench.chemistry.acid_base import LN10
from workbench.chemistry.activity import MOST_IONIC_STRENGTH, Activity
from workbench.chemistry.ladder import Ladder, ladder
from workbench.chemistry.system import AcidBase, Solution

Floats = npt.NDArray[np.float64]
Truths = npt.NDArray[np.bool_]
Places = npt.NDArray[np.intp]


@dataclass(frozen=True, slots=True, eq=False)
class Solutions:
    """Hold n solutions of the same acids; a working form that is not compared or kept.

    Attributes
    ----------
    acids : tuple of AcidBase
        The acids they share; the same tuple again costs nothing to prepare.
    totals : array (n, acids)
        Molality of each [mol/kg water].
    strong_charges : tuple of int
        Charges of the strong ions they share [-].
    strong : array (n, strong ions)
        Molality of each [mol/kg water].
    neutral : array (n,)
        Uncharged solutes [mol/kg water].
    """

    acids: tuple[AcidBase, ...]
    totals: Floats
    strong_charges: tuple[int, ...]
    strong: Floats
    neutral: Floats


def gathered(solutions: Sequence[Solution]) -> Solutions:
    """Return single solutions as arrays, a column for every acid and charge among them."""
    acids = {acid: None for each in solutions for acid, _ in each.totals}
    charges = {ion.charge: None for each in solutions for ion in each.strong}
    acid_at = {acid: at for at, acid in enumerate(acids)}
    charge_at = {charge: at for at, charge in enumerate(charges)}
    totals = np.zeros((len(solutions), len(acids)))
    strong = np.zeros((len(solutions), len(charges)))
    for row, each in enumerate(solutions):
        for acid, molality in each.totals:
            totals[row, acid_at[acid]] += molality
        for ion in each.strong:
            strong[row, charge_at[ion.charge]] += ion.molality
    neutral = np.array([each.neutral for each in solutions])
    return Solutions(tuple(acids), totals, tuple(charges), strong, neutral)


class Tables:
    """Hold the protonation states of a list of acids as arrays, one entry per state.

    Attributes
    ----------
    constants : array (states,)
        Cumulative constants.
    lost, sizes : array (states,) of int
        Protons lost, and size of the charge.
    moments : array (6 * acids, states)
        Rows that sum, for each acid, 1, z, z², z³, z⁴ and "uncharged" over its states.
    """

    def __init__(self, acids: tuple[AcidBase, ...]) -> None:
        self.ladder: Ladder = ladder(acids)
        states = [
            (index, lost, state)
            for index, own in enumerate(self.ladder.states)
            for lost, state in enumerate(own)
        ]
        self.count = len(acids)
        self.constants = np.array([state[0] for _, _, state in states])[:, None]
        self.lost = np.array([lost for _, lost, _ in states], dtype=np.intp)
        self.sizes = np.array([state[5] for _, _, state in states], dtype=np.intp)
        self.moments = np.zeros((6, self.count, len(states)))
        for place, (index, _, state) in enumerate(states):
            self.moments[:, index, place] = (1.0, *state[1:5], state[5] == 0)
        self.squares = np.arange(self.ladder.most_charge + 1.0)[:, None] ** 2
        self.most_lost = max([0, *(lost for _, lost, _ in states)])
        self.step_acids = np.array([step[0] for step in self.ladder.steps], dtype=np.intp)
        self.step_constants = np.array([step[1] for step in self.ladder.steps])[:, None]
        before = np.array([step[2] for step in self.ladder.steps], dtype=np.intp)
        self.step_before, self.step_after = np.abs(before), np.abs(before - 1)
        self.step_squares = 1.0 - 2.0 * before

    def sums(self, powers: Floats, gammas: Floats, count: int) -> Floats:
        """Return the first moments over the states, shape (count, acids, n)."""
        parts = self.constants * powers[self.lost] * gammas[self.sizes]
        flat = self.moments[:count].reshape(count * self.count, len(parts)) @ parts
        return flat.reshape(count, self.count, parts.shape[1])


@lru_cache(maxsize=256)
def tables(acids: tuple[AcidBase, ...]) -> Tables:
    """Return the arrays of a list of acids."""
    return Tables(acids)


def inverse_gammas(activity: Activity, ionic: Floats, table: Tables) -> Floats:
    """Return 1 / gamma for each size of charge, uncharged first, shape (sizes, n)."""
    root = np.sqrt(ionic)
    slope = (LN10 * activity.debye_hueckel) * (root / (1.0 + root) - activity.linear * ionic)
    exponents = table.squares * slope
    exponents[0] = (-LN10 * activity.neutral) * ionic
    return np.asarray(np.exp(exponents))


def water_ions(
    activity: Activity, power: Floats | float, one: Floats, solutes: Floats
) -> tuple[Floats, Floats]:
    """Return the molalities of H+ and OH-; `power` is 10**pH, `one` 1 / gamma of charge one."""
    hydrogen = one / power
    most = (10.0**-activity.pkw) * power * one
    left = (1.0 - activity.water * (solutes + hydrogen)) / (1.0 + activity.water * most)
    return np.asarray(hydrogen), np.asarray(most * np.maximum(left, activity.driest))


def powers_of(ph: Floats, most_lost: int) -> Floats:
    """Return 10**(k pH) for k protons lost, shape (most_lost + 1, n)."""
    powers = np.empty((most_lost + 1, len(ph)))
    powers[0] = 1.0
    if most_lost:
        np.exp(LN10 * ph, out=powers[1])
        for lost in range(2, most_lost + 1):
            np.multiply(powers[lost - 1], powers[1], out=powers[lost])
    return powers


def first_guesses(
    table: Tables,
    totals: Floats,
    strong_charge: Floats,
    strong_squares: Floats,
    activity: Activity,
) -> tuple[Floats, Floats]:
    """Return a pH and an ionic strength near the answer, shape (n,); see `ladder.first_guess`."""
    amounts = totals[table.step_acids]
    tops = np.array(table.ladder.charges, dtype=float)
    left = np.empty((len(amounts) + 1, totals.shape[1]))
    left[0] = strong_charge + tops @ totals
    np.subtract(left[0], np.cumsum(amounts, axis=0), out=left[1:])
    is_open = np.ones(left.shape, dtype=bool)
    np.logical_and(left[:-1] < amounts, amounts > 0.0, out=is_open[:-1])
    here = is_open.argmax(axis=0)
    taken = np.clip(left[:-1], 0.0, amounts)
    squares = strong_squares + tops**2 @ totals + table.step_squares @ taken
    beyond = np.maximum(left[-1], 0.0) + np.maximum(-left[0], 0.0)
    ionic = np.clip(0.5 * (squares + beyond), 1e-7, MOST_IONIC_STRENGTH)
    gammas = inverse_gammas(activity, ionic, table)
    apparent = table.step_constants * gammas[table.step_after] / gammas[table.step_before]
    padded_amounts = np.pad(amounts, ((1, 2), (0, 0)))
    padded_constants = np.pad(apparent, ((1, 2), (0, 0)), constant_values=1.0)
    columns = np.arange(len(here))
    around = [
        (padded_amounts[here + at, columns], padded_constants[here + at, columns])
        for at in range(3)
    ]
    ph = _ph_around(around, left[here, columns], gammas[1], 10.0**-activity.pkw)
    return ph, np.maximum(ionic, np.maximum(10.0**-ph, 10.0 ** (ph - activity.pkw)))


def _ph_around(
    around: list[tuple[Floats, Floats]], excess: Floats, ion: Floats, kw: float
) -> Floats:
    (amount1, k1), (amount2, k2), (amount3, k3) = around
    water = kw * ion
    square = ion + amount1 / k1
    linear = excess + square * k2 * (amount2 > 0.0)
    constant = k2 * (amount2 - excess) * (amount2 > 0.0) + water
    root = np.sqrt(linear * linear + 4.0 * square * constant)
    # Of the two ways to write a root of a quadratic, the one that subtracts nothing.
    early = np.where(
        linear > 0.0, (linear + root) / (2.0 * constant), 2.0 * square / (root - linear)
    )
    beyond = amount3 * k3 + water
    square = beyond * k2
    linear = (amount2 - excess) * k2 + beyond
    constant = excess + k2
    root = np.sqrt(linear * linear + 4.0 * square * constant)
    late = 2.0 * constant / (linear + root)
    is_late = (excess > 0.5 * amount2) & (amount2 > 0.0)
    return np.asarray(np.log10(np.where(is_late, late, early)))
