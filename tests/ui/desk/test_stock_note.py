"""The note below the title of a stock: who uses it, and which would come out otherwise."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from PySide6.QtCore import Qt

from tests.scenarios.test_niacin_gel import GUM
from tests.ui.desk.niacin import NAME, STOCK_NAME, niacin_window
from tests.ui.desk.panels import NOON
from tests.ui.windows import Hand, settle
from workbench.formula.edits import with_percent
from workbench.formula.formula import Formula


@pytest.fixture
def window(qtbot, tmp_path):
    made = niacin_window(tmp_path / "pebblewick.studio")
    qtbot.addWidget(made)
    made.desk.sheet.focus_line(GUM)
    hand = Hand(made)
    hand.press(Qt.Key.Key_K, ctrl=True, shift=True)
    hand.press(Qt.Key.Key_Return)
    yield made
    made.close()


def open_named(window, name):
    settle(window)
    window.work.open(window.work.studio.formulas.find(name))
    settle(window)


def stronger(formula: Formula) -> Formula:
    return with_percent(with_percent(formula, 1, Decimal("1.2")), 3, Decimal("97.8"))


def test_that_a_formula_nobody_uses_has_no_note(window):
    assert window.desk.rework.note.isHidden()


def test_that_a_stock_says_that_a_formula_uses_it(window):
    open_named(window, STOCK_NAME)
    note = window.desk.rework.note
    assert note.isVisible()
    assert "In 1 formula" in note.text
    assert note.uses == ()


def test_that_a_changed_stock_shows_who_would_differ_and_changes_none(window):
    formulas = window.work.studio.formulas
    before = formulas.draft(formulas.find(NAME))
    open_named(window, STOCK_NAME)
    window.work.edit("Stronger", stronger)
    note = window.desk.rework.note
    assert "1 would differ" in note.text
    shown = [link for link in note.links if link.isVisible()]
    assert [link.text() for link in shown] == [NAME]
    assert "Xanthan Gum 0.35 % before, 0.42 % now" in shown[0].accessibleDescription()
    settle(window)
    assert formulas.draft(formulas.find(NAME)) == before
    window.work.session.stack.undo()
    assert note.uses == ()


def test_that_the_link_opens_the_draft(window):
    open_named(window, STOCK_NAME)
    window.work.edit("Stronger", stronger)
    settle(window)
    next(link for link in window.desk.rework.note.links if link.isVisible()).click()
    settle(window)
    assert window.work.formula.name == NAME
    assert window.desk.rework.note.isHidden()


def test_that_a_stock_is_held_against_its_latest_version(window):
    open_named(window, STOCK_NAME)
    work = window.work
    work.studio.versions.make_version(work.key, "first", NOON, work.shelf)
    work.edit("Stronger", stronger)
    open_named(window, NAME)
    open_named(window, STOCK_NAME)
    assert len(window.desk.rework.note.uses) == 1


def test_that_a_change_of_what_no_draft_holds_differs_nowhere(window):
    open_named(window, STOCK_NAME)
    window.work.edit("Rename", lambda formula: replace(formula, name="Gum water"))
    assert window.desk.rework.note.uses == ()
