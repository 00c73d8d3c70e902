from __future__ import annotations

from decimal import Decimal

import pytest

from workbench.formula.old_sheet_amounts import amount_of


@pytest.mark.parametrize(
    ("text", "unit", "mark", "percent"),
    [
        ("2.5", "%", ".", "2.5"),
        ("2,5", "%", ",", "2.5"),
        ("2.5 %", "g", ".", "2.5"),
        ("1.234,5", "%", ",", "1234.5"),
        ("0.05", "share", ".", "5.00"),
        (".5", "%", ".", "0.5"),
    ],
)
def test_that_a_percent_is_read(text, unit, mark, percent):
    read = amount_of(text, unit, mark)
    assert read.is_read
    assert read.percent == Decimal(percent)


@pytest.mark.parametrize(
    ("text", "unit", "grams"),
    # The pound is 0.45359237 kg (international yard and pound agreement, 1959).
    [
        ("12", "g", "12"),
        ("1 lb", "g", "453.59237"),
        ("1 lb 8 oz", "", "680.388555"),
        ("2", "oz", "56.69904625"),
        ("250 mg", "", "0.250"),
        ("1.2kg", "", "1200.0"),
    ],
)
def test_that_a_mass_is_read_in_grams(text, unit, grams):
    read = amount_of(text, unit, ".")
    assert read.is_read
    assert read.mass_g == Decimal(grams)


@pytest.mark.parametrize(
    "text", ["q.s.", "QS to 100", "to 100 %", "ad 100", "rest", "Balance", "remainder", "qs 100"]
)
def test_that_the_rest_is_read_in_many_words(text):
    assert amount_of(text, "%", ".").is_rest


@pytest.mark.parametrize(
    ("text", "doubt", "choices"),
    [
        ("2-3 %", "sheet-range", ["2", "2.5", "3"]),
        ("2 to 4", "sheet-range", ["2", "3", "4"]),
        ("1/2", "sheet-fraction", ["0.5000"]),
        ("1 1/2", "sheet-fraction", ["1.5000"]),
        ("\u00bd", "sheet-fraction", ["0.5000"]),
        ("~2", "sheet-about", ["2"]),
        ("2?", "sheet-about", ["2"]),
        ("<0.1", "sheet-about", ["0.1"]),
        ("trace", "sheet-trace", ["0"]),
        ("to pH 5.5", "sheet-to-ph", ["0"]),
        ("-2", "sheet-negative", []),
        ("5 drops", "sheet-drops", []),
        ("1 tsp", "sheet-spoon", []),
        ("2 cups", "sheet-spoon", []),
        ("30 ml", "sheet-volume", []),
        ("1 fl oz", "sheet-volume", []),
        ("2 pumps", "sheet-unknown-unit", []),
        ("", "sheet-no-amount", []),
        ("=A1*2", "sheet-not-a-number", []),
        ("2*3", "sheet-not-a-number", []),
        ("#DIV/0!", "sheet-not-a-number", []),
        ("1/0", "sheet-not-a-number", []),
    ],
)
def test_that_a_doubtful_amount_is_not_decided(text, doubt, choices):
    read = amount_of(text, "%" if text[-1:].isdigit() else "", ".")
    assert not read.is_read
    assert read.doubt == doubt
    assert [str(one.percent) for one in read.options] == choices


def test_that_a_number_of_two_readings_is_a_question_with_both():
    read = amount_of("1,234", "g", None)
    assert read.doubt == "sheet-two-readings"
    assert {one.mass_g for one in read.options} == {Decimal(1234), Decimal("1.234")}


def test_that_a_rest_up_to_a_mass_says_what_everything_weighs():
    assert amount_of("to 1 kg", "", ".").whole_g == Decimal(1000)
    assert amount_of("ad 500", "g", ".").whole_g == Decimal(500)
