"""What is wrong with an ingredient of the maker's own, as codes and values, while it is typed."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal

from workbench.formula.ingredient import Ingredient
from workbench.formula.substance import Substance

_CAS = re.compile(r"(\d{2,7})-(\d{2})-(\d)")
_EC = re.compile(r"(\d{3})-(\d{3})-(\d)")
_EC_MODULUS = 11
_TEN = 10
SUM_SLACK = Decimal("0.000001")
"""How far the fractions of a composition may be from 1 [-]: a ten-thousandth of a per cent."""

# Between which values a fact can make sense at all; a slip of the decimal mark falls outside.
# An anionic detergent reaches an HLB of 40 (HLB scale of Davies, from memory).
RANGES: Mapping[str, tuple[Decimal, Decimal]] = {
    "use_min": (Decimal(0), Decimal(100)),
    "use_max": (Decimal(0), Decimal(100)),
    "dermal_max": (Decimal(0), Decimal(100)),
    "water_percent": (Decimal(0), Decimal(100)),
    "active_percent": (Decimal(0), Decimal(100)),
    "ph_min": (Decimal(0), Decimal(14)),
    "ph_max": (Decimal(0), Decimal(14)),
    "density": (Decimal("0.05"), Decimal(10)),
    "hlb": (Decimal(0), Decimal(50)),
    "required_hlb": (Decimal(0), Decimal(50)),
    "max_process_temp_c": (Decimal(-50), Decimal(300)),
    "melts_at_c": (Decimal(-100), Decimal(400)),
    "log_p": (Decimal(-15), Decimal(25)),
}
_PAIRS = (("use_min", "use_max"), ("ph_min", "ph_max"))

FaultValue = str | int | Decimal


@dataclass(frozen=True, slots=True)
class Fault:
    """Hold what is wrong with one field: its code, the values of its sentence, and which row.

    `row` counts from 0 in fields of several rows, None elsewhere.
    """

    field: str
    code: str
    values: tuple[tuple[str, FaultValue], ...] = ()
    row: int | None = None


def cas_check_digit_holds(number: str) -> bool:
    """Tell whether a text is a CAS number whose last digit is that of the others.

    Notes
    -----
    The digits before the last one, counted from the right from 1, are each multiplied by their
    place; the sum modulo 10 is the last digit (CAS, "Check Digit Verification").

    >>> cas_check_digit_holds("56-81-5"), cas_check_digit_holds("56-81-6")
    (True, False)
    """
    found = _CAS.fullmatch(number.strip())
    if found is None:
        return False
    digits = [int(digit) for digit in reversed(found[1] + found[2])]
    return sum(place * digit for place, digit in enumerate(digits, 1)) % _TEN == int(found[3])


def ec_check_digit_holds(number: str) -> bool:
    """Tell whether a text is an EC number whose last digit is that of the others.

    Notes
    -----
    The six digits from the left are each multiplied by their place from 1; the sum modulo 11 is
    the last digit, and a number for which that is 10 is not given out (ECHA, EC inventory).

    >>> ec_check_digit_holds("200-289-5"), ec_check_digit_holds("200-289-6")
    (True, False)
    """
    found = _EC.fullmatch(number.strip())
    if found is None:
        return False
    digits = [int(digit) for digit in found[1] + found[2]]
    check = sum(place * digit for place, digit in enumerate(digits, 1)) % _EC_MODULUS
    return check == int(found[3])


def check_ingredient(
    item: Ingredient,
    substances: Mapping[str, Substance],
    *,
    taken: Collection[str] = (),
    as_typed: Collection[str] = (),
) -> tuple[Fault, ...]:
    """Find everything that keeps an own ingredient from being stored.

    Parameters
    ----------
    item : Ingredient
        The ingredient as it is typed so far.
    substances : mapping of str to Substance
        Every substance known, by key.
    taken : collection of str
        Keys that something else has.
    as_typed : collection of str
        Names of no table that the maker wants to keep as they are typed.
    """
    return (
        *_check_names(item, taken),
        *_check_numbers(item),
        *_check_ranges(item),
        *check_fractions(
            "composition",
            ((part.substance, part.fraction) for part in item.composition),
            substances,
            as_typed=as_typed,
        ),
        *_check_sum(item),
        *check_fractions(
            "constituents",
            ((inside.substance, inside.fraction) for inside in item.constituents),
            substances,
        ),
    )


def check_fractions(
    field: str,
    parts: Iterable[tuple[str, Decimal]],
    known: Collection[str],
    *,
    as_typed: Collection[str] = (),
) -> tuple[Fault, ...]:
    """Find rows of no known substance, of none at all, given twice, or outside 0 to 100 %."""
    faults: list[Fault] = []
    seen: set[str] = set()
    for row, (substance, fraction) in enumerate(parts):
        name = (("name", substance),)
        if not substance.strip():
            faults.append(Fault(field, "shelf-fault-no-substance", (), row))
        elif substance in seen:
            faults.append(Fault(field, "shelf-fault-substance-twice", name, row))
        elif substance not in known and substance not in as_typed:
            faults.append(Fault(field, "shelf-fault-substance-unknown", name, row))
        seen.add(substance)
        if not 0 < fraction <= 1:
            value = (("value", fraction * 100),)
            faults.append(Fault(field, "shelf-fault-fraction", value, row))
    return tuple(faults)


def _check_names(item: Ingredient, taken: Collection[str]) -> Iterable[Fault]:
    if not item.name.strip():
        yield Fault("name", "shelf-fault-no-name")
    if not item.key.strip():
        yield Fault("key", "shelf-fault-no-key")
    elif item.key in taken:
        yield Fault("key", "shelf-fault-key-taken", (("key", item.key),))
    if not item.functions:
        yield Fault("functions", "shelf-fault-no-function")


def _check_numbers(item: Ingredient) -> Iterable[Fault]:
    for row, number in enumerate(item.cas):
        if not cas_check_digit_holds(number):
            yield Fault("cas", _number_code("cas", _CAS, number), (("number", number),), row)
    for row, number in enumerate(item.ec_numbers):
        if not ec_check_digit_holds(number):
            yield Fault("ec_numbers", _number_code("ec", _EC, number), (("number", number),), row)


def _number_code(kind: str, pattern: re.Pattern[str], number: str) -> str:
    what = "digit" if pattern.fullmatch(number.strip()) else "form"
    return f"shelf-fault-{kind}-{what}"


def _check_ranges(item: Ingredient) -> Iterable[Fault]:
    for field, (low, high) in RANGES.items():
        value = getattr(item, field)
        if value is not None and not low <= value <= high:
            values = (("value", value), ("low", low), ("high", high))
            yield Fault(field, "shelf-fault-range", values)
    for low_field, high_field in _PAIRS:
        first, last = getattr(item, low_field), getattr(item, high_field)
        if first is not None and last is not None and first > last:
            yield Fault(high_field, "shelf-fault-order", (("low", first), ("high", last)))
    months = item.shelf_life_months
    if months is not None and months < 1:
        yield Fault("shelf_life_months", "shelf-fault-months")


def _check_sum(item: Ingredient) -> Iterable[Fault]:
    if not item.composition:
        yield Fault("composition", "shelf-fault-no-composition")
        return
    total = sum((part.fraction for part in item.composition), Decimal(0))
    if abs(total - 1) > SUM_SLACK:
        values = (("total", total * 100), ("missing", abs(1 - total) * 100))
        code = "shelf-fault-sum-short" if total < 1 else "shelf-fault-sum-over"
        yield Fault("composition", code, values)
