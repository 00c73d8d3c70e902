from __future__ import annotations

from decimal import Decimal, getcontext, localcontext

import pytest
from hypothesis import given
from hypothesis import strategies as st

from workbench.units import (
    REASONS,
    Ambiguous,
    Quantity,
    Unreadable,
    parse_mass,
    parse_quantity,
    parse_volume,
)

IN_BOTH = [
    ("2.5", "2.5", None),
    ("2,5", "2.5", None),
    ("0,35", "0.35", None),
    ("0,350", "0.350", None),
    ("0.125", "0.125", None),
    (".5", "0.5", None),
    (",5", "0.5", None),
    ("3.", "3", None),
    ("  7 ", "7", None),
    ("12.5 g", "12.5", "g"),
    ("12.5g", "12.5", "g"),
    ("12,5 g.", "12.5", "g"),
    ("0.4 oz", "0.4", "oz"),
    ("1 Lb.", "1", "lb"),
    ("2 US fl oz", "2", "US fl oz"),
    ("2 fl. oz. US", "2", "US fl oz"),
    ("2 imperial fl oz", "2", "imp fl oz"),
    ("5 %", "5", "%"),
    ("5%", "5", "%"),
    ("2*1.5", "3.0", None),
    ("2 \u00d7 1,5", "3.0", None),
    ("(1+2)*3", "9", None),
    ("2+3*4", "14", None),
    ("10-4-3", "3", None),
    ("12/4/3", "1", None),
    ("(1+2)*3 g", "9", "g"),
    ("1,234.5", "1234.5", None),
    ("1.234,5", "1234.5", None),
    ("1,234,567", "1234567", None),
    ("1.234.567", "1234567", None),
    ("1\u00a0234,5 g", "1234.5", "g"),
    ("12'500 g", "12500", "g"),
    ("5 bananas", "5", "bananas"),
    ("5 \u00b5g", "5", "\u00b5g"),
]


@pytest.mark.parametrize("decimal_comma", [False, True], ids=["point", "comma"])
@pytest.mark.parametrize(("text", "value", "unit"), IN_BOTH)
def test_that_plain_text_reads_the_same_in_every_locale(text, value, unit, decimal_comma):
    read = parse_quantity(text, decimal_comma=decimal_comma)
    assert read == Quantity(Decimal(value), unit)


def test_that_a_division_keeps_many_figures():
    # 35 / 0.88 = 39.7727 recurring (27).
    read = parse_quantity("35/0.88", decimal_comma=False)
    assert str(read.value).startswith("39.772727272727272727")


@pytest.mark.parametrize(("text", "shown"), [("35/0.5", "70"), ("1000/0.01", "100000")])
def test_that_no_power_of_ten_is_shown(text, shown):
    assert str(parse_quantity(text, decimal_comma=False).value) == shown


def test_that_written_zeros_are_kept():
    assert str(parse_quantity("2.50", decimal_comma=False).value) == "2.50"


@pytest.mark.parametrize("decimal_comma", [False, True], ids=["point", "comma"])
@pytest.mark.parametrize("text", ["1,234", "1,234 g", "12,345", "2*1,234"])
def test_that_a_comma_before_three_digits_asks_in_every_locale(text, decimal_comma):
    read = parse_quantity(text, decimal_comma=decimal_comma)
    assert isinstance(read, Ambiguous)
    small, large = (reading.value for reading in read.readings)
    assert large == 1000 * small
    assert read.readings[0].unit == read.readings[1].unit


def test_that_a_point_before_three_digits_is_plain_where_the_mark_is_a_point():
    assert parse_quantity("1.234", decimal_comma=False) == Quantity(Decimal("1.234"))


def test_that_a_point_before_three_digits_asks_where_the_mark_is_a_comma():
    assert parse_quantity("1.234", decimal_comma=True) == Ambiguous(
        (Quantity(Decimal(1234)), Quantity(Decimal("1.234")))
    )


