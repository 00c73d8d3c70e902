"""The facts a version keeps: everything its formula reaches, as plain data and back."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields
from decimal import Decimal

from workbench.formula.document import formula_data, formula_from_data
from workbench.formula.facts import Plain, ingredient_facts, ingredient_from_facts
from workbench.formula.formula import Formula
from workbench.formula.ingredient import Ingredient
from workbench.formula.shelf import Shelf
from workbench.formula.substance import Substance
from workbench.storage.json_text import to_mapping, to_text

_DECIMALS = ("molar_mass", "water_fraction")


def facts_text(formula: Formula, shelf: Shelf) -> str:
    """Return as JSON text what a formula reaches on a shelf, through every stock."""
    ingredients, stocks = _reached(formula, shelf)
    substances = _substances(ingredients, shelf.substances)
    return to_text(
        {
            "ingredients": [ingredient_facts(item) for item in ingredients.values()],
            "stocks": {key: formula_data(stock) for key, stock in stocks.items()},
            "substances": [_substance_facts(item) for item in substances.values()],
        }
    )


def facts_of(
    text: str,
) -> tuple[dict[str, Ingredient], dict[str, Formula], dict[str, Substance]]:
    """Return the ingredients, stocks and substances a JSON text keeps.

    Raises
    ------
    ValueError, KeyError, TypeError, AttributeError, ArithmeticError
        If the text is damaged.
    """
    data = to_mapping(text)
    ingredients = [ingredient_from_facts(facts) for facts in _dicts(data["ingredients"])]
    stocks = data["stocks"]
    if not isinstance(stocks, dict):
        raise TypeError("stocks")
    substances = [_substance(facts) for facts in _dicts(data["substances"])]
    return (
        {item.key: item for item in ingredients},
        {key: formula_from_data(stock) for key, stock in stocks.items()},
        {item.key: item for item in substances},
    )


def _reached(formula: Formula, shelf: Shelf) -> tuple[dict[str, Ingredient], dict[str, Formula]]:
    ingredients: dict[str, Ingredient] = {}
    stocks: dict[str, Formula] = {}
    to_open = [formula]
    while to_open:
        for line in to_open.pop().lines():
            key = line.ingredient
            if key in shelf.ingredients:
                ingredients[key] = shelf.ingredients[key]
            elif key in shelf.stocks and key not in stocks:
                stocks[key] = shelf.stocks[key]
                to_open.append(stocks[key])
    return ingredients, stocks


def _substances(
    ingredients: Mapping[str, Ingredient], known: Mapping[str, Substance]
) -> dict[str, Substance]:
    found: dict[str, Substance] = {}
    to_look_up = [part.substance for item in ingredients.values() for part in item.composition]
    to_look_up += [
        inside.substance for item in ingredients.values() for inside in item.constituents
    ]
    while to_look_up:
        key = to_look_up.pop()
        if key in known and key not in found:
            found[key] = known[key]
            to_look_up.append(known[key].counts_as)
    return found


def _substance_facts(item: Substance) -> dict[str, object]:
    facts: dict[str, object] = {}
    for field in fields(Substance):
        value = getattr(item, field.name)
        if value != field.default or value not in (None, "", (), False):
            facts[field.name] = (
                str(value)
                if isinstance(value, Decimal)
                else list(value)
                if isinstance(value, tuple)
                else value
            )
    return facts


def _substance(facts: Mapping[str, Plain]) -> Substance:
    values: dict[str, object] = dict(facts)
    for name in _DECIMALS:
        if name in values:
            values[name] = Decimal(str(values[name]))
    cas = facts.get("cas", [])
    values["cas"] = tuple(cas) if isinstance(cas, list) else ()
    return Substance(**values)  # type: ignore[arg-type]


def _dicts(value: object) -> list[dict[str, Plain]]:
    if not isinstance(value, list):
        raise TypeError("a list is missing")
    return value
