from __future__ import annotations

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from workbench.formula.ingredient import Ingredient
from workbench.storage.folding import folded, tails


def keys(studio, typed, limit=20):
    return [hit.key for hit in studio.search(typed, limit)]


def own(studio, key, name, **changes):
    studio.ingredients.add_own(Ingredient(key=key, name=name, **{"inci": "", **changes}))


@pytest.mark.parametrize(
    ("text", "plain"),
    [
        ("Crème  DE la Mer", "creme de la mer"),
        ("STRASSE straße", "strasse strasse"),
        ("Smørebrød", "smorebrod"),
        ("56-81-5", "56 81 5"),
        ("PEG-100 (and) C12/13", "peg 100 and c12 13"),
        ("İstanbul", "istanbul"),
        ('"; DROP TABLE x --', "drop table x"),
        ("水 と油", "水 と油"),
        ("\0\n\t", ""),
    ],
)
def test_that_case_accents_and_punctuation_do_not_matter(text, plain):
    assert folded(text) == plain


@given(st.text(max_size=60))
def test_that_folding_twice_is_folding_once(text):
    assert folded(folded(text)) == folded(text)


def test_that_a_text_is_found_from_each_of_its_words():
    assert tails("sweet almond oil") == ("sweet almond oil", "almond oil", "oil")
    assert tails("") == ()


def test_that_the_exact_name_comes_first_then_its_start_then_words_in_it(studio):
    own(studio, "d", "Rare oil with zorb", functions=("emollient",))
    own(studio, "c", "Oil of zorb")
    own(studio, "b", "Zorb oil")
    own(studio, "a", "Zorb")
    own(studio, "e", "Nothing of the kind", functions=("zorb",))
    assert keys(studio, "zorb") == ["a", "b", "c", "d", "e"]
    assert keys(studio, "Zör") == ["a", "b", "c", "d", "e"]


def test_that_inci_and_cas_are_searched_too(studio):
    assert keys(studio, "aqua")[0] == "water"
    assert keys(studio, "glycerin")[0] == "glycerin"
    assert keys(studio, "56-81-5")[0] == "glycerin"  # glycerol's number
    assert keys(studio, "56-81")[0] == "glycerin"
    assert keys(studio, "butyrospermum")[0] == "shea_butter"
    assert "shea_butter" in keys(studio, "parkii")


def test_that_words_may_be_typed_in_any_order(studio):
    assert keys(studio, "butter shea")[0] == "shea_butter"
    assert keys(studio, "vitamin b3") == ["niacinamide"]  # a name of its substance only


def test_that_whole_words_and_near_ends_come_first(studio):
    own(studio, "near", "Quorn oil")
    own(studio, "far", "Quornish oil")
    own(studio, "long", "Quorn oil of the far north")
    assert keys(studio, "quorn") == ["near", "long", "far"]


def test_that_stocks_are_found_follow_their_name_and_leave_when_archived(studio, gel, make_formula):
    stock = make_formula(("water", "rest"), ("xanthan_gum", "1.00"), product_type="stock")
    key = studio.formulas.create("Zorb gum 1 %", stock)
    studio.formulas.create("Zorb gel", gel)
    (hit,) = studio.search("zorb")
    assert (hit.key, hit.name, hit.is_stock) == (key, "Zorb gum 1 %", True)
    studio.formulas.rename(key, "Quorn gum")
    assert keys(studio, "zorb") == []
    assert keys(studio, "quorn") == [key]
    studio.formulas.archive(key)
    assert keys(studio, "quorn") == []
    studio.formulas.archive(key, archived=False)
    assert keys(studio, "quorn") == [key]
    studio.formulas.delete(key)
    assert keys(studio, "quorn") == []


def test_that_a_limit_is_kept_and_nothing_is_found_twice(studio):
    for limit in (0, 1, 7, 200):
        found = keys(studio, "a", limit)
        assert len(found) == len(set(found)) == min(limit, len(found))
    assert len(keys(studio, "a", 7)) == 7
    assert studio.search("a", -1) == ()


def test_that_every_ingredient_is_found_by_its_name(studio):
    for key, name in studio.ingredients.names():
        assert key in keys(studio, name), name


@pytest.mark.parametrize(
    "typed",
    [
        "",
        "   ",
        '"',
        "'",
        '""""',
        "*",
        "a*",
        "AND",
        "glycerin AND",
        "NOT water",
        "NEAR(a b, 2)",
        "words:water",
        "^water",
        "water -oil",
        "(water",
        "{words}: water",
        "a + b",
        "'; DROP TABLE ingredients; --",
        "%",
        "_",
        "\0",
        "wa\0ter",
        "\ud800",
        "\U0010ffff",
        "\u200b\u202e",
        "a " * 5000,
        "x" * 10_000,
        '"' * 10_000,
        "ﷺ" * 500,
        "1" * 10_000,
    ],
)
def test_that_any_text_is_only_text(studio, shipped_count, typed):
    studio.search(typed)
    assert len(studio.ingredients.names()) == shipped_count


def test_that_no_text_at_all_breaks_the_search(studio):
    @given(st.text(max_size=40))
    @example("\udfff")
    def search(typed):
        assert len(studio.search(typed)) <= 20

    search()


def test_that_percent_and_underscore_are_no_wildcards(studio):
    own(studio, "plain", "Zorb")
    assert keys(studio, "z%b") == []
    assert keys(studio, "z_rb") == []
