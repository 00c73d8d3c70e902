"""Versions and old sheets from the window: the menu keys, and the ways between the pages."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QLineEdit

from workbench import paths
from workbench.app import compose
from workbench.storage.opening import open_studio
from workbench.storage.sample import build_sample
from workbench.ui.theme import Appearance, SchemeChoice
from workbench.words.catalogue import load_words

NOON = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)
CTRL, SHIFT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier
SHEET = "Ingredient\t%\nWater\tq.s.\nShea butter\t4\n"


@pytest.fixture
def window(qtbot, tmp_path: Path):
    studio = open_studio(build_sample(paths.sample_db(), tmp_path, lambda: NOON))
    appearance = Appearance(paths.resources(), SchemeChoice.LIGHT)
    made = compose(studio, appearance, load_words(paths.resources() / "words"))
    qtbot.addWidget(made)
    made.show()
    qtbot.waitExposed(made)
    made.activateWindow()
    yield made
    made.close()


def numbers(window):
    return window.work.studio.versions.numbers(window.work.key)


def keep(window, qtbot, reason):
    qtbot.keyClick(window.desk.sheet, Qt.Key.Key_S, CTRL)
    field = window.findChild(QLineEdit, "keep_version_reason")
    assert field.isVisible()
    qtbot.keyClicks(field, reason)
    qtbot.keyClick(field, Qt.Key.Key_Return)
    window.work.tasks.flush()


def test_that_ctrl_s_asks_for_a_reason_and_keeps_a_version(window, qtbot):
    before = numbers(window)
    keep(window, qtbot, "before the glycerin trial")
    assert numbers(window) == (*before, len(before) + 1)
    assert window.desk.sheet is window.desk.focusWidget()


def test_that_the_head_tells_the_version_that_was_just_kept(window, qtbot):
    keep(window, qtbot, "before the glycerin trial")
    state = window.findChild(object, "draft_state").text()
    assert f"v{numbers(window)[-1]}" in state


def test_that_the_versions_have_a_key_and_escape_goes_back_to_the_sheet(window, qtbot):
    keep(window, qtbot, "first")
    qtbot.keyClick(window.desk.sheet, Qt.Key.Key_S, CTRL | SHIFT)
    page = window.desk.versions.page
    assert page.isVisible()
    assert not window.desk.side.isVisible()
    qtbot.keyClick(page.table, Qt.Key.Key_Escape)
    assert window.desk.sheet.isVisible()
    assert window.desk.side.isVisible()


def test_that_the_question_does_not_stay_over_another_formula(window, qtbot):
    qtbot.keyClick(window.desk.sheet, Qt.Key.Key_S, CTRL)
    other = next(row for row in window.desk.list.formulas if row.key != window.work.key)
    window.work.open(other.key)
    assert not window.desk.versions.keep.isVisible()


def test_that_the_page_follows_to_no_other_formula(window, qtbot):
    qtbot.keyClick(window.desk.sheet, Qt.Key.Key_S, CTRL | SHIFT)
    other = next(row for row in window.desk.list.formulas if row.key != window.work.key)
    window.work.open(other.key)
    assert window.desk.sheet.isVisible()


def test_that_nothing_is_kept_while_no_formula_is_open(window):
    window.work.close()
    for name in ("versions-keep", "versions-show"):
        assert not window.findChild(QAction, name).isEnabled()


def test_that_the_paper_has_its_own_key_for_storing(window, qtbot):
    window.show_worksheet()
    assert not window.findChild(QAction, "versions-keep").isEnabled()
    window.show_desk()
    assert window.findChild(QAction, "versions-keep").isEnabled()


def test_that_a_branch_opens_as_a_formula_of_its_own(window, qtbot):
    keep(window, qtbot, "worth a sister")
    page = window.desk.versions.page
    qtbot.keyClick(window.desk.sheet, Qt.Key.Key_S, CTRL | SHIFT)
    page.table.go_to(numbers(window)[-1])
    old = window.work.key
    page.branch()
    window.work.tasks.flush()
    assert window.work.key != old
    assert "worth a sister" in window.work.studio.formulas.notes(window.work.key)
    assert window.desk.sheet.isVisible()


def test_that_a_pasted_sheet_becomes_a_draft_on_the_desk(window, qtbot):
    window.desk.old_sheets.bring_in_text(SHEET)
    window.work.tasks.flush()
    page = window.desk.old_sheets.page
    assert page.isVisible()
    assert page.open_text == ""
    old = window.work.key
    qtbot.keyClick(page.table, Qt.Key.Key_Return, CTRL)
    window.work.tasks.flush()
    assert window.work.key != old
    assert len(list(window.work.formula.lines())) == 2
    assert window.desk.sheet.isVisible()


def test_that_an_old_sheet_can_be_brought_in_from_another_place(window, tmp_path):
    window.show_place("studio")
    path = tmp_path / "old.tsv"
    path.write_text(SHEET)
    window.files.sheet_chosen.emit(path)
    window.work.tasks.flush()
    assert window.desk.old_sheets.page.isVisible()


def test_that_the_menu_writes_a_sheet(window, tmp_path):
    path = tmp_path / "out.csv"
    window.files.sheet_export_chosen.emit(path)
    window.work.tasks.flush()
    assert "Ingredient" in path.read_text(encoding="utf-8-sig")


def test_that_the_keys_of_versions_and_sheets_stand_in_the_menus(window):
    keys = {
        name: window.findChild(QAction, name).shortcut().toString()
        for name in ("versions-keep", "versions-show", "action-sheet-import", "action-sheet-export")
    }
    assert keys == {
        "versions-keep": "Ctrl+S",
        "versions-show": "Ctrl+Shift+S",
        "action-sheet-import": "Ctrl+Shift+I",
        "action-sheet-export": "Ctrl+Shift+E",
    }
