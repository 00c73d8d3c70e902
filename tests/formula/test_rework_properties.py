"""What holds for any sequence of edits and swaps."""

from __future__ import annotations

from decimal import Decimal

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.builders import make_formula
from tests.formula.rework_edits import SHELF, STEP, Edit, sequences, start, tried
from workbench.formula.composition import composition
from workbench.formula.edits import to_percent_step
from workbench.formula.stocks import with_powder, with_stock
from workbench.formula.substitute import swapped
from workbench.formula.swaps import active_ratio
from workbench.formula.totals import totals


@settings(max_examples=150, deadline=None)
@given(sequences)
def test_that_any_sequence_keeps_a_hundred_with_a_rest_line(sequence: list[Edit]) -> None:
    formula = start()
    for edit in sequence:
        formula = tried(formula, edit)
        if formula.rest_line is not None:
            assert totals(formula).percent == 100
            assert sum(totals(formula).percents.values()) == 100
        assert all(line.percent is None or line.percent >= 0 for line in formula.lines())


@settings(max_examples=150, deadline=None)
@given(sequences)
def test_that_a_locked_line_never_moves(sequence: list[Edit]) -> None:
    formula = start()
    for edit in sequence:
        locked = {
            line.id: (line.ingredient, line.percent) for line in formula.lines() if line.locked
        }
        formula = tried(formula, edit)
        for key, kept in locked.items():
            assert (formula.line(key).ingredient, formula.line(key).percent) == kept


@settings(max_examples=300, deadline=None)
@given(
    st.integers(1, 60_000).map(lambda steps: Decimal(steps) * STEP),
    st.permutations(["neat", "diluted", "weak"]),
)
def test_that_there_and_back_by_pure_matter_is_the_same_composition(
    percent: Decimal, keys: list[str]
) -> None:
    first, second, _ = keys
    formula = make_formula(("water*", ""), (first, str(percent)), ("glycerin", "3"))
    there, back = active_ratio(first, second, SHELF), active_ratio(second, first, SHELF)
    assert there is not None
    assert back is not None
    returned = swapped(swapped(formula, 2, second, there, SHELF), 2, first, back, SHELF)
    before, after = composition(formula, SHELF), composition(returned, SHELF)
    for substance, was in before.substances.items():
        assert abs(after.substances[substance] - was) <= STEP


@settings(max_examples=200, deadline=None)
@given(st.integers(1, 6_000), st.integers(0, 20_000))
def test_that_powder_to_stock_and_back_is_the_same_formula(gum: int, blend: int) -> None:
    formula = make_formula(
        ("water*", ""),
        ("gum", str(to_percent_step(gum * STEP))),
        ("blend", str(to_percent_step(blend * STEP))),
    )
    stocked = tried(formula, lambda each: with_stock(each, 2, "gum_stock", SHELF))
    if stocked == formula:
        return
    before, after = composition(formula, SHELF), composition(stocked, SHELF)
    assert {key: round(value, 4) for key, value in before.substances.items()} == {
        key: round(value, 4) for key, value in after.substances.items()
    }
    assert with_powder(stocked, 2, SHELF) == formula