def test_that_a_fluid_ounce_of_no_country_asks_which():
    read = parse_quantity("2 fl oz", decimal_comma=False)
    assert [reading.unit for reading in read.readings] == ["US fl oz", "imp fl oz"]
    assert read.reason_id == "unit-varies"


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("", "number-empty"),
        ("   ", "number-empty"),
        ("-3", "number-negative"),
        ("\u22123", "number-negative"),
        ("2*-3", "number-negative"),
        ("2-5", "number-negative"),
        ("1/0", "number-division-by-zero"),
        ("0/0", "number-division-by-zero"),
        ("1/(2-2)", "number-division-by-zero"),
        ("1e400", "number-not-a-number"),
        ("nan", "number-not-a-number"),
        ("inf", "number-not-a-number"),
        ("2**9", "number-not-a-number"),
        ("9^9", "number-not-a-number"),
        ("()", "number-not-a-number"),
        ("(1", "number-not-a-number"),
        ("1)", "number-not-a-number"),
        ("1 2", "number-not-a-number"),
        ("5 g 3", "number-not-a-number"),
        ("g", "number-not-a-number"),
        ("\u0663", "number-not-a-number"),
        ("__import__('os')", "number-not-a-number"),
        ("2,5+1.5", "number-mixed-marks"),
        ("1.5.2", "number-mixed-marks"),
        ("9" * 13, "number-too-large"),
        ("9" * 100, "number-too-large"),
        ("9" * 101, "number-too-long"),
        ("(" * 21 + "1" + ")" * 21, "number-too-deep"),
        ("*".join(["999999999"] * 10), "number-too-large"),
    ],
)
def test_that_what_cannot_be_read_names_its_reason(text, reason):
    assert parse_quantity(text, decimal_comma=False) == Unreadable(reason)


def test_that_twenty_brackets_are_still_read():
    text = "(" * 20 + "1" + ")" * 20
    assert parse_quantity(text, decimal_comma=False) == Quantity(Decimal(1))


CELL_LETTERS = "0123456789.,+-*/()% gozlbm\u00a0'e\u00b2\u0663"


@given(
    st.one_of(st.text(max_size=110), st.text(CELL_LETTERS, max_size=40)),
    st.booleans(),
)
def test_that_no_text_makes_the_reader_fail(text, decimal_comma):
    for read in (
        parse_quantity(text, decimal_comma=decimal_comma),
        parse_mass(text, decimal_comma=decimal_comma),
        parse_volume(text, decimal_comma=decimal_comma),
    ):
        assert isinstance(read, Quantity | Ambiguous | Unreadable | Decimal)
        if isinstance(read, Unreadable | Ambiguous):
            assert read.reason_id in REASONS
        if isinstance(read, Quantity):
            assert 0 <= read.value < Decimal("1e12")


@given(st.decimals(0, 99999, places=4), st.booleans())
def test_that_a_written_number_reads_back_as_itself(value, decimal_comma):
    text = str(value).replace(".", ",") if decimal_comma else str(value)
    # Four places can never be a group of three digits, so nothing is asked.
    assert parse_quantity(text, decimal_comma=decimal_comma) == Quantity(value)


@given(st.integers(0, 9999), st.integers(0, 9999), st.integers(1, 999))
def test_that_sums_follow_the_rules_of_arithmetic(a, b, c):
    read = parse_quantity(f"({a}+{b})*{c}-{a}", decimal_comma=False)
    assert read == Quantity(Decimal((a + b) * c - a))


def test_that_the_callers_own_precision_changes_nothing():
    before = getcontext().prec
    with localcontext() as context:
        context.prec = 3
        read = parse_quantity("35/0.88", decimal_comma=False)
    assert len(str(read.value)) > 20
    assert getcontext().prec == before


@pytest.mark.parametrize(
    ("text", "grams"),
    [("500 g", "500"), ("1.2 kg", "1200"), ("250 mg", "0.25"), ("2 lb", "907.18474")],
)
def test_that_a_mass_with_its_unit_becomes_grams(text, grams):
    assert parse_mass(text) == Decimal(grams)


def test_that_a_mass_without_a_unit_is_not_guessed():
    assert parse_mass("500") == Unreadable("unit-missing")


def test_that_an_ambiguous_mass_is_still_a_question():
    assert isinstance(parse_mass("1,234 g"), Ambiguous)


def test_that_a_volume_with_its_unit_becomes_millilitres():
    assert parse_volume("2 US fl oz") == Decimal("59.147059125")


def test_that_reading_numbers_does_not_load_the_unit_registry(run_python):
    code = (
        "import sys; from workbench.units import parse_mass; parse_mass('2 oz');"
        "print('pint' in sys.modules)"
    )
    assert run_python("-c", code).stdout.strip() == "False"
