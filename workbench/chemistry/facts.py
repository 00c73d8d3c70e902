"""What substances bring into water, how sure that is, and what adjusts a pH."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import TypeVar

from workbench.chemistry.system import AcidBase

T = TypeVar("T")

POWDER, SOLUTION = "default-powder", "default-solution"


@dataclass(frozen=True, slots=True)
class Spread:
    """Hold a range with the value it is most like; `typical` splits it into equal chances.

    `note` names what the range comes from, empty where it is plain tolerance.
    """

    low: float
    typical: float
    high: float
    note: str = ""
    confidence: str = "memory"

    def __post_init__(self) -> None:
        """Refuse a range that is none."""
        if not 0 <= self.low <= self.typical <= self.high:
            raise ValueError(f"{self.low}, {self.typical}, {self.high} do not rise from zero")


EXACT = Spread(1.0, 1.0, 1.0)


@dataclass(frozen=True, slots=True)
class Gift:
    """Hold what one gram of a substance brings to the water.

    Parameters
    ----------
    acids : tuple of (AcidBase, float)
        Acids, bases and ampholytes, all protonation states together [mol/g].
    ions : tuple of (int, float)
        Charges that no pH changes, by charge [-] and amount [mol/g].
    """

    acids: tuple[tuple[AcidBase, float], ...] = ()
    ions: tuple[tuple[int, float], ...] = ()


@dataclass(frozen=True, slots=True)
class AcidRange:
    """Hold how far the constants and the amount of an acid may be off.

    Parameters
    ----------
    pka_shift : float
        Half width by which all pKa may be shifted together [-].
    stays_low : float
        Lowest share that stays in the product, where some escapes as a gas [-].
    soluble : float or None
        What dissolves of the uncharged form [mol/kg water].
    note : str
        Reason id of what is particular about it, else empty.
    """

    pka_shift: float
    stays_low: float = 1.0
    soluble: float | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class UnknownSolute:
    """Hold acid or alkali that a material holds in an amount only known as a range.

    Parameters
    ----------
    stand_in : AcidBase or None
        Acid that the unknown one is taken to behave like; None for plain alkali.
    amount : Spread
        [mol/g of the material as supplied].
    ions_per_mole : float
        Charge of the counter-ions the material itself brings, which sets its own pH [-].
    pka_shift : float
        Half width by which its own pH, and so its constants, may be off [-].
    is_trace : bool
        Whether it matters only where nothing else decides the pH.
    """

    stand_in: AcidBase | None
    amount: Spread
    ions_per_mole: float = 0.0
    pka_shift: float = 0.0
    is_trace: bool = False


@dataclass(frozen=True, slots=True)
class KnownAdjuster:
    """Hold one material that moves a pH.

    Parameters
    ----------
    ingredient : str
        Key on the shelf.
    is_base : bool
        Whether it raises the pH.
    most : float or None
        What can be dissolved in the product's water [g as supplied per g water].
    note : str
        Reason id of what to mind, else empty.
    """

    ingredient: str
    is_base: bool
    most: float | None = None
    note: str = ""


def _none() -> Mapping[str, T]:
    return MappingProxyType({})


@dataclass(frozen=True, slots=True)
class ChemistryFacts:
    """Hold everything the pH of a mixture is worked out from, at 25 °C.

    Parameters
    ----------
    acids : mapping of str to AcidBase
        By key.
    gifts : mapping of str to Gift
        By substance; a substance that is in none of these mappings brings nothing.
    ranges : mapping of str to AcidRange
        By acid; every acid of `gifts` has one.
    reach : mapping of str to Spread
        How much of its stated contents acts, by ingredient, and by the two default keys [-].
    unknown : mapping of str to UnknownSolute
        By ingredient.
    unmodelled : mapping of str to str
        Substances and ingredients that shift a pH in a way that is not worked out, with the
        kind: matter, clay, polymer, extract, solid.
    adjusters : tuple of KnownAdjuster
    figures : mapping of str to float
        Bounds the words of confidence and the floor of the interval rest on.
    """

    acids: Mapping[str, AcidBase] = field(default_factory=_none)
    gifts: Mapping[str, Gift] = field(default_factory=_none)
    ranges: Mapping[str, AcidRange] = field(default_factory=_none)
    reach: Mapping[str, Spread] = field(default_factory=_none)
    unknown: Mapping[str, UnknownSolute] = field(default_factory=_none)
    unmodelled: Mapping[str, str] = field(default_factory=_none)
    adjusters: tuple[KnownAdjuster, ...] = ()
    figures: Mapping[str, float] = field(default_factory=_none)

    def acts(self, ingredient: str, *, is_solution: bool) -> Spread:
        """Return how much of an ingredient's stated contents acts in the water [-]."""
        default = SOLUTION if is_solution else POWDER
        return self.reach.get(ingredient) or self.reach.get(default, EXACT)
