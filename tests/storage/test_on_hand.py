from __future__ import annotations

import pytest


def keys(hits):
    return [hit.key for hit in hits]


@pytest.fixture
def with_gum(studio, make_formula):
    stock = make_formula(("water", "rest"), ("xanthan_gum", "1"), product_type="stock")
    return studio.formulas.create("Gum stock", stock)


def test_that_search_among_what_is_on_hand_finds_nothing_else(studio):
    studio.supplies.set_on_hand("glycerin", on_hand=True)
    assert keys(studio.search("gly", on_hand=True)) == ["glycerin"]
    assert len(studio.search("gly")) > 1
    studio.supplies.set_on_hand("glycerin", on_hand=False)
    assert studio.search("gly", on_hand=True) == ()


# CAS number of glycerol: 56-81-5 (CAS Common Chemistry, from memory)
@pytest.mark.parametrize("typed", ["humectant", "56-81", "veg", "glycerin vegetable", "GLYCERIN"])
def test_that_what_is_on_hand_is_found_by_every_way(studio, typed):
    studio.supplies.set_on_hand("glycerin", on_hand=True)
    assert keys(studio.search(typed, on_hand=True)) == ["glycerin"]


def test_that_a_stock_counts_as_on_hand_when_all_it_is_made_of_is(studio, with_gum):
    studio.supplies.set_on_hand("water", on_hand=True)
    assert studio.search("gum stock", on_hand=True) == ()
    studio.supplies.set_on_hand("xanthan_gum", on_hand=True)
    assert keys(studio.search("gum stock", on_hand=True)) == [with_gum]


def test_that_a_stock_of_a_stock_counts_too(studio, with_gum, make_formula):
    inner = make_formula(("water", "rest"), (with_gum, "50"), product_type="stock")
    studio.formulas.create("Thin gum", inner)
    for key in ("water", "xanthan_gum"):
        studio.supplies.set_on_hand(key, on_hand=True)
    assert keys(studio.search("thin gum", 1, on_hand=True)) == ["thin-gum"]


def test_that_a_stock_that_contains_itself_is_never_on_hand(studio, make_formula):
    loop = make_formula(("water", "rest"), ("loop", "50"), product_type="stock")
    studio.formulas.create("Loop", loop)
    studio.supplies.set_on_hand("water", on_hand=True)
    assert studio.search("loop", on_hand=True) == ()
