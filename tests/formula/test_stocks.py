"""Powder to stock and back; 20 % of a 1 % stock is 0.2 % powder and the rest its water."""

from __future__ import annotations

from decimal import Decimal

import pytest

from tests.builders import make_formula, make_ingredient, make_shelf
from workbench.formula.composition import composition
from workbench.formula.edits import EditRefused
from workbench.formula.formula import Formula
from workbench.formula.shelf import Shelf
from workbench.formula.stocks import (
    stock_change_effect,
    stock_rework,
    stocks_holding,
    wetting_line,
    with_powder,
    with_slurry_note,
    with_stock,
)
from workbench.formula.substitute import swapped
from workbench.formula.totals import totals

PLAIN = make_formula(("gum", "1"), ("water", "99"), product_type="stock")
PRESERVED = make_formula(("gum", "1"), ("blend", "1"), ("water*", ""), product_type="stock")
PREMIX = make_formula(
    ("gum", "5"), ("glycerin", "20"), ("blend", "1"), ("water*", ""), product_type="stock"
)
NESTED = make_formula(("preserved", "50"), ("water", "50"), product_type="stock")


def shelf() -> Shelf:
    """Return a gum, a blend of two preservatives, a humectant, and four stocks."""
    return make_shelf(
        make_ingredient("gum", functions=("thickener-gum",), form="powder"),
        make_ingredient(
            "blend", {"phenoxyethanol": "0.9", "booster": "0.1"}, functions=("preservative",)
        ),
        make_ingredient("glycerin", functions=("humectant",), form="viscous liquid"),
        stocks={"plain": PLAIN, "preserved": PRESERVED, "premix": PREMIX, "nested": NESTED},
    )


def gel(blend: str = "1", **changes: object) -> Formula:
    """Return a gel with 0.2 % gum, water taking the rest."""
    return make_formula(
        ("water*", ""), ("glycerin", "4"), ("gum", "0.2"), ("blend", blend), **changes
    )


def pure(formula: Formula) -> dict[str, Decimal]:
    """Return the substances to 0.0001 %."""
    return {
        key: round(percent, 4) for key, percent in composition(formula, shelf()).substances.items()
    }


def refusal(formula: Formula, stock: str) -> EditRefused:
    """Return why a stock cannot take the place of the gum."""
    with pytest.raises(EditRefused) as caught:
        with_stock(formula, 3, stock, shelf())
    return caught.value


def test_that_a_fifth_of_a_one_per_cent_stock_is_a_fifth_of_a_per_cent() -> None:
    percents = totals(with_stock(gel(), 3, "plain", shelf())).percents
    assert percents[3] == 20
    assert percents[1] == Decimal("75.0")


def test_that_the_preservative_of_the_stock_comes_off_its_own_line() -> None:
    after = with_stock(gel(), 3, "preserved", shelf())
    assert totals(after).percents == {1: Decimal("75.2"), 2: 4, 3: 20, 4: Decimal("0.8")}
    assert pure(after) == pure(gel())


def test_that_everything_a_premix_holds_comes_off_its_own_line() -> None:
    after = with_stock(gel(), 3, "premix", shelf())
    assert totals(after).percents[2] == Decimal("3.2")
    assert pure(after) == pure(gel())


def test_that_a_stock_of_a_stock_is_opened_to_the_ground() -> None:
    after = with_stock(gel(), 3, "nested", shelf())
    assert totals(after).percents[3] == 40
    assert pure(after) == pure(gel())
    assert with_powder(after, 3, shelf()) == gel()


def test_that_a_swap_by_pure_matter_to_a_stock_is_the_exact_change() -> None:
    there = swapped(gel(), 3, "premix", Decimal(20), shelf())
    assert there == with_stock(gel(), 3, "premix", shelf())
    assert swapped(there, 3, "gum", Decimal("0.05"), shelf()) == gel()


@pytest.mark.parametrize("stock", ["plain", "preserved", "premix", "nested"])
def test_that_there_and_back_is_the_formula_again(stock: str) -> None:
    assert with_powder(with_stock(gel(), 3, stock, shelf()), 3, shelf(), "gum") == gel()


def test_that_what_a_line_is_there_for_survives_the_stock() -> None:
    formula = make_formula(("water*", ""), ("gum", "0.2", "stabiliser"))
    assert with_powder(with_stock(formula, 2, "plain", shelf()), 2, shelf()) == formula


