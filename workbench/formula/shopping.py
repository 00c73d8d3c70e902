"""What a batch needs from the shelf, through every stock: masses, what is there, what to buy."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import ROUND_CEILING, Decimal

from workbench.formula.formula import Formula
from workbench.formula.shelf import Shelf
from workbench.formula.supply import KILOGRAM_G, Supply
from workbench.formula.totals import WHOLE, totals


@dataclass(frozen=True, slots=True)
class Need:
    """Hold what a batch needs of one ingredient.

    `mass_g` in grams; `through` are the stocks it comes by, empty where only the formula itself
    uses it. `packs` and `pack_cost` are what to buy when it is not on hand: None where no pack
    is entered; `used_cost` is the worth of what goes in, None without a price.
    """

    ingredient: str
    mass_g: Decimal
    on_hand: bool
    through: tuple[str, ...] = ()
    packs: int | None = None
    pack_g: Decimal | None = None
    pack_cost: Decimal | None = None
    used_cost: Decimal | None = None
    currency: str = ""


@dataclass(frozen=True, slots=True)
class ShoppingList:
    """Hold everything a batch of `batch_g` grams needs, the largest mass first.

    `to_buy` maps each currency to what the missing packs cost; `unpriced` are the keys to buy
    for which no pack or price is entered; `unresolved` are stocks that contain themselves and
    ingredients nobody knows, which are left out.
    """

    batch_g: Decimal
    needs: tuple[Need, ...]
    to_buy: tuple[tuple[str, Decimal], ...]
    unpriced: tuple[str, ...]
    unresolved: tuple[str, ...]


def shopping_list(
    formula: Formula, shelf: Shelf, batch_g: Decimal, supplies: Mapping[str, Supply]
) -> ShoppingList:
    """Return what a batch needs, every stock taken apart to its ingredients.

    Notes
    -----
    Masses are those of the formula, without losses: m = batch x percent / 100 on each level.
    Lines at or under zero need nothing.
    """
    expansion = _Expansion(shelf)
    expansion.take(formula, batch_g, ())
    needs = [
        _need(key, mass, tuple(expansion.through[key]), supplies.get(key) or Supply(key))
        for key, mass in expansion.masses.items()
    ]
    costs: defaultdict[str, Decimal] = defaultdict(Decimal)
    for need in needs:
        if need.pack_cost is not None:
            costs[need.currency] += need.pack_cost
    return ShoppingList(
        batch_g=batch_g,
        needs=tuple(sorted(needs, key=lambda need: (-need.mass_g, need.ingredient))),
        to_buy=tuple(sorted(costs.items())),
        unpriced=tuple(
            need.ingredient for need in needs if not need.on_hand and need.pack_cost is None
        ),
        unresolved=tuple(expansion.unresolved),
    )


class _Expansion:
    """Add up masses by ingredient while stocks are taken apart."""

    def __init__(self, shelf: Shelf) -> None:
        self._shelf = shelf
        self.masses: defaultdict[str, Decimal] = defaultdict(Decimal)
        self.through: defaultdict[str, dict[str, None]] = defaultdict(dict)
        self.unresolved: dict[str, None] = {}

    def take(self, formula: Formula, mass_g: Decimal, path: tuple[str, ...]) -> None:
        percents = totals(formula).percents
        for line in formula.lines():
            key, part_g = line.ingredient, mass_g * percents[line.id] / WHOLE
            if part_g <= 0:
                continue
            if key in path or not self._is_known(key):
                self.unresolved[key] = None
            elif key in self._shelf.stocks:
                self.take(self._shelf.stocks[key], part_g, (*path, key))
            else:
                self.masses[key] += part_g
                self.through[key].update(dict.fromkeys(path[-1:]))

    def _is_known(self, key: str) -> bool:
        return key in self._shelf.stocks or key in self._shelf.ingredients


def _need(key: str, mass_g: Decimal, through: tuple[str, ...], supply: Supply) -> Need:
    price = supply.price
    packs, pack_cost = None, None
    if not supply.on_hand and supply.pack_g:
        packs = int((mass_g / supply.pack_g).to_integral_value(ROUND_CEILING))
        if supply.pack_price is not None:
            pack_cost = packs * (supply.pack_price + (supply.freight or Decimal(0)))
    return Need(
        ingredient=key,
        mass_g=mass_g,
        on_hand=supply.on_hand,
        through=through,
        packs=packs,
        pack_g=supply.pack_g,
        pack_cost=pack_cost,
        used_cost=None if price is None else mass_g * price.per_kg / KILOGRAM_G,
        currency=supply.currency,
    )
