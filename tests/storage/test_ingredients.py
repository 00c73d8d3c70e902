from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from itertools import count

import pytest
from hypothesis import given
from hypothesis import strategies as st

from workbench import paths
from workbench.errors import WorkbenchError
from workbench.formula.ingredient import Ingredient, Part
from workbench.formula.shelf import Price
from workbench.formula.weighability import Balance
from workbench.storage.reference.chemistry import load_adjuster_keys
from workbench.storage.reference.tables import load_ingredients

TEXTS = st.text(st.characters(exclude_categories=("Cs",)), max_size=20)
WORDS = st.lists(TEXTS.filter(bool), max_size=3).map(tuple)
AMOUNTS = st.none() | st.decimals(0, 100, places=3)
OWN = st.builds(
    Ingredient,
    key=st.just(""),
    name=TEXTS,
    inci=TEXTS,
    cas=WORDS,
    functions=WORDS,
    use_min=AMOUNTS,
    ph_max=AMOUNTS,
    density=AMOUNTS,
    hlb=AMOUNTS,
    shelf_life_months=st.none() | st.integers(0, 90),
    composition=st.lists(
        st.builds(Part, st.sampled_from(("water", "glycerin")), st.decimals(0, 1, places=6)),
        max_size=2,
    ).map(tuple),
    tags=WORDS,
    is_own=st.just(True),
)


def test_that_every_shipped_ingredient_is_kept_whole(studio):
    shipped = load_ingredients(paths.resources() / "reference")
    assert studio.ingredients.get(shipped) == dict(shipped)


def test_that_an_ingredient_of_ones_own_is_kept_whole(studio):
    numbers = count()

    @given(OWN)
    def there_and_back(drawn):
        item = replace(drawn, key=f"own-{next(numbers)}")
        assert studio.ingredients.add_own(item) == item.key
        assert studio.ingredients.get([item.key]) == {item.key: item}

    there_and_back()


def test_that_unknown_keys_are_left_out(studio):
    assert set(studio.ingredients.get(["water", "mystery"])) == {"water"}


def test_that_a_key_is_given_once(studio, gel):
    studio.formulas.create("Gel", gel)
    for key in ("water", "gel"):
        with pytest.raises(WorkbenchError, match=f"with the key '{key}'"):
            studio.ingredients.add_own(Ingredient(key=key, name="Mine", inci=""))


def test_that_names_hold_ingredients_and_stocks_by_name(studio, make_formula):
    studio.formulas.create("Aloe gum stock", make_formula(("water", "rest"), product_type="stock"))
    names = studio.ingredients.names()
    assert ("aloe-gum-stock", "Aloe gum stock") in names
    assert ("glycerin", "Vegetable glycerin 99.5 %") in names
    assert [name.casefold() for _, name in names[:3]] == sorted(
        name.casefold() for _, name in names[:3]
    )


def test_that_a_shelf_holds_only_what_a_formula_reaches(studio, gel, make_formula):
    stock = make_formula(("water", "rest"), ("phenoxyethanol", "0.90"), product_type="stock")
    key = studio.formulas.create("Stock", stock)
    studio.settings.set_prices(
        {"glycerin": Price(Decimal("7.2"), "EUR"), "shea_butter": Price(Decimal(9), "EUR")}
    )
    fine = Balance("fine", Decimal("0.01"), Decimal(500))
    studio.settings.set_balances((fine,))
    shelf = studio.shelf_for(
        make_formula(("water", "rest"), ("glycerin", "1"), (key, "2"), ("x", "1"))
    )
    # What could move the pH of any formula stands on every shelf: doses are told from it.
    could_move_ph = load_adjuster_keys(paths.resources() / "reference")
    assert set(shelf.ingredients) - could_move_ph == {"water", "glycerin", "phenoxyethanol"}
    assert "shea_butter" not in shelf.ingredients
    assert set(shelf.stocks) == {key}
    assert set(shelf.prices) == {"glycerin"}
    assert shelf.balances == (fine,)
    assert shelf.knows(key)
    assert shelf.inci("glycerin") == "Glycerin"
    assert not shelf.knows("x")


def test_that_a_formula_that_contains_itself_still_gets_its_shelf(studio, make_formula):
    key = studio.formulas.create("Loop", make_formula(("loop", "10.00"), product_type="stock"))
    shelf = studio.shelf_for(studio.formulas.draft(key)[0])
    assert shelf.contents.cycles
