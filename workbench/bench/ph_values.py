"""What the pH guide takes and answers, as values."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum

from workbench.chemistry.mixture import Mixture


class PhStatus(Enum):
    """Say what is to be done next."""

    READ_FIRST = "ph-read-first"
    ADD = "ph-add"
    READ_AGAIN = "ph-read-again"
    DONE = "ph-done"
    STUCK = "ph-stuck"


@dataclass(frozen=True, slots=True)
class Prior:
    """Hold what is known of a product before any reading.

    Parameters
    ----------
    mixture : Mixture or None
        One kilogram of what stands in the beaker; None where nothing is known.
    figures : mapping of str to float
        What the guide takes for granted.
    is_thick : bool
        Whether it takes long to mix: creams and gels.
    is_slow : bool
        Whether it holds what sets acid free for days.
    """

    mixture: Mixture | None
    figures: Mapping[str, float]
    is_thick: bool = False
    is_slow: bool = False


@dataclass(frozen=True, slots=True)
class Window:
    """Hold the pH wanted [-]."""

    low: float
    high: float

    @property
    def middle(self) -> float:
        """Return the middle [-]."""
        return 0.5 * (self.low + self.high)


@dataclass(frozen=True, slots=True)
class Limits:
    """Hold what the bench can do.

    Parameters
    ----------
    least_g : float
        Least weighable mass [g].
    step_g : float
        Readability of the balance [g].
    reserve_g : float or None
        Rest-line ingredient held back for the adjuster [g].
    folds : tuple of int
        Dilutions one is ready to make.
    """

    least_g: float
    step_g: float
    reserve_g: float | None = None
    folds: tuple[int, ...] = (2, 5, 10, 20, 50, 100)


@dataclass(frozen=True, slots=True)
class PhSpan:
    """Hold where a pH lies: nine in ten between the ends [-]."""

    low: float
    estimate: float
    high: float


@dataclass(frozen=True, slots=True)
class Weaker:
    """Hold how a weaker solution is made: grams of the stated one and of water [g]."""

    fold: int
    stock_g: float
    water_g: float


@dataclass(frozen=True, slots=True)
class Dose:
    """Hold one addition that is advised.

    Parameters
    ----------
    adjuster : str
        Key of the solution as stated.
    mass_g : float
        What to pour [g], of the weaker solution where there is one.
    weaker : Weaker or None
        The solution to make first.
    landing : PhSpan
        Where the pH lands.
    passing : float
        Chance of passing the far edge [-].
    total_g : float or None
        Of the solution as stated, from now to the middle of the window [g]; None out of reach.
    reach : float
        Chance that this adjuster leads to the middle of the window at all [-].
    """

    adjuster: str
    mass_g: float
    weaker: Weaker | None
    landing: PhSpan
    passing: float
    total_g: float | None
    reach: float = 1.0

    @property
    def stated_g(self) -> float:
        """Return how much of the solution as stated is poured [g]."""
        return self.mass_g if self.weaker is None else self.mass_g / self.weaker.fold


@dataclass(frozen=True, slots=True)
class PhReason:
    """Hold one thing to say about an advice: its code and the values of the sentence."""

    code: str
    values: tuple[tuple[str, float | str], ...] = ()


@dataclass(frozen=True, slots=True)
class Reread:
    """Hold one later reading: hours from the last addition [h], and why."""

    hours: float
    code: str


@dataclass(frozen=True, slots=True)
class Advice:
    """Hold what to do next.

    Parameters
    ----------
    status : PhStatus
    stands : PhSpan or None
        Where the pH is, from all readings.
    dose : Dose or None
        The addition.
    wait_min : float
        Before the next reading [min].
    reasons : tuple of PhReason
    alternatives : tuple of Dose
        The same step with other adjusters.
    rereads : tuple of Reread
        Where the pH is in the window.
    """

    status: PhStatus
    stands: PhSpan | None
    dose: Dose | None = None
    wait_min: float = 0.0
    reasons: tuple[PhReason, ...] = ()
    alternatives: tuple[Dose, ...] = ()
    rereads: tuple[Reread, ...] = ()