def test_that_a_line_too_small_to_give_way_says_so_and_by_how_much() -> None:
    found = refusal(gel(blend="0.15"), "preserved")
    assert found.reason_id == "swap-carried-short"
    assert found.values == {"ingredient": "preserved", "line": "blend", "percent": Decimal("0.05")}


def test_that_a_locked_top_up_stands_in_the_way() -> None:
    formula = make_formula(("water*", ""), ("glycerin", "4"), ("gum", "0.2"), ("blend!", "1"))
    assert refusal(formula, "preserved").reason_id == "swap-carried-locked"


def test_that_a_preservative_without_a_line_stands_in_the_way_until_it_may_stand() -> None:
    formula = make_formula(("water*", ""), ("glycerin", "4"), ("gum", "0.2"))
    assert refusal(formula, "preserved").reason_id == "swap-carried-no-line"
    rework = stock_rework(formula, 3, "preserved", shelf(), stands=True)
    assert [(each.ingredient, each.percent) for each in rework.stands] == [
        ("blend", Decimal("0.2"))
    ]
    assert totals(rework.formula).percent == 100


def test_that_a_stock_without_room_says_how_much_is_missing() -> None:
    formula = make_formula(("water*", ""), ("glycerin", "90"), ("gum", "0.2"))
    found = refusal(formula, "plain")
    assert found.reason_id == "swap-rest-short"
    assert found.values["short"] == Decimal("10.0")


def test_that_water_gives_way_where_something_else_takes_the_rest() -> None:
    formula = make_formula(("water", "60"), ("glycerin*", ""), ("gum", "0.2"))
    after = with_stock(formula, 3, "plain", shelf())
    assert totals(after).percents == {1: Decimal("40.2"), 2: Decimal("39.8"), 3: 20}


def test_that_locked_water_gives_no_way() -> None:
    formula = make_formula(("water!", "95.8"), ("glycerin", "4"), ("gum", "0.2"))
    assert refusal(formula, "plain").reason_id == "swap-no-rest"


def test_that_a_locked_line_keeps_its_powder() -> None:
    formula = make_formula(("water*", ""), ("glycerin", "4"), ("gum!", "0.2"))
    assert refusal(formula, "plain").reason_id == "edit-line-locked"


def test_that_a_stock_of_something_else_is_refused() -> None:
    with pytest.raises(EditRefused, match="stock-other-solute"):
        with_stock(gel(), 2, "plain", shelf())


def test_that_powder_makes_a_line_for_a_preservative_that_had_none() -> None:
    formula = make_formula(("water*", ""), ("preserved", "20"))
    after = with_powder(formula, 2, shelf())
    assert [(line.ingredient, line.percent) for line in after.lines()] == [
        ("water", None),
        ("gum", Decimal("0.2")),
        ("blend", Decimal("0.2")),
    ]
    assert pure(after) == pure(formula)


def test_that_stocks_for_a_powder_are_found_with_their_strength() -> None:
    assert stocks_holding("gum", shelf()) == (
        ("nested", Decimal("0.5")),
        ("plain", Decimal(1)),
        ("preserved", Decimal(1)),
    )


def test_that_the_humectant_to_wet_a_powder_in_is_the_largest_nearly_dry_one() -> None:
    found = wetting_line(gel(), 3, shelf())
    assert found is not None
    assert found.ingredient == "glycerin"
    assert wetting_line(make_formula(("water*", ""), ("gum", "1")), 2, shelf()) is None


def test_that_a_slurry_is_noted_once_and_changes_no_percent() -> None:
    noted = with_slurry_note(with_slurry_note(gel(), 3, "Wet it."), 3, "Wet it.")
    assert [step.text for step in noted.phases[0].steps] == ["Wet it."]
    assert totals(noted).percents == totals(gel()).percents


def test_that_a_changed_stock_names_the_drafts_that_would_differ_and_changes_none() -> None:
    user, other = with_stock(gel(), 3, "plain", shelf()), gel()
    stronger = make_formula(("gum", "2"), ("water", "98"), product_type="stock")
    uses = stock_change_effect("plain", stronger, {"user": user, "other": other}, shelf())
    assert [use.draft for use in uses] == ["user"]
    assert ("gum", Decimal("0.2"), Decimal("0.4")) in uses[0].substances
    assert user == with_stock(gel(), 3, "plain", shelf())


def test_that_a_stock_saved_as_it_was_changes_no_draft() -> None:
    user = with_stock(gel(), 3, "plain", shelf())
    assert stock_change_effect("plain", PLAIN, {"user": user}, shelf()) == ()
