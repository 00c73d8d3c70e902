"""From a formula to what is in its water, worked out once for estimate, doses and curves."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from workbench.chemistry.facts import ChemistryFacts
from workbench.chemistry.mixture import Material, Mixture, mixture_of
from workbench.formula.absent import Absent
from workbench.formula.formula import Formula
from workbench.formula.shelf import Shelf
from workbench.formula.substance import UNLISTED
from workbench.formula.totals import WHOLE, totals

WATER_IN_OIL, OIL_IN_WATER = "emulsifier-water-in-oil", "emulsifier-oil-in-water"
SOLVENT, OIL = "solvent", "oil"
SOLIDS = frozenset({"clay", "solid"})
KG, HALF = 1000.0, 0.5


@dataclass(frozen=True, slots=True)
class PhSituation:
    """Hold what the pH of a formula is worked out from, before its to-pH lines.

    Parameters
    ----------
    mixture : Mixture
        Solutes and water of one kilogram of product.
    makers : mapping of str to str
        The material that brings most of each acid, by acid.
    unmodelled : tuple of (str, str, float)
        Materials that shift the pH in a way not worked out: key, kind, share of the product
        [% w/w], the largest first.
    unknown : tuple of str
        Keys of lines of which nothing is known.
    solvent : float
        Share of organic solvents in water and solvents [-].
    rest_g, rest_water : float
        Rest-line ingredient in one kilogram of product, to-pH lines included [g], and the water
        in each gram of it [g].
    reserved : mapping of str to float
        What to-pH lines hold back in one kilogram of product, by ingredient [g].
    """

    mixture: Mixture
    makers: Mapping[str, str]
    unmodelled: tuple[tuple[str, str, float], ...]
    unknown: tuple[str, ...]
    solvent: float
    rest_g: float
    rest_water: float
    reserved: Mapping[str, float]


def situation_of(formula: Formula, shelf: Shelf, facts: ChemistryFacts) -> PhSituation | Absent:
    """Return what the pH of a formula is worked out from, or why there is no pH to speak of.

    Notes
    -----
    The percent of a to-pH line is counted as rest-line ingredient: at the bench that is what
    takes its place until it is needed.
    """
    percents = totals(formula).percents
    whole = float(sum(percents.values()))
    if whole <= 0:
        return Absent("absent-ph-empty")
    if any(percent < 0 for percent in percents.values()):
        return Absent("absent-ph-negative")
    per_kg = KG / whole
    rest = formula.rest_line
    reserved: dict[str, float] = {}
    masses: dict[str, float] = {}
    for line in formula.lines():
        key, mass = line.ingredient, float(percents[line.id]) * per_kg
        if line.to_ph:
            reserved[key] = reserved.get(key, 0.0) + mass
            if rest is None:
                continue
            key = rest.ingredient
        masses[key] = masses.get(key, 0.0) + mass
    rest_key = rest.ingredient if rest is not None else ""
    return _situation(masses, rest_key, reserved, shelf, facts)


def base_masses(masses: Mapping[str, float], shelf: Shelf) -> dict[str, float]:
    """Return masses with every stock replaced by what it is made of."""
    found: dict[str, float] = {}
    for key, mass in masses.items():
        for inner, part in _inside(key, mass, shelf, ()):
            found[inner] = found.get(inner, 0.0) + part
    return found


def materials_of(masses: Mapping[str, float], shelf: Shelf) -> tuple[Material, ...]:
    """Return materials by key and mass [g], stocks already expanded."""
    found: list[Material] = []
    for key, mass in masses.items():
        if mass > 0 and shelf.knows(key):
            parts = shelf.parts(key)
            contents = tuple([(part.substance, float(part.fraction)) for part in parts])
            water = sum([float(part.water) for part in parts])
            item = shelf.ingredients.get(key)
            original = item.based_on if item is not None else ""
            found.append(Material(key, mass, contents, water * mass, original))
    return tuple(found)


def water_in(materials: Iterable[Material]) -> float:
    """Return the water of materials, crystal water included [g]."""
    return sum([material.water_g for material in materials])


def _situation(
    masses: Mapping[str, float],
    rest_key: str,
    reserved: Mapping[str, float],
    shelf: Shelf,
    facts: ChemistryFacts,
) -> PhSituation | Absent:
    bases = base_masses(masses, shelf)
    materials = materials_of(bases, shelf)
    water_g = water_in(materials)
    absent = _no_water_product(bases, water_g, shelf, facts)
    if absent is not None:
        return absent
    mixture = mixture_of(materials, water_g / KG, facts)
    solvents = sum(one.mass_g for one in materials if _is_solvent(one, shelf))
    rest = materials_of(base_masses({rest_key: 1.0}, shelf), shelf) if rest_key else ()
    return PhSituation(
        mixture=mixture,
        makers=_makers(mixture),
        unmodelled=_unmodelled(materials, shelf, facts),
        unknown=tuple(key for key, mass in bases.items() if mass > 0 and not shelf.parts(key)),
        solvent=solvents / (solvents + water_g),
        rest_g=masses.get(rest_key, 0.0),
        rest_water=water_in(rest),
        reserved=reserved,
    )


def _inside(
    key: str, mass: float, shelf: Shelf, above: tuple[str, ...]
) -> Iterator[tuple[str, float]]:
    stock = shelf.stocks.get(key)
    if stock is None or key in shelf.ingredients or key in above:
        yield key, mass
        return
    percents = totals(stock).percents
    for line in stock.lines():
        part = mass * float(percents[line.id]) / float(WHOLE)
        yield from _inside(line.ingredient, part, shelf, (*above, key))


def _is_solvent(material: Material, shelf: Shelf) -> bool:
    item = shelf.ingredients.get(material.key)
    is_watery = material.water_g > HALF * material.mass_g
    return item is not None and SOLVENT in item.functions and not is_watery


def _no_water_product(
    bases: Mapping[str, float], water_g: float, shelf: Shelf, facts: ChemistryFacts
) -> Absent | None:
    if water_g <= 0:
        return Absent("absent-ph-no-water")
    if water_g < facts.figures.get("least_water_percent", 0.0) * KG / float(WHOLE):
        return Absent("absent-ph-little-water")
    kinds = {
        item.purpose
        for key, mass in bases.items()
        if mass > 0 and (item := shelf.ingredients.get(key)) is not None
    }
    if WATER_IN_OIL in kinds and OIL_IN_WATER not in kinds:
        oil_g = sum(mass for key, mass in bases.items() if _is_oil(key, shelf))
        if oil_g >= facts.figures["oil_of_water_in_oil_percent"] * KG / float(WHOLE):
            return Absent("absent-ph-water-in-oil")
    return None


def _is_oil(key: str, shelf: Shelf) -> bool:
    item = shelf.ingredients.get(key)
    return item is not None and item.solubility == OIL


def _makers(mixture: Mixture) -> dict[str, str]:
    most: dict[str, tuple[float, str]] = {}
    for portion in mixture.portions:
        for acid, amount in portion.gift.acids:
            there = (amount * portion.spread.typical, portion.key)
            most[acid.key] = max(most.get(acid.key, there), there)
    return {acid: key for acid, (_, key) in most.items()}


def _unmodelled(
    materials: tuple[Material, ...], shelf: Shelf, facts: ChemistryFacts
) -> tuple[tuple[str, str, float], ...]:
    found: list[tuple[str, str, float]] = []
    for material in materials:
        listed = material.listed_key
        kinds = [
            (kind, fraction)
            for key, fraction in ((listed, 1.0), *material.contents)
            if (kind := facts.unmodelled.get(key) or _unlisted(key, shelf))
            and _is_left_out(listed, kind, facts)
        ]
        if kinds:
            kind, fraction = max(kinds, key=lambda entry: entry[1])
            percent = material.mass_g * min(fraction, 1.0) * float(WHOLE) / KG
            found.append((material.key, kind, percent))
    return tuple(sorted(found, key=lambda entry: -entry[2]))


def _unlisted(key: str, shelf: Shelf) -> str:
    """Return the kind of a substance that only a maker's document names, else nothing."""
    substance = shelf.substances.get(key)
    return "matter" if substance is not None and substance.confidence == UNLISTED else ""


def _is_left_out(key: str, kind: str, facts: ChemistryFacts) -> bool:
    # A range of acid that is given for the whole material holds that of its parts; a solid that
    # exchanges ions is not described by one.
    return key not in facts.unknown or kind in SOLIDS
