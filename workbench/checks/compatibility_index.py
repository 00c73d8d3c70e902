"""Which ingredients a selector means, and which rules a formula can wake at all."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from types import MappingProxyType

from workbench.checks.compatibility_values import (
    Amount,
    Both,
    Clash,
    Compatibility,
    CompatibilityRule,
    Condition,
    Either,
    Has,
    Known,
    Lacks,
    Opposite,
    Selector,
    Some,
)
from workbench.formula.ingredient import Ingredient

_MOST_KNOWN = 20_000
_FLAGS = {"heat-sensitive": "is_heat_sensitive", "salt-sensitive": "is_electrolyte_sensitive"}
Needs = frozenset[int] | None


def compatibility_of(
    rules: Iterable[CompatibilityRule], conditions: Iterable[Condition] = ()
) -> Compatibility:
    """Index rules, and conditions that are asked of the same formulas."""
    rules = tuple(rules)
    places: dict[Selector, int] = {}
    for condition in (*(rule.when for rule in rules), *conditions):
        for selector in selectors_of(condition):
            places.setdefault(selector, len(places))
    return Compatibility(
        rules=rules,
        places=MappingProxyType(places),
        needs=tuple(_needs(rule.when, places) for rule in rules),
    )


def with_rules(known: Compatibility, own: Iterable[CompatibilityRule]) -> Compatibility:
    """Return the rules with the maker's own after them."""
    own = tuple(own)
    index = compatibility_of((*known.rules, *own))
    missing = (selector for selector in known.places if selector not in index.places)
    places = {**index.places, **{each: len(index.places) + at for at, each in enumerate(missing)}}
    return Compatibility(index.rules, MappingProxyType(places), index.needs)


def selectors_of(condition: Condition) -> Iterator[Selector]:
    """Yield every selector of a condition."""
    if isinstance(condition, Has | Lacks | Amount | Some):
        yield condition.selector
    elif isinstance(condition, Clash):
        yield condition.one
        yield condition.other
    elif isinstance(condition, Both | Either):
        for part in condition.parts:
            yield from selectors_of(part)
    elif isinstance(condition, Opposite):
        yield from selectors_of(condition.part)


def matched(item: Ingredient, known: Compatibility) -> frozenset[int]:
    """Return the numbers of the selectors an ingredient matches, worked out once for it."""
    found = known.known.get(id(item))
    if found is None or found[0] is not item:
        numbers = (number for each, number in known.places.items() if matches(each, item))
        found = (item, frozenset(numbers))
        _remember(known.known, found)
    return found[1]


def matches(selector: Selector, item: Ingredient) -> bool:
    """Tell whether an ingredient is meant."""
    field = selector.field
    if field == "all":
        return all(matches(part, item) for part in selector.parts)
    if field == "any":
        return any(matches(part, item) for part in selector.parts)
    if field == "not":
        return not matches(selector.parts[0], item)
    if field == "is":
        return all(bool(getattr(item, _FLAGS[value])) for value in selector.values)
    return not selector.values.isdisjoint(_entries(field, item))


def _entries(field: str, item: Ingredient) -> tuple[str, ...]:
    if field == "function":
        return item.functions
    if field == "tag":
        return item.tags
    if field == "lists":
        return item.incompatibilities
    if field == "key":
        # A copy a maker made behaves like what it was made from.
        return (item.key, item.based_on)
    if field == "charge":
        return (item.charge,)
    return (item.form.replace(" ", "-") if field == "form" else item.solubility,)


def _remember(known: Known, found: tuple[Ingredient, frozenset[int]]) -> None:
    if len(known) >= _MOST_KNOWN:
        known.clear()
    known[id(found[0])] = found


def _needs(condition: Condition, places: dict[Selector, int]) -> Needs:
    if isinstance(condition, Has | Some):
        return frozenset({places[condition.selector]})
    if isinstance(condition, Amount) and condition.sign.startswith(">"):
        return frozenset({places[condition.selector]})
    if isinstance(condition, Clash):
        return frozenset({places[condition.one]})
    if isinstance(condition, Both):
        needs = [need for part in condition.parts if (need := _needs(part, places)) is not None]
        return min(needs, key=len, default=None)
    if isinstance(condition, Either):
        parts = [_needs(part, places) for part in condition.parts]
        found = [need for need in parts if need is not None]
        return frozenset().union(*found) if len(found) == len(parts) else None
    return None
