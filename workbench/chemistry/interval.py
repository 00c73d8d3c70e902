"""Where the pH of a mixture lies when its contents and constants are only known as ranges.

Loading this module loads numpy: import it where it is used.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import numpy as np

from workbench.chemistry.acid_base import LN10, solve
from workbench.chemistry.acid_base_many import solve_many
from workbench.chemistry.activity import DAVIES
from workbench.chemistry.mixture import NO_RANGE, Mixture, typical_solution
from workbench.chemistry.sampling import Sampled, ends_of
from workbench.chemistry.system import Equilibrium, Solution

CONSTANT, MODEL = "constant", "model"
# A portion that moves the pH by less than this part of what the weightiest does stays typical.
NEGLIGIBLE = 0.01


@dataclass(frozen=True, slots=True)
class Source:
    """Hold one reason of the width: its kind, the material or acid, half the width [pH].

    The kind is that of the portion, or "constant" of an acid, or "model".
    """

    kind: str
    key: str
    half_width: float


@dataclass(frozen=True, slots=True)
class PhInterval:
    """Hold where a pH lies.

    Parameters
    ----------
    low, estimate, high : float
        [pH].
    ionic_strength : float
        At the estimate [mol/kg water].
    buffer : float
        Strong base that raises the pH by one, around the estimate [mol/kg water].
    sources : tuple of Source
        What the width comes from, the weightiest first.
    undissociated : tuple of (str, float)
        Uncharged form of each acid at the estimate [mol/kg water], by acid.
    """

    low: float
    estimate: float
    high: float
    ionic_strength: float
    buffer: float
    sources: tuple[Source, ...]
    undissociated: tuple[tuple[str, float], ...]


@dataclass(frozen=True, slots=True)
class Bounds:
    """Hold how far the model itself may be off: half widths [pH], and where it gets worse.

    `error` holds everywhere; `per_salt` is added for each mol/kg of ionic strength above
    `salty`.
    """

    error: float
    per_salt: float
    salty: float

    def half_width(self, ionic_strength: float) -> float:
        """Return how far the model may be off at an ionic strength [pH]."""
        return self.error + self.per_salt * max(0.0, ionic_strength - self.salty)


@dataclass(frozen=True, slots=True)
class Slopes:
    """Hold the typical mixture at its balance, and what moves it.

    Parameters
    ----------
    solution : Solution
        The typical mixture.
    balance : Equilibrium
        Its pH, ionic strength and species.
    charges : mapping of str to float
        Mean charge of each acid at the balance [-].
    buffers : mapping of str to float
        Buffer capacity of each acid [mol/kg water per pH].
    buffer : float
        That of all acids and of the water itself [mol/kg water per pH].
    """

    solution: Solution
    balance: Equilibrium
    charges: Mapping[str, float]
    buffers: Mapping[str, float]
    buffer: float


def bounds_of(figures: Mapping[str, float]) -> Bounds:
    """Return the bounds that a table of figures gives; nothing is taken as off without one."""
    return Bounds(
        figures.get("model_error", 0.0),
        figures.get("model_error_per_ionic_strength", 0.0),
        figures.get("salty_ionic_strength", 0.0),
    )


class Work:
    """Hold a mixture at its balance with its samples: what an interval and doses rest on.

    Attributes
    ----------
    mixture : Mixture
        What is in the water.
    slopes : Slopes
        The typical mixture at its balance.
    reaches : tuple of float
        How far each portion may move the pH [pH].
    sampled : Sampled
        What the mixture may be.
    model : float
        How far the model may be off [pH].
    shifts : mapping of str to float
        How far the constants of each acid may be off [-].
    constants : mapping of str to float
        How far that may move the pH [pH].
    shift : float
        Deviation that constants and model leave open [pH].
    """

    def __init__(self, mixture: Mixture, bounds: Bounds) -> None:
        """Balance a mixture and its samples; raise OutOfRange where the engine refuses it."""
        self.mixture = mixture
        self.slopes = slopes_of(typical_solution(mixture))
        self.reaches = portion_reaches(mixture, self.slopes)
        self.sampled = Sampled(mixture, self.slopes.solution, varied(self.reaches))
        self.model = bounds.half_width(self.slopes.balance.ionic_strength)
        self.shifts = constant_shifts(mixture, self.slopes.solution)
        self.constants = {
            key: self.shifts[key] * buffer / self.slopes.buffer
            for key, buffer in self.slopes.buffers.items()
        }
        self.shift = deviation((self.model, *self.constants.values()))


def ph_interval(work: Work) -> PhInterval:
    """Return the interval of a mixture's pH at 25 °C.

    Notes
    -----
    Its ends are quantiles of fixed samples, so the same mixture gives the same interval. Amounts
    are sampled and solved. Constants and the fault of the model enter at first order: by the
    charge balance dpH/dpKa is the share of an acid in the buffer capacity.
    """
    at, drawn = work.slopes.balance, work.sampled
    ph, _ = solve_many(drawn.acids, drawn.totals, drawn.charges, drawn.strong)
    ph = ph + work.shift * drawn.scores
    ph = ph[np.isfinite(ph)]
    low, high = ends_of(ph) if len(ph) else (at.ph, at.ph)
    return PhInterval(
        low=min(float(low), at.ph),
        estimate=at.ph,
        high=max(float(high), at.ph),
        ionic_strength=at.ionic_strength,
        buffer=work.slopes.buffer,
        sources=_sources(work),
        undissociated=tuple(_uncharged(work.slopes)),
    )


def slopes_of(solution: Solution) -> Slopes:
    """Return a solution at its balance with what moves it.

    Raises
    ------
    OutOfRange
        Where the engine refuses the solution.
    """
    balance = solve(solution)
    charges: dict[str, float] = {}
    buffers: dict[str, float] = {}
    for (acid, amount), shares in zip(solution.totals, balance.shares, strict=True):
        mean = square = 0.0
        for charge, share in zip(acid.charges, shares, strict=True):
            mean += charge * share
            square += charge * charge * share
        charges[acid.key] = mean
        buffers[acid.key] = LN10 * amount * max(square - mean * mean, 0.0)
    slope = DAVIES.slope(balance.ionic_strength)
    free = 10.0 ** (slope - balance.ph) + 10.0 ** (slope + balance.ph - DAVIES.pkw)
    return Slopes(solution, balance, charges, buffers, sum(buffers.values()) + LN10 * free)


def portion_reaches(mixture: Mixture, slopes: Slopes) -> tuple[float, ...]:
    """Return how far each portion may move the pH at first order, either way [pH]."""
    found: list[float] = []
    for portion in mixture.portions:
        charge = sum(slopes.charges[acid.key] * amount for acid, amount in portion.gift.acids)
        charge += sum(ion * amount for ion, amount in portion.gift.ions)
        half = 0.5 * (portion.spread.high - portion.spread.low)
        found.append(abs(charge) * half / (mixture.water_kg * slopes.buffer))
    return tuple(found)


def constant_shifts(mixture: Mixture, typical: Solution) -> Mapping[str, float]:
    """Return how far the constants of each acid may be off, what stands in for others included."""
    whole = {acid.key: amount * mixture.water_kg for acid, amount in typical.totals}
    squares = {key: mixture.ranges.get(key, NO_RANGE).pka_shift ** 2 for key in whole}
    for portion in mixture.portions:
        if portion.pka_shift:
            for acid, amount in portion.gift.acids:
                if whole[acid.key] > 0:
                    share = amount * portion.spread.typical / whole[acid.key]
                    squares[acid.key] += (min(share, 1.0) * portion.pka_shift) ** 2
    return {key: math.sqrt(square) for key, square in squares.items()}


def varied(reaches: tuple[float, ...]) -> tuple[int, ...]:
    """Return the places of the portions that matter, the weightiest first."""
    least = NEGLIGIBLE * max(reaches, default=0.0)
    places = sorted(range(len(reaches)), key=lambda place: -reaches[place])
    return tuple(place for place in places if reaches[place] > least)


def deviation(half_widths: tuple[float, ...]) -> float:
    """Return the standard deviation of independent faults of some half widths [the same unit]."""
    # Each is as likely anywhere within its half width, which has a third of its square as
    # variance; their sum is near enough to a normal one.
    return math.sqrt(sum(half * half for half in half_widths) / 3.0)


def _sources(work: Work) -> tuple[Source, ...]:
    found: dict[tuple[str, str], float] = {(MODEL, ""): work.model}
    for portion, reach in zip(work.mixture.portions, work.reaches, strict=True):
        place = (portion.kind, portion.key)
        found[place] = found.get(place, 0.0) + reach
    found.update({(CONSTANT, key): reach for key, reach in work.constants.items()})
    sources = (Source(kind, key, reach) for (kind, key), reach in found.items() if reach)
    return tuple(sorted(sources, key=lambda source: -source.half_width))


def _uncharged(slopes: Slopes) -> Iterator[tuple[str, float]]:
    for (acid, amount), shares in zip(slopes.solution.totals, slopes.balance.shares, strict=True):
        if acid.charge == 0:
            yield acid.key, amount * shares[0]
