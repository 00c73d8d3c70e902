"""A formula as the rules of the trade see it: who is there, how much, at which pH."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from decimal import Decimal

from workbench.checks.carried import Carried
from workbench.checks.compatibility_index import matched
from workbench.checks.compatibility_values import (
    Compatibility,
    Selector,
)
from workbench.checks.ph_values import PhEstimate
from workbench.formula.absent import Absent
from workbench.formula.formula import Formula
from workbench.formula.ingredient import Ingredient
from workbench.formula.scope import Scope
from workbench.formula.totals import WHOLE

_DRY_FORMS = frozenset(
    {"powder", "crystals", "granules", "pellets", "flakes", "needles", "beads", "soft solid"}
)
_ALCOHOL = "ethanol"
PhRange = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Present:
    """Hold one ingredient of a mixture and the numbers of the selectors that mean it."""

    carried: Carried
    meant: frozenset[int]
    active: Decimal


@dataclass(frozen=True, slots=True)
class Mixture:
    """Hold what a condition can ask of a formula.

    `ph` is the range taken for the product, None while nothing is known; `hottest` the highest
    temperature of each phase [°C]. `figures` and `by_selector` hold what was already asked.
    """

    items: tuple[Present, ...]
    meant: frozenset[int]
    places: Mapping[Selector, int]
    ph: PhRange | None
    product: Mapping[str, str]
    hottest: Mapping[int, Decimal]
    figures: dict[str, Decimal] = field(default_factory=dict)
    by_selector: dict[int, list[Present]] = field(default_factory=dict)


def mixture_of(
    formula: Formula,
    materials: tuple[Carried, ...],
    scope: Scope,
    known: Compatibility,
    estimate: PhEstimate | Absent | None = None,
) -> Mixture:
    """Return a formula as conditions see it; `materials` are its own through all stocks."""
    items = tuple(
        Present(each, matched(each.item, known), each.percent * _strength(each.item) / WHOLE)
        for each in materials
    )
    return Mixture(
        items=items,
        meant=frozenset().union(*(item.meant for item in items)),
        places=known.places,
        ph=ph_range(formula, estimate),
        product={
            "exposure": scope.exposure,
            "area": scope.area,
            "users": scope.users,
            "form": scope.form,
            "product": scope.product_type,
        },
        hottest={
            phase.id: max(heats)
            for phase in formula.phases
            if (heats := [step.target_c for step in phase.steps if step.target_c is not None])
        },
    )


def ph_range(formula: Formula, estimate: PhEstimate | Absent | None) -> PhRange | None:
    """Return the pH to judge by: the target, or the whole estimate where none is set.

    Notes
    -----
    What a maker will adjust to decides. An estimate before adjusting says nothing of the
    product.
    """
    if formula.target_ph is not None:
        return float(formula.target_ph[0]), float(formula.target_ph[1])
    if isinstance(estimate, PhEstimate) and not estimate.before_adjusting:
        return estimate.low, estimate.high
    return None


def meant_by(selector: Selector, mixture: Mixture) -> list[Present]:
    """Return the ingredients of a mixture that a selector means."""
    place = mixture.places[selector]
    if place not in mixture.meant:
        return []
    found = mixture.by_selector.get(place)
    if found is None:
        found = [item for item in mixture.items if place in item.meant]
        mixture.by_selector[place] = found
    return found


def water_of(mixture: Mixture) -> Decimal:
    """Return the water of what is wet [% w/w]; the moisture of powders does not count."""
    return figure_of("water", mixture)


def sum_of(selector: Selector, mixture: Mixture, *, is_active: bool = False) -> Decimal:
    """Return how much of a mixture a selector means [% w/w, as supplied or as active matter]."""
    items = meant_by(selector, mixture)
    return sum((item.active if is_active else item.carried.percent for item in items), Decimal(0))


def figure_of(name: str, mixture: Mixture) -> Decimal:
    """Return a figure of a mixture by its name, worked out once."""
    if name not in mixture.figures:
        mixture.figures[name] = _FIGURES[name](mixture)
    return mixture.figures[name]


def _water(mixture: Mixture) -> Decimal:
    return sum(
        (
            item.carried.percent * water / WHOLE
            for item in mixture.items
            if item.carried.item.form not in _DRY_FORMS
            and (water := item.carried.item.water_percent)
        ),
        Decimal(0),
    )


def _alcohol_in_water(mixture: Mixture) -> Decimal:
    alcohol = sum(
        (item.active for item in mixture.items if item.carried.item.key == _ALCOHOL), Decimal(0)
    )
    both = alcohol + figure_of("water", mixture)
    return WHOLE * alcohol / both if both else Decimal(0)


def _phototoxic(mixture: Mixture) -> Decimal:
    return sum(
        (
            item.carried.percent / most
            for item in mixture.items
            if item.carried.item.is_phototoxic and (most := item.carried.item.dermal_max)
        ),
        Decimal(0),
    )


def _strength(item: Ingredient) -> Decimal:
    if item.active_percent is not None:
        return item.active_percent
    return WHOLE - (item.water_percent or Decimal(0))


_FIGURES: dict[str, Callable[[Mixture], Decimal]] = {
    "water": _water,
    "alcohol-in-water": _alcohol_in_water,
    "phototoxic": _phototoxic,
}
