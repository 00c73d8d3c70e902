"""Rework without fear: any edits, swaps, undo and redo, through the steps of a session."""

from __future__ import annotations

from collections.abc import Callable

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.formula.rework_edits import edits, start, tried
from workbench.formula.formula import Formula
from workbench.formula.totals import totals
from workbench.ui.session import Session

Act = Callable[[Session[Formula]], None]


def _edit(edit: Callable[[Formula], Formula]) -> Act:
    def act(session: Session[Formula]) -> None:
        session.edit("Edit", lambda formula: tried(formula, edit))

    return act


def _undo(session: Session[Formula]) -> None:
    session.stack.undo()


def _redo(session: Session[Formula]) -> None:
    session.stack.redo()


acts = st.lists(st.one_of(st.builds(_edit, edits), st.sampled_from([_undo, _redo])), max_size=15)


@settings(max_examples=150, deadline=None)
@given(acts)
def test_that_any_acts_keep_a_hundred_and_what_is_locked(sequence: list[Act]) -> None:
    session = Session(start())
    for act in sequence:
        act(session)
        sums = totals(session.value)
        assert session.value.rest_line is None or sums.percent == sum(sums.percents.values()) == 100
        kept = session.value.line(2)
        assert (kept.ingredient, kept.percent, kept.locked) == ("glycerin", 4, True)


@settings(max_examples=150, deadline=None)
@given(acts)
def test_that_undo_of_all_is_the_first_value_and_redo_of_all_the_last(sequence: list[Act]) -> None:
    session = Session(start())
    for act in sequence:
        act(session)
    while session.stack.canRedo():
        session.stack.redo()
    last = session.value
    while session.stack.canUndo():
        session.stack.undo()
    assert session.value == start()
    while session.stack.canRedo():
        session.stack.redo()
    assert session.value == last
