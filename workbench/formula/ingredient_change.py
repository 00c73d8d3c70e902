"""What differs between two states of an ingredient, fact by fact and substance by substance."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, fields
from decimal import Decimal

from workbench.formula.ingredient import Constituent, Ingredient, Part

# These say whose the ingredient is and where it came from, not what it is.
_NO_FACTS = frozenset(
    {"key", "is_own", "based_on", "source", "confidence", "verified_fields", "is_certified"}
)
_LISTS = frozenset({"composition", "constituents"})


@dataclass(frozen=True, slots=True)
class FactChange:
    """Hold one fact that differs; `substance` is set where it is a fraction of the material [-].

    A fact that one of the two lacks is None there.
    """

    field: str
    before: object
    after: object
    substance: str = ""


def changes(before: Ingredient, after: Ingredient) -> tuple[FactChange, ...]:
    """Return every fact that differs, in the order of the fields.

    >>> changes(Ingredient("a", "A", ""), Ingredient("b", "B", "", hlb=Decimal(8)))
    ... # doctest: +NORMALIZE_WHITESPACE
    (FactChange(field='name', before='A', after='B', substance=''),
     FactChange(field='hlb', before=None, after=Decimal('8'), substance=''))
    """
    found: list[FactChange] = []
    for field in fields(Ingredient):
        if field.name in _NO_FACTS:
            continue
        first, last = getattr(before, field.name), getattr(after, field.name)
        if field.name in _LISTS:
            found.extend(_by_substance(field.name, first, last))
        elif first != last:
            found.append(FactChange(field.name, first, last))
    return tuple(found)


def changed_fields(before: Ingredient, after: Ingredient) -> frozenset[str]:
    """Return the names of the fields that differ."""
    return frozenset(change.field for change in changes(before, after))


def _by_substance(
    field: str, before: Iterable[Part | Constituent], after: Iterable[Part | Constituent]
) -> Iterable[FactChange]:
    first, last = _fractions(before), _fractions(after)
    for substance in dict.fromkeys((*first, *last)):
        if first.get(substance) != last.get(substance):
            yield FactChange(field, first.get(substance), last.get(substance), substance)


def _fractions(parts: Iterable[Part | Constituent]) -> dict[str, Decimal]:
    sums: dict[str, Decimal] = {}
    for part in parts:
        sums[part.substance] = sums.get(part.substance, Decimal(0)) + part.fraction
    return sums
