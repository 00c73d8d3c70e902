"""The checks of arithmetic and use: totals, rest line, unknown names, use levels."""

from __future__ import annotations

from decimal import Decimal

from workbench.checks.finding import (
    Finding,
    MakeRestLine,
    Remedy,
    ScaleToWhole,
    Severity,
    TakeFromLine,
)
from workbench.formula.composition import Composition
from workbench.formula.formula import Formula
from workbench.formula.shelf import Shelf
from workbench.formula.substance import UNLISTED
from workbench.formula.totals import Totals


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
