"""Try a rule of the trade on its own two examples."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from decimal import Decimal
from typing import Any

from workbench.checks.carried import carried
from workbench.checks.compatibility import check_compatibility
from workbench.checks.compatibility_index import compatibility_of
from workbench.checks.compatibility_mixture import mixture_of
from workbench.checks.compatibility_values import CompatibilityRule, Example
from workbench.formula.formula import Formula, Line, Phase, Step
from workbench.formula.ingredient import Ingredient
from workbench.formula.scope import scope_of
from workbench.formula.shelf import shelf_of
from workbench.formula.totals import WHOLE, totals

WATER = "water"
_FIRST_DAY = date(2000, 1, 1)  # a rule of the trade does not know of days


def example_formula(example: Example) -> Formula:
    """Return the formula of an example; water takes what its percents leave."""
    lines = [
        Line(number, key, percent) for number, (key, percent) in enumerate(example.percents.items())
    ]
    if WATER not in example.percents and sum(example.percents.values(), Decimal(0)) < WHOLE:
        lines.append(Line(len(lines), WATER, None))
    heating = (Step("", target_c=example.heat_c),) if example.heat_c is not None else ()
    fields: dict[str, Any] = {
        "product_type" if name == "product" else name: value
        for name, value in example.product.items()
    }
    phase = Phase(1, "", steps=heating, lines=tuple(lines))
    return Formula("", (phase,), target_ph=example.ph, **fields)


def speaks_on(
    rule: CompatibilityRule, example: Example, ingredients: Mapping[str, Ingredient]
) -> bool:
    """Tell whether a rule speaks on an example made of these ingredients."""
    formula = example_formula(example)
    shelf = shelf_of(ingredients, {}, {})
    known = compatibility_of((rule,))
    items = carried(formula, shelf, totals(formula))
    mixture = mixture_of(formula, items, scope_of(formula, _FIRST_DAY), known)
    return bool(check_compatibility(formula, mixture, known))


def example_fault(rule: CompatibilityRule, ingredients: Mapping[str, Ingredient]) -> str:
    """Return the code of what is wrong with the examples of a rule, empty when both are right."""
    if not speaks_on(rule, rule.fires, ingredients):
        return "rule-does-not-fire"
    return "rule-not-quiet" if speaks_on(rule, rule.quiet, ingredients) else ""
