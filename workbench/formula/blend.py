"""A blend of ingredients as one ingredient: what it is made of, and what that brings along."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from workbench.formula.ingredient import Constituent, Ingredient, Part
from workbench.formula.totals import WHOLE

PRESERVATIVE = "preservative"


@dataclass(frozen=True, slots=True)
class BlendPart:
    """Hold one ingredient of a blend and its share of it [% w/w]."""

    ingredient: Ingredient
    percent: Decimal


def blend_total(parts: Iterable[BlendPart]) -> Decimal:
    """Return the sum of the shares [% w/w]."""
    return sum((part.percent for part in parts), Decimal(0))


def blended(parts: Sequence[BlendPart], base: Ingredient, source: str = "") -> Ingredient:
    """Return a base ingredient with the composition and the sums of its parts.

    Parameters
    ----------
    parts : sequence of BlendPart
        What it is mixed of; shares add up to 100.
    base : Ingredient
        Name, key, functions and every fact that cannot be worked out.
    source : str
        What it was mixed of, in words.

    Notes
    -----
    Fractions, water and actives add up by mass, and so do densities by volume where each is
    known: 1/rho = sum(w/rho). Tags, cautions and incompatibilities of every part hold for the
    whole. A part that is a preservative keeps that purpose inside anything else.
    """
    largest_first = sorted(parts, key=lambda part: -part.percent)
    purpose = base.purpose
    return replace(
        base,
        inci=base.inci or " (and) ".join(_names(largest_first)),
        cas=_joined(part.ingredient.cas for part in largest_first),
        ec_numbers=_joined(part.ingredient.ec_numbers for part in largest_first),
        composition=_composition(largest_first, purpose),
        constituents=_constituents(largest_first),
        water_percent=_mean(parts, "water_percent"),
        density=_density(parts),
        max_process_temp_c=_least(parts, "max_process_temp_c"),
        is_heat_sensitive=any(part.ingredient.is_heat_sensitive for part in parts),
        is_electrolyte_sensitive=any(part.ingredient.is_electrolyte_sensitive for part in parts),
        incompatibilities=_joined(part.ingredient.incompatibilities for part in parts),
        tags=_joined(part.ingredient.tags for part in parts),
        spectrum=_joined(part.ingredient.spectrum for part in parts),
        cautions="; ".join(_joined((part.ingredient.cautions,) for part in largest_first)),
        source=source,
    )


def _names(parts: Iterable[BlendPart]) -> tuple[str, ...]:
    return _joined((part.ingredient.inci or part.ingredient.name,) for part in parts)


def _composition(parts: Iterable[BlendPart], purpose: str) -> tuple[Part, ...]:
    sums: dict[tuple[str, str], Part] = {}
    for share in parts:
        carried = share.ingredient.purpose
        kept = carried if carried == PRESERVATIVE != purpose else ""
        for part in share.ingredient.composition:
            weight = share.percent / WHOLE
            place = (part.substance, part.purpose or kept)
            before = sums.get(place, Part(part.substance, Decimal(0), Decimal(0), place[1]))
            sums[place] = replace(
                before,
                fraction=before.fraction + part.fraction * weight,
                water=before.water + part.water * weight,
            )
    return tuple(sorted(sums.values(), key=lambda part: -part.fraction))


def _constituents(parts: Iterable[BlendPart]) -> tuple[Constituent, ...]:
    sums: dict[str, Constituent] = {}
    for share in parts:
        for inside in share.ingredient.constituents:
            before = sums.get(inside.substance, replace(inside, fraction=Decimal(0)))
            doubt = "memory" if "memory" in (before.confidence, inside.confidence) else "read"
            more = inside.fraction * share.percent / WHOLE
            sums[inside.substance] = replace(
                before, fraction=before.fraction + more, confidence=doubt
            )
    return tuple(sums.values())


def _mean(parts: Sequence[BlendPart], field: str) -> Decimal | None:
    values = [getattr(part.ingredient, field) for part in parts]
    if not values or None in values:
        return None
    return sum(
        (value * part.percent / WHOLE for value, part in zip(values, parts, strict=True)),
        Decimal(0),
    )


def _density(parts: Sequence[BlendPart]) -> Decimal | None:
    if not parts or any(not part.ingredient.density for part in parts):
        return None
    volume = sum((part.percent / (part.ingredient.density or WHOLE) for part in parts), Decimal(0))
    return (blend_total(parts) / volume).quantize(Decimal("0.001")) if volume else None


def _least(parts: Iterable[BlendPart], field: str) -> Decimal | None:
    values = [getattr(part.ingredient, field) for part in parts]
    return min((value for value in values if value is not None), default=None)


def _joined(lists: Iterable[Iterable[str]]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(text for texts in lists for text in texts if text))
