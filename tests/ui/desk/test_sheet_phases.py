"""Phases and notes on the sheet: by key, by menu, by mouse."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtWidgets import QComboBox, QLineEdit, QPushButton

from tests.ui.desk.hand import ALT, CTRL, NONE, SHIFT, Hand
from tests.ui.desk.panels import make_parts, theme
from workbench.formula.edits import with_note
from workbench.formula.formula import Line, Phase, Step
from workbench.ui.places.desk.cell_paint import CellPainter
from workbench.ui.places.desk.line_drag import target_of
from workbench.ui.places.desk.rows import NEW_ID, Kind
from workbench.ui.places.desk.step_reading import read_minutes, read_temperature
from workbench.ui.places.desk.typed import NotTaken

WATER, GLYCERIN, GUM, ALCOHOL, SHEA, CETYL = 1, 2, 3, 4, 5, 6


@pytest.fixture
def hand(qtbot, tmp_path):
    parts = make_parts(tmp_path)
    parts.work.open(parts.lotion)
    lines = (Line(SHEA, "shea_butter", Decimal(6)), Line(CETYL, "cetyl_alcohol", Decimal(2)))
    oils = Phase(2, "Oil phase", "oil", (Step("heat", Decimal(75)),), lines)
    parts.work.session.load(replace(parts.work.formula, phases=(*parts.work.formula.phases, oils)))
    return Hand(qtbot, parts)


def step(hand, number, field):
    return hand.sheet._panel.fields[number - 1][field]


def test_that_lines_cross_the_head_by_the_same_key_and_come_back(hand):
    hand.at(ALCOHOL)
    hand.press(Qt.Key.Key_Down, CTRL)
    assert hand.order == [[WATER, GLYCERIN, GUM], [ALCOHOL, SHEA, CETYL]]
    assert hand.sheet.focused_line == ALCOHOL
    hand.press(Qt.Key.Key_Up, CTRL)
    assert hand.order == [[WATER, GLYCERIN, GUM, ALCOHOL], [SHEA, CETYL]]


def test_that_several_chosen_lines_move_together_and_stay_chosen(hand):
    hand.at(GLYCERIN)
    hand.press(Qt.Key.Key_Down, SHIFT)
    hand.press(Qt.Key.Key_Down, ALT)
    assert hand.order == [[WATER, ALCOHOL], [GLYCERIN, GUM, SHEA, CETYL]]
    assert hand.sheet.selected_lines() == {GLYCERIN, GUM}
    assert hand.work.session.stack.undoText() == "Move 2 lines down"
    hand.undo()
    assert hand.order == [[WATER, GLYCERIN, GUM, ALCOHOL], [SHEA, CETYL]]


def test_that_there_is_a_sentence_where_no_phase_follows(hand):
    hand.at(SHEA)
    hand.press(Qt.Key.Key_Down, ALT)
    assert hand.parts.notices.informed == ["There is no phase after this one. Add one first."]


def test_that_a_phase_is_added_named_and_filled_by_key_alone(hand):
    hand.at(CETYL)
    hand.press(Qt.Key.Key_Return, CTRL | SHIFT)
    *_, new = hand.work.formula.phases
    assert new.name == "Phase C"  # a phase without a name could not be stored
    assert hand.parts.notices.told == []
    hand.enter("Cool-down")
    *_, new = hand.work.formula.phases
    assert (new.name, new.kind, new.lines) == ("Cool-down", "cool-down", ())
    hand.head(new.id)
    hand.new()
    assert hand.sheet.rows[-1].name == "Type a name to add to Cool-down"
    hand.enter("niacinamide")
    assert [line.ingredient for line in hand.work.formula.phases[-1].lines] == ["niacinamide"]


def test_that_a_phase_begins_at_the_line_of_the_cursor(hand):
    hand.at(GUM)
    hand.press(Qt.Key.Key_Return, CTRL)
    hand.enter("Gums")
    assert hand.order == [[WATER, GLYCERIN], [GUM, ALCOHOL], [SHEA, CETYL]]
    assert hand.work.formula.phases[1].name == "Gums"


def test_that_typing_on_a_head_renames_its_phase(hand):
    hand.head(2, "percent")
    hand.enter("Oils")
    assert hand.work.formula.phases[1].name == "Oils"
    assert hand.work.session.stack.undoText() == "Rename Oil phase"


def test_that_a_phase_moves_with_its_lines(hand):
    hand.at(SHEA)
    hand.press(Qt.Key.Key_Up, CTRL | SHIFT)
    assert hand.order == [[SHEA, CETYL], [WATER, GLYCERIN, GUM, ALCOHOL]]
    assert hand.sheet.focused_line == SHEA


def test_that_a_removed_phase_says_where_its_lines_went_and_offers_the_way_back(hand):
    hand.head(2)
    hand.press(Qt.Key.Key_Delete)
    assert hand.order == [[WATER, GLYCERIN, GUM, ALCOHOL, SHEA, CETYL]]
    assert hand.parts.notices.informed == [
        "Oil phase is removed. Its 2 lines went to Water phase, with its steps."
    ]
    hand.parts.notices.undos[0]()
    assert hand.order == [[WATER, GLYCERIN, GUM, ALCOHOL], [SHEA, CETYL]]


def test_that_the_steps_open_by_key_take_units_and_are_one_undo_step_each(hand):
    hand.at(WATER)
    hand.press(Qt.Key.Key_Return, ALT)
    edit = step(hand, 1, "text")
    for text in ("Heat", "167 F", "0.5 h"):
        hand.bot.keyClicks(edit, text)
        hand.bot.keyClick(edit, Qt.Key.Key_Return)
        edit = hand.sheet.window().focusWidget()
    assert edit is step(hand, 1, "speed")
    assert hand.work.formula.phases[0].steps == (Step("Heat", Decimal(75), Decimal(30)),)
    assert step(hand, 1, "target").text() == "75 °C"
    assert len(hand.sheet._panel.fields) == 2
    hand.undo()
    assert hand.work.formula.phases[0].steps == (Step("Heat", Decimal(75)),)


def test_that_a_temperature_that_cannot_be_is_told_and_kept(hand):
    hand.sheet.open_phase(2)
    edit = step(hand, 1, "target")
    edit.setFocus()
    edit.selectAll()
    hand.bot.keyClicks(edit, "750")
    hand.bot.keyClick(edit, Qt.Key.Key_Return)
    assert edit.text() == "750"
    assert "750 °C is not between" in hand.sheet._panel._error.text()
    assert hand.work.formula.phases[1].steps[0].target_c == Decimal(75)


def test_that_escape_closes_the_steps_and_the_sheet_has_the_keys(hand):
    hand.sheet.open_phase(2)
    panel = hand.sheet._panel
    hand.bot.keyClick(step(hand, 1, "text"), Qt.Key.Key_Escape)
    assert not panel.isVisible()
    assert hand.sheet.hasFocus()


def test_that_the_steps_go_when_the_maker_works_elsewhere(hand):
    hand.sheet.open_phase(2)
    hand.sheet.setFocus()
    hand.at(SHEA)
    hand.bot.waitUntil(lambda: not hand.sheet._panel.isVisible())


def test_that_a_refused_step_is_told_when_the_panel_goes(hand):
    hand.sheet.open_phase(2)
    edit = step(hand, 1, "target")
    edit.setFocus()
    edit.selectAll()
    hand.bot.keyClicks(edit, "warm")
    hand.bot.keyClick(edit, Qt.Key.Key_Return)
    hand.sheet.setFocus()
    hand.bot.waitUntil(lambda: not hand.sheet._panel.isVisible())
    assert "'warm' is no temperature" in hand.parts.notices.informed[0]


def test_that_every_input_of_the_steps_has_a_name(hand):
    hand.sheet.open_phase(2)
    inputs = hand.sheet._panel.findChildren(QLineEdit) + hand.sheet._panel.findChildren(QComboBox)
    assert all(one.accessibleName() for one in inputs)


def test_that_a_step_can_be_removed_and_the_panel_stays(hand):
    hand.sheet.open_phase(2)
    panel = hand.sheet._panel
    button = panel.findChild(QPushButton, "phase_remove_1")
    hand.bot.mouseClick(button, Qt.MouseButton.LeftButton)
    assert hand.work.formula.phases[1].steps == ()
    assert panel.isVisible()
    assert len(panel.fields) == 1


def test_that_the_panel_goes_with_its_phase(hand):
    hand.sheet.open_phase(2)
    hand.sheet._commands.phases.remove(2)
    assert not hand.sheet._panel.isVisible()


def test_that_a_cell_whose_line_goes_by_undo_closes_and_others_open_again(hand):
    hand.at(WATER)
    hand.press(Qt.Key.Key_Insert)
    hand.enter("niacinamide")
    hand.press(Qt.Key.Key_F2)
    hand.undo()
    assert hand.editor is None
    hand.at(GLYCERIN)
    hand.enter("5")
    assert hand.percent(GLYCERIN) == Decimal(5)


def test_that_a_line_is_added_below_the_one_of_the_cursor(hand):
    hand.at(WATER)
    hand.press(Qt.Key.Key_Insert)
    assert hand.sheet.rows[-1].name == "Type a name to add below Distilled or deionised water"
    hand.enter("niacinamide")
    new = hand.sheet.focused_line
    assert hand.order[0] == [WATER, new, GLYCERIN, GUM, ALCOHOL]
    assert hand.sheet.rows[-1].name == "Type a name to add to Water phase"


def test_that_a_note_opens_beside_the_name_and_leaves_the_columns_alone(hand):
    before = hand.sheet.shown_columns
    name = hand.sheet.visualRect(hand.sheet._model.index_of(("line", GUM), "ingredient"))
    hand.at(GUM)
    hand.press(Qt.Key.Key_F2, SHIFT)
    assert hand.editor.isVisible()
    assert hand.editor.geometry().left() > name.left()
    assert hand.editor.geometry().top() == name.top()
    hand.enter("sprinkle slowly")
    assert hand.work.formula.line(GUM).note == "sprinkle slowly"
    assert hand.sheet.shown_columns == before
    assert hand.sheet.focused_line == ALCOHOL


def test_that_a_note_is_added_to_and_never_typed_over(hand):
    hand.work.edit("Note", lambda one: with_note(one, GUM, "Start from 0.2 – 1 %"))
    hand.at(GUM)
    hand.press(Qt.Key.Key_F2, SHIFT)
    assert hand.editor.selectedText() == ""
    hand.press(Qt.Key.Key_Return)
    assert hand.work.formula.line(GUM).note == "Start from 0.2 – 1 %"
    hand.at(GUM)
    hand.press(Qt.Key.Key_F2, SHIFT)
    hand.enter("sprinkle slowly")
    assert hand.work.formula.line(GUM).note == "Start from 0.2 – 1 %; sprinkle slowly"


def test_that_a_note_opens_in_its_column_where_there_is_one_and_can_be_emptied(hand):
    hand.sheet.resize(1400, 500)
    hand.sheet.show_column("note", shown=True)
    hand.at(GUM)
    hand.press(Qt.Key.Key_F2, SHIFT)
    hand.enter("sprinkle slowly")
    hand.at(GUM, "note")
    hand.press(Qt.Key.Key_F2)
    hand.press(Qt.Key.Key_A, CTRL)
    hand.press(Qt.Key.Key_Delete)
    hand.press(Qt.Key.Key_Return)
    assert hand.work.formula.line(GUM).note == ""


def test_that_a_name_is_added_where_a_line_was_typed_into_last(hand):
    hand.at(ALCOHOL)
    hand.enter("0.9")  # Enter leads on into the next phase
    assert hand.sheet.focused_line == SHEA
    assert hand.sheet.rows[-1].name == "Type a name to add to Water phase"
    assert hand.sheet.rows[-1].letter == "A"
    hand.new()
    hand.enter("panthenol")
    assert hand.order[0][-1] == hand.sheet.focused_line


def test_that_a_click_into_another_phase_leads_the_next_name_there(hand):
    hand.at(ALCOHOL)
    hand.enter("0.9")
    at = hand.sheet.visualRect(hand.sheet._model.index_of(("line", CETYL), "percent")).center()
    hand.bot.mouseClick(hand.sheet.viewport(), Qt.MouseButton.LeftButton, NONE, at)
    assert hand.sheet.rows[-1].name == "Type a name to add to Oil phase"
    assert hand.sheet.rows[-1].letter == "B"


@pytest.mark.parametrize("scale", [1.0, 2.0])
def test_that_the_mark_of_a_note_stands_clear_of_a_long_name(hand, scale):
    painter = CellPainter(theme(scale=scale))
    inner, ends, marks = QRect(0, 0, 200, 64), [], []
    delegate = hand.sheet._delegate
    delegate.paints = painter
    painter.text = lambda _p, rect, text, *_look: ends.append(rect) or rect.right() + 1
    painter.note = lambda _p, room, beside, note: marks.append(room) or beside
    delegate._ingredient(None, inner, "A very long name " * 9, (Kind.LINE, "", "", "a note"))
    side = painter.theme.px(12)
    assert ends[0].right() < marks[0].right() - side - painter.pad


def test_that_a_purpose_is_chosen_from_the_list_and_given_back(hand):
    hand.sheet.resize(1200, 500)
    hand.at(ALCOHOL, "purpose")
    hand.type("solv")
    assert hand.editor.choices[0].key == "solvent"
    hand.press(Qt.Key.Key_Return)
    assert hand.work.formula.line(ALCOHOL).purpose == "solvent"
    hand.at(ALCOHOL, "purpose")
    hand.press(Qt.Key.Key_F2)
    hand.press(Qt.Key.Key_Delete)
    hand.press(Qt.Key.Key_Return)
    assert hand.work.formula.line(ALCOHOL).purpose == ""


def test_that_a_line_dragged_by_the_margin_stands_where_it_was_let_go(hand):
    sheet, view = hand.sheet, hand.sheet.viewport()
    row = sheet._model.index_of(("line", GLYCERIN), "mark")
    start = sheet.visualRect(row).center()
    over = sheet.visualRect(sheet._model.index_of(("line", CETYL), "mark"))
    end = QPoint(over.center().x(), over.top() + 4)
    hand.bot.mousePress(view, Qt.MouseButton.LeftButton, pos=start)
    hand.bot.mouseMove(view, start + QPoint(0, 20))
    hand.bot.mouseMove(view, end)
    assert not sheet.grab().isNull()
    hand.bot.mouseRelease(view, Qt.MouseButton.LeftButton, pos=end)
    assert hand.order == [[WATER, GUM, ALCOHOL], [SHEA, GLYCERIN, CETYL]]
    assert sheet.selected_lines() == {GLYCERIN}


def test_that_escape_lets_a_dragged_line_go_where_it_was(hand):
    sheet, view = hand.sheet, hand.sheet.viewport()
    start = sheet.visualRect(sheet._model.index_of(("line", GLYCERIN), "mark")).center()
    hand.bot.mousePress(view, Qt.MouseButton.LeftButton, pos=start)
    hand.bot.mouseMove(view, start + QPoint(0, 90))
    hand.press(Qt.Key.Key_Escape)
    hand.bot.mouseRelease(view, Qt.MouseButton.LeftButton, pos=start + QPoint(0, 90))
    assert hand.order == [[WATER, GLYCERIN, GUM, ALCOHOL], [SHEA, CETYL]]


def test_that_a_drop_above_the_first_head_and_below_the_last_line_has_a_place(hand):
    rows = hand.sheet.rows
    assert (target_of(rows, 0).phase, target_of(rows, 0).place) == (1, 0)
    assert (target_of(rows, 99).phase, target_of(rows, 99).place) == (2, 2)


def test_that_a_click_on_steps_opens_them(hand):
    sheet = hand.sheet
    at = sheet.visualRect(sheet._model.index_of(("phase", 2), "range")).center()
    hand.bot.mouseClick(sheet.viewport(), Qt.MouseButton.LeftButton, pos=at)
    assert sheet._panel.isVisible()
    assert step(hand, 1, "text").text() == "heat"


def test_that_every_action_has_words_and_its_own_keys(hand):
    actions = [one for one in hand.sheet.sheet_actions() if not one.isSeparator()]
    keys = [key.toString() for one in actions for key in one.shortcuts()]
    assert all(one.text() and one.property("group") for one in actions)
    assert len(set(keys)) == len(keys)


def test_that_a_line_is_held_back_for_ph_and_says_so(hand):
    hand.at(ALCOHOL)
    hand.press(Qt.Key.Key_H, CTRL)
    assert hand.work.formula.line(ALCOHOL).to_ph
    row = next(row for row in hand.sheet.rows if row.line == ALCOHOL)
    assert row.is_to_ph
    assert hand.sheet._model.index_of(row.id, "range").data() == "held back for pH"


def test_that_the_total_stays_in_view_while_the_lines_scroll(qtbot, hand):
    hand.sheet.resize(900, 170)
    assert hand.sheet.total_bar.isVisible()
    hand.sheet.focus_line(ALCOHOL)
    cell = hand.sheet.visualRect(hand.sheet.currentIndex())
    assert cell.bottom() <= hand.sheet.total_bar.geometry().top()
    hand.sheet.verticalScrollBar().setValue(hand.sheet.verticalScrollBar().maximum())
    assert not hand.sheet.total_bar.isVisible()
    hand.sheet.resize(900, 600)
    assert not hand.sheet.total_bar.isVisible()


def test_that_the_total_is_announced_once_after_an_edit(qtbot, hand):
    hand.at(WATER)
    hand.enter("10")
    qtbot.waitUntil(lambda: "short" in hand.sheet._spoken.said)
    assert hand.sheet._spoken.said == "Total 23.20 %, short 76.80 %"


def test_that_columns_are_shown_moved_and_remembered(qtbot, hand):
    sheet = hand.sheet
    with qtbot.waitSignal(sheet.columns_changed) as told:
        sheet.show_column("pure", shown=True)
    assert told.args[0][:3] == ("ingredient", "purpose", "percent")
    assert "pure" in told.args[0]
    hand.at(GUM, "pure")
    hand.press(Qt.Key.Key_Left, CTRL | SHIFT)
    assert sheet.shown_columns.index("pure") < sheet.shown_columns.index("percent")
    sheet.show_column("percent", shown=False)
    assert "percent" in sheet.shown_columns
    sheet.set_columns(("nonsense", "cost"))
    assert sheet.shown_columns == ("ingredient", "percent", "cost")
    sheet.set_columns(())
    assert sheet.shown_columns[0] == "ingredient"


def test_that_tab_follows_the_order_of_the_columns(hand):
    hand.sheet.set_columns(("percent", "ingredient", "grams"))
    hand.at(GUM)
    hand.press(Qt.Key.Key_Tab)
    assert hand.sheet._model.columns[hand.sheet.currentIndex().column()].key == "ingredient"


def test_that_the_model_of_the_sheet_passes_the_tester(qtmodeltester, hand):
    qtmodeltester.check(hand.sheet.model(), force_py=True)
    hand.at(SHEA)
    hand.press(Qt.Key.Key_Up, CTRL)
    hand.press(Qt.Key.Key_Delete)
    hand.undo()
    hand.undo()
    qtmodeltester.check(hand.sheet.model(), force_py=True)


def test_that_every_cell_has_its_sentence(hand):
    model = hand.sheet.model()
    for row in range(model.rowCount()):
        for column in range(model.columnCount()):
            assert model.index(row, column).data(Qt.ItemDataRole.AccessibleTextRole)
    index = hand.sheet._model.index_of(("line", GLYCERIN), "percent")
    assert index.data(Qt.ItemDataRole.AccessibleTextRole) == (
        "Vegetable glycerin 99.5 %, percent, 4.00, phase A Water phase"
    )


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_that_a_theme_is_taken_while_the_steps_are_open(hand, scheme):
    hand.sheet.open_phase(1)
    hand.sheet.set_theme(theme(scheme, 2.0))
    assert not hand.sheet.grab().isNull()


@pytest.mark.parametrize(
    ("text", "degrees"),
    [
        ("75", 75),
        ("75 °C", 75),
        ("167 °F", 75),
        ("-5", -5),
        ("72,5 C", Decimal("72.5")),
        ("", None),
    ],
)
def test_that_temperatures_are_read(text, degrees):
    assert read_temperature(text, decimal_comma="," in text) == degrees


@pytest.mark.parametrize(
    ("text", "minutes"), [("20", 20), ("20 min", 20), ("1.5 h", 90), ("2 hours", 120), (" ", None)]
)
def test_that_times_are_read(text, minutes):
    assert read_minutes(text, decimal_comma=False) == minutes


@pytest.mark.parametrize("text", ["warm", "20 g", "5 %", "20 min"])
def test_that_what_is_no_temperature_is_refused(text):
    with pytest.raises(NotTaken):
        read_temperature(text, decimal_comma=False)


def test_that_the_last_row_names_no_phase_while_there_is_one(qtbot, tmp_path):
    parts = make_parts(tmp_path)
    parts.work.open(parts.lotion)
    hand = Hand(qtbot, parts)
    assert hand.sheet.rows[-1].id == NEW_ID
    assert hand.sheet.rows[-1].name == "Type a name to add a line"
