"""The density a product will have, estimated from what is in it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal

from workbench.checks.assessment import Figure
from workbench.checks.carried import Carried
from workbench.checks.density_facts import DensityFacts, Points
from workbench.checks.material_density import density_of
from workbench.checks.opened import Opened
from workbench.checks.preservative_values import Range
from workbench.checks.rules import Rules
from workbench.chemistry.density import interpolated, mass_of, mixture_density, volume_in_water
from workbench.formula.absent import Absent
from workbench.formula.totals import WHOLE

TABLE_C = 20.0
_DENSE = "dissolved-solid"
_PLACES = Decimal("0.001")
_GRAM = Decimal("0.1")


@dataclass(frozen=True, slots=True)
class DensityEstimate:
    """Hold the density of a product without air in it [g/ml].

    `unknown_percent` is what no density is known of [% w/w], which widens the range; `unknown`
    names those ingredients.
    """

    density: Range
    unknown_percent: Decimal
    unknown: tuple[str, ...]


def estimated_density(known: Opened, rules: Rules) -> DensityEstimate | Absent:
    """Return the density of a product at 20 °C, or why there is none.

    Parameters
    ----------
    known : Opened
        The formula and what is in it.
    rules : Rules
        With the density tables and how far typical figures may be off.

    Notes
    -----
    Volumes add up, except that what is dissolved in water takes the volume its solution table
    gives. Air that is stirred in is not known and not counted: a whipped product is lighter.
    """
    if not known.sums.is_whole:
        return Absent("absent-density-total")
    inside = known.items
    spread = float(rules.figures["density_spread_percent"] / WHOLE)
    densities = {
        material.item.key: found
        for material in inside
        if (found := density_of(material.item, rules.densities, spread)) is not None
    }
    seen = sum(
        (material.percent for material in inside if material.item.key in densities), Decimal(0)
    )
    unknown = WHOLE - seen
    if not inside or unknown > rules.figures["density_unknown_percent"]:
        return Absent("absent-density-unknown")
    pieces = [*_pieces(inside, densities, rules.densities), *_rest(unknown, rules.densities)]
    density = _widened(
        Range(
            mixture_density([(mass, volume.high) for mass, volume in pieces]) or 0.0,
            mixture_density([(mass, volume.estimate) for mass, volume in pieces]) or 0.0,
            mixture_density([(mass, volume.low) for mass, volume in pieces]) or 0.0,
        ),
        float(rules.figures["density_least_spread_percent"] / WHOLE),
    )
    return DensityEstimate(density, unknown, _unknown(known, densities))


def density_figures(known: Opened, rules: Rules) -> tuple[Figure, ...]:
    """Return the density as a figure, and what one pack then holds by mass.

    Notes
    -----
    Where the maker has weighed a density, that one fills the packs; the estimate stands beside.
    """
    found = estimated_density(known, rules)
    if isinstance(found, Absent):
        nothing = (("known", "no"), ("low", ""), ("high", ""))
        return (Figure("density", found, "gram-per-ml", nothing),)
    low, estimate, high = (
        Decimal(str(value)).quantize(_PLACES)
        for value in (found.density.low, found.density.estimate, found.density.high)
    )
    values = (("known", "yes"), ("low", low), ("high", high))
    figures = [Figure("density", estimate, "gram-per-ml", values)]
    plan = known.formula.plan
    fill = plan.fill
    if fill is not None and plan.density is None:
        mass = mass_of(fill, estimate).quantize(_GRAM)
        span = (
            ("fill", fill),
            ("low", mass_of(fill, low).quantize(_GRAM)),
            ("high", mass_of(fill, high).quantize(_GRAM)),
        )
        figures.append(Figure("fill-mass", mass, "gram", span))
    return tuple(figures)


def _pieces(
    inside: tuple[Carried, ...], known: Mapping[str, Range], facts: DensityFacts
) -> Iterator[tuple[float, Range]]:
    """Yield masses with their specific volumes [ml/g], water and its solutes by substance."""
    pure = interpolated(facts.water, TABLE_C)
    dissolved: dict[str, float] = {}
    water = whole = 0.0
    for material in inside:
        mass, parts = float(material.percent), material.item.composition
        whole += mass * float(sum(part.water for part in parts))
        if pure is not None and all(
            part.substance in facts.solutions or part.water == part.fraction for part in parts
        ):
            for part in parts:
                held = mass * float(part.fraction)
                if part.substance in facts.solutions:
                    dissolved[part.substance] = dissolved.get(part.substance, 0.0) + held
                else:
                    water += held
        elif material.item.key in known:
            found = known[material.item.key]
            yield mass, Range(1 / found.high, 1 / found.estimate, 1 / found.low)
    if pure is None:
        return
    yield water, _same(1 / pure)
    for substance, mass in dissolved.items():
        yield mass, _same(_dissolved_volume(facts.solutions[substance], mass, whole, pure))


def _dissolved_volume(points: Points, mass: float, water: float, pure: float) -> float:
    """Return the specific volume [ml/g] at the strength there is, or at the table's end."""
    percent = min(100.0 * mass / (mass + water), points[-1][0])
    density = interpolated(((0.0, pure), *points), percent)
    return volume_in_water(density, percent, pure) if density and percent > 0 else 1 / pure


def _rest(unknown: Decimal, facts: DensityFacts) -> Iterator[tuple[float, Range]]:
    """Yield what no density is known of: anything from a fat to a dissolved salt."""
    if unknown > 0 and facts.classes:
        low = min(found.low for found in facts.classes.values())
        high = facts.classes[_DENSE].high
        yield float(unknown), Range(1 / high, 2 / (low + high), 1 / low)


def _widened(found: Range, least: float) -> Range:
    """Return a range no narrower than room temperature leaves it."""
    middle = found.estimate
    return Range(
        min(found.low, middle * (1 - least)), middle, max(found.high, middle * (1 + least))
    )


def _same(value: float) -> Range:
    return Range(value, value, value)


def _unknown(known: Opened, densities: Mapping[str, Range]) -> tuple[str, ...]:
    keys = (line.ingredient for line in known.formula.lines())
    nowhere = (key for key in keys if not known.shelf.knows(key))
    bare = (each.item.key for each in known.items if each.item.key not in densities)
    return tuple(dict.fromkeys((*nowhere, *bare)))
