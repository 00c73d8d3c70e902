"""A lotion from its type, in the whole window, by the keyboard alone."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest
from PySide6.QtCore import Qt

from tests.ui.windows import Hand, make_window, small_studio
from workbench.formula.totals import totals

MOST_STEPS = 60


@pytest.fixture
def window(qtbot, tmp_path: Path):
    made = make_window(small_studio(tmp_path / "mine.studio"))
    qtbot.addWidget(made)
    yield made
    made.close()


@pytest.fixture
def hand(window) -> Hand:
    return Hand(window)


def lines(window) -> dict[str, Decimal | None]:
    return {line.ingredient: line.percent for line in window.work.formula.lines()}


def test_that_a_lotion_is_made_from_its_type_by_keyboard_in_under_60_steps(window, hand):
    key = Qt.Key
    hand.press(key.Key_N, ctrl=True)
    hand.type("lot")  # chooses Lotion
    hand.press(key.Key_Tab)
    hand.type("Dune lotion")
    hand.press(key.Key_Return)  # the draft, with the cursor in the sheet
    assert window.work.formula.name == "Dune lotion"
    hand.press(key.Key_Down, key.Key_Right)  # from water to the percent of glycerin
    hand.type("5")
    hand.press(key.Key_Return)
    hand.press(key.Key_1, ctrl=True)
    made = window.work.formula
    assert made.product_type == "lotion"
    assert totals(made).percent == Decimal(100)
    assert made.plan.batch_mass == Decimal(100)
    assert made.target_ph == (Decimal("5.0"), Decimal("5.6"))
    assert len(tuple(made.lines())) == 11
    assert lines(window)["glycerin"] == Decimal(5)
    assert len(hand.steps) < MOST_STEPS, hand.steps


def test_that_a_blank_formula_is_one_key_away_from_the_page(window, hand):
    hand.press(Qt.Key.Key_N, ctrl=True)
    hand.press(Qt.Key.Key_Return)
    assert len(hand.steps) == 2
    assert lines(window) == {"water": None}
    hand.type("Dew")  # the name is being typed
    hand.press(Qt.Key.Key_Return)
    assert window.work.formula.name == "Dew"


def test_that_escape_leaves_the_page_and_makes_nothing(window, hand):
    hand.press(Qt.Key.Key_N, ctrl=True)
    hand.press(Qt.Key.Key_Escape)
    assert window.desk.first.isVisible()
    assert window.work.studio.formulas.entries() == ()


def test_that_a_batch_that_cannot_be_read_is_told_and_nothing_is_made(window, hand):
    hand.press(Qt.Key.Key_N, ctrl=True)
    window.desk.new._batch.edit.setText("some")
    hand.press(Qt.Key.Key_Return)
    assert window.desk.new._error.isVisible()
    assert window.work.studio.formulas.entries() == ()


def test_that_a_taken_name_gets_a_number(window, hand):
    for _ in range(2):
        hand.press(Qt.Key.Key_N, ctrl=True)
        hand.type("gel")
        hand.press(Qt.Key.Key_Tab)
        hand.type("Dew")
        hand.press(Qt.Key.Key_Return)
    assert window.work.formula.name == "Dew 2"


def test_that_places_are_reached_by_their_keys_and_take_the_focus(window, hand):
    from PySide6.QtWidgets import QApplication

    seen = []
    for key, name in (
        (Qt.Key.Key_2, "shelf"),
        (Qt.Key.Key_Comma, "studio"),
        (Qt.Key.Key_1, "desk"),
    ):
        hand.press(key, ctrl=True)
        focus = QApplication.focusWidget()
        seen.append((window.place, window._made[name].isAncestorOf(focus)))
    assert seen == [("shelf", True), ("studio", True), ("desk", True)]
    assert window.bar._buttons["desk"].isChecked()
    assert not window.bar._buttons["studio"].isChecked()
