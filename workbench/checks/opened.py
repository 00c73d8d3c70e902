"""A formula opened once: its sums, its substances, its ingredients through all stocks."""

from __future__ import annotations

from dataclasses import dataclass

from workbench.checks.carried import Carried, carried
from workbench.formula.composition import Composition, composition
from workbench.formula.formula import Formula
from workbench.formula.shelf import Shelf
from workbench.formula.totals import Totals, totals

STOCK = "stock"


@dataclass(frozen=True, slots=True)
class Opened:
    """Hold a formula with what every check begins from.

    `items` are its ingredients as supplied, stocks opened; `parts` its substances; `sums` its
    percents.
    """

    formula: Formula
    shelf: Shelf
    sums: Totals
    parts: Composition
    items: tuple[Carried, ...]

    @property
    def is_product(self) -> bool:
        """Tell whether it is a finished product; a stock is stronger on purpose."""
        return self.formula.product_type != STOCK


def opened(formula: Formula, shelf: Shelf) -> Opened:
    """Open a formula: add it up, and follow its stocks down to ingredients and substances."""
    sums = totals(formula)
    return Opened(
        formula, shelf, sums, composition(formula, shelf, sums), carried(formula, shelf, sums)
    )
