"""Numbers as the maker writes them."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal
from enum import Enum


class NumberStyle(Enum):
    """Choose the decimal mark."""

    POINT = "."
    COMMA = ","


def decimal_text(value: Decimal, style: NumberStyle, places: int | None = None) -> str:
    """Return a decimal without exponent; trailing zeros go unless places are asked for."""
    if places is not None:
        text = format(value.quantize(Decimal(1).scaleb(-places), ROUND_HALF_UP), "f")
    else:
        text = format(value, "f")
        if "." in text:
            text = text.rstrip("0").rstrip(".")
    if text.startswith("-") and not text.strip("-0."):
        text = text[1:]
    return text.replace(".", style.value)


def percent_text(value: Decimal, style: NumberStyle) -> str:
    """Return a percent with two places, or up to four where it holds more.

    >>> percent_text(Decimal("54.0167"), NumberStyle.POINT)
    '54.0167'
    """
    exponent = value.normalize().as_tuple().exponent
    held = -exponent if isinstance(exponent, int) else 2
    return decimal_text(value, style, min(max(held, 2), 4))
