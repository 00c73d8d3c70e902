"""Whether a condition of a rule holds for a mixture, and which lines it speaks of."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from enum import IntEnum

from workbench.checks.carried import Carried
from workbench.checks.compatibility_mixture import (
    Mixture,
    PhRange,
    Present,
    figure_of,
    meant_by,
    sum_of,
)
from workbench.checks.compatibility_values import (
    Amount,
    Both,
    Clash,
    Condition,
    Either,
    Figure,
    Has,
    Lacks,
    Opposite,
    Ph,
    PhUnknown,
    Product,
    Some,
    SpectrumLacks,
)
from workbench.formula.compare import exceeds, falls_below

_PRESERVING = frozenset({"preservative", "preservative-booster"})


class Truth(IntEnum):
    """Say whether a condition holds; perhaps, where the pH range agrees only in part."""

    NO = 0
    PERHAPS = 1
    YES = 2


def holds(condition: Condition, mixture: Mixture) -> Truth:
    """Return whether a condition holds for a mixture."""
    if isinstance(condition, Both):
        return _least(condition.parts, mixture)
    if isinstance(condition, Either):
        return _most(condition.parts, mixture)
    if isinstance(condition, Opposite):
        return Truth(Truth.YES - holds(condition.part, mixture))
    if isinstance(condition, Ph):
        return _ph_holds(condition, mixture.ph)
    return Truth.YES if _TESTS[type(condition)](condition, mixture) else Truth.NO


def _least(parts: tuple[Condition, ...], mixture: Mixture) -> Truth:
    least = Truth.YES
    for part in parts:
        truth = holds(part, mixture)
        if truth is Truth.NO:
            return truth
        if truth is Truth.PERHAPS:
            least = truth
    return least


def _most(parts: tuple[Condition, ...], mixture: Mixture) -> Truth:
    most = Truth.NO
    for part in parts:
        truth = holds(part, mixture)
        if truth is Truth.YES:
            return truth
        if truth is Truth.PERHAPS:
            most = truth
    return most


def concerned(condition: Condition, mixture: Mixture) -> frozenset[int]:
    """Return the lines a condition that holds speaks of."""
    if isinstance(condition, Has | Amount):
        return frozenset(item.carried.line for item in meant_by(condition.selector, mixture))
    if isinstance(condition, Some):
        return frozenset(item.carried.line for item in _failing(condition, mixture))
    if isinstance(condition, Clash):
        return frozenset(
            item.carried.line for pair in _clashing(condition, mixture) for item in pair
        )
    if isinstance(condition, Both | Either):
        return frozenset().union(
            *(concerned(part, mixture) for part in condition.parts if holds(part, mixture))
        )
    return frozenset()


def _ph_holds(condition: Ph, ph: PhRange | None) -> Truth:
    if ph is None:
        return Truth.NO
    value = float(condition.value)
    ends = {_SIGNS[condition.sign](end, value) for end in ph}
    return Truth.PERHAPS if len(ends) > 1 else Truth.YES if ends == {True} else Truth.NO


def _has(condition: Has, mixture: Mixture) -> bool:
    if mixture.places[condition.selector] not in mixture.meant:
        return False
    return condition.least is None or not falls_below(
        sum_of(condition.selector, mixture), condition.least
    )


def _amount(condition: Amount, mixture: Mixture) -> bool:
    total = sum_of(condition.selector, mixture, is_active=condition.is_active)
    return _COMPARED[condition.sign](total, condition.value)


def _some(condition: Some, mixture: Mixture) -> bool:
    return bool(_failing(condition, mixture))


def _failing(condition: Some, mixture: Mixture) -> list[Present]:
    items = meant_by(condition.selector, mixture)
    if condition.test == "over-dermal":
        return [item for item in items if _is_over_dermal(item.carried)]
    return [item for item in items if _is_too_hot(item.carried, mixture)]


def _is_over_dermal(each: Carried) -> bool:
    return each.item.dermal_max is not None and exceeds(each.percent, each.item.dermal_max)


def _is_too_hot(each: Carried, mixture: Mixture) -> bool:
    most, heat = each.item.max_process_temp_c, mixture.hottest.get(each.phase)
    return most is not None and heat is not None and heat > most


def _clash(condition: Clash, mixture: Mixture) -> bool:
    return bool(_clashing(condition, mixture))


def _clashing(condition: Clash, mixture: Mixture) -> list[tuple[Present, Present]]:
    ones, others = meant_by(condition.one, mixture), meant_by(condition.other, mixture)
    pairs = [
        (one, other)
        for one in ones
        for other in others
        if one.carried.item.key != other.carried.item.key
    ]
    if condition.least is None or not pairs:
        return pairs
    total = sum((item.active for item in others), Decimal(0))
    return [] if falls_below(total, condition.least) else pairs


def _product(condition: Product, mixture: Mixture) -> bool:
    return mixture.product[condition.field] in condition.values


def _spectrum_lacks(condition: SpectrumLacks, mixture: Mixture) -> bool:
    items = [item.carried for item in mixture.items]
    if not any(each.purpose == "preservative" for each in items):
        return False
    covered = {
        microbe
        for each in items
        if each.purpose == "preservative" or _PRESERVING & set(each.item.functions)
        for microbe in each.item.spectrum
    }
    return bool(condition.microbes - covered)


def _figure_holds(condition: Figure, mixture: Mixture) -> bool:
    return _COMPARED[condition.sign](figure_of(condition.name, mixture), condition.value)


_SIGNS: dict[str, Callable[[float, float], bool]] = {
    "<": lambda one, other: one < other,
    "<=": lambda one, other: one <= other,
    ">": lambda one, other: one > other,
    ">=": lambda one, other: one >= other,
}
_COMPARED: dict[str, Callable[[Decimal, Decimal], bool]] = {
    "<": falls_below,
    "<=": lambda one, other: not exceeds(one, other),
    ">": exceeds,
    ">=": lambda one, other: not falls_below(one, other),
}
_TESTS: dict[type[object], Callable[..., bool]] = {
    Has: _has,
    Lacks: lambda condition, mixture: mixture.places[condition.selector] not in mixture.meant,
    Amount: _amount,
    Figure: _figure_holds,
    PhUnknown: lambda _, mixture: mixture.ph is None,
    Some: _some,
    Clash: _clash,
    Product: _product,
    SpectrumLacks: _spectrum_lacks,
}
