"""Use levels: on the basis they are meant, over all lines and stocks, all four figures told."""

from __future__ import annotations

from decimal import Decimal

import pytest

from tests.builders import make_formula, make_ingredient, make_shelf
from workbench.checks.carried import carried
from workbench.checks.finding import Severity
from workbench.checks.use_levels import (
    OF_PHASE,
    OF_PHASE_PURE,
    OF_TOTAL,
    OF_TOTAL_PURE,
    check_use_levels,
    use_levels,
)
from workbench.formula.totals import totals


def make_item(**changes):
    usual = {"use_min": Decimal(1), "use_max": Decimal(5), "active_percent": Decimal(50)}
    return make_ingredient("panthenol", **{**usual, **changes})


def found(*lines, item=None, stocks=None, over=frozenset(), **changes):
    formula = make_formula(*lines, **changes)
    shelf = make_shelf(item or make_item(), "oil", stocks=stocks)
    sums = totals(formula)
    return check_use_levels(formula, carried(formula, shelf, sums), shelf, sums, over)


def test_that_all_four_figures_are_told():
    [one] = found(("water*", "0"), ("panthenol", "8"))
    assert one.values_of(OF_TOTAL) == Decimal("8.000")
    assert one.values_of(OF_TOTAL_PURE) == Decimal("4.000")
    assert one.values_of(OF_PHASE) == Decimal("8.000")
    assert one.values_of(OF_PHASE_PURE) == Decimal("4.000")


def test_that_a_phase_is_the_mass_of_the_phases_it_stands_in():
    formula = make_formula(("oil", "16"), ("panthenol", "4"))
    shelf = make_shelf(make_item(), "oil")
    sums = totals(formula)
    level = use_levels(carried(formula, shelf, sums), shelf, sums)["panthenol"]
    assert level.on(OF_PHASE) == 20
    assert level.on(OF_PHASE_PURE) == 10


@pytest.mark.parametrize(
    ("basis", "percent", "codes"),
    [
        ("", "5", []),
        ("", "5.01", ["use-over"]),
        (OF_TOTAL_PURE, "8", []),
        (OF_TOTAL_PURE, "10.1", ["use-over-basis"]),
        (OF_PHASE, "4.9", []),
        (OF_PHASE, "5.1", ["use-over-basis"]),
        (OF_PHASE_PURE, "9.9", []),
        (OF_PHASE_PURE, "10.1", ["use-over-basis"]),
        (OF_TOTAL_PURE, "1", ["use-under-basis"]),
        ("", "0.9", ["use-under"]),
        ("", "1", []),
    ],
)
def test_that_a_level_is_held_on_its_own_basis(basis, percent, codes):
    said = found(("water*", "0"), ("panthenol", percent), item=make_item(use_basis=basis))
    assert [one.code for one in said] == codes


def test_that_over_is_a_caution_and_under_a_note():
    assert found(("water*", "0"), ("panthenol", "9"))[0].severity is Severity.CAUTION
    assert found(("water*", "0"), ("panthenol", "0.5"))[0].severity is Severity.NOTE


def test_that_an_ingredient_is_summed_over_its_lines_and_stocks():
    stock = make_formula(("water", "50"), ("panthenol", "50"), product_type="stock")
    lines = (("water*", "0"), ("panthenol", "4"), ("half", "4"))
    [one] = found(*lines, stocks={"half": stock})
    assert (one.value, one.lines) == (Decimal("6.000"), (2, 3))
    assert one.remedies == ()


def test_that_what_only_a_stock_brings_is_never_too_little():
    stock = make_formula(("water", "99"), ("panthenol", "1"), product_type="stock")
    assert found(("water*", "0"), ("thin", "5"), stocks={"thin": stock}) == ()


def test_that_the_remedy_sets_the_line_to_the_level():
    [one] = found(("water*", "0"), ("panthenol", "12"), item=make_item(use_basis=OF_TOTAL_PURE))
    formula = make_formula(("water*", "0"), ("panthenol", "12"))
    assert one.remedies[0].action.applied(formula).line(2).percent == 10


def test_that_a_locked_line_has_no_remedy():
    assert found(("water*", "0"), ("panthenol!", "9"))[0].remedies == ()


@pytest.mark.parametrize(
    "lines",
    [
        (("water", "91"), ("panthenol*", "0")),
        (("water*", "0"), ("panthenol+", "9")),
    ],
    ids=["the rest line", "adjuster held back"],
)
def test_that_what_is_not_chosen_as_a_level_is_not_held_to_one(lines):
    assert found(*lines) == ()


def test_that_a_stock_is_stronger_on_purpose():
    assert found(("water", "50"), ("panthenol", "50"), product_type="stock") == ()


def test_that_a_line_over_the_law_is_not_told_twice():
    assert found(("water*", "0"), ("panthenol", "9"), over=frozenset({2})) == ()


def test_that_above_a_dermal_maximum_the_rule_of_the_trade_speaks():
    assert found(("water*", "0"), ("panthenol", "9"), item=make_item(dermal_max=Decimal(8))) == ()
    assert found(("water*", "0"), ("panthenol", "7"), item=make_item(dermal_max=Decimal(8)))


def test_that_what_sets_the_ph_is_held_to_the_ph_and_not_to_a_level():
    acid = make_item(functions=("ph-adjuster-acid",))
    assert found(("water*", "0"), ("panthenol", "27"), item=acid) == ()
