from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from workbench.errors import WorkbenchError
from workbench.formula.ingredient import Ingredient, Part
from workbench.formula.versions import same_design

SILT = Ingredient(
    key="silt", name="Harbour silt", inci="", composition=(Part("kaolin", Decimal(1)),)
)


@pytest.fixture
def gum(make_formula):
    """A gum stock."""
    return make_formula(
        ("water", "rest"), ("xanthan_gum", "1.00"), name="Gum stock", product_type="stock"
    )


@pytest.fixture
def mask(make_formula):
    """A mask on a gum stock and a silt."""
    return make_formula(("water", "rest"), ("silt", "20"), ("gum", "35.00"), name="Harbour mask")


def used(studio, key):
    return [line.ingredient for line in studio.formulas.draft(key)[0].lines()]


def test_that_a_formula_is_stored_with_all_it_brings(studio, mask, gum):
    key = studio.take_in(mask, {"gum": gum}, {"silt": SILT})
    assert key == "harbour-mask"
    assert studio.formulas.draft(key)[0] == mask
    assert studio.formulas.draft("gum")[0] == gum
    assert studio.ingredients.get(["silt"])["silt"] == replace(SILT, is_own=True)
    assert [hit.key for hit in studio.search("harbour silt")] == ["silt"]


def test_that_taking_in_twice_uses_what_is_there(studio, mask, gum):
    studio.take_in(mask, {"gum": gum}, {"silt": SILT})
    assert studio.take_in(mask, {"gum": gum}, {"silt": SILT}) == "harbour-mask-2"
    assert [entry.key for entry in studio.formulas.entries() if entry.is_stock] == ["gum"]


def test_that_a_shipped_ingredient_is_not_replaced(studio, gel):
    before = studio.ingredients.get(["water"])
    studio.take_in(gel, {}, {"water": replace(SILT, key="water")})
    assert studio.ingredients.get(["water"]) == before


def test_that_a_stock_of_another_design_gets_a_key_of_its_own(studio, mask, gum):
    other = gum.with_line(replace(gum.line(2), percent=Decimal("2.00")))
    studio.formulas.create("Gum", other)
    key = studio.take_in(mask, {"gum": gum}, {"silt": SILT})
    assert used(studio, key) == ["water", "silt", "gum-2"]
    assert studio.formulas.draft("gum-2")[0] == gum


def test_that_keys_that_mean_something_else_here_are_changed_throughout(studio, make_formula, gum):
    outer = make_formula(("water", "rest"), ("glycerin", "5"), name="Outer", product_type="stock")
    formula = make_formula(("outer", "rest"), name="Top")
    key = studio.take_in(formula, {"outer": outer, "glycerin": gum}, {})
    assert used(studio, key) == ["outer"]
    assert used(studio, "outer") == ["water", "glycerin-2"]
    assert same_design(studio.formulas.draft("glycerin-2")[0], gum)


def test_that_stocks_that_contain_each_other_are_refused_and_nothing_is_stored(
    studio, make_formula, mask
):
    one = make_formula(("two", "rest"), name="One", product_type="stock")
    two = make_formula(("one", "rest"), name="Two", product_type="stock")
    with pytest.raises(WorkbenchError, match="contain each other"):
        studio.take_in(mask, {"one": one, "two": two}, {"silt": SILT})
    assert studio.formulas.entries() == ()
    assert studio.ingredients.get(["silt"]) == {}
