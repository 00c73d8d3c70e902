"""Reading what is typed on the studio page: a value, or the reason it cannot be taken."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal

from workbench.formula.weighability import Balance
from workbench.ui.places.desk.typed import NotTaken, positive, read_mass

LONGEST_NAME = 80
LONGEST_CONTACT = 200
_CURRENCY = re.compile(r"[A-Z]{3}")
_PLACES = re.compile(r"\{(\w*)\}")
_KNOWN = {"initials", "yymm", "count"}


def read_name(text: str) -> str:
    """Return a name on one line; it may be empty."""
    return _short(text, LONGEST_NAME)


def read_contact(text: str) -> str:
    """Return a line of contact; it may be empty."""
    return _short(text, LONGEST_CONTACT)


def read_currency(text: str) -> str:
    """Return a currency as three letters."""
    code = text.strip().upper()
    if not _CURRENCY.fullmatch(code):
        raise NotTaken("studio-currency-bad")
    return code


def read_numbering(text: str) -> str:
    """Return how batches are numbered: it has to count."""
    pattern = text.strip()
    named = set(_PLACES.findall(pattern))
    if "count" not in named:
        raise NotTaken("studio-numbering-no-count")
    if named - _KNOWN:
        raise NotTaken("studio-numbering-unknown", name=sorted(named - _KNOWN)[0])
    if pattern.count("{") != len(_PLACES.findall(pattern)):
        raise NotTaken("studio-numbering-open")
    return pattern


def read_balance(balance: Balance, field: str, text: str, *, decimal_comma: bool) -> Balance:
    """Return a balance with one field as typed.

    Raises
    ------
    NotTaken
        If the text is no such amount, or the balance could not exist so.
    """
    changed = _BALANCE_FIELDS[field](balance, text, decimal_comma)
    if changed.readability >= changed.capacity:
        raise NotTaken("studio-balance-order")
    return changed


def _named(balance: Balance, text: str, _comma: bool) -> Balance:  # noqa: FBT001
    name = _short(text, LONGEST_NAME)
    if not name:
        raise NotTaken("studio-balance-no-name")
    return replace(balance, name=name)


def _mass(text: str, comma: bool) -> Decimal:  # noqa: FBT001
    return positive(read_mass(text, decimal_comma=comma))


_BALANCE_FIELDS: dict[str, Callable[[Balance, str, bool], Balance]] = {
    "name": _named,
    "readability": lambda item, text, comma: replace(item, readability=_mass(text, comma)),
    "capacity": lambda item, text, comma: replace(item, capacity=_mass(text, comma)),
    "repeatability": lambda item, text, comma: replace(
        item, repeatability=_mass(text, comma) if text.strip() else None
    ),
}


def _short(text: str, longest: int) -> str:
    line = " ".join(text.split())
    if len(line) > longest:
        raise NotTaken("studio-too-long", most=Decimal(longest))
    return line
