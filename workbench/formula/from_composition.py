"""What a composition says of a material: its strength, its water, and what a label calls it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from decimal import Decimal

from workbench.formula.ingredient import Part
from workbench.formula.ingredient_check import SUM_SLACK
from workbench.formula.totals import WHOLE

WATER = "water"
_NAMES_JOINED = " (and) "
_STEP = Decimal("0.000001")


def is_whole(parts: Sequence[Part]) -> bool:
    """Tell whether the fractions add up to 1 [-]."""
    return abs(sum((part.fraction for part in parts), Decimal(0)) - 1) <= SUM_SLACK


def water_percent(parts: Sequence[Part]) -> Decimal:
    """Return all water of a composition, crystal water included [% w/w]."""
    return (sum((part.water for part in parts), Decimal(0)) * WHOLE).normalize()


def active_percent(parts: Sequence[Part]) -> Decimal:
    """Return what of a composition is not water [% w/w]."""
    return (WHOLE - water_percent(parts)).normalize()


def joined_names(parts: Sequence[Part], name: Callable[[str], str]) -> str:
    """Return the label names of a composition, the most of it first.

    >>> half = Decimal("0.5")
    >>> joined_names((Part("panthenol", half), Part("water", half)), str.title)
    'Panthenol (and) Water'
    """
    largest_first = sorted(parts, key=lambda part: -part.fraction)
    return _NAMES_JOINED.join(dict.fromkeys(name(part.substance) for part in largest_first))


def diluted(parts: Sequence[Part], strength: Decimal) -> tuple[Part, ...] | None:
    """Return a composition brought to a strength [% w/w] with water, in its own proportions.

    None where that cannot be: nothing but water is in it, or crystal water leaves no room.

    Notes
    -----
    With d the water-free share of the parts other than water, each is scaled by strength / d;
    water is the rest to 1.
    """
    others = [part for part in parts if part.substance != WATER]
    dry = sum((part.fraction - part.water for part in others), Decimal(0))
    if dry <= 0 or not 0 < strength <= WHOLE:
        return None
    scale = strength / WHOLE / dry
    scaled = [
        replace(
            part,
            fraction=(part.fraction * scale).quantize(_STEP),
            water=(part.water * scale).quantize(_STEP),
        )
        for part in others
    ]
    rest = 1 - sum((part.fraction for part in scaled), Decimal(0))
    if rest < 0:
        return None
    return (*scaled, Part(WATER, rest, rest)) if rest else tuple(scaled)
