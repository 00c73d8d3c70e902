"""The rules a sheet keeps: comparing, rounding, refusing, stocks in stocks, and undo."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.builders import make_formula, make_shelf
from workbench.formula.compare import exceeds, falls_below
from workbench.formula.composition import composition
from workbench.formula.edits import EditRefused, with_percent
from workbench.formula.rebalance import scaled_to_whole, short_taken_from
from workbench.formula.scale import column_grams


@pytest.mark.parametrize(
    ("value", "limit", "is_over"),
    [
        ("0.50000049", "0.5", False),  # 0.59 % sodium benzoate as benzoic acid
        ("0.5085", "0.5", True),  # 0.60 % of it; Reg. (EC) 1223/2009 Annex V entry 1
        ("0.4915", "0.5", False),  # 0.58 % of it
        ("0.999975", "1", False),  # 1.3333 % panthenol 75 %
        ("1", "1", False),
        ("1.001", "1", True),
    ],
)
def test_that_over_means_greater_after_rounding_to_four_figures(
    value: str, limit: str, is_over: bool
) -> None:
    assert exceeds(Decimal(value), Decimal(limit)) is is_over


def test_that_a_value_that_rounds_to_the_limit_is_not_below_it() -> None:
    assert not falls_below(Decimal("0.999975"), Decimal(1))


@given(st.lists(st.decimals("0.0001", "9", places=4), min_size=1, max_size=9), st.booleans())
def test_that_a_column_always_adds_up_to_the_batch(percents: list[Decimal], has_rest: bool) -> None:
    lines = [(f"i{place}", str(value)) for place, value in enumerate(percents)]
    left = "water*" if has_rest else "water"
    formula = make_formula((left, str(100 - sum(percents))), *lines)
    column = column_grams(formula, Decimal(137), Decimal("0.01"))
    assert sum(column.values()) == Decimal(137)


def test_that_a_line_at_its_legal_maximum_is_rounded_down() -> None:
    formula = make_formula(("water*", "0"), ("phenoxyethanol", "1"))
    column = column_grams(formula, Decimal("58.6"), Decimal("0.1"), frozenset({2}))
    assert column == {1: Decimal("58.1"), 2: Decimal("0.5")}


@pytest.mark.parametrize(
    ("formula", "reason"),
    [
        (make_formula(("water*", "0"), ("cct", "5")), "rebalance-has-rest"),
        (make_formula(("water!", "100"), ("cct", "5")), "rebalance-locked-full"),
        (make_formula(("water!", "60"), ("cct", "0")), "rebalance-nothing-free"),
    ],
)
def test_that_an_impossible_scaling_says_why(formula: object, reason: str) -> None:
    with pytest.raises(EditRefused) as refused:
        scaled_to_whole(formula)
    assert refused.value.reason_id == reason


def test_that_a_line_smaller_than_the_excess_cannot_give_it() -> None:
    with pytest.raises(EditRefused) as refused:
        short_taken_from(make_formula(("water", "99"), ("cct", "5"), ("eo", "1")), 3)
    assert refused.value.reason_id == "rebalance-line-too-small"


@pytest.mark.parametrize("percent", ["-1", "100.0001", "NaN", "Infinity"])
def test_that_a_percent_outside_0_to_100_is_refused(percent: str) -> None:
    with pytest.raises(EditRefused) as refused:
        with_percent(make_formula(("water*", "0"), ("cct", "5")), 2, Decimal(percent))
    assert refused.value.reason_id == "edit-percent-outside"


def test_that_stocks_three_deep_are_multiplied_out() -> None:
    inner = make_formula(("water*", "0"), ("gum", "10"), product_type="stock")
    middle = make_formula(("water*", "0"), ("inner", "10"), product_type="stock")
    outer = make_formula(("water*", "0"), ("middle", "50"), product_type="stock")
    shelf = make_shelf("gum", stocks={"inner": inner, "middle": middle, "outer": outer})
    found = composition(make_formula(("water*", "0"), ("outer", "20")), shelf)
    assert found.substances["gum"] == Decimal("0.1")  # 20 % x 50 % x 10 % x 10 %
    assert found.water == Decimal("99.9")
