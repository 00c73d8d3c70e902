"""A mixture as fixed samples of what it may be.

Loading this module loads numpy: import it where it is used.
"""

from __future__ import annotations

import math
from functools import lru_cache
from statistics import NormalDist

import numpy as np

from workbench.chemistry.acid_base_arrays import Floats
from workbench.chemistry.mixture import NO_RANGE, Mixture, Portion
from workbench.chemistry.system import AcidBase, Solution

SAMPLES = 64
# Of this few samples the quantiles fall short of the tails: these miss about one case in sixteen.
LOWEST, HIGHEST = 0.014, 0.986
MIDDLE = 0.5
# Beyond this many columns 64 points cannot be kept from following one another.
MOST_COLUMNS = 40


class Sampled:
    """Hold the solutions a mixture may be.

    Attributes
    ----------
    acids : tuple of AcidBase
        Columns of `totals`.
    charges : tuple of int
        Columns of `strong`.
    totals : array (SAMPLES, acids)
        [mol/kg water].
    strong : array (SAMPLES, charges)
        [mol/kg water].
    scores : array (SAMPLES,)
        Standard normal scores for what enters at first order: constants and the model.
    chances : array (SAMPLES,)
        Numbers between 0 and 1 for one thing more, which is not in the mixture.

    Notes
    -----
    Only portions named in `varied` vary; what hardly moves the pH stays typical.
    """

    def __init__(self, mixture: Mixture, typical: Solution, varied: tuple[int, ...]) -> None:
        acids = tuple(acid for acid, _ in typical.totals)
        charges = tuple(ion.charge for ion in typical.strong)
        portions = tuple(mixture.portions[place] for place in varied[: MOST_COLUMNS - 3])
        low = np.array([mixture.ranges.get(acid.key, NO_RANGE).stays_low for acid in acids])
        points = lattice(len(portions) + 3)
        middle = 0.5 * (1.0 + low)
        units = _units(portions, acids, charges) / mixture.water_kg
        units[:, : len(acids)] *= middle
        base = [amount for _, amount in typical.totals]
        base.extend(ion.molality for ion in typical.strong)
        amounts = np.array(base) + _off_typical(portions, points[:, 3:]) @ units
        # A difference of two amounts may miss zero by a rounding.
        amounts = np.maximum(amounts, 0.0)
        stays = (low + points[:, :1] * (1.0 - low)) / middle
        self.acids, self.charges = acids, charges
        self.totals = amounts[:, : len(acids)] * stays
        self.strong = amounts[:, len(acids) :]
        self.scores = _scores(points[:, 1])
        self.chances = points[:, 2]


@lru_cache(maxsize=MOST_COLUMNS)
def lattice(columns: int) -> Floats:
    """Return SAMPLES points of the unit cube, spread evenly along every axis.

    Notes
    -----
    Columns are the ranks of i² times the root of a prime, made uncorrelated by the inverse root
    of their correlations (Iman and Conover, Commun. Stat. B 11, 311, 1982) and ranked again.
    Nothing is drawn, so the points are the same on every machine.
    """
    numbers = np.arange(1.0, SAMPLES + 1.0) ** 2
    raw = [_ranked(np.modf(numbers * math.sqrt(prime))[0]) for prime in primes(columns)]
    points = np.stack(raw, axis=1)
    for _ in range(3):
        scores = _scores(points)
        lower = np.linalg.cholesky(scores.T @ scores / SAMPLES)
        scores = scores @ np.linalg.inv(lower).T
        points = np.apply_along_axis(_ranked, 0, scores)
    points.flags.writeable = False
    return points


def spread_at(
    low: Floats | float, typical: Floats | float, high: Floats | float, chances: Floats
) -> Floats:
    """Return amounts at some chances: as likely below the typical amount as above."""
    return np.where(
        chances < MIDDLE,
        low + 2.0 * chances * (typical - low),
        typical + (2.0 * chances - 1.0) * (high - typical),
    )


def ends_of(samples: Floats) -> tuple[Floats, Floats]:
    """Return the lowest and the highest value that samples allow, down the first axis."""
    ordered = np.sort(samples, axis=0)
    last = len(ordered) - 1
    found = []
    for share in (LOWEST, HIGHEST):
        place = share * last
        below = min(int(place), max(last - 1, 0))
        above = min(below + 1, last)
        part = place - below
        found.append(ordered[below] * (1.0 - part) + ordered[above] * part)
    return found[0], found[1]


def _units(
    portions: tuple[Portion, ...], acids: tuple[AcidBase, ...], charges: tuple[int, ...]
) -> Floats:
    places = {acid.key: place for place, acid in enumerate(acids)}
    ions = {charge: len(acids) + place for place, charge in enumerate(charges)}
    units = np.zeros((len(portions), len(places) + len(ions)))
    for row, portion in enumerate(portions):
        for acid, amount in portion.gift.acids:
            units[row, places[acid.key]] += amount
        for charge, amount in portion.gift.ions:
            units[row, ions[charge]] += amount
    return units


def _off_typical(portions: tuple[Portion, ...], points: Floats) -> Floats:
    spreads = [portion.spread for portion in portions]
    ends = np.array([(one.low, one.typical, one.high) for one in spreads]).reshape(-1, 3).T
    return np.asarray(spread_at(ends[0], ends[1], ends[2], points) - ends[1])


def _ranked(values: Floats) -> Floats:
    ranks = np.argsort(np.argsort(values))
    return np.asarray((ranks + MIDDLE) / SAMPLES)


def _scores(points: Floats) -> Floats:
    known = _normal_scores()
    return np.asarray(known[np.rint(points * SAMPLES - MIDDLE).astype(np.intp)])


@lru_cache(maxsize=1)
def _normal_scores() -> Floats:
    normal = NormalDist()
    return np.array([normal.inv_cdf((rank + MIDDLE) / SAMPLES) for rank in range(SAMPLES)])


def primes(count: int) -> list[int]:
    """Return the first primes."""
    found: list[int] = []
    number = 2
    while len(found) < count:
        if all(number % prime for prime in found):
            found.append(number)
        number += 1
    return found
