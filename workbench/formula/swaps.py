"""The swaps of the trade, and by how much of one material another is replaced."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal

from workbench.formula.shelf import Shelf

BY_MASS = "mass"
BY_ACTIVE = "active"
BY_FUNCTION = "function"
BY_DOSE = "dose"
TYPED = "typed"
_KINDS = {
    "1:1 by mass": BY_MASS,
    "match active content": BY_ACTIVE,
    "adjust water": BY_ACTIVE,
    "use own dose": BY_DOSE,
}
_AS_STRENGTHS = Decimal("0.005")
"""A factor this near the ratio of strengths, relative, is that ratio printed shorter."""


@dataclass(frozen=True, slots=True)
class Swap:
    """Hold one swap of the table: parts of what comes for one part of what goes [-].

    `rule` is how the factor was found, `note` what else to mind.
    """

    from_key: str
    to_key: str
    rule: str
    factor: Decimal
    note: str
    source: str
    confidence: str


@dataclass(frozen=True, slots=True)
class Ratio:
    """Hold by how much of what comes one part of what goes is replaced.

    Parameters
    ----------
    kind : str
        mass, active, function, dose (each has its own; the factor is a start) or typed.
    factor : Decimal
        Parts by mass as supplied of what comes, for one part of what goes [-].
    rule, note, source, confidence : str
        Of the table's row, empty where the ratio follows from strengths or was typed.
    is_reversed : bool
        Whether the row names the swap the other way round.
    """

    kind: str
    factor: Decimal
    rule: str = ""
    note: str = ""
    source: str = ""
    confidence: str = ""
    is_reversed: bool = False


def ratios(from_key: str, to_key: str, shelf: Shelf, swaps: Iterable[Swap]) -> tuple[Ratio, ...]:
    """Return the ratios a swap can be made by, the one to suggest first.

    Notes
    -----
    The table's own row comes first, then equal pure matter (strength of what goes over
    strength of what comes), then equal mass. A row that matches moles, not mass, of pure
    matter is by function.
    """
    by_active = active_ratio(from_key, to_key, shelf)
    found: list[Ratio] = []
    for swap in swaps:
        ratio = table_ratio(swap, from_key, to_key)
        if ratio is not None:
            found.append(_settled(ratio, by_active))
    found.sort(key=lambda ratio: ratio.is_reversed)
    if by_active is not None:
        found.append(Ratio(BY_ACTIVE, by_active))
    found.append(Ratio(BY_MASS, Decimal(1)))
    return tuple({ratio.kind: ratio for ratio in reversed(found)}[kind] for kind in _kinds(found))


def active_ratio(from_key: str, to_key: str, shelf: Shelf) -> Decimal | None:
    """Return the ratio that keeps the pure matter [-], None where a strength is not known."""
    if not (shelf.knows(from_key) and shelf.knows(to_key)):
        return None
    strength = shelf.strength(to_key)
    return shelf.strength(from_key) / strength if strength > 0 else None


def table_ratio(swap: Swap, from_key: str, to_key: str) -> Ratio | None:
    """Return what a row of the table says of a swap, None where it speaks of another.

    Read the other way round, a dose of its own says nothing of the first material's.
    """
    kind = _KINDS.get(swap.rule, BY_FUNCTION)
    texts = (swap.rule, swap.note, swap.source, swap.confidence)
    if (swap.from_key, swap.to_key) == (from_key, to_key):
        return Ratio(kind, swap.factor, *texts)
    if (swap.to_key, swap.from_key) == (from_key, to_key) and kind != BY_DOSE and swap.factor > 0:
        return Ratio(kind, 1 / swap.factor, *texts, is_reversed=True)
    return None


def _settled(ratio: Ratio, by_active: Decimal | None) -> Ratio:
    if ratio.kind != BY_ACTIVE:
        return ratio
    near = by_active is not None and abs(ratio.factor - by_active) <= _AS_STRENGTHS * by_active
    kind = BY_ACTIVE if near else BY_FUNCTION
    factor = by_active if near and by_active is not None else ratio.factor
    return Ratio(
        kind, factor, ratio.rule, ratio.note, ratio.source, ratio.confidence, ratio.is_reversed
    )


def _kinds(found: list[Ratio]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(ratio.kind for ratio in found))
