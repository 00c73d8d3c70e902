"""What happened to a batch while its pH was brought in: readings and additions, in order."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from workbench.chemistry.facts import EXACT, Gift, Spread


class Method(Enum):
    """Say how a pH was read."""

    NEAT = "neat"
    DILUTED = "diluted"
    STRIP = "strip"


@dataclass(frozen=True, slots=True)
class PhAdjuster:
    """Hold a solution that moves a pH, as it stands in its bottle.

    Parameters
    ----------
    key : str
        Key on the shelf.
    gift : Gift
        What a gram brings as stated [mol/g].
    water_g : float
        Water in a gram [g/g].
    is_base : bool
        Whether it raises the pH.
    acts : Spread
        How much of what is stated acts [-].
    is_slow : bool
        Whether the pH goes on drifting after it: a lactone that opens, oligomers that part.
    """

    key: str
    gift: Gift
    water_g: float
    is_base: bool
    acts: Spread = EXACT
    is_slow: bool = False


@dataclass(frozen=True, slots=True)
class PhReading:
    """Hold one measured pH.

    Parameters
    ----------
    ph : float
        As shown [-].
    method : Method
        Neat, diluted with water, or by strip.
    temperature_c : float
        Of the product [°C].
    sample_g : float
        Taken from the batch and not put back [g].
    """

    ph: float
    method: Method = Method.NEAT
    temperature_c: float = 25.0
    sample_g: float = 0.0


@dataclass(frozen=True, slots=True)
class PhAddition:
    """Hold one addition, weighed by its bottle.

    Parameters
    ----------
    adjuster : str
        Key of the solution as it stands in its own bottle.
    before_g, after_g : float
        The bottle that was poured from, before and after [g].
    fold : float
        1 as stated; k where one part was made up to k parts with water [-].
    """

    adjuster: str
    before_g: float
    after_g: float
    fold: float = 1.0

    @property
    def mass_g(self) -> float:
        """Return what went into the batch [g]."""
        return max(self.before_g - self.after_g, 0.0)

    @property
    def stated_g(self) -> float:
        """Return how much of that is the solution as stated [g]."""
        return self.mass_g / self.fold


PhEntry = PhReading | PhAddition


@dataclass(frozen=True, slots=True)
class Composed:
    """Hold what stands in the beaker, for one gram of the product before any addition.

    Parameters
    ----------
    added : tuple of (str, float)
        Adjuster as stated [g/g].
    thinning : float
        Water it was thinned with [g/g].
    """

    added: tuple[tuple[str, float], ...] = ()
    thinning: float = 0.0


@dataclass(frozen=True, slots=True)
class BeakerState:
    """Hold the beaker after some entries.

    Parameters
    ----------
    product_g : float
        What is left of the product before any addition [g].
    composed : Composed
        What a gram of that has beside it.
    used_g : float
        Everything poured in so far, thinning water included [g].
    sampled_g : float
        Everything taken out so far [g].
    """

    product_g: float
    composed: Composed = Composed()
    used_g: float = 0.0
    sampled_g: float = 0.0

    @property
    def mass_g(self) -> float:
        """Return what is in the beaker [g]."""
        beside = sum(share for _, share in self.composed.added) + self.composed.thinning
        return self.product_g * (1.0 + beside)


@dataclass(frozen=True, slots=True)
class PhLog:
    """Hold the mass at the start [g] and everything since, in order."""

    start_g: float
    entries: tuple[PhEntry, ...] = ()

    def with_entry(self, entry: PhEntry) -> PhLog:
        """Return the log with one entry more."""
        return PhLog(self.start_g, (*self.entries, entry))

    @property
    def readings(self) -> tuple[PhReading, ...]:
        """Return the readings alone."""
        return tuple(entry for entry in self.entries if isinstance(entry, PhReading))

    @property
    def additions(self) -> tuple[PhAddition, ...]:
        """Return the additions alone."""
        return tuple(entry for entry in self.entries if isinstance(entry, PhAddition))


def state_after(log: PhLog) -> BeakerState:
    """Return the beaker as it stands after all entries."""
    return _walked(log)[0]


def read_states(log: PhLog) -> tuple[tuple[Composed, PhReading], ...]:
    """Return each reading with what stood in the beaker when it was made."""
    return _walked(log)[1]


def _walked(log: PhLog) -> tuple[BeakerState, tuple[tuple[Composed, PhReading], ...]]:
    state = BeakerState(log.start_g)
    found: list[tuple[Composed, PhReading]] = []
    for entry in log.entries:
        if isinstance(entry, PhReading):
            found.append((state.composed, entry))
            state = _sampled(state, entry.sample_g)
        else:
            state = _poured(state, entry)
    return state, tuple(found)


def _sampled(state: BeakerState, sample_g: float) -> BeakerState:
    # A sample takes product and adjuster alike: what stands beside each gram stays the same.
    taken = min(sample_g, state.mass_g)
    left = state.product_g * (1.0 - taken / state.mass_g)
    return BeakerState(left, state.composed, state.used_g, state.sampled_g + taken)


def _poured(state: BeakerState, entry: PhAddition) -> BeakerState:
    per_g = dict(state.composed.added)
    more = entry.stated_g / state.product_g
    per_g[entry.adjuster] = per_g.get(entry.adjuster, 0.0) + more
    thinning = state.composed.thinning + (entry.mass_g - entry.stated_g) / state.product_g
    return BeakerState(
        state.product_g,
        Composed(tuple(per_g.items()), thinning),
        state.used_g + entry.mass_g,
        state.sampled_g,
    )
