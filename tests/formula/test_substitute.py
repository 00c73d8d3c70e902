"""Swaps on one line: by mass, by pure matter, by function, with water and preservative."""

from __future__ import annotations

from decimal import Decimal

import pytest

from tests.builders import make_formula, make_ingredient, make_shelf
from workbench.formula.composition import composition
from workbench.formula.edits import EditRefused
from workbench.formula.shelf import Shelf
from workbench.formula.substitute import swap_rework, swapped
from workbench.formula.swaps import Swap, active_ratio, ratios
from workbench.formula.totals import totals

ONE = Decimal(1)


def shelf() -> Shelf:
    """Return a vitamin neat and in water, a preserved gel of it, an oil, a wax and blends."""
    return make_shelf(
        make_ingredient(
            "neat", {"vitamin": "1"}, functions=("active",), active_percent=Decimal(100)
        ),
        make_ingredient(
            "diluted",
            {"vitamin": "0.75", "aqua": "0.25"},
            functions=("active",),
            active_percent=Decimal(75),
        ),
        make_ingredient(
            "gel",
            {"vitamin": "0.01", "aqua": "0.98", "phenoxyethanol": "0.009", "booster": "0.001"},
            functions=("active",),
            active_percent=Decimal(1),
        ),
        make_ingredient(
            "blend", {"phenoxyethanol": "0.9", "booster": "0.1"}, functions=("preservative",)
        ),
        make_ingredient("oil", functions=("emollient",)),
        make_ingredient("wax", functions=("thickener-wax",)),
        make_ingredient("hard_wax", functions=("thickener-wax",)),
        make_ingredient("hydrosol", {"rose": "0.001", "aqua": "0.999"}, functions=("water",)),
    )


def swap(**changes: str) -> Swap:
    """Make a row of the table."""
    usual = {
        "from_key": "wax",
        "to_key": "hard_wax",
        "rule": "match melting",
        "factor": "0.5",
        "note": "harder",
        "source": "common practice",
        "confidence": "memory",
    } | changes
    return Swap(**{**usual, "factor": Decimal(usual["factor"])})  # type: ignore[arg-type]


def test_that_pure_matter_stays_when_a_dilution_comes() -> None:
    # 1 % neat is 1.3333 % of a 75 % solution; the extra is its water.
    formula = make_formula(("water*", ""), ("neat", "1"))
    ratio = active_ratio("neat", "diluted", shelf())
    assert ratio is not None
    after = swapped(formula, 2, "diluted", ratio, shelf())
    assert totals(after).percents == {1: Decimal("98.6667"), 2: Decimal("1.3333")}


def test_that_a_bought_stock_takes_its_preservative_off_the_line_of_the_same_blend() -> None:
    formula = make_formula(("water*", ""), ("neat", "0.2"), ("blend", "1"))
    after = swapped(formula, 2, "gel", Decimal(100), shelf())
    assert totals(after).percents == {1: Decimal("79.2"), 2: 20, 3: Decimal("0.8")}
    before, now = composition(formula, shelf()), composition(after, shelf())
    assert now.substances == before.substances


def test_that_another_preservative_on_the_sheet_gives_no_way() -> None:
    formula = make_formula(("water*", ""), ("neat", "0.2"), ("other", "1", "preservative"))
    with_other = make_shelf(*shelf().ingredients.values(), "other")
    after = swapped(formula, 2, "gel", Decimal(100), with_other)
    assert totals(after).percents[3] == 1


def test_that_more_preservative_than_the_line_holds_is_refused_or_stands() -> None:
    formula = make_formula(("water*", ""), ("neat", "0.2"), ("blend", "0.1"))
    with pytest.raises(EditRefused, match="swap-carried-short"):
        swapped(formula, 2, "gel", Decimal(100), shelf())
    rework = swap_rework(formula, 2, "gel", Decimal(100), shelf(), stands=True)
    assert [each.percent for each in rework.stands] == [Decimal("0.1")]
    assert totals(rework.formula).percents[3] == 0


def test_that_a_preservative_for_a_preservative_carries_nothing() -> None:
    formula = make_formula(("water*", ""), ("blend", "0.5"), ("blend", "0.4"))
    after = swapped(formula, 2, "neat", ONE, shelf())
    assert totals(after).percents[3] == Decimal("0.4")


def test_that_the_rest_takes_what_a_stronger_wax_leaves() -> None:
    formula = make_formula(("oil*", ""), ("wax", "10"))
    assert totals(swapped(formula, 2, "hard_wax", Decimal("0.5"), shelf())).percents == {
        1: Decimal(95),
        2: Decimal(5),
    }


