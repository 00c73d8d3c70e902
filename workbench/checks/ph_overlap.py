"""Gather the pH windows of a formula, and find those that do not meet."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal

from workbench.checks.compatibility_mixture import Mixture, water_of
from workbench.checks.compatibility_truth import Truth, holds
from workbench.checks.ph_windows import (
    ACTIVE,
    LIMIT,
    PRESERVATIVE,
    PRODUCT,
    TARGET,
    THICKENER,
    PhSwap,
    PhWindow,
    PhWindows,
    SwapRemedy,
)
from workbench.checks.rules import Rules
from workbench.formula.compare import exceeds
from workbench.formula.formula import Formula

KINDS = (TARGET, PRESERVATIVE, ACTIVE, THICKENER, PRODUCT, LIMIT)
_ADJUSTING = frozenset({"ph-adjuster-acid", "ph-adjuster-base", "buffer"})
_THICKENING = frozenset({"thickener-gum", "thickener-polymer"})
_ACTING = frozenset(
    {
        "active", "vitamin", "exfoliant-aha", "exfoliant-bha", "exfoliant-pha",
        "exfoliant-enzyme", "surfactant-anionic",
    }
)  # fmt: skip
Span = tuple[Decimal | None, Decimal | None]


def ph_windows(
    formula: Formula, mixture: Mixture, rules: Rules, asked: tuple[PhWindow, ...] = ()
) -> PhWindows:
    """Return every pH window of a formula, and where they meet; `asked` are those of limits.

    Notes
    -----
    What is there to set the pH has no window. Without water there is no pH, so none either.
    The overlap is the highest floor to the lowest ceiling; the two that disagree are those.
    """
    if not exceeds(water_of(mixture), rules.figures["water_to_preserve_percent"]):
        return PhWindows()
    rows = (*_rows(formula, mixture, rules), *asked)
    rows = tuple(sorted(rows, key=lambda row: KINDS.index(row.kind)))
    if not rows:
        return PhWindows()
    meet = overlap_of(rows)
    if meet is not None:
        return PhWindows(rows, meet)
    apart = _furthest_apart(rows)
    return PhWindows(rows, None, apart, _remedy(rows, apart, formula, rules.ph_swaps))


def overlap_of(rows: Iterable[PhWindow]) -> Span | None:
    """Return the pH that suits all windows, None where there is none; an end may be open."""
    rows = tuple(rows)
    low = max((row.low for row in rows if row.low is not None), default=None)
    high = min((row.high for row in rows if row.high is not None), default=None)
    return None if low is not None and high is not None and low > high else (low, high)


def _rows(formula: Formula, mixture: Mixture, rules: Rules) -> Iterable[PhWindow]:
    if formula.target_ph is not None:
        yield PhWindow(TARGET, "", *formula.target_ph)
    yield from _of_ingredients(mixture)
    for usual in rules.product_ph:
        if holds(usual.when, mixture) is Truth.YES:
            yield PhWindow(
                PRODUCT, usual.key, usual.low, usual.high, usual.source, usual.confidence
            )


def _of_ingredients(mixture: Mixture) -> Iterable[PhWindow]:
    found: dict[tuple[str, str], PhWindow] = {}
    for each in (present.carried for present in mixture.items):
        item = each.item
        kind = "" if each.is_to_ph else _kind(each.purpose, item.functions)
        if not kind or (item.ph_min is None and item.ph_max is None):
            continue
        known = found.get((kind, item.key))
        lines = dict.fromkeys((*(known.lines if known else ()), each.line))
        found[kind, item.key] = PhWindow(
            kind, item.key, item.ph_min, item.ph_max, item.source, item.confidence, tuple(lines)
        )
    return found.values()


def _kind(purpose: str, functions: tuple[str, ...]) -> str:
    if purpose == PRESERVATIVE:
        return PRESERVATIVE
    if purpose in _ADJUSTING:
        return ""
    if _ACTING.intersection(functions):
        return ACTIVE
    return THICKENER if _THICKENING.intersection(functions) else ""


def _furthest_apart(rows: tuple[PhWindow, ...]) -> tuple[PhWindow, PhWindow]:
    floor = max((row for row in rows if row.low is not None), key=lambda row: row.low or 0)
    ceiling = min((row for row in rows if row.high is not None), key=lambda row: row.high or 0)
    first, second = sorted((floor, ceiling), key=rows.index)
    return first, second


def _remedy(
    rows: tuple[PhWindow, ...],
    apart: tuple[PhWindow, PhWindow],
    formula: Formula,
    swaps: tuple[PhSwap, ...],
) -> SwapRemedy | None:
    lines = {line.ingredient: line.id for line in formula.lines() if not line.locked}
    for row in apart:
        for swap in swaps:
            # What only a stock carries cannot be swapped on this sheet.
            if swap.from_key != row.name or row.name not in lines:
                continue
            others = (other for other in rows if other is not row)
            incoming = PhWindow(row.kind, swap.to_key, swap.low, swap.high)
            if overlap_of((*others, incoming)) is not None:
                return SwapRemedy(
                    line=lines[row.name],
                    from_key=swap.from_key,
                    to_key=swap.to_key,
                    to_name=swap.to_name,
                    factor=swap.factor,
                    note=swap.note,
                    source=swap.source,
                    confidence=swap.confidence,
                )
    return None
