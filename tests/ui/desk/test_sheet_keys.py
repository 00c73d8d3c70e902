"""The sheet under the keys of a maker."""

from __future__ import annotations

from decimal import Decimal

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication

from tests.ui.desk.hand import CTRL, Hand
from tests.ui.desk.panels import make_parts
from workbench.ui.editors.name_editor import NameEditor
from workbench.ui.places.desk.rows import NEW_ID
from workbench.words.numbers import NumberStyle

WATER, GLYCERIN, GUM, ALCOHOL = 1, 2, 3, 4


@pytest.fixture
def hand(qtbot, tmp_path):
    parts = make_parts(tmp_path)
    parts.work.open(parts.lotion)
    return Hand(qtbot, parts)


def test_that_a_typed_percent_is_set_and_the_cursor_goes_down(hand):
    hand.at(GLYCERIN)
    hand.enter("5")
    assert hand.percent(GLYCERIN) == Decimal(5)
    assert hand.work.session.stack.undoText() == "Set Vegetable glycerin 99.5 % to 5 %"
    assert hand.sheet.focused_line == GUM
    assert hand.editor is None


@pytest.mark.parametrize(
    ("key", "text", "percent"),
    [
        ("percent", "12.5 g", "1.25"),  # of 1000 g
        ("grams", "30", "3"),
        ("grams", "7 %", "7"),
        ("percent", "2*1.5", "3"),
        ("percent", "1 oz", "2.8350"),  # an ounce is 28.349523125 g by definition
    ],
)
def test_that_a_cell_takes_percent_mass_and_sums(hand, key, text, percent):
    hand.at(GLYCERIN, key)
    hand.enter(text)
    assert hand.percent(GLYCERIN) == Decimal(percent)


def test_that_rest_typed_as_percent_moves_the_rest_line(hand):
    hand.at(GLYCERIN)
    hand.enter("q.s.")
    assert hand.percent(GLYCERIN) is None
    assert hand.percent(WATER) == Decimal("94.8")


@pytest.mark.parametrize("text", ["1,234", "2 ml", "abc", "101"])
def test_that_what_cannot_be_taken_stays_in_the_editor_with_a_sentence(hand, text):
    hand.at(GLYCERIN)
    hand.enter(text)
    assert hand.percent(GLYCERIN) == Decimal(4)
    assert hand.editor is not None
    assert hand.editor.text() == text
    assert len(hand.parts.notices.informed) == 1


def test_that_two_readings_are_both_named(hand):
    hand.at(GLYCERIN)
    hand.enter("1,234")
    (said,) = hand.parts.notices.informed
    assert "1.234" in said
    assert "1234" in said


def test_that_escape_brings_the_old_figure_back(hand):
    hand.at(GLYCERIN)
    hand.type("9")
    hand.press(Qt.Key.Key_Escape)
    assert hand.editor is None
    assert hand.percent(GLYCERIN) == Decimal(4)


def test_that_opening_and_leaving_the_rest_cell_keeps_it_the_rest_line(hand):
    hand.at(WATER)
    hand.press(Qt.Key.Key_F2)
    hand.press(Qt.Key.Key_Return)
    assert hand.percent(WATER) is None
    assert not hand.work.session.stack.count()


def test_that_the_comma_of_the_maker_is_read(qtbot, tmp_path):
    parts = make_parts(tmp_path, NumberStyle.COMMA)
    parts.work.open(parts.lotion)
    hand = Hand(qtbot, parts)
    hand.at(GLYCERIN)
    hand.enter("2,5")
    assert hand.percent(GLYCERIN) == Decimal("2.5")


def test_that_arrows_stop_at_the_head_and_pass_over_the_total(hand):
    hand.at(WATER)
    hand.press(Qt.Key.Key_Up)
    assert hand.sheet.current_row.id == ("phase", 1)
    hand.press(Qt.Key.Key_Down)
    hand.at(ALCOHOL)
    hand.press(Qt.Key.Key_Down)
    assert hand.sheet.rows[hand.sheet.currentIndex().row()].id == NEW_ID
    hand.press(Qt.Key.Key_Up)
    assert hand.sheet.focused_line == ALCOHOL


@pytest.mark.parametrize(
    ("key", "line"), [(Qt.Key.Key_Down, GUM), (Qt.Key.Key_Up, WATER)], ids=["down", "up"]
)
def test_that_an_arrow_takes_what_was_typed_and_goes_on(hand, key, line):
    hand.at(GLYCERIN)
    hand.type("9")
    hand.press(key)
    assert hand.percent(GLYCERIN) == Decimal(9)
    assert hand.sheet.focused_line == line


def test_that_keys_of_the_lines_do_nothing_while_a_cell_is_open(hand):
    hand.at(GLYCERIN)
    hand.type("9")
    hand.press(Qt.Key.Key_Down, CTRL)
    hand.press(Qt.Key.Key_F2)
    hand.press(Qt.Key.Key_Insert)
    assert [line.id for line in hand.work.formula.lines()] == [WATER, GLYCERIN, GUM, ALCOHOL]
    assert hand.editor.text() == "9"


