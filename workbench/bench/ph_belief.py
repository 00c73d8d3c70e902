"""What the readings say of the product: samples of what it may be, with their weights.

Loading this module loads numpy: import it where it is used.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache
from statistics import NormalDist

import numpy as np

from workbench.bench.ph_family import Family
from workbench.bench.ph_log import Composed
from workbench.bench.ph_response import response, true_ph
from workbench.chemistry.acid_base_arrays import Floats, Truths
from workbench.chemistry.sampling import primes

SAMPLES = 512
# The likeliest gets more turns than the samples: whether readings contradict rests on it.
_TURNS, _MOST_TURNS = 14, 28
# A step shorter than this ends the search.
_SMALL = 0.03
# No number moves further in one turn: beyond, straight lines lead astray.
_LONGEST = 1.0
_ORDINARY = 0.1
# Squares of what is off, for a sample that came to its readings: nineteen in twenty have less.
_USUAL_OFF, _USUAL_MORE = 1.3, 4.0
_MOST_EXCESS = 60.0
_FAR = 9.0
_LEAST_COUNT = 8.0
_POWERS = (0.5, 0.2, 0.08, 0.03, 0.01, 0.0)
_NOWHERE = 20.0


class Belief:
    """Hold weighted samples of a product.

    Attributes
    ----------
    family : Family
    numbers : array (SAMPLES, size)
    weights : array (SAMPLES,)
        Sum to 1.
    misfit : float
        Squares of everything that had to give, at the likeliest product; about one per reading.
    off : array (readings,)
        Reading less what the likeliest product reads, in deviations.

    Notes
    -----
    Every sample starts at a point of the prior and looks for the nearest product that gives the
    readings, each reading itself moved by a point of its scatter (randomised maximum likelihood:
    Oliver, He and Reynolds 1996). Where the pH follows the numbers in a straight line these are
    exact samples of the answer. What does not come near its readings loses weight.
    """

    def __init__(
        self,
        family: Family,
        states: Sequence[Composed],
        readings: Sequence[float],
        noises: Sequence[float],
        seed: int = 0,
    ) -> None:
        """Take readings [-] with their deviations, and the state each was made in."""
        self.family = family
        self._known: dict[Composed, Floats] = {}
        self._states = tuple(states)
        self._noises = np.array(noises, dtype=float)
        cloud = scores(family.size + len(readings), seed)
        # The first row is no sample: it starts in the middle and ends at the likeliest.
        starts = np.concatenate((np.zeros((1, family.size)), cloud[:, : family.size]))
        wanted = np.array(readings, dtype=float) + self._noises * np.concatenate(
            (np.zeros((1, len(readings))), cloud[:, family.size :])
        )
        with np.errstate(all="ignore"):
            found = self._nearest(starts, wanted)
            off = self._off(found, wanted)
        self.off = off[0]
        costs = ((found - starts) ** 2).sum(axis=1) + (off**2).sum(axis=1)
        # Samples give way for the scatter they were given too: about one more per reading. They
        # tell where the one search from the middle has lost its way.
        self.misfit = min(float(costs[0]), float(np.median(costs[1:])) - len(readings))
        self.numbers = found[1:]
        self.weights = _weights(off[1:] ** 2)

    def quantile(self, values: Floats, chance: float) -> float:
        """Return the value below which samples of some weight lie; infinite ones lie last."""
        order = np.argsort(values)
        reached = np.cumsum(self.weights[order])
        at = min(int(np.searchsorted(reached, chance)), len(order) - 1)
        return float(values[order[at]])

    def chance(self, holds: Truths) -> float:
        """Return the weight of the samples for which something holds."""
        return float(self.weights[holds].sum())

    def ph(self, state: Composed) -> Floats:
        """Return the true pH of each sample in a state, shape (SAMPLES,)."""
        if state not in self._known:
            self._known[state] = true_ph(self.family, self.numbers, (state,))[:, 0]
        return self._known[state]

    def _nearest(self, starts: Floats, wanted: Floats) -> Floats:
        """Return the numbers near each start that give the wanted readings."""
        found = starts.copy()
        ionic = np.full((len(starts), len(self._states)), _ORDINARY)
        rows = np.arange(len(starts))
        for turn in range(_MOST_TURNS):
            here = found[rows]
            seen = response(self.family, here, self._states, wanted[rows], ionic[rows])
            ionic[rows] = seen.ionic
            off, slopes = seen.off / self._noises, seen.slopes / self._noises[:, None]
            step = _stepped(starts[rows], here, off, slopes) - here
            longest = (np.abs(step) * self.family.log_scale).max(axis=1)
            share = np.minimum(1.0, _LONGEST / np.maximum(longest, _LONGEST))
            found[rows] = here + share[:, None] * step
            rows = rows[(longest > _SMALL) & ((turn < _TURNS) | (rows == 0))]
            if not len(rows):
                break
        return found

    def _off(self, numbers: Floats, wanted: Floats) -> Floats:
        """Return what is off, in deviations of the readings."""
        ph = true_ph(self.family, numbers, self._states)
        # A product too salty for the model is as far from any reading as can be.
        ph = np.where(np.isfinite(ph), ph, _NOWHERE)
        read = ph + self.family.meter(numbers)[:, None]
        return np.asarray((wanted - read) / self._noises)


def _stepped(starts: Floats, here: Floats, off: Floats, slopes: Floats) -> Floats:
    """Return where straight lines would give the readings nearest to each start."""
    gone = (slopes @ (here - starts)[:, :, None])[:, :, 0]
    square = slopes @ slopes.transpose(0, 2, 1) + np.eye(slopes.shape[1])
    pulls = np.linalg.solve(square, (off + gone)[:, :, None])
    return np.asarray(starts + (slopes.transpose(0, 2, 1) @ pulls)[:, :, 0])


def _weights(squares: Floats) -> Floats:
    """Return weights: whole where a sample came to its readings, little where it did not."""
    offs, count = squares.sum(axis=1), squares.shape[1]
    usual = _USUAL_OFF * count + _USUAL_MORE
    excess = np.clip(offs - max(usual, float(offs.min())), 0.0, _MOST_EXCESS)
    # What does not stand where the last reading has it says nothing of the way from there.
    stands = np.exp(-0.5 * np.clip(squares[:, -1] - _FAR, 0.0, _MOST_EXCESS))
    for power in _POWERS:
        weights = stands * np.exp(-power * excess)
        weights = weights / weights.sum()
        # Too few samples say nothing of the tails: then those that came less near count too.
        if weights @ weights <= 1.0 / _LEAST_COUNT:
            break
    return np.asarray(weights)


@lru_cache(maxsize=64)
def scores(columns: int, seed: int) -> Floats:
    """Return SAMPLES points of a standard normal cloud; another seed gives another cloud.

    Notes
    -----
    Columns are multiples of the root of a prime, less their whole part (Richtmyer), shifted by
    the seed and put through the inverse of the normal distribution; then made uncorrelated.
    """
    normal = NormalDist()
    numbers = np.arange(1.0, SAMPLES + 1.0)
    raw = [
        np.modf(numbers * math.sqrt(prime) + seed * math.sqrt(prime + 1.0))[0]
        for prime in primes(columns)
    ]
    ranks = np.argsort(np.argsort(np.stack(raw, axis=1), axis=0), axis=0)
    known = np.array([normal.inv_cdf((at + 0.5) / SAMPLES) for at in range(SAMPLES)])
    cloud = known[ranks]
    lower = np.linalg.cholesky(cloud.T @ cloud / SAMPLES)
    cloud = cloud @ np.linalg.inv(lower).T
    cloud.flags.writeable = False
    return np.asarray(cloud)
