"""Reading what is typed into a step: a temperature, a time."""

from __future__ import annotations

import re
from decimal import Decimal

from workbench.ui.places.desk.typed import NotTaken
from workbench.units import Ambiguous, Quantity, parse_quantity
from workbench.units.factors import PERCENT

_UNIT = re.compile(
    r"(?P<number>.*?[0-9)])\s*(?P<unit>\u00b0\s*[CF]|degrees?|[CF]|minutes?|mins?|m|hours?|hrs?|h)?\.?",
    re.IGNORECASE | re.DOTALL,
)
_TENTH = Decimal("0.1")
_HOUR = Decimal(60)


def read_temperature(text: str, *, decimal_comma: bool) -> Decimal | None:
    """Return a temperature [°C], or None for an empty text; °F is converted.

    Raises
    ------
    NotTaken
        If it is no temperature, or can be read as two.

    Notes
    -----
    A degree Celsius is 9/5 of a degree Fahrenheit, and 0 °C is 32 °F, both exact.
    """
    if not text.strip():
        return None
    value, unit = _split(text, "phase-not-degrees", decimal_comma=decimal_comma)
    unit = unit.replace("\u00b0", "").strip()
    if unit.startswith(("m", "h")):
        raise NotTaken("phase-not-degrees", text=text.strip())
    return ((value - 32) * 5 / 9).quantize(_TENTH).normalize() + 0 if unit == "f" else value


def read_minutes(text: str, *, decimal_comma: bool) -> Decimal | None:
    """Return a time [min], or None for an empty text; hours are converted.

    Raises
    ------
    NotTaken
        If it is no time, or can be read as two.
    """
    if not text.strip():
        return None
    value, unit = _split(text, "phase-not-minutes", decimal_comma=decimal_comma)
    if unit and not unit.startswith(("m", "h")):
        raise NotTaken("phase-not-minutes", text=text.strip())
    return value * _HOUR if unit.startswith("h") else value


def _split(text: str, reason_id: str, *, decimal_comma: bool) -> tuple[Decimal, str]:
    bare = text.strip()
    sign = -1 if bare[:1] in "-\u2212" else 1
    found = _UNIT.fullmatch(bare.lstrip("-\u2212 "))
    if found is None:
        raise NotTaken(reason_id, text=bare)
    read = parse_quantity(found["number"], decimal_comma=decimal_comma)
    if isinstance(read, Ambiguous):
        first, second = (f"{one.value:f}" for one in read.readings)
        raise NotTaken("phase-number-two", text=bare, first=first, second=second)
    if not isinstance(read, Quantity) or read.unit == PERCENT:
        raise NotTaken(reason_id, text=bare)
    return sign * read.value, (found["unit"] or "").casefold()
