"""The one rule by which a value is compared with a limit."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal

SIGNIFICANT_FIGURES = 4


def significant(value: Decimal, figures: int = SIGNIFICANT_FIGURES) -> Decimal:
    """Round to significant figures, half up.

    Notes
    -----
    0.500000489 becomes 0.5000 and 0.999975 becomes 1.000: digits past the fourth come from
    molar masses and strengths, which are not known better than that.
    """
    if value == 0:
        return value
    return value.quantize(Decimal(1).scaleb(value.adjusted() - figures + 1), ROUND_HALF_UP)


def exceeds(value: Decimal, limit: Decimal) -> bool:
    """Tell whether a value is over a limit: strictly greater after rounding both.

    >>> exceeds(Decimal("0.50000049"), Decimal("0.5"))
    False
    """
    # Rounding keeps the order, so what is not greater before it is not greater after it.
    return value > limit and significant(value) > significant(limit)


def falls_below(value: Decimal, limit: Decimal) -> bool:
    """Tell whether a value is under a limit: strictly less after rounding both."""
    return value < limit and significant(value) < significant(limit)
