"""The panel of rebalancing: each way shows what it changes while its number is typed."""

from __future__ import annotations

from decimal import Decimal

import pytest
from PySide6.QtCore import Qt

from tests.scenarios.test_niacin_gel import BLEND, GUM, PANTHENOL, WATER
from tests.ui.desk.niacin import niacin_window
from tests.ui.windows import Hand, settle
from workbench.formula.edits import with_lock, with_percent
from workbench.formula.totals import totals
from workbench.ui.places.desk.rows import line_id

KEY = Qt.Key
GLYCERIN, NIACINAMIDE = 2, 3


@pytest.fixture
def window(qtbot, tmp_path):
    made = niacin_window(tmp_path / "pebblewick.studio")
    qtbot.addWidget(made)
    yield made
    made.close()


@pytest.fixture
def hand(window) -> Hand:
    return Hand(window)


@pytest.fixture
def panel(window):
    return window.desk.rework.panel


def begin(window, hand, *lines):
    sheet = window.desk.sheet
    sheet.focus_line(lines[0])
    sheet.choose(frozenset(lines), line_id(lines[0]))
    settle(window)
    hand.press(KEY.Key_B, ctrl=True)


def way(panel, text):
    rows = [row for row in range(panel.list.count()) if text in panel.list.item(row).text()]
    panel.list.setCurrentRow(rows[0])


def give(panel, hand, text, place=0):
    edit = panel.inputs[place].edit
    edit.setFocus()
    edit.selectAll()
    hand.type(text)


def percent(window, line):
    return totals(window.work.formula).percents[line]


def without_rest(window):
    """Give the water a percent, so that the total is 98."""
    window.work.edit("Set", lambda formula: with_percent(formula, WATER, Decimal("86.3167")))


def test_that_a_group_is_brought_to_its_active_level_as_it_is_typed(window, hand, panel):
    begin(window, hand, GLYCERIN, NIACINAMIDE)
    way(panel, "Active matter")
    assert panel.inputs[0].edit.text() == "8"
    before = window.work.formula
    give(panel, hand, "10")
    assert panel.trial.rework.formula.line(GLYCERIN).percent == Decimal(5)
    assert "+1.00" in panel.text
    assert window.work.formula == before
    hand.press(KEY.Key_Return)
    assert percent(window, GLYCERIN) == percent(window, NIACINAMIDE) == Decimal(5)
    assert totals(window.work.formula).percent == Decimal(100)
    assert window.work.session.stack.count() == 1
    assert window.desk.sheet.hasFocus()


def test_that_a_diluted_active_is_set_by_its_pure_matter(window, hand, panel):
    begin(window, hand, PANTHENOL)
    way(panel, "Active matter")
    give(panel, hand, "1.5")
    hand.press(KEY.Key_Return)
    assert percent(window, PANTHENOL) == Decimal(2)  # 1.5 / 0.75


@pytest.mark.parametrize(
    ("keep", "glycerin", "niacinamide"),
    [("sum", "6", "2"), ("first", "4", "1.3333"), ("second", "12", "4")],
)
def test_that_two_lines_are_brought_to_a_ratio(window, hand, panel, keep, glycerin, niacinamide):
    begin(window, hand, GLYCERIN, NIACINAMIDE)
    way(panel, "Ratio of")
    give(panel, hand, "3")
    give(panel, hand, "1", 1)
    panel._keep.box.setCurrentIndex(panel._keep.box.findData(keep))
    panel._keep.chosen.emit(keep)
    panel.apply()
    assert percent(window, GLYCERIN) == Decimal(glycerin)
    assert percent(window, NIACINAMIDE) == Decimal(niacinamide)
    assert totals(window.work.formula).percent == Decimal(100)


def test_that_a_ratio_of_one_line_says_that_two_are_needed(window, hand, panel):
    begin(window, hand, GLYCERIN)
    way(panel, "Ratio")
    assert "two lines" in panel.text
    assert not panel._apply.isEnabled()


def test_that_another_line_takes_the_rest(window, hand, panel):
    begin(window, hand, GLYCERIN)
    way(panel, "Let the rest")
    assert "No percent changes now" in panel.text
    hand.press(KEY.Key_Return)
    assert window.work.formula.rest_line.id == GLYCERIN


def test_that_what_is_short_goes_to_the_line_or_over_all_of_them(window, hand, panel):
    without_rest(window)
    begin(window, hand, GLYCERIN)
    way(panel, "Short or over")
    assert "6.00" in panel.text
    way(panel, "all unlocked")
    hand.press(KEY.Key_Return)
    assert totals(window.work.formula).percent == Decimal(100)
    assert percent(window, GLYCERIN) == Decimal("4.0816")  # 4 x 100 / 98


def test_that_locks_never_move(window, hand, panel):
    without_rest(window)
    window.work.edit("Lock", lambda formula: with_lock(formula, BLEND, locked=True))
    begin(window, hand, GLYCERIN)
    way(panel, "Within")
    hand.press(KEY.Key_Return)
    assert percent(window, BLEND) == Decimal(1)
    assert totals(window.work.formula).percent == Decimal(100)


@pytest.mark.parametrize(
    ("text", "said"),
    [("Within", "already"), ("Level of", "holds the line that takes the rest")],
)
def test_that_what_cannot_be_done_says_what_stands_in_the_way(window, hand, panel, text, said):
    begin(window, hand, GLYCERIN)
    way(panel, text)
    assert said in panel.text
    before = window.work.formula
    panel.apply()
    assert window.work.formula == before
    assert panel.isVisible()


def test_that_a_level_beyond_the_water_is_refused_with_what_is_missing(window, hand, panel):
    begin(window, hand, GLYCERIN)
    way(panel, "Active matter")
    give(panel, hand, "95")
    assert "is missing" in panel.text
    give(panel, hand, "much")
    assert panel.trial is None
    assert panel.text.strip()


def test_that_escape_leaves_the_draft_as_it_was(window, hand, panel):
    before = window.work.formula
    begin(window, hand, GLYCERIN)
    way(panel, "Active matter")
    give(panel, hand, "6")
    hand.press(KEY.Key_Escape)
    assert not panel.isVisible()
    assert window.work.formula == before
    assert window.desk.sheet.hasFocus()


def test_that_a_change_from_elsewhere_closes_the_panel(window, hand, panel):
    begin(window, hand, GLYCERIN)
    window.work.edit("Set", lambda formula: with_percent(formula, GUM, Decimal("0.4")))
    assert not panel.isVisible()


def test_that_a_low_window_leaves_the_room_to_the_panel(window, hand, panel):
    begin(window, hand, GLYCERIN)
    window.resize(900, 480)
    settle(window)
    assert panel.isVisible()
    assert not window.desk.sheet.isVisible()
    hand.press(KEY.Key_Escape)
    assert window.desk.sheet.isVisible()
    assert window.desk.sheet.hasFocus()


def test_that_everything_that_takes_the_focus_has_a_name(window, hand, panel):
    begin(window, hand, GLYCERIN, NIACINAMIDE)
    way(panel, "Ratio of")
    fields = [field.edit for field in panel.inputs]
    for child in (panel, panel.list, *fields, panel._keep.box):
        assert child.accessibleName()
