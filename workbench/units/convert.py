"""From a quantity to grams or millilitres; mass and volume never turn into each other here."""

from __future__ import annotations

import re
from collections.abc import Mapping
from decimal import Context, Decimal, DecimalException, localcontext
from functools import cache
from typing import TYPE_CHECKING

from workbench.units import quantity as reasons
from workbench.units.expression import plain
from workbench.units.factors import (
    BARE_FLUID_OUNCE,
    DROPS,
    GRAMS,
    MILLILITRES,
    PERCENT,
    VARYING,
    folded,
    unit_named,
)
from workbench.units.quantity import Quantity, Unreadable

if TYPE_CHECKING:
    import pint

_UNIT_TEXT = re.compile(r"[A-Za-z\u00b5\u03bc][A-Za-z_ \u00b5\u03bc]{0,29}")


def to_grams(quantity: Quantity) -> Decimal | Unreadable:
    """Return the mass [g] of a quantity that carries a unit of mass.

    >>> to_grams(Quantity(Decimal("0.5"), "oz"))
    Decimal('14.1747615625')
    """
    return _converted(quantity, GRAMS, "gram", reasons.UNIT_NOT_MASS)


def to_millilitres(quantity: Quantity) -> Decimal | Unreadable:
    """Return the volume [ml] of a quantity that carries a unit of volume.

    >>> to_millilitres(Quantity(Decimal(2), "US fl oz"))
    Decimal('59.1470591250')
    """
    return _converted(quantity, MILLILITRES, "milliliter", reasons.UNIT_NOT_VOLUME)


def _converted(
    quantity: Quantity, factors: Mapping[str, Decimal], target: str, other_kind: str
) -> Decimal | Unreadable:
    if quantity.unit is None:
        return Unreadable(reasons.UNIT_MISSING)
    unit = unit_named(quantity.unit)
    if unit in factors:
        return quantity.value * factors[unit]
    if unit in GRAMS or unit in MILLILITRES or unit == PERCENT:
        return Unreadable(other_kind)
    refusal = _refused(unit, other_kind)
    if refusal is not None:
        return Unreadable(refusal)
    return _by_pint(quantity.value, unit, target, other_kind)


def _refused(unit: str, other_kind: str) -> str | None:
    name = folded(unit)
    if name == BARE_FLUID_OUNCE:
        of_mass = other_kind == reasons.UNIT_NOT_MASS
        return other_kind if of_mass else reasons.UNIT_VARIES
    if name in DROPS:
        return reasons.UNIT_DROPS
    if name in VARYING:
        return reasons.UNIT_VARIES
    return None if _UNIT_TEXT.fullmatch(unit) else reasons.UNIT_UNKNOWN


def _by_pint(value: Decimal, unit: str, target: str, other_kind: str) -> Decimal | Unreadable:
    import pint

    name = unit.replace("\u03bc", "\u00b5").replace(" ", "_")
    try:
        with localcontext(Context(prec=28)):
            amount = _registry().Quantity(value, name).to(target).magnitude
    except pint.DimensionalityError:
        return Unreadable(other_kind)
    except (pint.PintError, DecimalException, AttributeError, TypeError, ValueError):
        return Unreadable(reasons.UNIT_UNKNOWN)
    return plain(Decimal(amount))


@cache
def _registry() -> pint.UnitRegistry[Decimal]:
    import pint

    return pint.UnitRegistry(non_int_type=Decimal)
