"""Computed numbers about a formula that are no findings."""

from __future__ import annotations

from decimal import Decimal

from workbench.checks.assessment import Figure
from workbench.checks.density_figures import density_figures
from workbench.checks.emulsion_figures import emulsion_figures
from workbench.checks.opened import Opened
from workbench.checks.rules import Rules
from workbench.formula.absent import Absent
from workbench.formula.cost import Cost
from workbench.formula.scale import filled_mass, needed_mass
from workbench.formula.shelf import Shelf

WHOLE = Decimal(100)


def is_emulsifier(key: str, shelf: Shelf) -> bool:
    """Tell whether an ingredient is a main emulsifier; one that only helps is not."""
    item = shelf.ingredients.get(key)
    return item is not None and any(name.startswith("emulsifier-") for name in item.functions)


def is_oil(key: str, shelf: Shelf) -> bool:
    """Tell whether an ingredient belongs to the oils that want emulsifying."""
    item = shelf.ingredients.get(key)
    return item is not None and item.solubility == "oil" and not is_emulsifier(key, shelf)


def figures_of(known: Opened, rules: Rules, priced: Cost | Absent) -> tuple[Figure, ...]:
    """Return the figures of a formula in the order they are shown."""
    formula, shelf, sums = known.formula, known.shelf, known.sums
    lines = tuple(formula.lines())
    oils = sum((sums.percents[x.id] for x in lines if is_oil(x.ingredient, shelf)), Decimal(0))
    emulsifier = sum(
        (sums.percents[x.id] for x in lines if is_emulsifier(x.ingredient, shelf)), Decimal(0)
    )
    figures = [Figure("water", known.parts.water.quantize(Decimal("0.01")), "percent")]
    if oils:
        figures.append(Figure("oils", oils, "percent"))
    if oils and emulsifier:
        rule = rules.figures["emulsifier_rule_percent"]
        figures.append(
            Figure(
                "emulsifier-of-oils",
                (emulsifier * WHOLE / oils).quantize(Decimal("0.1")),
                "percent-of-oils",
                (
                    ("oils", oils),
                    ("emulsifier", emulsifier),
                    ("rule", rule),
                    ("wanted", (oils * rule / WHOLE).quantize(Decimal("0.1"))),
                ),
            )
        )
    figures += emulsion_figures(formula, known.items, shelf, rules)
    figures += density_figures(known, rules)
    for key, mass in (
        ("filled-mass", filled_mass(formula.plan)),
        ("needed-mass", needed_mass(formula.plan)),
    ):
        if mass is not None:
            figures.append(Figure(key, mass.quantize(Decimal("0.1")), "gram"))
    return (*figures, *_cost_figures(priced))


def _cost_figures(priced: Cost | Absent) -> tuple[Figure, ...]:
    if isinstance(priced, Absent):
        return (Figure("cost-batch", priced, "money"),)
    named = (("currency", priced.currency),)
    figures = [Figure("cost-batch", priced.batch.quantize(Decimal("0.01")), "money", named)]
    if priced.per_unit is not None:
        figures.append(
            Figure("cost-unit", priced.per_unit.quantize(Decimal("0.01")), "money", named)
        )
    return tuple(figures)
