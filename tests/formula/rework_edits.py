"""Any edit a maker can make, for tests of what holds after any sequence of them."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal

from hypothesis import strategies as st

from tests.builders import make_formula, make_ingredient, make_shelf
from workbench.formula.edits import (
    EditRefused,
    moved_by,
    with_lock,
    with_percent,
    with_rest_line,
)
from workbench.formula.formula import Formula
from workbench.formula.line_change import Rework
from workbench.formula.rebalance_groups import group_to_active, lines_to_ratio, phase_to
from workbench.formula.stocks import with_powder, with_stock
from workbench.formula.substitute import swapped

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
