"""Reading what a maker types into a number cell: numbers, small sums, a unit.

A text is read twice, once with the point and once with the comma as decimal mark; the other mark
can then only group thousands. What fits one reading only is plain; what fits both is a question.
"""

from __future__ import annotations

import re
from decimal import Decimal

from workbench.units import quantity as reasons
from workbench.units.convert import to_grams, to_millilitres
from workbench.units.expression import Refused, evaluated
from workbench.units.factors import (
    BARE_FLUID_OUNCE,
    IMPERIAL_FLUID_OUNCE,
    US_FLUID_OUNCE,
    unit_named,
)
from workbench.units.quantity import Ambiguous, Quantity, Unreadable

MAX_LENGTH = 100
_POINT, _COMMA = ".", ","
# Everything up to the last digit, closing bracket or mark behind a digit is arithmetic.
_SPLIT = re.compile(r"(?P<sum>.*[0-9)](?:[.,](?![^0-9]*[0-9]))?)?(?P<unit>[^0-9]*)", re.DOTALL)
_UNIT = re.compile(r"%|[^\W\d_][^\W\d_. \u00b7]*(?:[. _]+[^\W\d_]+)*\.?")


def parse_quantity(text: str, *, decimal_comma: bool) -> Quantity | Ambiguous | Unreadable:
    """Read a number, or a small sum of numbers, and the unit behind it.

    Parameters
    ----------
    text
        What was typed, such as `2.5`, `2,5`, `12.5 g`, `2*1.5`, `(1+2)*3` or `5 %`.
    decimal_comma
        Whether the maker's locale writes the decimal mark as a comma.

    >>> parse_quantity("35/0.5 g", decimal_comma=False)
    Quantity(value=Decimal('70'), unit='g')
    """
    if len(text) > MAX_LENGTH:
        return Unreadable(reasons.TOO_LONG)
    split = _SPLIT.fullmatch(text.strip())
    if split is None or not text.strip():
        return Unreadable(reasons.EMPTY)
    unit_text = split["unit"].strip()
    if not split["sum"] or (unit_text and not _UNIT.fullmatch(unit_text)):
        return Unreadable(_why_no_sum(text.strip()))
    unit = unit_named(unit_text) if unit_text else None
    return _read(split["sum"], unit, decimal_comma=decimal_comma)


def parse_mass(text: str, *, decimal_comma: bool = False) -> Decimal | Ambiguous | Unreadable:
    """Read a mass with its unit and return it in grams [g].

    >>> parse_mass("1.2 kg")
    Decimal('1200.0')
    """
    quantity = parse_quantity(text, decimal_comma=decimal_comma)
    return to_grams(quantity) if isinstance(quantity, Quantity) else quantity


def parse_volume(text: str, *, decimal_comma: bool = False) -> Decimal | Ambiguous | Unreadable:
    """Read a volume with its unit and return it in millilitres [ml].

    >>> parse_volume("0.5 l")
    Decimal('500.0')
    """
    quantity = parse_quantity(text, decimal_comma=decimal_comma)
    return to_millilitres(quantity) if isinstance(quantity, Quantity) else quantity


def _why_no_sum(text: str) -> str:
    return reasons.NEGATIVE if text[0] in "-\u2212" else reasons.NOT_A_NUMBER


def _read(
    expression: str, unit: str | None, *, decimal_comma: bool
) -> Quantity | Ambiguous | Unreadable:
    by_point = evaluated(expression, _POINT)
    by_comma = evaluated(expression, _COMMA)
    if isinstance(by_point, Refused):
        if not isinstance(by_comma, Refused):
            return _with_unit(by_comma, unit)
        nearer, other = (by_comma, by_point) if decimal_comma else (by_point, by_comma)
        # A reading that got past its numbers says more than one that stumbled over a mark.
        said = other if nearer.reason_id == reasons.MIXED_MARKS else nearer
        return Unreadable(said.reason_id)
    if isinstance(by_comma, Refused) or by_comma == by_point:
        return _with_unit(by_point, unit)
    if not decimal_comma and _COMMA not in expression:
        return _with_unit(by_point, unit)
    return Ambiguous((Quantity(by_comma, unit), Quantity(by_point, unit)))


def _with_unit(value: Decimal, unit: str | None) -> Quantity | Ambiguous:
    if unit == BARE_FLUID_OUNCE:
        return Ambiguous(
            (Quantity(value, US_FLUID_OUNCE), Quantity(value, IMPERIAL_FLUID_OUNCE)),
            reasons.UNIT_VARIES,
        )
    return Quantity(value, unit)
