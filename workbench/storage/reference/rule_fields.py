"""Read the fields of one rule of the trade, and refuse what no rule may hold."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from decimal import Decimal, InvalidOperation
from types import MappingProxyType
from typing import Any

from workbench.checks.compatibility_language import RuleError
from workbench.checks.compatibility_values import (
    Addition,
    Both,
    Condition,
    Either,
    Example,
    Opposite,
    Product,
    Selector,
    SpectrumLacks,
)
from workbench.checks.finding import Severity
from workbench.formula import formula as product

SEVERITIES = {"caution": Severity.CAUTION, "note": Severity.NOTE}
CONFIDENCES = frozenset({"read", "memory"})
PRODUCT = {
    "exposure": frozenset(product.EXPOSURES),
    "area": frozenset(product.AREAS),
    "users": frozenset(product.USERS),
    "form": frozenset(product.FORMS),
    "product": frozenset(product.PRODUCT_TYPES),
}
_TEXTS = ("key", "severity", "when", "message", "why", "source", "confidence")
_FIELDS = frozenset({*_TEXTS, "fires", "quiet", "remedy"})
_OTHER = frozenset({"ph", "heat"})
Fields = Mapping[str, Any]


def read_fields(text: str) -> Fields:
    """Return the fields of one rule as it is written.

    Raises
    ------
    RuleError
        If the text is no JSON object.
    """
    try:
        fields = json.loads(text, parse_float=Decimal, parse_int=Decimal)
    except ValueError as error:
        place = getattr(error, "lineno", 1)
        raise RuleError("rule-not-json", str(place)) from error
    if not isinstance(fields, dict):
        raise RuleError("rule-not-json", "1")
    return fields


def require_fields(fields: Fields) -> None:
    """Refuse a row that lacks a field, has one too many, or a word that none may hold.

    Raises
    ------
    RuleError
        If it does.
    """
    for name in (*_TEXTS, "fires", "quiet"):
        if name not in fields:
            raise RuleError("rule-field-missing", name)
    surplus = sorted(set(fields) - _FIELDS)
    if surplus:
        raise RuleError("rule-field-surplus", surplus[0])
    empty = [n for n in _TEXTS if not isinstance(fields[n], str) or not fields[n].strip()]
    if empty:
        raise RuleError("rule-field-empty", empty[0])
    if fields["severity"] not in SEVERITIES:
        raise RuleError("rule-severity-wrong", fields["severity"])
    if fields["confidence"] not in CONFIDENCES:
        raise RuleError("rule-confidence-wrong", fields["confidence"])


def example_of(fields: object) -> Example:
    """Return the example formula of a field.

    Raises
    ------
    RuleError
        If it is none.
    """
    if not isinstance(fields, dict) or not fields:
        raise RuleError("rule-example-wrong", "")
    ph = fields.get("ph")
    ends = ph if isinstance(ph, list) else [ph, ph]
    asked = {name: str(value) for name, value in fields.items() if name in PRODUCT}
    for name, value in asked.items():
        require_in({value}, PRODUCT[name])
    percents = {
        name: number_of(value)
        for name, value in fields.items()
        if name not in PRODUCT and name not in _OTHER
    }
    return Example(
        percents=MappingProxyType(percents),
        product=MappingProxyType(asked),
        ph=None if ph is None else (number_of(ends[0]), number_of(ends[-1])),
        heat_c=number_of(fields["heat"]) if "heat" in fields else None,
    )


def addition_of(fields: object) -> Addition | None:
    """Return what a rule says to add, or None.

    Raises
    ------
    RuleError
        If the field is no addition.
    """
    if fields is None:
        return None
    if not isinstance(fields, dict) or set(fields) != {"add", "percent"}:
        raise RuleError("rule-remedy-wrong", "")
    return Addition(str(fields["add"]), number_of(fields["percent"]))


def number_of(value: object) -> Decimal:
    """Return a number of a rule, which is nothing or more.

    Raises
    ------
    RuleError
        If it is none.
    """
    try:
        number = Decimal(str(value))
    except InvalidOperation as error:
        raise RuleError("rule-number-missing", str(value)) from error
    if not number.is_finite() or number < 0:
        raise RuleError("rule-number-missing", str(value))
    return number


def require_in(words: Iterable[str], known: frozenset[str]) -> None:
    """Refuse words that are not known.

    Raises
    ------
    RuleError
        At the first of them.
    """
    for word in sorted(words):
        if word not in known:
            raise RuleError("rule-word-unknown", word)


def leaves_of(selector: Selector) -> Iterator[Selector]:
    """Yield the parts of a selector that name values."""
    if selector.parts or not selector.values:
        for part in selector.parts:
            yield from leaves_of(part)
    else:
        yield selector


def asked_of(condition: Condition) -> Iterator[Product | SpectrumLacks]:
    """Yield the parts of a condition that name values without a selector."""
    if isinstance(condition, Product | SpectrumLacks):
        yield condition
    elif isinstance(condition, Both | Either):
        for part in condition.parts:
            yield from asked_of(part)
    elif isinstance(condition, Opposite):
        yield from asked_of(condition.part)