def test_that_tab_goes_right_and_commits(hand):
    hand.at(GLYCERIN)
    hand.type("6")
    hand.press(Qt.Key.Key_Tab)
    assert hand.percent(GLYCERIN) == Decimal(6)
    assert hand.sheet._model.columns[hand.sheet.currentIndex().column()].key == "grams"


def test_that_delete_takes_the_selected_lines_in_one_step(hand):
    hand.at(GLYCERIN)
    hand.press(Qt.Key.Key_Down, Qt.KeyboardModifier.ShiftModifier)
    hand.press(Qt.Key.Key_Delete)
    assert [line.id for line in hand.work.formula.lines()] == [WATER, ALCOHOL]
    assert hand.work.session.stack.undoText() == "Delete 2 lines"
    hand.press(Qt.Key.Key_Z, CTRL)
    assert [line.id for line in hand.work.formula.lines()] == [WATER, GLYCERIN, GUM, ALCOHOL]
    hand.press(Qt.Key.Key_Y, CTRL)
    assert [line.id for line in hand.work.formula.lines()] == [WATER, ALCOHOL]


def test_that_lines_move_lock_and_take_the_rest_by_key(hand):
    hand.at(GLYCERIN)
    hand.press(Qt.Key.Key_Down, CTRL)
    assert [line.id for line in hand.work.formula.lines()] == [WATER, GUM, GLYCERIN, ALCOHOL]
    assert hand.sheet.focused_line == GLYCERIN
    hand.press(Qt.Key.Key_L, CTRL)
    assert hand.work.formula.line(GLYCERIN).locked
    hand.press(Qt.Key.Key_L, CTRL)
    hand.press(Qt.Key.Key_R, CTRL)
    assert hand.work.formula.line(GLYCERIN).is_rest


def test_that_a_locked_line_refuses_a_percent_and_says_so(hand):
    hand.at(GLYCERIN)
    hand.press(Qt.Key.Key_L, CTRL)
    hand.enter("5")
    assert hand.percent(GLYCERIN) == Decimal(4)
    assert hand.parts.notices.informed == ["Vegetable glycerin 99.5 % is locked. Unlock it first."]


def test_that_a_typed_name_adds_a_line_at_nothing_and_goes_to_its_percent(hand):
    hand.new()
    hand.type("niaci")
    assert isinstance(hand.editor, NameEditor)
    assert hand.editor.choices[0].key == "niacinamide"
    hand.press(Qt.Key.Key_Return)
    *_, added = hand.work.formula.lines()
    assert (added.ingredient, added.percent) == ("niacinamide", Decimal(0))
    assert hand.sheet.focused_line == added.id
    hand.enter("2.5")
    assert hand.percent(added.id) == Decimal("2.5")


def test_that_down_chooses_the_next_hit(hand):
    hand.new()
    hand.type("gly")
    second = hand.editor.choices[1].key
    hand.press(Qt.Key.Key_Down)
    hand.press(Qt.Key.Key_Return)
    *_, added = hand.work.formula.lines()
    assert added.ingredient == second


def test_that_a_click_on_a_hit_takes_it(hand, qtbot):
    hand.new()
    hand.type("gly")
    popup, second = hand.editor.popup, hand.editor.choices[1].key
    assert popup.isVisible()
    middle = popup.visualItemRect(popup.item(1)).center()
    qtbot.mouseClick(popup.viewport(), Qt.MouseButton.LeftButton, pos=middle)
    *_, added = hand.work.formula.lines()
    assert added.ingredient == second
    assert not popup.isVisible()


def test_that_a_name_nothing_fits_is_told_and_kept(hand):
    hand.new()
    hand.enter("qqqzzz")
    assert hand.editor.text() == "qqqzzz"
    assert "qqqzzz" in hand.parts.notices.informed[0]


def test_that_a_name_on_a_line_swaps_its_ingredient(hand):
    hand.at(GLYCERIN, "ingredient")
    hand.enter("niacinamide")
    assert hand.work.formula.line(GLYCERIN).ingredient == "niacinamide"
    assert hand.percent(GLYCERIN) == Decimal(4)


def test_that_copied_lines_are_a_table_by_tabs_with_its_headings(hand):
    hand.at(GLYCERIN)
    hand.press(Qt.Key.Key_C, CTRL)
    text = QGuiApplication.clipboard().text()
    assert text == (
        "Ingredient\tINCI\t% w/w\tg\tPhase\tNote\n"
        "Vegetable glycerin 99.5 %\tGlycerin\t4.00\t40.00\tWater phase\t\n"
    )


def test_that_the_line_in_focus_is_told(hand, qtbot):
    hand.at(WATER)
    with qtbot.waitSignal(hand.sheet.line_focused) as told:
        hand.sheet.focus_line(GUM)
    assert told.args == [GUM]
