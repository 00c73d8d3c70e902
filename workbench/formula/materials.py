"""From lines to materials: every stock opened, every ingredient as supplied."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from workbench.formula.formula import Formula
from workbench.formula.ingredient import Ingredient
from workbench.formula.shelf import Shelf
from workbench.formula.totals import WHOLE, totals


@dataclass(frozen=True, slots=True)
class Material:
    """Hold how much of one ingredient as supplied one line brings [% w/w of the formula]."""

    line: int
    item: Ingredient
    percent: Decimal
    purpose: str


def materials(formula: Formula, shelf: Shelf) -> tuple[Material, ...]:
    """Return the ingredients of a formula through all its stocks, in the order of the lines.

    Notes
    -----
    Lines whose ingredient is nowhere, and stocks in a circle, are left out: `Composition`
    names them.
    """
    percents = totals(formula).percents
    return tuple(
        Material(line.id, item, percents[line.id] * fraction, purpose)
        for line in formula.lines()
        if shelf.knows(line.ingredient)
        for item, fraction, purpose in _opened(line.ingredient, line.purpose, shelf)
    )


def _opened(key: str, purpose: str, shelf: Shelf) -> Iterator[tuple[Ingredient, Decimal, str]]:
    if key in shelf.ingredients:
        item = shelf.ingredients[key]
        yield item, Decimal(1), purpose or item.purpose
        return
    stock = shelf.stocks[key]
    percents = totals(stock).percents
    for line in stock.lines():
        for item, fraction, inner in _opened(line.ingredient, line.purpose, shelf):
            yield item, percents[line.id] * fraction / WHOLE, inner
