"""What is known of each preservative of a formula, as values."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from enum import Enum


class Reason(Enum):
    """Say why a figure of a preservative is not there, or what it leaves out.

    With `NO_BINDING_DATA` the figure stands, and what emulsifiers and surfactants hold back is
    not in it: less is free than it says. Every other reason means there is no such figure.
    """

    NO_PH = "no-ph"
    NO_ACID_DATA = "no-acid-data"
    NO_OIL_DATA = "no-oil-data"
    NO_BINDING_DATA = "no-binding-data"
    NO_WATER = "no-water"
    UNKNOWN_LINES = "unknown-lines"


class PhBasis(Enum):
    """Say which pH the shares rest on."""

    ESTIMATE = "estimate"
    TARGET = "target"


class Basis(Enum):
    """Say of what a wanted level is counted."""

    UNDISSOCIATED = "undissociated"
    AS_ACID = "as-acid"
    NEAT = "neat"


@dataclass(frozen=True, slots=True)
class Range:
    """Hold a figure that is only known between two values; its unit is the holder's."""

    low: float
    estimate: float
    high: float


@dataclass(frozen=True, slots=True)
class Wanted:
    """Hold the level a maker wants of a preservative, and on whose word.

    `level` and `upper` [% w/w of the product, counted as `basis` says]: `upper` is the high
    end of a level that is quoted as a span, else equal to `level`.
    """

    level: Decimal
    upper: Decimal
    basis: Basis
    source: str
    confidence: str


@dataclass(frozen=True, slots=True)
class PreservativeShare:
    """Hold what is known of one preservative in a formula.

    Parameters
    ----------
    substance : str
        Key of the substance as counted: the acid for a salt, else the substance itself.
    percent : Decimal
        The neat substance or salts of it as they were put in [% w/w of the product].
    as_acid_percent : Decimal or None
        The same counted as free acid [% w/w of the product]; None where it is no acid.
    undissociated_percent : Range or None
        Acid that is not ionised [% w/w of the product].
    undissociated_share : Range or None
        The same as a share of the acid [%].
    water_phase_percent : Range or None
        What is free in the water, oil and bound share taken off [% w/w of the water phase]:
        the undissociated acid, or the substance itself where it is no acid.
    wanted : Wanted or None
        The level wanted, where a table has one.
    ph_for_wanted : float or None
        Highest pH at which the undissociated acid of the product still is `wanted.level`;
        None where even all of it would be less, or where no acid level is wanted.
    not_modelled : Reason or None
        Why `water_phase_percent`, or the shares, are missing.
    lines : tuple of int
        Lines that carry it, stocks included.
    carriers : tuple of str
        Substances it was put in as: salts, or itself.
    ph_basis : PhBasis or None
        Which pH the shares rest on.
    is_capped : bool
        Whether the water phase is held at what the water can dissolve at most.
    solubility_percent : float or None
        What water dissolves [% w/w], where a table has it.
    is_put_in : bool
        Whether it is there to preserve; what keeps a raw material only comes along with it.
    """

    substance: str
    percent: Decimal
    as_acid_percent: Decimal | None
    undissociated_percent: Range | None
    undissociated_share: Range | None
    water_phase_percent: Range | None
    wanted: Wanted | None
    ph_for_wanted: float | None
    not_modelled: Reason | None
    lines: tuple[int, ...] = ()
    carriers: tuple[str, ...] = ()
    ph_basis: PhBasis | None = None
    is_capped: bool = False
    solubility_percent: float | None = None
    is_put_in: bool = True
