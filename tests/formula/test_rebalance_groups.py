"""Rebalancing: a phase, a group to a level of active matter, two lines to a ratio."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from tests.builders import make_formula, make_ingredient, make_shelf
from workbench.formula.edits import EditRefused
from workbench.formula.formula import Formula, Line, Phase
from workbench.formula.rebalance_groups import (
    group_to_active,
    lines_to_ratio,
    phase_to,
    rested,
    scaled,
    scaled_within_phase,
    taken,
)
from workbench.formula.totals import totals

# A shampoo's three surfactants as supplied, 30, 30 and 50 % active: 6.0 + 4.5 + 4.0 = 14.5 %.
SHELF = make_shelf(
    make_ingredient("sarcosinate", active_percent=Decimal(30)),
    make_ingredient("betaine", active_percent=Decimal(30)),
    make_ingredient("glucoside", active_percent=Decimal(50)),
    "glycerin",
    "oil",
)
SURFACTANTS = frozenset({2, 3, 4})


def shampoo(**changes: str) -> Formula:
    """Return a shampoo, water taking the rest unless it is given."""
    names = {"sarcosinate": "20", "betaine": "15", "glucoside": "8", "glycerin": "3"} | changes
    water = names.pop("water", "")
    entries = [(key, names[key.rstrip("!")]) for key in ("sarcosinate", "betaine", "glucoside")]
    return make_formula(("water" if water else "water*", water), *entries, ("glycerin", "3"))


def two_phases(*oils: Line, water: Decimal | None = None) -> Formula:
    """Return water and an oil phase of its lines."""
    return Formula(
        name="Cream",
        phases=(
            Phase(1, "Water", "water", lines=(Line(1, "water", water),)),
            Phase(2, "Oil", "oil", lines=oils),
        ),
    )


def oil(line_id: int, percent: str, *, locked: bool = False) -> Line:
    """Return a line of the oil phase."""
    return Line(line_id, "oil", Decimal(percent), locked=locked)


def test_that_a_group_meets_its_level_and_the_rest_gives() -> None:
    rework = group_to_active(shampoo(), SURFACTANTS, Decimal("11.6"), SHELF)
    percents = totals(rework.formula).percents
    assert (percents[2], percents[3], percents[4]) == (16, 12, Decimal("6.4"))
    assert percents[1] == 54 + Decimal("8.6")
    assert {each.line for each in rework.changes} == {1, 2, 3, 4}


def test_that_a_group_meets_its_level_to_the_last_step() -> None:
    rework = group_to_active(shampoo(), SURFACTANTS, Decimal("10.0001"), SHELF)
    percents = totals(rework.formula).percents
    active = (percents[2] * 30 + percents[3] * 30 + percents[4] * 50) / 100
    assert abs(active - Decimal("10.0001")) <= Decimal("0.0001")


def test_that_a_locked_line_counts_and_stays() -> None:
    formula = shampoo()
    formula = formula.with_line(replace(formula.line(2), locked=True))
    percents = totals(
        group_to_active(formula, SURFACTANTS, Decimal("10.25"), SHELF).formula
    ).percents
    assert (percents[2], percents[3], percents[4]) == (20, Decimal("7.5"), 4)


def test_that_without_a_rest_line_the_water_gives() -> None:
    rework = group_to_active(shampoo(water="54"), SURFACTANTS, Decimal("11.6"), SHELF)
    assert totals(rework.formula).percent == 100
    assert rework.formula.line(1).percent == Decimal("62.6")


@pytest.mark.parametrize(
    ("lines", "active", "locked", "reason"),
    [
        ({2, 3, 4}, "5", {2}, "rebalance-group-locked"),
        ({1, 2}, "5", set(), "rebalance-group-has-rest"),
        ({2, 3}, "5", {2, 3}, "rebalance-group-nothing-free"),
        ({2, 3, 4}, "40", set(), "rebalance-rest-short"),
        ({2, 3, 4}, "140", set(), "edit-percent-outside"),
    ],
)
def test_that_an_impossible_level_says_what_stands_in_the_way(
    lines: set[int], active: str, locked: set[int], reason: str
) -> None:
    formula = shampoo()
    for key in locked:
        formula = formula.with_line(replace(formula.line(key), locked=True))
    with pytest.raises(EditRefused) as caught:
        group_to_active(formula, frozenset(lines), Decimal(active), SHELF)
    assert caught.value.reason_id == reason


@pytest.mark.parametrize(
    ("keep", "first", "second"),
    [("sum", "26.25", "8.75"), ("first", "20", "6.6667"), ("second", "45", "15")],
)
def test_that_two_lines_come_to_a_ratio(keep: str, first: str, second: str) -> None:
    rework = lines_to_ratio(shampoo(), (2, 3), (Decimal(3), Decimal(1)), SHELF, keep)
    percents = totals(rework.formula).percents
    assert (percents[2], percents[3]) == (Decimal(first), Decimal(second))
    assert totals(rework.formula).is_whole


def test_that_a_ratio_that_keeps_the_sum_moves_no_other_line() -> None:
    rework = lines_to_ratio(shampoo(), (2, 3), (Decimal(1), Decimal(2)), SHELF)
    assert [each.line for each in rework.changes] == [2, 3]


def test_that_a_locked_line_may_be_the_one_a_ratio_is_held_to() -> None:
    formula = shampoo()
    formula = formula.with_line(replace(formula.line(2), locked=True))
    rework = lines_to_ratio(formula, (2, 3), (Decimal(2), Decimal(1)), SHELF, "first")
    assert totals(rework.formula).percents[3] == 10
    with pytest.raises(EditRefused, match="edit-line-locked"):
        lines_to_ratio(formula, (2, 3), (Decimal(2), Decimal(1)), SHELF)


@pytest.mark.parametrize(
    ("lines", "parts", "keep", "reason"),
    [
        ((2, 2), ("1", "1"), "sum", "rebalance-no-ratio"),
        ((2, 3), ("0", "1"), "sum", "rebalance-no-ratio"),
        ((2, 3), ("NaN", "1"), "sum", "rebalance-no-ratio"),
        ((1, 2), ("1", "1"), "sum", "rebalance-ratio-of-rest"),
        ((2, 3), ("1", "6"), "first", "edit-percent-outside"),
        ((2, 3), ("1", "4"), "first", "rebalance-rest-short"),
    ],
)
def test_that_an_impossible_ratio_says_what_stands_in_the_way(
    lines: tuple[int, int], parts: tuple[str, str], keep: str, reason: str
) -> None:
    with pytest.raises(EditRefused) as caught:
        lines_to_ratio(shampoo(), lines, (Decimal(parts[0]), Decimal(parts[1])), SHELF, keep)
    assert caught.value.reason_id == reason


def test_that_a_phase_is_scaled_and_the_rest_in_another_phase_gives() -> None:
    formula = two_phases(oil(2, "12"), oil(3, "4", locked=True), oil(4, "4"))
    percents = totals(phase_to(formula, 2, Decimal(24)).formula).percents
    assert percents == {1: 76, 2: 15, 3: 4, 4: 5}


def test_that_one_phase_alone_can_bring_the_whole_to_a_hundred() -> None:
    formula = two_phases(oil(2, "12"), oil(3, "4", locked=True), oil(4, "4"), water=Decimal(77))
    after = scaled_within_phase(formula, 2).formula
    assert totals(after).percents == {1: 77, 2: Decimal("14.25"), 3: 4, 4: Decimal("4.75")}


@pytest.mark.parametrize(
    ("oils", "water", "phase", "percent", "reason"),
    [
        ((oil(2, "12"),), None, 1, "50", "rebalance-phase-has-rest"),
        ((oil(2, "12", locked=True),), None, 2, "20", "rebalance-phase-nothing-free"),
        ((oil(2, "12", locked=True), oil(3, "4")), None, 2, "10", "rebalance-phase-locked"),
    ],
)
def test_that_an_impossible_phase_says_what_stands_in_the_way(
    oils: tuple[Line, ...], water: Decimal | None, phase: int, percent: str, reason: str
) -> None:
    with pytest.raises(EditRefused) as caught:
        phase_to(two_phases(*oils, water=water), phase, Decimal(percent))
    assert caught.value.reason_id == reason


def test_that_a_phase_cannot_bring_to_a_hundred_what_the_rest_line_brings() -> None:
    with pytest.raises(EditRefused, match="rebalance-has-rest"):
        scaled_within_phase(two_phases(oil(2, "12")), 2)


def test_that_the_plain_ways_to_a_hundred_tell_what_they_change() -> None:
    formula = make_formula(("water", "60"), ("oil!", "20"), ("glycerin", "15"))
    assert [each.by for each in taken(formula, 1).changes] == [5]
    assert [each.line for each in scaled(formula).changes] == [1, 3]
    assert totals(rested(formula, 1).formula).is_whole


def test_that_a_line_too_small_cannot_take_the_rest() -> None:
    formula = make_formula(("water", "60"), ("oil", "55"))
    with pytest.raises(EditRefused, match="rebalance-line-too-small"):
        rested(make_formula(("water", "60"), ("oil", "55"), ("glycerin", "3")), 3)
    assert totals(rested(formula, 1).formula).percents[1] == 45
