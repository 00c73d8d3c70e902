from __future__ import annotations

import pytest

from workbench.ui.session import Session

Value = tuple[int, ...]


@pytest.fixture
def session(qapp) -> Session[Value]:
    return Session[Value]((1, 2))


def test_that_an_edit_is_told_with_before_and_after(qtbot, session):
    with qtbot.waitSignal(session.changed, timeout=0) as told:
        assert session.edit("Add 3", lambda value: (*value, 3))
    assert told.args == [(1, 2), (1, 2, 3)]
    assert session.value == (1, 2, 3)


def test_that_undo_and_redo_go_back_and_forth_under_the_menu_phrase(session):
    session.edit("Add 3", lambda value: (*value, 3))
    assert session.stack.undoText() == "Add 3"
    session.stack.undo()
    assert session.value == (1, 2)
    session.stack.redo()
    assert session.value == (1, 2, 3)


def test_that_an_edit_to_an_equal_value_leaves_no_step(qtbot, session):
    with qtbot.assertNotEmitted(session.changed):
        assert not session.edit("Nothing", lambda value: (*value,))
    assert session.stack.count() == 0


def test_that_a_refused_edit_leaves_value_and_steps(session):
    def refuse(value: Value) -> Value:
        raise ValueError("refused")

    with pytest.raises(ValueError, match="refused"):
        session.edit("Refused", refuse)
    assert session.value == (1, 2)
    assert session.stack.count() == 0


def test_that_edits_without_a_key_are_one_step_each(session):
    session.edit("Set", lambda _value: (5,))
    session.edit("Set", lambda _value: (6,))
    assert session.stack.count() == 2


def test_that_edits_with_one_key_become_one_step(session):
    for number in (5, 6, 7):
        session.edit("Set", lambda _value, n=number: (n,), merge_key=("percent", 1))
    assert session.stack.count() == 1
    session.stack.undo()
    assert session.value == (1, 2)
    session.stack.redo()
    assert session.value == (7,)


def test_that_edits_with_different_keys_stay_apart(session):
    session.edit("Set", lambda _value: (5,), merge_key=("percent", 1))
    session.edit("Set", lambda _value: (6,), merge_key=("percent", 2))
    assert session.stack.count() == 2


def test_that_a_merged_step_back_where_it_began_goes(session):
    session.edit("Set", lambda _value: (5,), merge_key="slide")
    session.edit("Set", lambda _value: (1, 2), merge_key="slide")
    assert session.stack.count() == 0
    assert not session.stack.canUndo()
    assert session.value == (1, 2)


def test_that_an_edit_after_undo_drops_what_could_be_redone(session):
    session.edit("Set", lambda _value: (5,))
    session.stack.undo()
    session.edit("Set", lambda _value: (6,))
    assert not session.stack.canRedo()
    assert session.value == (6,)


def test_that_loading_another_value_drops_the_steps(qtbot, session):
    session.edit("Set", lambda _value: (5,))
    with qtbot.waitSignal(session.changed, timeout=0) as told:
        session.load((9,))
    assert told.args == [(5,), (9,)]
    assert session.stack.count() == 0
    assert session.stack.isClean()


def test_that_an_edit_from_within_the_news_of_one_is_refused(session):
    refused = []

    def meddle(_before: Value, _after: Value) -> None:
        try:
            session.edit("Meddle", lambda value: (*value, 0))
        except RuntimeError as error:
            refused.append(error)

    session.changed.connect(meddle)
    session.edit("Set", lambda _value: (5,))
    assert len(refused) == 1
    assert session.value == (5,)
    assert session.stack.count() == 1


def test_that_two_thousand_steps_undo_to_the_first_value(session):
    for number in range(2000):
        session.edit(f"Add {number}", lambda value, n=number: (*value[-3:], n))
    while session.stack.canUndo():
        session.stack.undo()
    assert session.value == (1, 2)
