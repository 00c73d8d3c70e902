"""Small values for tests: every field has a default, a test states only what matters."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Any

from workbench.formula.formula import Formula, Line, Phase
from workbench.formula.ingredient import Ingredient, Part
from workbench.formula.scope import Scope
from workbench.formula.shelf import Shelf, shelf_of
from workbench.formula.substance import Substance
from workbench.formula.weighability import Balance

Entry = tuple[str, str] | tuple[str, str, str]


def make_formula(*entries: Entry, **changes: Any) -> Formula:
    """Make a one-phase formula of (ingredient, percent) or (ingredient, percent, purpose).

    A star after the ingredient marks the rest line, whose percent is then ignored; a plus marks
    a to-pH line, an exclamation mark a locked one. Line ids count from 1.
    """
    lines = tuple(_line(number, *entry) for number, entry in enumerate(entries, start=1))
    formula = Formula(name="Test formula", phases=(Phase(id=1, name="A", lines=lines),))
    return replace(formula, **changes)


def _line(number: int, ingredient: str, percent: str, purpose: str = "") -> Line:
    return Line(
        id=number,
        ingredient=ingredient.rstrip("*+!"),
        percent=None if "*" in ingredient else Decimal(percent),
        locked="!" in ingredient,
        purpose=purpose,
        to_ph="+" in ingredient,
    )


def make_ingredient(
    key: str = "glycerin", parts: Mapping[str, str] | None = None, **changes: Any
) -> Ingredient:
    """Make an ingredient of substances as mass fractions; by default it is one pure substance."""
    composition = tuple(
        Part(
            substance=substance,
            fraction=Decimal(fraction),
            water=Decimal(fraction) if substance == "aqua" else Decimal(0),
        )
        for substance, fraction in (parts or {key: "1"}).items()
    )
    plain = Ingredient(key=key, name=_name(key), inci=_name(key), composition=composition)
    return replace(plain, **changes)


def make_shelf(
    *items: Ingredient | str,
    stocks: Mapping[str, Formula] | None = None,
    substances: Mapping[str, Substance] | None = None,
    balances: tuple[Balance, ...] = (),
) -> Shelf:
    """Make a shelf of ingredients; a name alone stands for that pure substance.

    Substances that are not given get a label name made from their key.
    """
    ingredients = {
        item.key: item
        for item in (make_ingredient(item) if isinstance(item, str) else item for item in items)
    }
    if "water" not in ingredients:
        ingredients["water"] = make_ingredient("water", {"aqua": "1"}, functions=("water",))
    named = {
        part.substance: Substance(key=part.substance, inci=_name(part.substance))
        for item in ingredients.values()
        for part in item.composition
    }
    return shelf_of(ingredients, stocks or {}, {**named, **(substances or {})}, balances=balances)


def make_scope(**changes: Any) -> Scope:
    """Make a scope: an adult leave-on face cream for the EU."""
    usual = Scope(
        markets=("EU",),
        exposure="leave-on",
        area="face",
        users="adult",
        form="usual",
        pack="",
        product_type="cream",
        on=date(2026, 11, 25),
    )
    return replace(usual, **changes)


def _name(key: str) -> str:
    return key.replace("_", " ").title()
