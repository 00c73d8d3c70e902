"""How much of each adjuster brings a mixture to a pH, as a range.

Loading this module loads numpy: import it where it is used.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from workbench.chemistry.acid_base import LN10, solve
from workbench.chemistry.acid_base_arrays import (
    Floats,
    gathered,
    inverse_gammas,
    powers_of,
    tables,
)
from workbench.chemistry.acid_base_many import solve_many
from workbench.chemistry.activity import DAVIES, MOST_IONIC_STRENGTH
from workbench.chemistry.facts import Gift, Spread
from workbench.chemistry.interval import Work
from workbench.chemistry.sampling import ends_of, spread_at
from workbench.chemistry.system import OutOfRange, Solution, StrongIon
from workbench.chemistry.titration import Adjuster, curve, with_dose
from workbench.chemistry.titration_many import dose_many

# Steps to the ionic strength after a dose; closer does not change a range.
_TURNS = 4
# What brings less charge than this moves no pH [mol/g].
LEAST_CHARGE = 1e-12


@dataclass(frozen=True, slots=True)
class Dosable:
    """Hold one adjuster as it is weighed.

    Parameters
    ----------
    key : str
        Key on the shelf.
    gift : Gift
        What a gram brings as stated [mol/g].
    acts : Spread
        How much of that acts [-].
    more_water : float
        Water it brings, less the water it takes the place of [kg/g].
    """

    key: str
    gift: Gift
    acts: Spread
    more_water: float = 0.0

    @property
    def adjuster(self) -> Adjuster:
        """Return what a gram typically brings."""
        times = self.acts.typical
        return Adjuster(
            Solution(
                tuple((acid, amount * times) for acid, amount in self.gift.acids),
                tuple(StrongIon(charge, amount * times) for charge, amount in self.gift.ions),
            ),
            self.more_water,
        )


@dataclass(frozen=True, slots=True)
class DoseRange:
    """Hold the grams of an adjuster for one kilogram of product; None where none will do."""

    key: str
    low: float | None
    estimate: float | None
    high: float | None


def dose_ranges(work: Work, adjusters: tuple[Dosable, ...], ph: float) -> tuple[DoseRange, ...]:
    """Return the dose of each adjuster that brings a mixture to a pH at 25 °C.

    Parameters
    ----------
    work : Work
        The mixture with its samples.
    adjusters : tuple of Dosable
        What may be added, each alone.
    ph : float
        The pH wanted [-].

    Returns
    -------
    tuple of DoseRange
        Per kilogram of product [g]; an end is None where no dose leads there: it would take away
        all water or make it too salty, or the adjuster moves the pH the other way.
    """
    if not adjusters:
        return ()
    typical = gathered([work.slopes.solution])
    grams = dose_many(typical, [one.adjuster for one in adjusters], ph)[0]
    lowest, highest = ends_of(_Held(work, adjusters, ph, grams).sampled())
    water_kg = work.mixture.water_kg
    found: list[DoseRange] = []
    for at, adjuster in enumerate(adjusters):
        estimate = float(grams[at])
        if not math.isfinite(estimate):
            found.append(DoseRange(adjuster.key, None, None, None))
            continue
        low, high = min(float(lowest[at]), estimate), max(float(highest[at]), estimate)
        is_wet = 1.0 + adjuster.more_water * high > 0.0
        found.append(
            DoseRange(
                adjuster.key,
                max(low, 0.0) * water_kg,
                estimate * water_kg,
                high * water_kg if is_wet else None,
            )
        )
    return tuple(found)


def ph_after(work: Work, adjuster: Dosable, grams: float) -> float | None:
    """Return the pH after a dose for one kilogram of product [g]; None out of range."""
    try:
        after = with_dose(work.slopes.solution, adjuster.adjuster, grams / work.mixture.water_kg)
        return solve(after).ph
    except OutOfRange:
        return None


def ph_range_after(
    work: Work, adjuster: Dosable, grams: float
) -> tuple[float, float, float] | None:
    """Return the pH after a dose for one kilogram of product [g]: low, middle, high."""
    middle = ph_after(work, adjuster, grams)
    if middle is None:
        return None
    ph = _sampled_curve(work, adjuster, np.array([grams / work.mixture.water_kg]))
    return _around(middle, ph[0])


def curve_ranges(
    work: Work, adjuster: Dosable, most: float, points: int = 24
) -> tuple[tuple[float, float, float, float], ...]:
    """Return the curve of an adjuster: grams for one kilogram of product, pH low, middle, high.

    Parameters
    ----------
    work : Work
        The mixture with its samples.
    adjuster : Dosable
        What is added.
    most : float
        The last dose [g].
    points : int
        Points at even doses; as many more stand where the pH changes fast.
    """
    water_kg = work.mixture.water_kg
    middle = curve(work.slopes.solution, adjuster.adjuster, most / water_kg, points)
    if not middle:
        return ()
    ph = _sampled_curve(work, adjuster, np.array([dose for dose, _ in middle]))
    return tuple(
        (dose * water_kg, *_around(value, ph[at])) for at, (dose, value) in enumerate(middle)
    )


def _around(middle: float, samples: Floats) -> tuple[float, float, float]:
    # A sample that grows too salty for the model says nothing of the pH.
    known = samples[np.isfinite(samples)]
    if not len(known):
        return middle, middle, middle
    low, high = ends_of(known)
    return min(float(low), middle), middle, max(float(high), middle)


class _Held:
    """Hold a mixture and its adjusters at one pH, a column for each adjuster.

    Notes
    -----
    At a pH and an ionic strength the balance of charges is linear in the dose. The ionic strength
    is that of the typical mixture after its dose; the samples differ from it by their amounts.
    """

    def __init__(
        self, work: Work, adjusters: tuple[Dosable, ...], ph: float, grams: Floats
    ) -> None:
        """Take the typical doses for one kilogram of water [g]; NaN where there is none."""
        self.work, self.adjusters, self.ph = work, adjusters, ph
        self.grams = np.nan_to_num(grams)
        added = gathered([one.adjuster.per_gram for one in adjusters])
        acids = tuple(dict.fromkeys((*work.sampled.acids, *added.acids)))
        self.table = tables(acids)
        self.before, self.added = np.zeros((len(acids), 1)), np.zeros((len(acids), len(adjusters)))
        for place, (_, amount) in enumerate(work.slopes.solution.totals):
            self.before[place] = amount
        for place, acid in enumerate(added.acids):
            self.added[acids.index(acid)] = added.totals[:, place]
        more = np.array(added.strong_charges, dtype=float)
        self.more_charge, self.more_squares = added.strong @ more, added.strong @ more**2
        self.charges = np.array(work.sampled.charges, dtype=float)
        self.strong = np.array([ion.molality for ion in work.slopes.solution.strong])
        self.water = 1.0 + np.array([one.more_water for one in adjusters]) * self.grams
        self.free = 10.0**-ph - 10.0 ** (ph - DAVIES.pkw)

    def sampled(self) -> Floats:
        """Return the doses of the samples per kilogram of water [g], shape (samples, n)."""
        drawn = self.work.sampled
        _, means, squares = self._settled()
        more = np.array([one.more_water for one in self.adjusters]) * self.free
        per_gram = (self.added * means).sum(axis=0) + self.more_charge + more
        per_gram = np.where(np.abs(per_gram) < LEAST_CHARGE, LEAST_CHARGE, per_gram)
        known = means[: drawn.totals.shape[1]]
        off = (drawn.totals - self.before[: len(known), 0]) @ known
        off += ((drawn.strong - self.strong) @ self.charges)[:, None]
        off += drawn.scores[:, None] * self._open(squares - means**2)
        return np.asarray((self.grams - off / per_gram) / self._strengths())

    def _settled(self) -> Floats:
        """Return 1, mean charge and mean square of each acid, shape (3, acids, n)."""
        ionic = np.full(len(self.adjusters), self.work.slopes.balance.ionic_strength)
        size = 10.0**-self.ph + 10.0 ** (self.ph - DAVIES.pkw)
        powers = powers_of(np.full(len(ionic), self.ph), self.table.most_lost)
        for _ in range(_TURNS):
            sums = self.table.sums(powers, inverse_gammas(DAVIES, ionic, self.table), 3)
            moments = sums / sums[0]
            squares = (self.before * moments[2]).sum(axis=0) + self.strong @ self.charges**2
            more = (self.added * moments[2]).sum(axis=0) + self.more_squares
            ionic = 0.5 * ((squares + more * self.grams) / self.water + size)
            ionic = np.clip(ionic, 1e-9, 2.0 * MOST_IONIC_STRENGTH)
        return np.asarray(moments)

    def _open(self, variances: Floats) -> Floats:
        """Return the deviation of the charge that constants and the model leave open [mol/kg]."""
        shifts = np.array([self.work.shifts.get(acid.key, 0.0) for acid in self.work.sampled.acids])
        buffers = LN10 * (self.before * variances)[: len(shifts)]
        model = buffers.sum(axis=0) * self.work.model
        squares = ((buffers * shifts[:, None]) ** 2).sum(axis=0)
        return np.asarray(np.sqrt((squares + model**2) / 3.0))

    def _strengths(self) -> Floats:
        ends = np.array([(one.acts.low, one.acts.typical, one.acts.high) for one in self.adjusters])
        low, typical, high = ends.T
        chances = self.work.sampled.chances[:, None]
        return np.asarray(spread_at(low, typical, high, chances) / typical)


def _sampled_curve(work: Work, adjuster: Dosable, doses: Floats) -> Floats:
    """Return the pH of every sample after every dose, shape (doses, samples)."""
    drawn, acts = work.sampled, adjuster.acts
    strengths = spread_at(acts.low, acts.typical, acts.high, drawn.chances)
    acids = tuple(dict.fromkeys((*drawn.acids, *(acid for acid, _ in adjuster.gift.acids))))
    charges = tuple(dict.fromkeys((*drawn.charges, *(ion for ion, _ in adjuster.gift.ions))))
    shape = (len(doses), len(drawn.totals))
    grams = doses[:, None] * strengths[None, :]
    totals = np.zeros((*shape, len(acids)))
    strong = np.zeros((*shape, len(charges)))
    totals[:, :, : len(drawn.acids)] = drawn.totals
    strong[:, :, : len(drawn.charges)] = drawn.strong
    for acid, amount in adjuster.gift.acids:
        totals[:, :, acids.index(acid)] += amount * grams
    for charge, amount in adjuster.gift.ions:
        strong[:, :, charges.index(charge)] += amount * grams
    water = (1.0 + adjuster.more_water * doses)[:, None, None]
    rows = shape[0] * shape[1]
    ph, _ = solve_many(
        acids,
        (totals / water).reshape(rows, -1),
        charges,
        (strong / water).reshape(rows, -1),
    )
    return np.asarray(ph.reshape(shape) + work.shift * drawn.scores)
