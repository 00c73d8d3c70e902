"""What differs between two formulas, and how many decisions it took."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from tests.builders import make_formula, make_ingredient, make_shelf
from workbench.formula.decisions import Decision, decisions
from workbench.formula.difference import formula_difference
from workbench.formula.edits import added, moved_by, phase_added, removed, with_note, with_percent
from workbench.formula.formula import Formula, Step
from workbench.formula.phases import with_steps
from workbench.formula.rebalance import scaled_to_whole
from workbench.formula.stocks import with_stock
from workbench.formula.substitute import swapped

STOCK = make_formula(("gum", "1"), ("blend", "1"), ("water*", ""), product_type="stock")
SHELF = make_shelf(
    make_ingredient("gum", functions=("thickener-gum",)),
    make_ingredient("other_gum", functions=("thickener-gum",)),
    make_ingredient("blend", {"phenoxyethanol": "1"}, functions=("preservative",)),
    "glycerin",
    stocks={"gum_stock": STOCK},
)


def gel() -> Formula:
    """Return a gel, water taking the rest."""
    return make_formula(("water*", ""), ("glycerin", "4"), ("gum", "0.5"), ("blend", "1"))


def kinds(before: Formula, after: Formula) -> dict[str, tuple[str, ...]]:
    """Return how each differing line differs, by its later ingredient."""
    return {
        (each.after or each.before).ingredient: each.kinds  # type: ignore[union-attr]
        for each in formula_difference(before, after).lines
    }


def test_that_a_formula_does_not_differ_from_itself() -> None:
    found = formula_difference(gel(), gel())
    assert found.is_empty
    assert found.same == 4
    assert decisions(gel(), gel(), SHELF) == ()


def test_that_a_percent_and_the_rest_that_follows_both_show() -> None:
    after = with_percent(gel(), 2, Decimal(6))
    assert kinds(gel(), after) == {"water": ("percent",), "glycerin": ("percent",)}
    found = {each.after.ingredient: each.by for each in formula_difference(gel(), after).lines}  # type: ignore[union-attr]
    assert found == {"water": -2, "glycerin": 2}


def test_that_added_removed_and_swapped_lines_are_told_apart() -> None:
    after = added(removed(gel(), frozenset({2})), "urea", Decimal(3), 1)
    assert kinds(gel(), after)["urea"] == ("added",)
    assert kinds(gel(), after)["glycerin"] == ("removed",)
    other = swapped(gel(), 3, "other_gum", Decimal(1), SHELF)
    assert kinds(gel(), other) == {"other_gum": ("swapped",)}


def test_that_only_the_line_that_was_moved_has_moved() -> None:
    after = moved_by(moved_by(gel(), 4, -1), 4, -1)
    assert kinds(gel(), after) == {"blend": ("moved",)}


def test_that_a_line_in_another_phase_has_moved() -> None:
    before = phase_added(gel(), "B", "cool-down")
    after = moved_by(before, 4, 1)
    assert kinds(before, after) == {"blend": ("moved",)}
    found = formula_difference(before, after).lines[0]
    assert (found.phase, found.to_phase) == ("A", "B")


def test_that_lines_are_the_same_whatever_their_ids() -> None:
    # A document read again numbers its lines anew.
    phase = gel().phases[0]
    lines = tuple(replace(line, id=line.id + 40) for line in phase.lines)
    assert formula_difference(gel(), replace(gel(), phases=(replace(phase, lines=lines),))).is_empty


def test_that_head_and_steps_show() -> None:
    after = replace(gel(), target_ph=(Decimal(5), Decimal("5.5")), name="Other")
    after = with_steps(after, 1, (Step("Stir."),))
    found = formula_difference(gel(), after)
    assert [each.field for each in found.head] == ["name", "target_ph"]
    assert [each.kinds for each in found.phases] == [("steps",)]


def test_that_a_phase_added_and_one_renamed_show() -> None:
    after = phase_added(gel(), "B", "cool-down")
    renamed = replace(after, phases=(replace(after.phases[0], name="Water"), after.phases[1]))
    assert [each.kinds for each in formula_difference(gel(), renamed).phases] == [
        ("renamed",),
        ("added",),
    ]


def test_that_one_percent_is_one_decision_with_a_rest_line_and_without() -> None:
    assert decisions(gel(), with_percent(gel(), 2, Decimal(6)), SHELF) == (
        Decision("percent", "glycerin", (2,)),
    )
    before = make_formula(("water", "95"), ("glycerin", "5"))
    after = make_formula(("water", "93"), ("glycerin", "7"))
    assert decisions(before, after, SHELF) == (Decision("percent", "glycerin", (2,)),)


def test_that_a_swap_to_a_stock_is_one_decision_with_all_that_gives_way() -> None:
    after = with_stock(gel(), 3, "gum_stock", SHELF)
    assert len(formula_difference(gel(), after).lines) == 3
    assert decisions(gel(), after, SHELF) == (Decision("swapped", "gum_stock", (3,)),)


def test_that_a_swap_and_another_percent_are_two_decisions() -> None:
    after = with_percent(with_stock(gel(), 3, "gum_stock", SHELF), 2, Decimal(6))
    assert [each.kind for each in decisions(gel(), after, SHELF)] == ["swapped", "percent"]


def test_that_scaling_many_lines_is_one_decision() -> None:
    before = make_formula(("water", "80"), ("glycerin", "5"), ("gum", "1"))
    found = decisions(before, scaled_to_whole(before), SHELF)
    assert [each.kind for each in found] == ["scaled"]


def test_that_notes_and_names_are_no_decisions_but_the_target_ph_is_one() -> None:
    after = replace(with_note(gel(), 2, "sticky?"), name="Other")
    assert decisions(gel(), after, SHELF) == ()
    aimed = replace(after, target_ph=(Decimal(5), Decimal(6)))
    assert decisions(gel(), aimed, SHELF) == (Decision("head", "target_ph"),)
