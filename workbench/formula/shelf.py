"""The shelf: only what one formula can reach, frozen, with compositions worked out once."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from types import MappingProxyType

from workbench.formula.contents import Contents, contents_of
from workbench.formula.formula import Formula
from workbench.formula.ingredient import Ingredient, Part
from workbench.formula.substance import Substance
from workbench.formula.weighability import Balance


@dataclass(frozen=True, slots=True)
class Price:
    """Hold what a kilogram costs on the shelf, freight included, and in which currency."""

    per_kg: Decimal
    currency: str


@dataclass(frozen=True, slots=True)
class Shelf:
    """Hold ingredients, stocks, prices, balances and the substances behind them.

    `contents` is worked out by `shelf_of`; build a shelf only through that.
    """

    ingredients: Mapping[str, Ingredient]
    stocks: Mapping[str, Formula]
    substances: Mapping[str, Substance]
    prices: Mapping[str, Price] = field(default_factory=lambda: MappingProxyType({}))
    balances: tuple[Balance, ...] = ()
    contents: Contents = field(default_factory=Contents)

    def knows(self, key: str) -> bool:
        """Tell whether a key names an ingredient or a stock whose contents are known."""
        return key in self.contents.parts

    def name(self, key: str) -> str:
        """Return the name of an ingredient or stock, or the key itself when unknown."""
        if key in self.ingredients:
            return self.ingredients[key].name
        return self.stocks[key].name if key in self.stocks else key

    def inci(self, substance: str) -> str:
        """Return the label name of a substance, or its key when it has none."""
        known = self.substances.get(substance)
        return known.inci if known and known.inci else substance

    def parts(self, key: str) -> tuple[Part, ...]:
        """Return what an ingredient or stock is made of, empty when unknown."""
        return self.contents.parts.get(key, ())

    def strength(self, key: str) -> Decimal:
        """Return the pure matter of an ingredient or stock [% of it as supplied]."""
        return self.contents.strengths.get(key, Decimal(100))

    def purpose(self, key: str) -> str:
        """Return what an ingredient is there for by default; a stock is there for its solute."""
        if key in self.ingredients:
            return self.ingredients[key].purpose
        return self.contents.purposes.get(key, "")


def shelf_of(
    ingredients: Mapping[str, Ingredient],
    stocks: Mapping[str, Formula],
    substances: Mapping[str, Substance],
    prices: Mapping[str, Price] | None = None,
    balances: tuple[Balance, ...] = (),
) -> Shelf:
    """Build a shelf and work out the composition of everything on it."""
    return Shelf(
        ingredients=MappingProxyType(dict(ingredients)),
        stocks=MappingProxyType(dict(stocks)),
        substances=substances,
        prices=MappingProxyType(dict(prices or {})),
        balances=balances,
        contents=contents_of(ingredients, stocks),
    )
