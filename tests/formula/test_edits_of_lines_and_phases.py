"""Edits of lines and phases, and any number of them taken back."""

from __future__ import annotations

import random
from collections.abc import Callable
from decimal import Decimal

import pytest

from tests.builders import make_formula
from workbench.formula import edits, line_moves, phases, rebalance
from workbench.formula.edits import EditRefused
from workbench.formula.formula import PHASE_KINDS, Formula, Line, Phase, Step
from workbench.formula.pasted_lines import Entry, pasted_into
from workbench.ui.session import Session


def two_phases() -> Formula:
    """Lines 1 to 4 in phase 1, lines 5 and 6 in phase 2."""
    formula = make_formula(("water*", "0"), ("glycerin", "4"), ("gum", "1"), ("salt", "1"))
    oils = Phase(2, "Oils", "oil", (), (Line(5, "shea", Decimal(6)), Line(6, "wax", Decimal(2))))
    return make_formula(phases=(*formula.phases, oils))


def order(formula: Formula) -> list[list[int]]:
    return [[line.id for line in phase.lines] for phase in formula.phases]


@pytest.mark.parametrize(
    ("chosen", "step", "expected"),
    [
        ({2, 3}, 1, [[1, 4, 2, 3], [5, 6]]),
        ({2, 3}, -1, [[2, 3, 1, 4], [5, 6]]),
        ({2, 4}, 1, [[1, 3, 2], [4, 5, 6]]),
        ({3, 4}, 1, [[1, 2], [3, 4, 5, 6]]),
        ({5, 6}, -1, [[1, 2, 3, 4, 5, 6], []]),
        ({1, 2}, -1, [[1, 2, 3, 4], [5, 6]]),
        ({6}, 1, [[1, 2, 3, 4], [5, 6]]),
        ({1, 3}, -1, [[1, 3, 2, 4], [5, 6]]),
    ],
)
def test_that_chosen_lines_step_over_their_neighbours_and_over_heads(chosen, step, expected):
    assert order(line_moves.lines_moved_by(two_phases(), frozenset(chosen), step)) == expected


@pytest.mark.parametrize(
    ("chosen", "phase", "place", "expected"),
    [
        ({2, 4}, 2, 1, [[1, 3], [5, 2, 4, 6]]),
        ({6, 1}, 1, 0, [[1, 6, 2, 3, 4], [5]]),
        ({2}, 1, 4, [[1, 3, 4, 2], [5, 6]]),
        ({1, 5}, 2, None, [[2, 3, 4], [6, 1, 5]]),
        ({9}, 2, 0, [[1, 2, 3, 4], [5, 6]]),
    ],
)
def test_that_lines_dropped_at_a_place_stand_there_together(chosen, phase, place, expected):
    assert order(line_moves.lines_moved(two_phases(), frozenset(chosen), phase, place)) == expected


def test_that_lines_go_to_the_phase_beside_or_are_refused():
    formula = two_phases()
    down = line_moves.lines_moved_to_neighbour(formula, frozenset({1, 3}), 1)
    assert order(down) == [[2, 4], [1, 3, 5, 6]]
    with pytest.raises(EditRefused) as refused:
        line_moves.lines_moved_to_neighbour(formula, frozenset({5}), 1)
    assert refused.value.reason_id == "edit-no-phase-after"


def test_that_a_phase_begins_at_a_line_and_not_at_the_first():
    formula = phases.phase_begun_at(two_phases(), 3, "Gums", "water")
    assert order(formula) == [[1, 2], [3, 4], [5, 6]]
    assert [phase.name for phase in formula.phases] == ["A", "Gums", "Oils"]
    with pytest.raises(EditRefused):
        phases.phase_begun_at(two_phases(), 5, "Oils", "oil")


def test_that_a_phase_goes_and_its_lines_and_steps_stay_in_order():
    heat, cool = Step("heat", Decimal(75)), Step("cool")
    formula = phases.with_steps(phases.with_steps(two_phases(), 1, (heat,)), 2, (cool,))
    into_one = phases.phase_merged(formula, 2)
    into_two = phases.phase_merged(formula, 1)
    assert order(into_one) == order(into_two) == [[1, 2, 3, 4, 5, 6]]
    assert into_one.phases[0].steps == into_two.phases[0].steps == (heat, cool)
    assert (into_one.phases[0].id, into_two.phases[0].id) == (1, 2)


def test_that_a_name_gives_a_phase_without_a_kind_its_kind():
    words = {"water": "water", "oil": "oil"}
    formula = edits.phase_renamed(two_phases(), 1, "Water and gums")
    named = phases.kinds_by_name(edits.phase_renamed(formula, 2, "Waters"), words)
    assert [phase.kind for phase in named.phases] == ["water", "oil"]  # a chosen kind stays


def test_that_the_only_phase_with_lines_stays():
    with pytest.raises(EditRefused) as refused:
        phases.phase_merged(make_formula(("water", "1")), 1)
    assert refused.value.reason_id == "edit-phase-only"


