"""What is in the water of a product, each portion with how far it may be off."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from workbench.chemistry.facts import AcidRange, ChemistryFacts, Gift, Spread
from workbench.chemistry.system import AcidBase, OutOfRange, Solution, StrongIon

STATED, UNKNOWN, TRACE = "stated", "unknown", "trace"
MMOL = 1e-3
# Narrower than any weighing; also the answer for an acid of which nothing is known.
NO_RANGE = AcidRange(0.0)


@dataclass(frozen=True, slots=True)
class Portion:
    """Hold what one material brings to one kilogram of product.

    Parameters
    ----------
    key : str
        The material, empty for what is in every water.
    gift : Gift
        What it brings per unit of `spread` [mol].
    spread : Spread
        How many units that may be [-].
    kind : str
        stated, unknown or trace.
    pka_shift : float
        How far its acids may differ from what they are taken for [-].
    """

    key: str
    gift: Gift
    spread: Spread
    kind: str = STATED
    pka_shift: float = 0.0


@dataclass(frozen=True, slots=True)
class Mixture:
    """Hold the solutes of one kilogram of product and its water.

    Parameters
    ----------
    portions : tuple of Portion
        What is brought, material by material.
    water_kg : float
        All water, crystal water and that of stocks included [kg].
    ranges : mapping of str to AcidRange
        How far the constants of its acids may be off, by acid.
    """

    portions: tuple[Portion, ...]
    water_kg: float
    ranges: Mapping[str, AcidRange]

    @property
    def acids(self) -> tuple[AcidBase, ...]:
        """Return every acid, base and ampholyte once, in the order of first appearance."""
        seen: dict[str, AcidBase] = {}
        for portion in self.portions:
            for acid, _ in portion.gift.acids:
                seen.setdefault(acid.key, acid)
        return tuple(seen.values())

    @property
    def charges(self) -> tuple[int, ...]:
        """Return the charges of the strong ions present, each once [-]."""
        return tuple(sorted({ion for part in self.portions for ion, _ in part.gift.ions}))


@dataclass(frozen=True, slots=True)
class Material:
    """Hold one material of a product as it is weighed.

    Parameters
    ----------
    key : str
        Key on the shelf.
    mass_g : float
        In one kilogram of product [g].
    contents : tuple of (str, float)
        Substances of it, as mass fractions of the material [-].
    water_g : float
        Water in that mass, crystal water included [g].
    known_as : str
        Key the tables know it by, where that is another: a maker's copy of a listed material.
    """

    key: str
    mass_g: float
    contents: tuple[tuple[str, float], ...]
    water_g: float = 0.0
    known_as: str = ""

    @property
    def listed_key(self) -> str:
        """Return the key to look it up by."""
        return self.known_as or self.key

    @property
    def is_solution(self) -> bool:
        """Tell whether it is supplied with water, which makes its strength less sure."""
        return self.water_g > 0


def mixture_of(materials: tuple[Material, ...], water_kg: float, facts: ChemistryFacts) -> Mixture:
    """Return the mixture that materials make in their water.

    Parameters
    ----------
    materials : tuple of Material
        Per kilogram of product.
    water_kg : float
        All water of a kilogram of product [kg].
    facts : ChemistryFacts
        What substances bring.
    """
    portions: list[Portion] = []
    for material in materials:
        portions.extend(portions_of(material, facts))
    return Mixture((*portions, *_traces(water_kg, facts)), water_kg, facts.ranges)


def portions_of(material: Material, facts: ChemistryFacts) -> tuple[Portion, ...]:
    """Return what one material brings: its stated contents, and what it holds besides."""
    found: list[Portion] = []
    gift = _summed(material, facts.gifts)
    if gift.acids or gift.ions:
        acts = facts.acts(material.listed_key, is_solution=material.is_solution)
        found.append(Portion(material.key, gift, acts))
    unknown = facts.unknown.get(material.listed_key)
    if unknown is not None:
        kind = TRACE if unknown.is_trace else UNKNOWN
        acids = () if unknown.stand_in is None else ((unknown.stand_in, material.mass_g),)
        ions = unknown.ions_per_mole * material.mass_g
        found.append(
            Portion(
                material.key,
                Gift(acids, _counter(ions)),
                unknown.amount,
                kind,
                unknown.pka_shift,
            )
        )
    return tuple(found)


def typical_solution(mixture: Mixture) -> Solution:
    """Return the mixture with every portion at its typical amount.

    Raises
    ------
    OutOfRange
        `ph-no-water` where there is none.
    """
    if not mixture.water_kg > 0:
        raise OutOfRange("ph-no-water", {"water_kg": mixture.water_kg})
    acids: dict[str, AcidBase] = {}
    amounts: dict[str, float] = {}
    charges: dict[int, float] = {}
    for portion in mixture.portions:
        times = portion.spread.typical / mixture.water_kg
        for acid, amount in portion.gift.acids:
            acids[acid.key] = acid
            amounts[acid.key] = amounts.get(acid.key, 0.0) + amount * times
        for charge, amount in portion.gift.ions:
            charges[charge] = charges.get(charge, 0.0) + amount * times
    return Solution(
        tuple(
            (acids[key], amount * _stays(acids[key], mixture.ranges))
            for key, amount in amounts.items()
        ),
        tuple(StrongIon(charge, amount) for charge, amount in charges.items()),
    )


def _stays(acid: AcidBase, ranges: Mapping[str, AcidRange]) -> float:
    return 0.5 * (1.0 + ranges.get(acid.key, NO_RANGE).stays_low)


def mean_charge(acid: AcidBase, ph: float) -> float:
    """Return the average charge of an acid at a pH, ionic strength 0 [-].

    Examples
    --------
    >>> round(mean_charge(AcidBase("acetic", (4.757,), 0), 4.757), 3)
    -0.5
    """
    # Steps that are all on one side of the pH would overflow when multiplied out far away.
    weights = [0.0]
    for pka in acid.pkas:
        weights.append(weights[-1] + ph - pka)
    most = max(weights)
    powers = [math.pow(10.0, weight - most) for weight in weights]
    total = sum(powers)
    return sum(charge * power for charge, power in zip(acid.charges, powers, strict=True)) / total


def _summed(material: Material, gifts: Mapping[str, Gift]) -> Gift:
    acids: list[tuple[AcidBase, float]] = []
    ions: list[tuple[int, float]] = []
    for substance, fraction in material.contents:
        gift = gifts.get(substance)
        if gift is not None:
            mass = fraction * material.mass_g
            acids.extend((acid, amount * mass) for acid, amount in gift.acids)
            ions.extend((charge, amount * mass) for charge, amount in gift.ions)
    return Gift(tuple(acids), tuple(ions))


def _counter(charge: float) -> tuple[tuple[int, float], ...]:
    if not charge:
        return ()
    return ((1, charge),) if charge > 0 else ((-1, -charge),)


def _traces(water_kg: float, facts: ChemistryFacts) -> tuple[Portion, ...]:
    most = facts.figures.get("trace_alkali", 0.0) * MMOL * water_kg
    if not most:
        return ()
    # Alkali from nothing to twice the trace, less the trace, is the trace either way.
    either = Spread(0.0, 1.0, 2.0)
    return (
        Portion("", Gift(ions=((1, most),)), either, TRACE),
        Portion("", Gift(ions=((-1, most),)), Spread(1.0, 1.0, 1.0), TRACE),
    )
