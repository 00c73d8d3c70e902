"""What ingredients and stocks are made of, worked out once for a shelf."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from graphlib import CycleError, TopologicalSorter
from types import MappingProxyType

from workbench.formula.formula import Formula
from workbench.formula.ingredient import Ingredient, Part
from workbench.formula.totals import WHOLE, totals

CARRIER_PURPOSES = frozenset({"water", "solvent", "preservative"})


@dataclass(frozen=True, slots=True)
class Contents:
    """Hold the make-up of every ingredient and stock of a shelf.

    Parameters
    ----------
    parts : mapping of str to tuple of Part
        Substances of each key, as mass fractions of it; absent for a stock in a cycle.
    strengths : mapping of str to Decimal
        Pure matter [% of the material].
    purposes : mapping of str to str
        What a stock is there for: the purpose of its largest line that is not carrier.
    cycles : tuple of tuple of str
        Stocks that contain themselves, each as the path that closes.
    """

    parts: Mapping[str, tuple[Part, ...]] = field(default_factory=lambda: MappingProxyType({}))
    strengths: Mapping[str, Decimal] = field(default_factory=lambda: MappingProxyType({}))
    purposes: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))
    cycles: tuple[tuple[str, ...], ...] = ()


def contents_of(ingredients: Mapping[str, Ingredient], stocks: Mapping[str, Formula]) -> Contents:
    """Work out what every ingredient and stock is made of, innermost stock first."""
    order, cycles = _innermost_first(stocks)
    parts = {key: item.composition for key, item in ingredients.items()}
    strengths = {key: _strength(item) for key, item in ingredients.items()}
    purposes = {key: item.purpose for key, item in ingredients.items()}
    for key in order:
        inside = _inside(stocks[key], purposes)
        if any(item.ingredient not in parts for item in inside):
            continue
        parts[key] = _merged(inside, parts)
        solutes = [item for item in inside if item.purpose not in CARRIER_PURPOSES]
        strengths[key] = (
            sum((item.percent * strengths[item.ingredient] / WHOLE for item in solutes), Decimal(0))
            or WHOLE
        )
        largest = max(solutes, default=None, key=lambda item: item.percent)
        purposes[key] = largest.purpose if largest else ""
    return Contents(
        parts=MappingProxyType(parts),
        strengths=MappingProxyType(strengths),
        purposes=MappingProxyType({key: purposes[key] for key in stocks if key in purposes}),
        cycles=cycles,
    )


def stock_cycle(key: str, stocks: Mapping[str, Formula]) -> tuple[str, ...]:
    """Return the path by which a stock would contain itself, or an empty tuple."""
    return next((path for path in _innermost_first(stocks)[1] if key in path), ())


@dataclass(frozen=True, slots=True)
class _Inside:
    ingredient: str
    purpose: str
    percent: Decimal


def _inside(stock: Formula, purposes: Mapping[str, str]) -> tuple[_Inside, ...]:
    percents = totals(stock).percents
    return tuple(
        _Inside(
            ingredient=line.ingredient,
            purpose=line.purpose or purposes.get(line.ingredient, ""),
            percent=percents[line.id],
        )
        for line in stock.lines()
    )


def _merged(inside: tuple[_Inside, ...], parts: Mapping[str, tuple[Part, ...]]) -> tuple[Part, ...]:
    nothing = (Decimal(0), Decimal(0))
    sums: dict[tuple[str, str], tuple[Decimal, Decimal]] = {}
    for item in inside:
        for part in parts[item.ingredient]:
            place = (part.substance, part.purpose or item.purpose)
            mass, water = sums.get(place, nothing)
            sums[place] = (
                mass + item.percent * part.fraction / WHOLE,
                water + item.percent * part.water / WHOLE,
            )
    return tuple(
        Part(substance=substance, fraction=mass, water=water, purpose=purpose)
        for (substance, purpose), (mass, water) in sums.items()
    )


def _strength(item: Ingredient) -> Decimal:
    if item.active_percent is not None:
        return item.active_percent
    return WHOLE - item.water_percent if item.water_percent is not None else WHOLE


def _innermost_first(
    stocks: Mapping[str, Formula],
) -> tuple[tuple[str, ...], tuple[tuple[str, ...], ...]]:
    needs = {
        key: {line.ingredient for line in stock.lines() if line.ingredient in stocks}
        for key, stock in stocks.items()
    }
    cycles: list[tuple[str, ...]] = []
    while True:
        try:
            return tuple(TopologicalSorter(needs).static_order()), tuple(cycles)
        except CycleError as error:
            path = tuple(error.args[1])
            cycles.append(path)
            for key in path:
                needs.pop(key, None)
            needs = {key: inner - set(path) for key, inner in needs.items()}
