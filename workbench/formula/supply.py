"""How an ingredient is bought, as values: what is there, what a pack costs, what it lists."""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal

from workbench.formula.ingredient import Constituent, Ingredient
from workbench.formula.shelf import Price

CERTIFICATE = "certificate"
"""Source of what a maker typed from the certificate of a delivery."""
KILOGRAM_G = Decimal(1000)


@dataclass(frozen=True, slots=True)
class Allergen:
    """Hold one line of a certificate: a substance and its mass fraction of the material [-]."""

    substance: str
    fraction: Decimal


@dataclass(frozen=True, slots=True)
class Supply:
    """Hold how one ingredient is bought; unknown is None or empty, never zero.

    `pack_g` is in grams, `pack_price` and `freight` are of one pack in `currency`. `allergens`
    is what its certificate lists, None where no certificate was typed; `certificate_date` and
    `certificate_lot` are the date and the supplier's lot as they stand on it. `counter` is that
    of the stored state, 0 where nothing is stored.
    """

    ingredient: str
    on_hand: bool = False
    supplier: str = ""
    order_code: str = ""
    pack_g: Decimal | None = None
    pack_price: Decimal | None = None
    freight: Decimal | None = None
    currency: str = ""
    allergens: tuple[Allergen, ...] | None = None
    counter: int = 0
    certificate_date: str = ""
    certificate_lot: str = ""

    @property
    def price(self) -> Price | None:
        """Return what a kilogram costs with its freight, None while it is not known."""
        if self.pack_price is None or not self.pack_g:
            return None
        whole = (self.pack_price + (self.freight or Decimal(0))) * KILOGRAM_G
        return Price(whole / self.pack_g, self.currency)


def certified(item: Ingredient, supply: Supply | None) -> Ingredient:
    """Return an ingredient with what its certificate lists in the place of what is typical.

    A substance that its composition names is counted there already; without a certificate the
    ingredient is returned as it is.
    """
    if supply is None or supply.allergens is None:
        return item
    composed = {part.substance for part in item.composition}
    inside = tuple(
        Constituent(line.substance, line.fraction, CERTIFICATE, "read")
        for line in supply.allergens
        if line.substance not in composed
    )
    return replace(item, constituents=inside, is_certified=True)