def test_that_water_and_rest_each_take_their_own_part() -> None:
    formula = make_formula(("oil*", ""), ("water", "60"), ("neat", "3"), ("wax", "10"))
    wetter = swapped(formula, 3, "diluted", Decimal(100) / 75, shelf())
    assert totals(wetter).percents == {1: 27, 2: 59, 3: 4, 4: 10}
    harder = swapped(formula, 4, "hard_wax", Decimal("0.5"), shelf())
    assert totals(harder).percents == {1: 32, 2: 60, 3: 3, 4: 5}


def test_that_mass_for_mass_moves_nothing_else() -> None:
    formula = make_formula(("oil*", ""), ("water", "60"), ("diluted", "3"))
    assert [each.line for each in swap_rework(formula, 3, "neat", ONE, shelf()).changes] == [3]


def test_that_a_balm_without_a_rest_line_asks_for_one() -> None:
    formula = make_formula(("oil", "90"), ("wax", "10"))
    with pytest.raises(EditRefused) as caught:
        swapped(formula, 2, "hard_wax", Decimal("0.5"), shelf())
    assert caught.value.reason_id == "swap-no-rest"
    assert caught.value.values == {"percent": Decimal("5.0000"), "more": "false"}


def test_that_the_rest_line_is_swapped_mass_for_mass_only() -> None:
    formula = make_formula(("water*", ""), ("neat", "1"))
    after = swapped(formula, 1, "hydrosol", ONE, shelf())
    assert after.rest_line is not None
    assert after.rest_line.ingredient == "hydrosol"
    with pytest.raises(EditRefused, match="swap-rest-by-mass"):
        swapped(formula, 1, "hydrosol", Decimal(2), shelf())


@pytest.mark.parametrize(
    ("entry", "key", "ratio", "reason"),
    [
        (("neat!", "1"), "diluted", ONE, "edit-line-locked"),
        (("neat", "1"), "nowhere", ONE, "swap-unknown"),
        (("neat", "1"), "diluted", Decimal(0), "swap-no-ratio"),
        (("neat", "1"), "diluted", Decimal("NaN"), "swap-no-ratio"),
        (("neat", "1"), "diluted", Decimal(101), "swap-too-much"),
        (("neat", "1"), "diluted", Decimal("99.5"), "swap-rest-short"),
    ],
)
def test_that_what_cannot_be_says_what_stands_in_the_way(
    entry: tuple[str, str], key: str, ratio: Decimal, reason: str
) -> None:
    formula = make_formula(("water*", ""), entry, ("oil", "10"))
    with pytest.raises(EditRefused) as caught:
        swapped(formula, 2, key, ratio, shelf())
    assert caught.value.reason_id == reason


def test_that_a_purpose_stays_where_the_newcomer_does_that_job() -> None:
    formula = make_formula(("oil*", ""), ("wax", "5", "thickener-wax"))
    assert swapped(formula, 2, "hard_wax", ONE, shelf()).line(2).purpose == "thickener-wax"
    assert swapped(formula, 2, "neat", ONE, shelf()).line(2).purpose == ""


def test_that_the_row_of_the_table_is_suggested_before_strength_and_mass() -> None:
    kinds = [ratio.kind for ratio in ratios("wax", "hard_wax", shelf(), (swap(),))]
    assert kinds == ["function", "active", "mass"]


def test_that_a_row_read_backwards_turns_its_factor_round() -> None:
    first = ratios("hard_wax", "wax", shelf(), (swap(),))[0]
    assert (first.factor, first.is_reversed) == (2, True)


def test_that_a_dose_of_its_own_says_nothing_backwards() -> None:
    rows = (swap(rule="use own dose", factor="0.3"),)
    assert [ratio.kind for ratio in ratios("hard_wax", "wax", shelf(), rows)] == ["active", "mass"]


def test_that_a_printed_active_ratio_becomes_the_exact_one() -> None:
    row = swap(from_key="neat", to_key="diluted", rule="match active content", factor="1.333")
    first = ratios("neat", "diluted", shelf(), (row,))[0]
    assert (first.kind, round(first.factor, 6)) == ("active", Decimal("1.333333"))


def test_that_a_match_of_moles_is_by_function() -> None:
    # 1.829 is the molar match of ascorbic acid to its phosphate, both neat.
    row = swap(from_key="neat", to_key="wax", rule="match active content", factor="1.829")
    assert [ratio.kind for ratio in ratios("neat", "wax", shelf(), (row,))] == [
        "function",
        "active",
        "mass",
    ]
