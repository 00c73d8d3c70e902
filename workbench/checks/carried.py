"""Which ingredients a formula holds, through all its stocks, and what they hold inside."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from workbench.formula.formula import Formula
from workbench.formula.ingredient import Ingredient
from workbench.formula.shelf import Shelf
from workbench.formula.totals import WHOLE, Totals, totals


@dataclass(frozen=True, slots=True)
class Carried:
    """Hold one ingredient that a line brings, by itself or inside a stock.

    `percent` is of the whole formula as supplied [% w/w]; `purpose` what it is there for where
    it stands; `phase` the id of the phase its line is in.
    """

    line: int
    item: Ingredient
    percent: Decimal
    purpose: str
    phase: int
    is_to_ph: bool = False


def carried(formula: Formula, shelf: Shelf, sums: Totals) -> tuple[Carried, ...]:
    """Return every ingredient of a formula with what each line brings of it.

    Notes
    -----
    Lines of nothing or less, and lines nothing is known of, bring nothing.
    """
    found: list[Carried] = []
    for phase in formula.phases:
        for line in phase.lines:
            percent = sums.percents[line.id]
            if percent > 0:
                inside = _inside(line.ingredient, percent, line.purpose, shelf, ())
                found.extend(
                    Carried(line.id, item, share, purpose, phase.id, line.to_ph)
                    for item, share, purpose in inside
                )
    return tuple(found)


def _inside(
    key: str, percent: Decimal, purpose: str, shelf: Shelf, above: tuple[str, ...]
) -> Iterator[tuple[Ingredient, Decimal, str]]:
    item = shelf.ingredients.get(key)
    if item is not None:
        yield item, percent, purpose or item.purpose
    elif key in shelf.stocks and key not in above:
        stock = shelf.stocks[key]
        shares = totals(stock).percents
        for line in stock.lines():
            share = percent * shares[line.id] / WHOLE
            if share > 0:
                yield from _inside(line.ingredient, share, line.purpose, shelf, (*above, key))
