"""What a batch costs in material, and what is not known of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from workbench.formula.formula import Formula
from workbench.formula.shelf import Shelf
from workbench.formula.totals import WHOLE, totals

GRAMS_PER_KILOGRAM = Decimal(1000)


@dataclass(frozen=True, slots=True)
class Cost:
    """Hold the material cost of a batch.

    `lines` maps line id to its cost; `batch` is their sum; `per_unit` one pack's share;
    `missing` names the ingredients without a price, so that the sum is a part of the whole.
    """

    lines: Mapping[int, Decimal]
    batch: Decimal
    per_unit: Decimal | None
    currency: str
    missing: tuple[str, ...]

    @property
    def is_complete(self) -> bool:
        """Tell whether every line has a price."""
        return not self.missing


def price_per_kg(key: str, shelf: Shelf) -> Decimal | None:
    """Return the price of a kilogram of an ingredient or of a stock's ingredients."""
    if key in shelf.prices:
        return shelf.prices[key].per_kg
    stock = shelf.stocks.get(key)
    if stock is None or not shelf.knows(key):
        return None
    percents = totals(stock).percents
    total = Decimal(0)
    for line in stock.lines():
        price = price_per_kg(line.ingredient, shelf)
        if price is None:
            return None
        total += price * percents[line.id] / WHOLE
    return total


def cost(formula: Formula, shelf: Shelf, batch_g: Decimal) -> Cost | None:
    """Cost a batch [g]; None when no price at all is known or currencies are mixed."""
    currencies = {price.currency for price in shelf.prices.values()}
    if len(currencies) != 1:
        return None
    percents = totals(formula).percents
    lines: dict[int, Decimal] = {}
    missing: list[str] = []
    for line in formula.lines():
        price = price_per_kg(line.ingredient, shelf)
        if price is None:
            missing.append(line.ingredient)
            continue
        lines[line.id] = price * percents[line.id] * batch_g / WHOLE / GRAMS_PER_KILOGRAM
    if not lines:
        return None
    batch = sum(lines.values(), Decimal(0))
    units = formula.plan.units
    return Cost(
        lines=lines,
        batch=batch,
        per_unit=batch / units if units else None,
        currency=currencies.pop(),
        missing=tuple(dict.fromkeys(missing)),
    )
