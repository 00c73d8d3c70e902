from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QLineEdit, QListView, QPushButton

from tests.ui.desk.panels import make_parts, theme
from workbench.formula.edits import with_percent, with_rest_line
from workbench.ui.places.desk.list_panel import FormulaList
from workbench.ui.places.desk.title_row import TitleRow


@pytest.fixture
def parts(qtbot, tmp_path):
    made = make_parts(tmp_path)
    yield made
    made.work.studio.close()


@pytest.fixture
def panel(qtbot, parts):
    shown = FormulaList(parts.work, theme())
    qtbot.addWidget(shown)
    shown.resize(190, 600)
    shown.show()
    return shown


@pytest.fixture
def title(qtbot, parts):
    parts.work.open(parts.lotion)
    shown = TitleRow(parts.work, theme())
    qtbot.addWidget(shown)
    parts.work.open(parts.lotion)
    shown.resize(700, 80)
    shown.show()
    return shown


def spoken(panel) -> list[str]:
    model = panel.findChild(QListView).model()
    role = Qt.ItemDataRole.AccessibleTextRole
    return [model.index(row, 0).data(role) for row in range(model.rowCount())]


def press(qtbot, panel, *keys) -> str:
    view = panel.findChild(QListView)
    for key in keys:
        qtbot.keyClick(view, key)
    return view.currentIndex().data()


def test_that_formulas_stand_under_their_headings_with_their_state(panel):
    assert spoken(panel) == [
        "Drafts",
        "Harbour Fog lotion, draft, first version to come",
        "Formulas",
        "Oat Quilt gel, v1",
        "Stocks",
        "Xanthan gum 1 %, in 1 formula",
    ]


def test_that_a_formula_edited_after_its_version_is_a_draft_again(parts, panel):
    work = parts.work
    work.open(work.studio.formulas.find("Oat Quilt gel"))
    work.edit("Set", lambda formula: with_percent(formula, 2, Decimal(25)))
    assert "Oat Quilt gel, draft after v1" in spoken(panel)
    assert "Formulas" not in spoken(panel)


def test_that_the_keys_walk_over_headings(qtbot, panel):
    key = Qt.Key
    assert press(qtbot, panel, key.Key_Home) == "Harbour Fog lotion"
    assert press(qtbot, panel, key.Key_Down) == "Oat Quilt gel"
    assert press(qtbot, panel, key.Key_End) == "Xanthan gum 1 %"
    assert press(qtbot, panel, key.Key_Up, key.Key_Up) == "Harbour Fog lotion"
    assert press(qtbot, panel, key.Key_Up) == "Harbour Fog lotion"


def test_that_enter_opens(qtbot, parts, panel):
    press(qtbot, panel, Qt.Key.Key_Home, Qt.Key.Key_Return)
    assert parts.work.formula.name == "Harbour Fog lotion"


def test_that_a_new_formula_is_water_that_takes_the_rest(qtbot, parts, panel):
    with qtbot.waitSignal(panel.new_wanted, timeout=0):
        qtbot.mouseClick(panel.findChild(QPushButton, "new_formula"), Qt.MouseButton.LeftButton)
    with qtbot.waitSignal(panel.created, timeout=0):
        panel.make_new()
    formula = parts.work.formula
    assert formula.name == "New formula"
    assert [line.ingredient for line in formula.lines()] == ["water"]
    assert formula.rest_line is not None
    assert parts.work.assessment.totals.is_whole
    panel.make_new()
    assert parts.work.formula.name == "New formula 2"


def test_that_a_studio_without_formulas_says_so(qtbot, parts, panel):
    formulas = parts.work.studio.formulas
    for entry in formulas.entries():
        formulas.archive(entry.key)
    panel.refresh()
    assert panel.findChild(QListView).isHidden()
    assert panel.findChild(QLabel, "formula_list_empty").text().startswith("No formula yet")


def test_that_a_rename_is_stored_and_shown_in_the_list(qtbot, parts, panel, title):
    qtbot.keyClick(title.name, Qt.Key.Key_F2)
    edit = title.findChild(QLineEdit)
    edit.clear()
    qtbot.keyClicks(edit, "  Harbour  Mist ")
    qtbot.keyClick(edit, Qt.Key.Key_Return)
    assert parts.work.studio.formulas.draft(parts.lotion)[0].name == "Harbour Mist"
    assert "Harbour Mist, draft, first version to come" in spoken(panel)
    parts.work.session.stack.undo()
    assert "Harbour Fog lotion, draft, first version to come" in spoken(panel)


def test_that_escape_and_an_empty_name_leave_the_name(qtbot, parts, title):
    title.name.begin()
    edit = title.findChild(QLineEdit)
    qtbot.keyClicks(edit, "x")
    qtbot.keyClick(edit, Qt.Key.Key_Escape)
    title.name.begin()
    edit.clear()
    qtbot.keyClick(edit, Qt.Key.Key_Return)
    assert parts.work.formula.name == "Harbour Fog lotion"
    assert parts.notices.informed == ["A formula needs a name; it keeps the one it had."]


def reason(title) -> str:
    return title.findChild(QLabel, "worksheet_reason").text()


def test_that_a_worksheet_is_asked_for(qtbot, title):
    with qtbot.waitSignal(title.worksheet_asked, timeout=0):
        qtbot.mouseClick(title.findChild(QPushButton, "worksheet"), Qt.MouseButton.LeftButton)
    assert reason(title) == "Ctrl+P"


def test_that_a_blocked_worksheet_is_told_when_asked_for(qtbot, parts, title):
    parts.work.edit("Set", lambda formula: with_percent(formula, 2, Decimal(99)))
    with qtbot.assertNotEmitted(title.worksheet_asked):
        title.ask_worksheet()
    assert parts.notices.informed == ["The lines exceed the batch by 0.2 %."]


def test_that_a_total_other_than_100_blocks_the_worksheet_in_words(parts, title):
    parts.work.edit("Fix", lambda formula: with_percent(formula, 1, Decimal("94.7")))
    assert not title.findChild(QPushButton, "worksheet").isEnabled()
    assert reason(title) == "The total is 99.9 %, not 100 %."


def test_that_lines_over_the_batch_block_the_worksheet_in_words(parts, title):
    parts.work.edit("Set", lambda formula: with_percent(formula, 2, Decimal(99)))
    assert reason(title) == "The lines exceed the batch by 0.2 %."
    parts.work.edit("Set", lambda formula: with_percent(formula, 2, Decimal(4)))
    assert title.findChild(QPushButton, "worksheet").isEnabled()


def test_that_a_stop_of_law_does_not_block_the_worksheet(parts, title):
    parts.work.edit("Set", lambda formula: with_percent(formula, 4, Decimal("1.4")))
    assert title.findChild(QPushButton, "worksheet").isEnabled()
    assert "1 stop" in title.findChild(QLabel, "draft_state").text()


def test_that_a_draft_without_a_batch_asks_for_one(parts, title):
    parts.work.edit(
        "Clear", lambda formula: replace(formula, plan=replace(formula.plan, batch_mass=None))
    )
    assert reason(title) == "Say first how much to make."


def test_that_another_rest_line_keeps_the_worksheet(parts, title):
    parts.work.edit("Rest", lambda formula: with_rest_line(formula, 2))
    assert title.findChild(QPushButton, "worksheet").isEnabled()
