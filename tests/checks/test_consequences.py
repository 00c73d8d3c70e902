from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from functools import cache

import pytest

from tests.builders import make_formula, make_ingredient, make_scope, make_shelf
from workbench.checks.assess import assess
from workbench.checks.consequences import difference, with_ingredient
from workbench.checks.rules import Rules
from workbench.formula.shelf import shelf_of
from workbench.paths import resources
from workbench.storage.reference.limits import load_rules
from workbench.storage.reference.shipped import Shipped

SCOPE = make_scope()


@cache
def rules() -> Rules:
    return load_rules(resources() / "reference")


@cache
def shipped() -> Shipped:
    return Shipped(resources() / "reference")


def shelf_with(*keys):
    items = {key: shipped().ingredients[key] for key in keys}
    return shelf_of(items, {}, shipped().substances)


@pytest.fixture
def cream():
    return make_formula(("water*", "0"), ("glycerin", "5"), ("phenoxyethanol", "0.9"))


@pytest.fixture
def shelf():
    return shelf_with("water", "glycerin", "phenoxyethanol")


def test_that_a_changed_note_changes_no_formula(cream, shelf):
    item = replace(shelf.ingredients["glycerin"], use_note="another note", source="another")
    assert difference(cream, shelf, item, SCOPE, rules()) is None


def test_that_an_ingredient_the_formula_lacks_changes_nothing(cream, shelf):
    assert difference(cream, shelf, make_ingredient("urea"), SCOPE, rules()) is None


def test_that_a_lower_usual_level_brings_a_finding(cream, shelf):
    item = replace(shelf.ingredients["glycerin"], use_max=Decimal(3))
    found = difference(cream, shelf, item, SCOPE, rules())
    assert "findings" in found.parts
    assert [finding.lines for finding in found.new] == [(2,)]
    assert found.gone == ()


def test_that_a_higher_usual_level_takes_the_finding_away(cream, shelf):
    low = replace(shelf.ingredients["glycerin"], use_max=Decimal(3))
    found = difference(
        cream, with_ingredient(shelf, low), shelf.ingredients["glycerin"], SCOPE, rules()
    )
    assert (len(found.gone), len(found.new)) == (1, 0)


def test_that_a_composition_changes_the_substances(cream, shelf):
    parts = make_ingredient("glycerin", {"glycerin": "0.8", "water": "0.2"}).composition
    found = difference(
        cream, shelf, replace(shelf.ingredients["glycerin"], composition=parts), SCOPE, rules()
    )
    assert "composition" in found.parts


def test_that_a_change_is_seen_through_a_stock(shelf):
    stock = make_formula(("water*", "0"), ("phenoxyethanol", "10"), product_type="stock")
    whole = shelf_of(shelf.ingredients, {"stock": stock}, shelf.substances)
    formula = make_formula(("water*", "0"), ("stock", "9"))
    strong = replace(
        shelf.ingredients["phenoxyethanol"],
        composition=make_ingredient("x", {"phenoxyethanol": "0.5", "water": "0.5"}).composition,
    )
    assert "composition" in difference(formula, whole, strong, SCOPE, rules()).parts


def test_that_both_sides_are_whole_assessments(cream, shelf):
    same = shelf.ingredients["glycerin"]
    again = with_ingredient(shelf, same)
    assert assess(cream, again, SCOPE, rules()) == assess(cream, shelf, SCOPE, rules())


def test_that_stocks_prices_and_balances_stay_on_the_shelf():
    shelf = make_shelf("urea")
    changed = with_ingredient(shelf, make_ingredient("urea", name="Carbamide"))
    assert changed.ingredients["urea"].name == "Carbamide"
    assert (changed.stocks, changed.prices, changed.balances) == (
        shelf.stocks,
        shelf.prices,
        shelf.balances,
    )
