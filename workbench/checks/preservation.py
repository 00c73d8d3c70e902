"""Water that microbes can use, and none of the preservatives there."""

from __future__ import annotations

from decimal import Decimal

from workbench.checks.finding import Finding, Severity
from workbench.checks.opened import Opened
from workbench.checks.rules import Rules
from workbench.formula.compare import exceeds
from workbench.formula.composition import Composition
from workbench.formula.shelf import Shelf

PRESERVATIVE = "preservative"


def free_water(composition: Composition, shelf: Shelf) -> Decimal:
    """Return the water that microbes can use [% w/w]: crystal water does not count."""
    return sum(
        (
            share.water
            for share in composition.shares
            if share.substance not in shelf.substances
            or shelf.substances[share.substance].kind != "hydrate"
        ),
        Decimal(0),
    )


def check_preserved(known: Opened, rules: Rules) -> tuple[Finding, ...]:
    """Find free water with no preservative of its own at all.

    Notes
    -----
    A preservative being there says nothing of whether it is enough: that takes its level at
    the pH of the product, and a challenge test. What keeps a raw material and only comes along
    with it is not counted.
    """
    threshold = rules.figures["water_to_preserve_percent"]
    composition = known.parts
    water = free_water(composition, known.shelf)
    preserved = any(each.purpose == PRESERVATIVE for each in known.items)
    if preserved or not exceeds(water, threshold):
        return ()
    wet = {share.line for share in composition.shares if share.water > 0}
    return (
        Finding(
            "water-unpreserved",
            Severity.CAUTION,
            values=(("water", water.quantize(Decimal("0.01"))), ("limit", threshold)),
            lines=tuple(line.id for line in known.formula.lines() if line.id in wet),
            value=water,
            limit=threshold,
            basis="free-water",
            source="common practice",
            confidence="memory",
        ),
    )
