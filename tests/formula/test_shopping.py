from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from tests.builders import make_formula, make_ingredient
from workbench.formula.shelf import shelf_of
from workbench.formula.shopping import shopping_list
from workbench.formula.supply import Supply

STOCK = replace(make_formula(("water*", "0"), ("gum", "1"), ("salt", "0.5")), name="Gum stock")
FORMULA = make_formula(("water*", "0"), ("gum-stock", "40"), ("gum", "0.2"))
SHELF = shelf_of(
    {key: make_ingredient(key) for key in ("water", "gum", "salt")}, {"gum-stock": STOCK}, {}
)
PACK = Supply(
    "gum",
    pack_g=Decimal(5),
    pack_price=Decimal("3.00"),
    freight=Decimal("0.50"),
    currency="EUR",
)


def needs(shopping):
    return {need.ingredient: need for need in shopping.needs}


def test_that_masses_are_summed_through_stocks():
    # 1000 g: 400 g stock with 1 % gum and 0.5 % salt, and 0.2 % gum of its own
    found = needs(shopping_list(FORMULA, SHELF, Decimal(1000), {}))
    assert {key: need.mass_g for key, need in found.items()} == {
        "water": Decimal(598) + Decimal(394),
        "gum": Decimal(6),
        "salt": Decimal(2),
    }
    assert found["salt"].through == ("gum-stock",)


def test_that_packs_are_whole_and_cost_their_freight():
    found = needs(shopping_list(FORMULA, SHELF, Decimal(1000), {"gum": PACK}))["gum"]
    assert (found.packs, found.pack_cost) == (2, Decimal("7.00"))
    assert found.used_cost == Decimal("4.2")  # 6 g of 700 for a kilogram


def test_that_an_exact_pack_is_one_pack():
    found = shopping_list(make_formula(("gum", "100")), SHELF, Decimal(5), {"gum": PACK})
    assert found.needs[0].packs == 1


def test_that_what_is_on_hand_is_not_bought():
    found = shopping_list(FORMULA, SHELF, Decimal(1000), {"gum": replace(PACK, on_hand=True)})
    assert needs(found)["gum"].packs is None
    assert found.to_buy == ()
    assert set(found.unpriced) == {"water", "salt"}


def test_that_currencies_are_not_mixed():
    salt = replace(PACK, ingredient="salt", currency="GBP")
    found = shopping_list(FORMULA, SHELF, Decimal(1000), {"gum": PACK, "salt": salt})
    assert found.to_buy == (("EUR", Decimal("7.00")), ("GBP", Decimal("3.50")))


def test_that_a_pack_without_a_price_is_counted_and_told():
    found = shopping_list(FORMULA, SHELF, Decimal(1000), {"gum": replace(PACK, pack_price=None)})
    assert (needs(found)["gum"].packs, needs(found)["gum"].pack_cost) == (2, None)
    assert "gum" in found.unpriced


def test_that_what_is_unknown_or_in_a_circle_is_left_out_and_told():
    loop = make_formula(("water*", "0"), ("loop", "50"))
    shelf = shelf_of({"water": make_ingredient("water")}, {"loop": loop}, {})
    found = shopping_list(make_formula(("loop", "60"), ("mystery", "40")), shelf, Decimal(100), {})
    assert found.unresolved == ("loop", "mystery")
    assert needs(found)["water"].mass_g == 30


def test_that_the_largest_mass_comes_first():
    found = shopping_list(FORMULA, SHELF, Decimal(1000), {})
    assert [need.ingredient for need in found.needs] == ["water", "gum", "salt"]


@given(st.decimals("0.01", "99.99", places=2), st.decimals("1", "100000", places=1))
def test_that_the_needs_add_up_to_the_batch(stock_percent, batch_g):
    formula = make_formula(("water*", "0"), ("gum-stock", str(stock_percent)))
    found = shopping_list(formula, SHELF, batch_g, {})
    assert sum(need.mass_g for need in found.needs) == batch_g
