"""Reading what is typed into the form row: a value, or the reason it cannot be taken."""

from __future__ import annotations

import re
from collections.abc import Callable
from decimal import Decimal

from workbench.units import (
    Ambiguous,
    Quantity,
    Unreadable,
    parse_quantity,
    to_grams,
    to_millilitres,
)

HIGHEST_PH = Decimal(14)
MOST_UNITS = 100_000
DENSITIES = (Decimal("0.3"), Decimal(3))
PERCENT = "%"
WHOLE = Decimal(100)
_BETWEEN = re.compile(r"\s*(?:\u2013|\u2014|\u2212|-|\bto\b|\.\.)\s*")

Converter = Callable[[Quantity], Decimal | Unreadable]


class NotTaken(Exception):
    """Say why a text is not taken: a message id and the values of its sentence."""

    def __init__(self, reason_id: str, **values: str | Decimal | tuple[str, ...]) -> None:
        super().__init__(reason_id)
        self.reason_id = reason_id
        self.values = values


def read_window(text: str, *, decimal_comma: bool) -> tuple[Decimal, Decimal] | None:
    """Return the lowest and highest pH of a text like "5.0 – 5.6", or None for no target.

    Raises
    ------
    NotTaken
        If it is not two numbers from 0 to 14, the lower one first.
    """
    if not text.strip():
        return None
    parts = _BETWEEN.split(text.strip())
    if len(parts) != len(("low", "high")):
        raise NotTaken("form-ph-two")
    low, high = (read_number(part, decimal_comma=decimal_comma) for part in parts)
    if not 0 <= low < high <= HIGHEST_PH:
        raise NotTaken("form-ph-order")
    return low, high


def read_mass(text: str, *, decimal_comma: bool) -> Decimal:
    """Return a mass [g]; a bare number is grams."""
    return _measured(text, to_grams, decimal_comma=decimal_comma)


def read_volume(text: str, *, decimal_comma: bool) -> Decimal:
    """Return a volume [ml]; a bare number is millilitres."""
    return _measured(text, to_millilitres, decimal_comma=decimal_comma)


def read_number(text: str, *, decimal_comma: bool) -> Decimal:
    """Return a number without a unit."""
    quantity = _quantity(text, decimal_comma=decimal_comma)
    if quantity.unit is not None:
        raise NotTaken("form-no-unit", unit=quantity.unit)
    return quantity.value


def read_percent(text: str, *, decimal_comma: bool) -> Decimal:
    """Return a loss from 0 to under 100 %."""
    quantity = _quantity(text, decimal_comma=decimal_comma)
    if quantity.unit not in (None, PERCENT):
        raise NotTaken("form-no-unit", unit=str(quantity.unit))
    if not 0 <= quantity.value < WHOLE:
        raise NotTaken("form-hold-up-range")
    return quantity.value


def read_count(text: str, *, decimal_comma: bool) -> int:
    """Return a whole number of packs."""
    value = read_number(text, decimal_comma=decimal_comma)
    if value != value.to_integral_value() or not 0 <= value <= MOST_UNITS:
        raise NotTaken("form-whole-number")
    return int(value)


def read_density(text: str, *, decimal_comma: bool) -> Decimal:
    """Return a density [g/ml] that a cosmetic can have."""
    value = read_number(text, decimal_comma=decimal_comma)
    if not DENSITIES[0] <= value <= DENSITIES[1]:
        raise NotTaken("form-density-range", low=DENSITIES[0], high=DENSITIES[1])
    return value


def positive(value: Decimal) -> Decimal:
    """Return a value above nothing, or refuse."""
    if value <= 0:
        raise NotTaken("form-above-zero")
    return value


def _measured(text: str, convert: Converter, *, decimal_comma: bool) -> Decimal:
    quantity = _quantity(text, decimal_comma=decimal_comma)
    if quantity.unit is None:
        return quantity.value
    converted = convert(quantity)
    if isinstance(converted, Unreadable):
        raise NotTaken(f"form-{converted.reason_id}", unit=quantity.unit)
    return converted


def _quantity(text: str, *, decimal_comma: bool) -> Quantity:
    found = parse_quantity(text, decimal_comma=decimal_comma)
    if isinstance(found, Unreadable):
        raise NotTaken(f"form-{found.reason_id}", unit="")
    if isinstance(found, Ambiguous):
        raise NotTaken("form-two-readings", readings=_readings(found))
    return found


def _readings(found: Ambiguous) -> tuple[str, ...]:
    return tuple(f"{reading.value:f} {reading.unit or ''}".strip() for reading in found.readings)
