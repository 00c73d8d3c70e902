from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.builders import make_ingredient
from workbench import paths
from workbench.formula.ingredient import Constituent, Part
from workbench.formula.ingredient_check import (
    cas_check_digit_holds,
    check_ingredient,
    ec_check_digit_holds,
)
from workbench.storage.reference.tables import load_ingredients, load_substances

REFERENCE = paths.resources() / "reference"
SUBSTANCES = load_substances(REFERENCE)
GOOD = replace(make_ingredient("glycerin"), functions=("humectant",), is_own=True)


def codes(item, **options):
    return [(fault.field, fault.code, fault.row) for fault in _faults(item, **options)]


def _faults(item, **options):
    return check_ingredient(item, SUBSTANCES, **options)


def test_that_a_good_ingredient_has_no_fault():
    assert codes(GOOD) == []


# Water 7732-18-5, caffeine 58-08-2, sodium benzoate 532-32-1 (CAS Common Chemistry; the worked
# example of CAS for the check digit is 107-07-3).
@pytest.mark.parametrize("number", ["7732-18-5", "58-08-2", "532-32-1", "107-07-3"])
def test_that_a_real_cas_number_passes(number):
    assert cas_check_digit_holds(number)


@pytest.mark.parametrize(
    "number", ["7732-18-6", "58-80-2", "5-08-2", "58082", "", "58-08-2-1", "5a-08-2"]
)
def test_that_a_mistyped_cas_number_does_not(number):
    assert not cas_check_digit_holds(number)


@given(st.integers(10, 9_999_999), st.integers(0, 99))
def test_that_one_check_digit_of_ten_holds(first, second):
    assert sum(cas_check_digit_holds(f"{first}-{second:02}-{digit}") for digit in range(10)) == 1


def test_that_every_shipped_number_passes():
    shipped = load_ingredients(REFERENCE).values()
    assert [n for item in shipped for n in item.cas if not cas_check_digit_holds(n)] == []
    assert [n for item in shipped for n in item.ec_numbers if not ec_check_digit_holds(n)] == []


def test_that_a_number_says_whether_its_form_or_its_digit_is_wrong():
    assert codes(replace(GOOD, cas=("56-81-5", "56-81-6", "glycerol"))) == [
        ("cas", "shelf-fault-cas-digit", 1),
        ("cas", "shelf-fault-cas-form", 2),
    ]
    assert codes(replace(GOOD, ec_numbers=("200-289-6", "200289-5"))) == [
        ("ec_numbers", "shelf-fault-ec-digit", 0),
        ("ec_numbers", "shelf-fault-ec-form", 1),
    ]


def test_that_a_name_a_key_and_a_function_are_needed():
    bare = replace(GOOD, name="  ", key="", functions=())
    assert codes(bare) == [
        ("name", "shelf-fault-no-name", None),
        ("key", "shelf-fault-no-key", None),
        ("functions", "shelf-fault-no-function", None),
    ]


def test_that_a_key_must_be_free():
    assert codes(GOOD, taken={"glycerin"}) == [("key", "shelf-fault-key-taken", None)]


@pytest.mark.parametrize(
    ("total", "found"),
    [
        ("0.999999", []),
        ("1", []),
        ("1.000001", []),
        ("0.9999", ["shelf-fault-sum-short"]),
        ("1.0001", ["shelf-fault-sum-over"]),
    ],
)
def test_that_a_composition_adds_up_to_100_percent(total, found):
    half = Decimal(total) - Decimal("0.4")
    item = replace(GOOD, composition=(Part("water", Decimal("0.4")), Part("glycerin", half)))
    assert [code for _, code, _ in codes(item)] == found


def test_that_the_missing_share_is_said():
    item = replace(GOOD, composition=(Part("water", Decimal("0.4")),))
    (fault,) = _faults(item)
    assert dict(fault.values) == {"total": Decimal("40.0"), "missing": Decimal("60.0")}


def test_that_an_empty_composition_is_a_fault():
    assert codes(replace(GOOD, composition=())) == [
        ("composition", "shelf-fault-no-composition", None)
    ]


def test_that_rows_of_a_composition_are_told_apart():
    parts = (
        Part("water", Decimal("0.5")),
        Part("water", Decimal("0.2")),
        Part("Moonflower Milk", Decimal("0.3")),
        Part("", Decimal(0)),
    )
    assert codes(replace(GOOD, composition=parts)) == [
        ("composition", "shelf-fault-substance-twice", 1),
        ("composition", "shelf-fault-substance-unknown", 2),
        ("composition", "shelf-fault-no-substance", 3),
        ("composition", "shelf-fault-fraction", 3),
    ]


def test_that_a_name_of_no_table_may_be_kept_as_typed():
    item = replace(GOOD, composition=(Part("Moonflower Milk", Decimal(1)),))
    assert codes(item, as_typed={"Moonflower Milk"}) == []


def test_that_what_is_inside_is_checked_as_rows_without_a_sum():
    inside = (Constituent("linalool", Decimal("0.3")), Constituent("mystery", Decimal(2)))
    assert codes(replace(GOOD, constituents=inside)) == [
        ("constituents", "shelf-fault-substance-unknown", 1),
        ("constituents", "shelf-fault-fraction", 1),
    ]


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("use_max", "100.1"),
        ("ph_min", "-1"),
        ("ph_max", "14.2"),
        ("density", "12"),
        ("hlb", "51"),
        ("active_percent", "101"),
        ("log_p", "-20"),
    ],
)
def test_that_a_value_that_cannot_be_is_refused(field, value):
    assert codes(replace(GOOD, **{field: Decimal(value)})) == [(field, "shelf-fault-range", None)]


def test_that_the_least_is_not_over_the_most():
    item = replace(
        GOOD, use_min=Decimal(3), use_max=Decimal(2), ph_min=Decimal(5), ph_max=Decimal(5)
    )
    assert codes(item) == [("use_max", "shelf-fault-order", None)]


def test_that_a_shelf_life_is_at_least_a_month():
    assert codes(replace(GOOD, shelf_life_months=0)) == [
        ("shelf_life_months", "shelf-fault-months", None)
    ]


def test_that_every_shipped_ingredient_would_pass():
    for item in load_ingredients(REFERENCE).values():
        assert codes(item) == [], item.key
