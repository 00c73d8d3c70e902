"""Water without a preservative, and a preservative outside the pH it works at."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from workbench.checks.finding import Finding, Severity
from workbench.checks.rules import Rules
from workbench.formula.compare import exceeds
from workbench.formula.composition import Composition
from workbench.formula.formula import Formula
from workbench.formula.ingredient import Ingredient
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


def check_preserved(
    formula: Formula, composition: Composition, shelf: Shelf, rules: Rules
) -> tuple[Finding, ...]:
    """Find free water with no preservative at all.

    Notes
    -----
    A preservative being there says nothing of whether it is enough: that takes its level at
    the pH of the product, and a challenge test.
    """
    threshold = rules.figures["water_to_preserve_percent"]
    water = free_water(composition, shelf)
    preserved = any(
        share.purpose == PRESERVATIVE and share.percent > 0 for share in composition.shares
    )
    if preserved or not exceeds(water, threshold):
        return ()
    wet = {share.line for share in composition.shares if share.water > 0}
    return (
        Finding(
            "water-unpreserved",
            Severity.CAUTION,
            values=(("water", water.quantize(Decimal("0.01"))), ("limit", threshold)),
            lines=tuple(line.id for line in formula.lines() if line.id in wet),
            value=water,
            limit=threshold,
            basis="free-water",
            source="common practice",
            confidence="memory",
        ),
    )


def check_preservative_ph(formula: Formula, shelf: Shelf) -> tuple[Finding, ...]:
    """Find preservatives whose pH window does not hold the whole target."""
    if formula.target_ph is None:
        return ()
    low, high = formula.target_ph
    findings: list[Finding] = []
    for line_id, item in _preservatives(formula, shelf):
        floor, ceiling = item.ph_min, item.ph_max
        below = floor is not None and low < floor
        above = ceiling is not None and high > ceiling
        if not below and not above:
            continue
        findings.append(
            Finding(
                "ph-outside-preservative",
                Severity.CAUTION,
                values=(
                    ("ingredient", item.key),
                    ("low", low),
                    ("high", high),
                    ("window", _window(floor, ceiling)),
                    ("floor", "" if floor is None else floor),
                    ("ceiling", "" if ceiling is None else ceiling),
                ),
                lines=(line_id,),
                value=high if above else low,
                limit=ceiling if above else floor,
                basis="ph",
                source=item.source,
                confidence=item.confidence,
            )
        )
    return tuple(findings)


def _window(floor: Decimal | None, ceiling: Decimal | None) -> str:
    if floor is None:
        return "below"
    return "above" if ceiling is None else "between"


def _preservatives(formula: Formula, shelf: Shelf) -> Iterator[tuple[int, Ingredient]]:
    seen: set[tuple[int, str]] = set()
    for line in formula.lines():
        for item, purpose in _inside(line.ingredient, line.purpose, shelf, ()):
            if purpose == PRESERVATIVE and (line.id, item.key) not in seen:
                seen.add((line.id, item.key))
                yield line.id, item


def _inside(
    key: str, purpose: str, shelf: Shelf, above: tuple[str, ...]
) -> Iterator[tuple[Ingredient, str]]:
    if key in shelf.ingredients:
        item = shelf.ingredients[key]
        yield item, purpose or item.purpose
    elif key in shelf.stocks and key not in above:
        for line in shelf.stocks[key].lines():
            yield from _inside(line.ingredient, line.purpose, shelf, (*above, key))