@pytest.mark.parametrize(
    ("step", "reason"),
    [
        (Step(""), "edit-step-empty"),
        (Step("heat", target_c=Decimal(750)), "edit-step-temperature"),
        (Step("add", max_add_c=Decimal(-60)), "edit-step-temperature"),
        (Step("hold", hold_min=Decimal(-1)), "edit-step-hold"),
    ],
)
def test_that_a_step_no_bench_can_do_is_refused(step, reason):
    with pytest.raises(EditRefused) as refused:
        phases.with_steps(two_phases(), 1, (step,))
    assert refused.value.reason_id == reason


def test_that_a_second_rest_line_is_refused_when_put_in():
    with pytest.raises(EditRefused):
        line_moves.lines_put_in(two_phases(), [Line(1, "juice", None)], 2)


# Any edits, undone.

Edit = Callable[[Formula, random.Random], Formula]


def _some(formula: Formula, chance: random.Random) -> frozenset[int]:
    ids = [line.id for line in formula.lines()]
    return frozenset(chance.sample(ids, chance.randint(1, min(4, len(ids)))))


def _line(formula: Formula, chance: random.Random) -> int:
    return chance.choice([line.id for line in formula.lines()])


def _phase(formula: Formula, chance: random.Random) -> int:
    return chance.choice([phase.id for phase in formula.phases])


def _percent(chance: random.Random) -> Decimal:
    return Decimal(chance.randint(0, 200_000)) / 10_000


def _step(chance: random.Random) -> Step:
    return Step("heat", Decimal(chance.randint(20, 90)), Decimal(20), "slow", Decimal(40))


EDITS: tuple[Edit, ...] = (
    lambda f, c: edits.with_percent(f, _line(f, c), _percent(c)),
    lambda f, c: edits.with_percent(f, _line(f, c), _percent(c)),
    lambda f, c: edits.with_mass(f, _line(f, c), _percent(c), Decimal(500)),
    lambda f, c: edits.with_rest_line(f, _line(f, c)),
    lambda f, c: edits.with_note(f, _line(f, c), f"note {c.random()}"),
    lambda f, c: edits.with_purpose(f, _line(f, c), "humectant"),
    lambda f, c: edits.with_to_ph(f, _line(f, c), to_ph=c.random() < 0.5),
    lambda f, c: edits.with_ingredient(f, _line(f, c), "other"),
    lambda f, c: edits.added(f, "more", _percent(c), _phase(f, c), 0),
    lambda f, c: line_moves.lines_moved(f, _some(f, c), _phase(f, c), c.randint(0, 3)),
    lambda f, c: line_moves.lines_moved_by(f, _some(f, c), c.choice((-1, 1))),
    lambda f, c: line_moves.lines_moved_to_neighbour(f, _some(f, c), c.choice((-1, 1))),
    lambda f, c: line_moves.lines_put_in(f, [Line(1, "put", _percent(c))], _phase(f, c)),
    lambda f, c: phases.phase_put_in(f, "New", c.choice(PHASE_KINDS), _phase(f, c)),
    lambda f, c: phases.phase_begun_at(f, _line(f, c), "Begun", "other"),
    lambda f, c: phases.phase_moved_by(f, _phase(f, c), c.choice((-1, 1))),
    lambda f, c: phases.phase_merged(f, _phase(f, c)),
    lambda f, c: phases.with_phase_kind(f, _phase(f, c), c.choice(PHASE_KINDS)),
    lambda f, c: phases.with_steps(f, _phase(f, c), (_step(c),)),
    lambda f, c: edits.phase_renamed(f, _phase(f, c), f"name {c.random()}"),
    lambda f, _c: rebalance.scaled_to_whole(f),
    lambda f, c: rebalance.short_taken_from(f, _line(f, c)),
    lambda f, c: pasted_into(
        f, [Entry("pasted", _percent(c), "P")], _phase(f, c), is_replacing=False, name="A"
    ),
)
FREEING: tuple[Edit, ...] = (
    lambda f, c: edits.removed(f, _some(f, c)) if len(list(f.lines())) > 4 else f,
    lambda f, c: edits.with_lock(f, _line(f, c), locked=c.random() < 0.7),
    lambda f, c: edits.with_locks(f, _some(f, c), locked=c.random() < 0.7),
)


@pytest.mark.parametrize("seed", range(12))
def test_that_any_200_edits_undone_give_back_the_first_value_exactly(seed, qapp):
    chance = random.Random(seed)
    session = Session(two_phases())
    first, done = session.value, 0
    while done < 200:
        edit = chance.choice(EDITS + FREEING)
        try:
            done += session.edit("edit", lambda formula, edit=edit: edit(formula, chance))
        except EditRefused:
            continue
    last = session.value
    assert session.stack.count() == 200
    while session.stack.canUndo():
        session.stack.undo()
    assert session.value == first
    while session.stack.canRedo():
        session.stack.redo()
    assert session.value == last


@pytest.mark.parametrize("seed", range(12))
def test_that_a_locked_percent_holds_through_any_edits(seed):
    chance = random.Random(seed)
    formula = edits.with_locks(two_phases(), frozenset({2, 5}), locked=True)
    held = {line: formula.line(line).percent for line in (2, 5)}
    for _ in range(300):
        edit = chance.choice(EDITS)
        try:
            formula = edit(formula, chance)
        except EditRefused:
            continue
        assert {line: formula.line(line).percent for line in held} == held
        assert {formula.line(line).ingredient for line in held} == {"glycerin", "shea"}
