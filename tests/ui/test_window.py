"""The frame of the window: what Undo reaches, the text size, the scheme, the foot line."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QAbstractButton, QLabel

from tests.ui.windows import Hand, make_window, settle, small_studio
from workbench.ui.theme import SchemeChoice


@pytest.fixture
def window(qtbot, tmp_path: Path):
    made = make_window(small_studio(tmp_path / "mine.studio", "Dew gel", "Fen balm"))
    qtbot.addWidget(made)
    yield made
    made.reset_text_size()
    made.choose_scheme(SchemeChoice.LIGHT)
    made.close()


@pytest.fixture
def hand(window) -> Hand:
    return Hand(window)


def action(window, name: str) -> QAction:
    return window.findChild(QAction, name)


def names(window) -> list[str]:
    return [entry.name for entry in window.work.studio.formulas.entries()]


def open_named(window, name: str) -> None:
    window.open_formula(window.work.studio.formulas.find(name))
    settle(window)


def do(window, name: str) -> None:
    action(window, name).trigger()
    settle(window)


def test_that_undo_brings_a_deleted_formula_back(window, hand):
    open_named(window, "Dew gel")
    do(window, "list-delete")
    assert names(window) == ["Fen balm"]
    assert action(window, "action-undo").text() == "Undo Delete Dew gel"
    hand.press(Qt.Key.Key_Z, ctrl=True)
    assert names(window) == ["Dew gel", "Fen balm"]
    assert window.work.formula.name == "Dew gel"


def test_that_a_deletion_can_be_undone_after_another_formula_was_opened_and_edited(window, hand):
    open_named(window, "Dew gel")
    do(window, "list-delete")
    open_named(window, "Fen balm")
    assert action(window, "action-undo").text() == "Undo Delete Dew gel"
    window.work.edit("Change pack", lambda formula: replace(formula, pack="jar"))
    settle(window)
    assert action(window, "action-undo").text() == "Undo Change pack"
    window.desk.list.view.setFocus()
    assert action(window, "action-undo").text() == "Undo Delete Dew gel"
    window.desk.sheet.setFocus()
    assert action(window, "action-undo").text() == "Undo Change pack"
    window.desk.list.view.setFocus()
    hand.press(Qt.Key.Key_Z, ctrl=True)
    assert names(window) == ["Dew gel", "Fen balm"]
    assert window.work.formula.pack == "jar"


def test_that_archiving_is_undone_in_the_same_way(window, hand):
    open_named(window, "Dew gel")
    do(window, "list-archive")
    assert names(window) == ["Fen balm"]
    hand.press(Qt.Key.Key_Z, ctrl=True)
    assert names(window) == ["Dew gel", "Fen balm"]


def test_that_the_head_of_an_archived_formula_says_so_and_brings_it_back(qtbot, window):
    open_named(window, "Dew gel")
    back = window.findChild(QAbstractButton, "bring_back")
    assert not back.isVisible()
    do(window, "list-archive")
    assert back.isVisible()
    assert window.findChild(QLabel, "draft_state").text().startswith("archived, draft")
    qtbot.mouseClick(back, Qt.MouseButton.LeftButton)
    settle(window)
    assert not back.isVisible()
    assert "Dew gel" in names(window)


def test_that_the_list_follows_what_was_found(window, hand):
    open_named(window, "Dew gel")
    hand.press(Qt.Key.Key_K, ctrl=True)
    hand.type("fen")
    hand.press(Qt.Key.Key_Return)
    assert window.desk.list.view.current().name == "Fen balm"


def test_that_the_text_size_is_told_and_put_back_with_one_key(window, hand):
    window.desk.sheet.setFocus()
    hand.press(Qt.Key.Key_Plus, Qt.Key.Key_Plus, ctrl=True)
    assert window._notices.text == "Text at 120 %"
    assert window.machine.text_size == pytest.approx(1.2)
    hand.press(Qt.Key.Key_0, ctrl=True)
    assert window._notices.text == "Text at 100 %"
    assert window.machine.text_size == pytest.approx(1.0)
    window.step_text_size(99)
    assert window._notices.text == "Text at 200 %"


def test_that_the_scheme_in_use_is_ticked(window):
    assert action(window, "action-scheme-light").isChecked()
    do(window, "action-scheme-dark")
    ticked = [
        choice.value
        for choice in SchemeChoice
        if action(window, f"action-scheme-{choice.value}").isChecked()
    ]
    assert ticked == ["dark"]


def test_that_the_foot_says_one_line_as_one_and_nothing_where_no_formula_is_seen(window, hand):
    hand.press(Qt.Key.Key_N, ctrl=True)
    hand.press(Qt.Key.Key_Return)
    assert window.foot.said("lines") == "1 line, 1 INCI name"
    hand.press(Qt.Key.Key_2, ctrl=True)
    assert window.place == "shelf"
    assert window.foot.said("lines") == ""
    window.work.renew()
    assert window.foot.said("lines") == ""
    hand.press(Qt.Key.Key_1, ctrl=True)
    assert window.foot.said("lines") == "1 line, 1 INCI name"


def test_that_the_cell_of_a_formula_just_begun_is_no_total(window, hand):
    for name in ("Dew gel", "Fen balm"):
        open_named(window, name)
        do(window, "list-delete")
    hand.press(Qt.Key.Key_N, ctrl=True)
    hand.type("gel")
    hand.press(Qt.Key.Key_Return)
    hand.press(Qt.Key.Key_1, ctrl=True)
    assert window.desk.sheet.current_row.kind.value == "line"
    first = window.desk.sheet.currentIndex()
    hand.press(Qt.Key.Key_2, ctrl=True)
    hand.press(Qt.Key.Key_1, ctrl=True)
    assert window.desk.sheet.currentIndex() == first


def test_that_enter_ends_the_name(window, hand):
    hand.press(Qt.Key.Key_N, ctrl=True)
    hand.press(Qt.Key.Key_Return)
    hand.type("Moss gel")
    hand.press(Qt.Key.Key_Return)
    assert window.work.formula.name == "Moss gel"
    assert not window.desk.title.name._edit.isVisible()
    hand.press(Qt.Key.Key_Return)
    assert window.desk.title.name._edit.isVisible()


def test_that_six_rows_stay_at_twice_the_text_size(window):
    window.resize(1280, 800)
    window.step_text_size(99)
    window._notices.dismiss()
    settle(window)
    sheet = window.desk.sheet
    head = window.desk.form._summary
    assert head.isVisible()
    assert sheet.viewport().height() >= 6 * sheet.rowHeight(0)
    window.reset_text_size()
    settle(window)
    assert not head.isVisible()
