"""Everything a product in the beaker may be, as functions of standard normal numbers.

Loading this module loads numpy: import it where it is used.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from workbench.bench.ph_log import Composed, PhAdjuster
from workbench.chemistry.acid_base import LN10
from workbench.chemistry.acid_base_arrays import Floats, inverse_gammas, powers_of, tables
from workbench.chemistry.activity import DAVIES
from workbench.chemistry.facts import Gift, Spread
from workbench.chemistry.mixture import MMOL, Mixture
from workbench.chemistry.system import AcidBase

CHARGES = (1, -1)
# Ionic strength at which a charge is guessed that is then worked out exactly.
_ORDINARY = 0.05
# Beyond e to this an amount is none that is weighed.
MOST_LOG = 6.0
# Ninety in a hundred lie within this many deviations either way.
_NINETY = 1.645
_LEAST_SHARE = 1e-3


@dataclass(frozen=True, slots=True)
class Column:
    """Hold one thing that varies: what a unit brings per kilogram, its middle, log deviation."""

    gift: Gift
    middle: float
    factor: float


class Family:
    """Hold products that differ in amounts, in strengths of adjusters and in the meter.

    Attributes
    ----------
    size : int
        How many standard normal numbers tell one of them.
    scale : float
        How much wider than taken for granted, after a reading that contradicts [-].
    more : array (k, acids + 2)
        What a gram of each adjuster brings [mol].

    Notes
    -----
    The numbers are, in this order: log amounts of the columns; the open charge, or the pH at the
    start of a product of which nothing is known; the fault of the model; the meter; the strength
    of each adjuster.
    """

    def __init__(
        self,
        columns: Sequence[Column],
        water_kg: float,
        adjusters: tuple[PhAdjuster, ...],
        figures: Mapping[str, float],
        start_ph: float | None = None,
    ) -> None:
        """Take what varies, the water of one kilogram [kg] and, of an unknown, its first pH."""
        self.columns, self.water_kg = tuple(columns), water_kg
        self.adjusters, self.figures, self.start_ph = adjusters, figures, start_ph
        self.acids = _acids_of([*(one.gift for one in columns), *(one.gift for one in adjusters)])
        self.size = len(columns) + 3 + len(adjusters)
        self.scale = 1.0
        self.more = _rows([one.gift for one in adjusters], self.acids)
        self._units = _rows([one.gift for one in columns], self.acids)
        self._middles = np.array([one.middle for one in columns])
        self._factors = np.array([one.factor for one in columns])
        self._spans = np.array([_span(one.acts) for one in adjusters])
        self._typical = np.array([one.acts.typical for one in adjusters])
        self._places = {one.key: at for at, one in enumerate(adjusters)}

    def place(self, key: str) -> int:
        """Return the place of an adjuster among the strengths."""
        return self._places[key]

    def meter(self, numbers: Floats) -> Floats:
        """Return how much too high the meter reads [-]."""
        return np.asarray(numbers[:, self.meter_place] * self.meter_scale)

    @property
    def log_scale(self) -> Floats:
        """Return how far each number moves a log amount, 1 where it moves none, shape (size,)."""
        ones = np.ones(3 + len(self.adjusters))
        return np.maximum(np.concatenate((self._factors * self.scale, ones)), 1.0)

    @property
    def pass_chance(self) -> float:
        """Return the chance of passing the far edge that one addition may have [-]."""
        return self.figures["pass_chance" if self.start_ph is None else "blank_pass_chance"]

    @property
    def meter_place(self) -> int:
        """Return the place of the meter among the numbers."""
        return len(self.columns) + 2

    @property
    def meter_scale(self) -> float:
        """Return the deviation of the meter [-]."""
        return self.figures["meter_offset"] * self.scale

    def strengths(self, numbers: Floats) -> Floats:
        """Return how much of each adjuster acts, in parts of what is stated, shape (n, k)."""
        first = len(self.columns) + 3
        logs = np.clip(numbers[:, first:] * self._spans * self.scale, -MOST_LOG, MOST_LOG)
        return np.asarray(self._typical * np.exp(logs))

    def water(self, state: Composed) -> float:
        """Return the water beside one kilogram of product in a state [kg]."""
        brought = sum(self.adjusters[self._places[key]].water_g * g for key, g in state.added)
        return self.water_kg + brought + state.thinning

    def products(self, numbers: Floats) -> Products:
        """Return the products that numbers stand for."""
        count = len(self.columns)
        logs = np.clip(numbers[:, :count] * self._factors * self.scale, -20.0, MOST_LOG)
        by_column = self._middles * np.exp(logs)
        amounts = by_column @ self._units
        growth = by_column[:, :, None] * (self._factors * self.scale)[:, None] * self._units
        free = numbers[:, count] * self.scale
        charge, by_column_charge, by_free = self._charge(amounts, growth, free)
        amounts[:, -2] += np.maximum(charge, 0.0)
        amounts[:, -1] += np.maximum(-charge, 0.0)
        growth[:, :, -2] += by_column_charge
        model = numbers[:, count + 1] * self.figures["model"] * self.scale
        return Products(amounts, growth, by_free, model, self.strengths(numbers))

    def beside(self, products: Products, state: Composed) -> Floats:
        """Return acids, positive and negative charge of products in a state [mol/kg water]."""
        per_kg = products.strengths * self.per_kg(state)
        return np.asarray((products.amounts + per_kg @ self.more) / self.water(state))

    def per_kg(self, state: Composed) -> Floats:
        """Return the adjusters of a state, as stated [g for a kilogram of product]."""
        found = np.zeros(len(self.adjusters))
        for key, share in state.added:
            found[self._places[key]] = share * 1000.0
        return found

    @property
    def strength_growth(self) -> Floats:
        """Return how strengths grow with their numbers, in parts of themselves, shape (k,)."""
        return np.asarray(self._spans * self.scale)

    def _charge(
        self, amounts: Floats, growth: Floats, free: Floats
    ) -> tuple[Floats, Floats, Floats]:
        """Return the open charge of one kilogram [mol], and its slopes by column and by `free`."""
        if self.start_ph is None:
            alkali = self.figures["alkali"] * MMOL
            by_free = np.full(len(free), alkali * self.scale)
            return free * alkali, np.zeros(growth.shape[:2]), by_free
        step = self.figures["blank_start"]
        ph = self.start_ph + free * step
        means, variances = charges_at(self.acids, ph, np.full(len(ph), _ORDINARY))
        count = len(self.acids)
        ions = 10.0 ** (ph - 14.0), 10.0**-ph
        charge = (ions[0] - ions[1]) * self.water_kg - (amounts[:, :count] * means).sum(axis=1)
        by_column = -(growth[:, :, :count] @ means[:, :, None])[:, :, 0]
        buffer = LN10 * (sum(ions) * self.water_kg + (amounts[:, :count] * variances).sum(axis=1))
        return charge, by_column, buffer * step * self.scale


@dataclass(frozen=True, slots=True, eq=False)
class Products:
    """Hold n products in one kilogram each; a working form that is not kept.

    Attributes
    ----------
    amounts : array (n, acids + 2)
        Acids, then positive and negative charge [mol].
    growth : array (n, columns, acids + 2)
        How they grow with the number of each column [mol].
    by_free : array (n,)
        How the charge grows with the number of the open charge [mol].
    model : array (n,)
        Fault of the model [-].
    strengths : array (n, k)
        How much of each adjuster acts [-].
    """

    amounts: Floats
    growth: Floats
    by_free: Floats
    model: Floats
    strengths: Floats


def charges_at(acids: tuple[AcidBase, ...], ph: Floats, ionic: Floats) -> tuple[Floats, Floats]:
    """Return mean charge and its variance of each acid at n pH, shape (n, acids)."""
    table = tables(acids)
    sums = table.sums(powers_of(ph, table.most_lost), inverse_gammas(DAVIES, ionic, table), 3)
    means = sums[1] / sums[0]
    return means.T, (sums[2] / sums[0] - means**2).T


def design_family(
    mixture: Mixture, adjusters: tuple[PhAdjuster, ...], figures: Mapping[str, float]
) -> Family:
    """Return what a designed product may be: amounts as known, and acid no paper names."""
    columns = [
        Column(part.gift, *_middle_and_factor(part.spread, figures["assay"]))
        for part in mixture.portions
        if part.key
    ]
    sites = _sites(figures, "acid")
    return Family((*columns, *sites), mixture.water_kg, adjusters, figures)


def blank_family(
    start_ph: float, adjusters: tuple[PhAdjuster, ...], figures: Mapping[str, float]
) -> Family:
    """Return what a product may be of which nothing but a first reading is known."""
    return Family(
        _sites(figures, "blank"), figures["blank_water"], adjusters, figures, start_ph=start_ph
    )


def _sites(figures: Mapping[str, float], kind: str) -> tuple[Column, ...]:
    first, apart = figures[f"{kind}_first_pka"], figures["sites_apart"]
    middle = figures[f"{kind}_site"] * MMOL
    return tuple(
        Column(
            Gift(((AcidBase(f"site-{kind}-{at}", (first + at * apart,), 0), 1.0),)),
            middle,
            figures[f"{kind}_site_factor"],
        )
        for at in range(int(figures[f"{kind}_sites"]))
    )


def _middle_and_factor(spread: Spread, assay: float) -> tuple[float, float]:
    middle = max(spread.typical, _LEAST_SHARE * spread.high)
    return middle, math.hypot(_span(spread), assay)


def _span(spread: Spread) -> float:
    """Return the log deviation of a range whose ends hold ninety in a hundred."""
    if spread.high <= 0.0:
        return 0.0
    low = max(spread.low, _LEAST_SHARE * spread.high)
    return 0.5 * math.log(spread.high / low) / _NINETY


def _acids_of(gifts: Sequence[Gift]) -> tuple[AcidBase, ...]:
    return tuple(dict.fromkeys(acid for gift in gifts for acid, _ in gift.acids))


def _rows(gifts: Sequence[Gift], acids: tuple[AcidBase, ...]) -> Floats:
    """Return what each gift brings: acids, then positive and negative charge as single ions."""
    found = np.zeros((len(gifts), len(acids) + len(CHARGES)))
    for row, gift in enumerate(gifts):
        for acid, amount in gift.acids:
            found[row, acids.index(acid)] += amount
        for charge, amount in gift.ions:
            found[row, -2 if charge > 0 else -1] += abs(charge) * amount
    return found
