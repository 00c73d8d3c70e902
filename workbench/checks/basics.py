"""The checks of arithmetic and use: totals, rest line, unknown names, use levels."""

from __future__ import annotations

from decimal import Decimal

from workbench.checks.finding import (
    Finding,
    MakeRestLine,
    Remedy,
    ScaleToWhole,
    SetPercent,
    Severity,
    TakeFromLine,
)
from workbench.formula.compare import exceeds, falls_below
from workbench.formula.composition import Composition
from workbench.formula.formula import Formula, Line
from workbench.formula.ingredient import Ingredient
from workbench.formula.shelf import Shelf
from workbench.formula.substance import UNLISTED
from workbench.formula.totals import Totals

USE_BASIS = "as-supplied-of-total"
_NO_RANGE = frozenset({"water"})


def check_total(formula: Formula, sums: Totals) -> tuple[Finding, ...]:
    """Find a total other than 100, or a rest line that the others leave less than nothing."""
    rest = formula.rest_line
    if rest is not None and sums.rest is not None:
        if sums.rest >= 0:
            return ()
        return (
            Finding(
                "rest-negative",
                Severity.STOP,
                values=(("ingredient", rest.ingredient), ("excess", -sums.rest)),
                lines=(rest.id,),
                value=sums.rest,
                limit=Decimal(0),
            ),
        )
    if sums.short == 0:
        return ()
    code = "total-short" if sums.short > 0 else "total-over"
    return (
        Finding(
            code,
            Severity.STOP,
            values=(("total", sums.percent), ("gap", abs(sums.short))),
            value=sums.percent,
            limit=Decimal(100),
            remedies=_total_remedies(formula, sums),
        ),
    )


def _total_remedies(formula: Formula, sums: Totals) -> tuple[Remedy, ...]:
    free = [line for line in formula.lines() if not line.locked and not line.to_ph]
    if not free:
        return ()
    taker = max(free, key=lambda line: line.percent or Decimal(0))
    remedies = (
        [Remedy("remedy-scale", (), ScaleToWhole())] if any(line.percent for line in free) else []
    )
    named = (("ingredient", taker.ingredient),)
    if (taker.percent or Decimal(0)) + sums.short >= 0:
        remedies.insert(0, Remedy("remedy-make-rest", named, MakeRestLine(taker.id)))
        remedies.insert(0, Remedy("remedy-take-from", named, TakeFromLine(taker.id)))
    return tuple(remedies)


def check_known(formula: Formula, shelf: Shelf) -> tuple[Finding, ...]:
    """Find lines whose ingredient is nowhere, and stocks that contain themselves."""
    in_circle = {key for path in shelf.contents.cycles for key in path}
    return tuple(
        Finding(
            "stock-in-circle" if line.ingredient in in_circle else "ingredient-unknown",
            Severity.STOP,
            values=(("ingredient", line.ingredient),),
            lines=(line.id,),
        )
        for line in formula.lines()
        if not shelf.knows(line.ingredient)
    )


def check_listed(parts: Composition, shelf: Shelf) -> tuple[Finding, ...]:
    """Find substances that no table knows, so that no limit could be held against them."""
    lines: dict[str, list[int]] = {}
    for share in parts.shares:
        known = shelf.substances.get(share.substance)
        if known is None or known.confidence == UNLISTED:
            lines.setdefault(share.substance, []).append(share.line)
    return tuple(
        Finding(
            "substance-unlisted",
            Severity.NOTE,
            values=(("substance", shelf.inci(substance)),),
            lines=tuple(dict.fromkeys(carriers)),
            value=parts.substances[substance],
        )
        for substance, carriers in lines.items()
    )


def check_use_levels(formula: Formula, shelf: Shelf, sums: Totals) -> tuple[Finding, ...]:
    """Find lines over or under the level their ingredient is usually used at.

    Notes
    -----
    A supplier's or trade level is no law: over it is a caution, under it a note. Adjuster that
    is held back and the rest line are taken as they come out.
    """
    if formula.product_type == "stock":
        return ()  # use levels are of finished products, and a stock is stronger on purpose
    findings: list[Finding] = []
    for line in formula.lines():
        item = shelf.ingredients.get(line.ingredient)
        if item is None or line.to_ph or line.is_rest or _NO_RANGE & set(item.functions):
            continue
        percent = sums.percents[line.id]
        if item.use_max is not None and exceeds(percent, item.use_max):
            findings.append(_use_finding("use-over", line, percent, item))
        elif item.use_min is not None and percent > 0 and falls_below(percent, item.use_min):
            findings.append(_use_finding("use-under", line, percent, item))
    return tuple(findings)


def _use_finding(code: str, line: Line, percent: Decimal, item: Ingredient) -> Finding:
    limit = item.use_max if code == "use-over" else item.use_min
    assert limit is not None
    named = (("ingredient", line.ingredient), ("percent", limit))
    remedy = Remedy("remedy-set-percent", named, SetPercent(line.id, limit))
    return Finding(
        code,
        Severity.CAUTION if code == "use-over" else Severity.NOTE,
        values=(("ingredient", line.ingredient), ("percent", percent), ("limit", limit)),
        lines=(line.id,),
        value=percent,
        limit=limit,
        basis=USE_BASIS,
        source=item.source,
        confidence=item.confidence,
        remedies=() if line.locked else (remedy,),
    )
