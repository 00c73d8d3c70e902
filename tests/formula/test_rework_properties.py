"""What holds for any sequence of edits and swaps."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.builders import make_formula, make_ingredient, make_shelf
from workbench.formula.composition import composition
from workbench.formula.edits import (
    EditRefused,
    moved_by,
    to_percent_step,
    with_lock,
    with_percent,
    with_rest_line,
)
from workbench.formula.formula import Formula
from workbench.formula.line_change import Rework
from workbench.formula.rebalance_groups import group_to_active, lines_to_ratio, phase_to
from workbench.formula.stocks import with_powder, with_stock
from workbench.formula.substitute import swapped
from workbench.formula.swaps import active_ratio
from workbench.formula.totals import totals

STOCK = make_formula(("gum", "1"), ("blend", "1"), ("water*", ""), product_type="stock")
SHELF = make_shelf(
    make_ingredient("glycerin", functions=("humectant",)),
    make_ingredient("gum", functions=("thickener-gum",)),
    make_ingredient("other_gum", functions=("thickener-gum",)),
    make_ingredient("neat", {"vitamin": "1"}, active_percent=Decimal(100)),
    make_ingredient("diluted", {"vitamin": "0.75", "aqua": "0.25"}, active_percent=Decimal(75)),
    make_ingredient("weak", {"vitamin": "0.07", "aqua": "0.93"}, active_percent=Decimal(7)),
    make_ingredient(
        "blend", {"phenoxyethanol": "0.9", "booster": "0.1"}, functions=("preservative",)
    ),
    stocks={"gum_stock": STOCK},
)
LINES = range(1, 7)
STEP = Decimal("0.0001")
Edit = Callable[[Formula], Formula]

percents = st.integers(0, 300_000).map(lambda steps: Decimal(steps) * STEP)
small = st.integers(1, 200).map(lambda steps: Decimal(steps) / 100)
lines = st.sampled_from(LINES)


def _of(rework: Callable[[Formula], Rework]) -> Edit:
    return lambda formula: rework(formula).formula


def _percent(line: int, percent: Decimal) -> Edit:
    return lambda formula: with_percent(formula, line, percent)


def _swap(line: int, key: str, ratio: Decimal) -> Edit:
    return lambda formula: swapped(formula, line, key, ratio, SHELF)


def _stock(line: int) -> Edit:
    return lambda formula: with_stock(formula, line, "gum_stock", SHELF)


def _powder(line: int) -> Edit:
    return lambda formula: with_powder(formula, line, SHELF)


def _rest(line: int) -> Edit:
    return lambda formula: with_rest_line(formula, line)


def _lock(line: int) -> Edit:
    return lambda formula: with_lock(formula, line, locked=True)


def _move(line: int) -> Edit:
    return lambda formula: moved_by(formula, line, 1)


def _active(pair: tuple[int, int], level: Decimal) -> Edit:
    return _of(lambda formula: group_to_active(formula, frozenset(pair), level, SHELF))


def _ratio(pair: tuple[int, int], parts: tuple[Decimal, Decimal], keep: str) -> Edit:
    return _of(lambda formula: lines_to_ratio(formula, pair, parts, SHELF, keep))


def _phase(level: Decimal) -> Edit:
    return _of(lambda formula: phase_to(formula, 1, level))


edits = st.one_of(
    st.builds(_percent, lines, percents),
    st.builds(_swap, lines, st.sampled_from(sorted(SHELF.contents.parts)), small),
    st.builds(_stock, lines),
    st.builds(_powder, lines),
    st.builds(_rest, lines),
    st.builds(_lock, lines),
    st.builds(_move, lines),
    st.builds(_active, st.tuples(lines, lines), small),
    st.builds(
        _ratio,
        st.tuples(lines, lines),
        st.tuples(small, small),
        st.sampled_from(["sum", "first", "second"]),
    ),
    st.builds(_phase, percents),
)
sequences = st.lists(edits, max_size=12)


def start() -> Formula:
    """Return a gel with a locked line and water taking the rest."""
    return make_formula(
        ("water*", ""),
        ("glycerin!", "4"),
        ("gum", "0.35"),
        ("neat", "2"),
        ("blend", "1"),
        ("other_gum", "0.1"),
    )


def tried(formula: Formula, edit: Edit) -> Formula:
    """Return the edited formula, or the same where the edit is refused or the line is gone."""
    try:
        return edit(formula)
    except (EditRefused, KeyError):
        return formula


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


@settings(max_examples=100, deadline=None)
@given(sequences)
def test_that_undo_of_all_is_the_first_value_and_redo_the_last(sequence: list[Edit]) -> None:
    kept = [start()]
    for edit in sequence:
        kept.append(tried(kept[-1], edit))
    again = [start()]
    for edit in sequence:
        again.append(tried(again[-1], edit))
    assert kept[0] == start()
    assert kept == again


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
