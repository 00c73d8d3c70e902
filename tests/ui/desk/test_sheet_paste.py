"""Pasting into the sheet: the preview, its choices, and one undo step."""

from __future__ import annotations

from decimal import Decimal

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QComboBox, QTableView

from tests.formula.test_pasted import HAND_CREAM
from tests.ui.desk.hand import CTRL, Hand
from tests.ui.desk.panels import make_parts
from workbench.ui.places.desk.paste_dialog import PasteDialog
from workbench.ui.places.desk.paste_matching import Confidence, Fate, matched
from workbench.words.numbers import NumberStyle

WATER, GLYCERIN, GUM = 1, 2, 3


@pytest.fixture
def hand(qtbot, tmp_path):
    parts = make_parts(tmp_path)
    parts.work.open(parts.lotion)
    return Hand(qtbot, parts)


def pasted(hand, text):
    QGuiApplication.clipboard().setText(text)
    hand.press(Qt.Key.Key_V, CTRL)
    dialogs = hand.sheet.window().findChildren(PasteDialog)
    return dialogs[-1] if dialogs else None


def test_that_a_number_pasted_into_a_cell_is_set_there(hand):
    hand.at(GLYCERIN)
    assert pasted(hand, "2*3\n") is None
    assert hand.percent(GLYCERIN) == Decimal(6)


def test_that_a_copied_cell_can_be_pasted_into_another(hand):
    hand.at(GLYCERIN)
    hand.press(Qt.Key.Key_C, CTRL | Qt.KeyboardModifier.ShiftModifier)
    hand.at(GUM)
    hand.press(Qt.Key.Key_V, CTRL)
    assert hand.percent(GUM) == Decimal(4)


def test_that_a_name_with_its_amount_is_no_cell_but_a_sum_is(hand):
    hand.at(GLYCERIN)
    assert pasted(hand, "2 * 1.5") is None
    assert hand.percent(GLYCERIN) == Decimal(3)
    hand.new()
    assert pasted(hand, "Niacinamide 5 %").state.entries()[0].percent == Decimal(5)


def test_that_a_name_pasted_into_the_last_row_is_searched(hand):
    hand.new()
    pasted(hand, "niacinamide")
    hand.press(Qt.Key.Key_Return)
    *_, added = hand.work.formula.lines()
    assert added.ingredient == "niacinamide"


def test_that_nothing_on_the_clipboard_is_told(hand):
    hand.at(GLYCERIN)
    pasted(hand, "  \n")
    assert hand.parts.notices.informed == ["There is no text on the clipboard."]


def test_that_a_whole_formula_takes_the_place_of_the_draft_in_one_step(hand):
    hand.at(GLYCERIN)
    dialog = pasted(hand, HAND_CREAM)
    assert dialog.state.is_replacing
    assert "99.85 %, short 0.15 %" in dialog._sums.text()
    assert "Replaces the 4 lines there now." in dialog._sums.text()
    dialog.put_in()
    assert [line.percent for line in hand.work.formula.lines()][:2] == [Decimal("69.1"), Decimal(5)]
    assert len(list(hand.work.formula.lines())) == 13
    assert hand.work.session.stack.count() == 1
    hand.undo()
    assert [line.id for line in hand.work.formula.lines()] == [1, 2, 3, 4]


def test_that_a_few_lines_go_behind_the_phase_of_the_cursor(hand):
    hand.at(GLYCERIN)
    dialog = pasted(hand, "Niacinamide\t2.5\nPanthenol\t1.0")
    assert dialog.state.place == 1
    dialog.put_in()
    assert [line.ingredient for line in hand.work.formula.lines()][4:] == [
        "niacinamide",
        "panthenol_d",
    ]
    assert hand.sheet.focused_line == 5


def test_that_a_name_nothing_fits_is_kept_as_a_line_or_by_choice_as_a_note_or_left_out(hand):
    hand.at(GLYCERIN)
    dialog = pasted(hand, "Niacinamide\t2.5\nqqqzzz\t1.0\n")
    row = dialog.table.rows[1]
    assert (row.becomes, row.severity) == ("Keep as a line that is not on the shelf", "stop")
    dialog._on_chosen(2, "note", "Keep as a note of the line before")
    assert dialog.state.entries()[0].note == "qqqzzz 1.0"
    dialog._on_chosen(2, "out", "Leave out")
    assert len(dialog.state.entries()) == 1
    dialog._on_chosen(2, "unlisted", "Keep as a line that is not on the shelf")
    dialog.put_in()
    *_, last = hand.work.formula.lines()
    assert (last.ingredient, last.percent) == ("qqqzzz", Decimal(1))
    assert any(found.code == "ingredient-unknown" for found in hand.work.assessment.findings)


def test_that_what_a_row_becomes_is_typed_over_by_key(hand, qtbot):
    hand.at(GLYCERIN)
    dialog = pasted(hand, "Niacinamide\t2.5\nqqqzzz\t1.0\n")
    table = dialog.table
    table.setCurrentIndex(table.model().index(1, 0))
    qtbot.keyClick(table, Qt.Key.Key_Return)
    editor = dialog.focusWidget()
    editor.selectAll()
    qtbot.keyClicks(editor, "panthenol")
    qtbot.keyClick(editor, Qt.Key.Key_Return)
    assert dialog.table.rows[1].becomes == "D-panthenol (liquid, neat)"
    assert dialog.table.rows[1].sure == "chosen by you"


def test_that_an_open_decimal_mark_is_asked_for_before_anything_goes_in(hand):
    hand.at(GLYCERIN)
    dialog = pasted(hand, "Name\t%\nNiacinamide\t1,234\nPanthenol\t2,345")
    assert not dialog._put.isEnabled()
    dialog.put_in()
    assert not hand.work.session.stack.count()
    dialog._mark.chosen.emit(",")
    assert dialog._put.isEnabled()
    dialog.put_in()
    assert hand.work.formula.line(5).percent == Decimal("1.234")


def test_that_a_second_rest_line_is_refused_in_words(hand):
    hand.at(GLYCERIN)
    dialog = pasted(hand, "Name\t%\nAloe vera juice\tq.s.\nPanthenol\t2.5")
    assert dialog.state.place == 1
    assert "takes the rest already" in dialog._ask.text()
    assert not dialog._put.isEnabled()


def test_that_a_column_can_be_taken_for_something_else(hand):
    hand.at(GLYCERIN)
    dialog = pasted(hand, "Name\tg\tNote\nNiacinamide\t2.5\tlast\nPanthenol\t7.5\t")
    assert [row.percent for row in dialog.table.rows] == ["", "0.25", "0.75"]  # of 1000 g
    dialog._roles[1].chosen.emit("percent")
    assert [row.percent for row in dialog.table.rows] == ["", "2.50", "7.50"]
    dialog.put_in()
    assert hand.work.formula.line(5).note == "last"


def test_that_every_input_of_the_preview_has_a_name(hand, qtmodeltester):
    hand.at(GLYCERIN)
    dialog = pasted(hand, HAND_CREAM)
    for kind in (QComboBox, QTableView):
        assert all(one.accessibleName() for one in dialog.findChildren(kind))
    assert dialog.table.model().index(0, 4).data(Qt.ItemDataRole.AccessibleTextRole) == (
        "water, Becomes, Distilled or deionised water, same name"
    )
    qtmodeltester.check(dialog.table.model(), force_py=True)


def test_that_two_hundred_pasted_rows_are_shown_and_put_in(hand):
    hand.at(GLYCERIN)
    dialog = pasted(hand, "".join(f"Glycerin\t0,{place:03}\n" for place in range(200)))
    assert len(dialog.table.rows) == 200
    dialog.put_in()
    assert len(list(hand.work.formula.lines())) >= 200


def test_that_phases_of_the_text_are_named_and_get_their_kind(hand):
    hand.at(GLYCERIN)
    dialog = pasted(hand, "Oil phase\nShea butter\t60\nA\nCetyl alcohol\t40\n")
    dialog.put_in()
    phases = hand.work.formula.phases
    assert [(phase.name, phase.kind) for phase in phases] == [
        ("Oil phase", "oil"),
        ("Phase A", "other"),
    ]
    assert hand.parts.notices.told == []


def test_that_what_is_not_read_stands_in_the_table_with_its_reason(hand):
    hand.at(GLYCERIN)
    dialog = pasted(hand, "Name\t%\nNiacinamide\t2.5\nTotal\t2.5")
    assert [(row.becomes, row.sure) for row in dialog.table.rows] == [
        ("not read", "a heading"),
        ("Niacinamide (vitamin B3)", "same name"),
        ("not read", "a total"),
    ]


def test_that_copied_lines_come_back_as_they_were(qtbot, tmp_path):
    parts = make_parts(tmp_path, NumberStyle.COMMA)
    parts.work.open(parts.lotion)
    hand = Hand(qtbot, parts)
    hand.sheet.setFocus()
    hand.at(GLYCERIN)
    hand.press(Qt.Key.Key_A, CTRL)
    hand.press(Qt.Key.Key_C, CTRL)
    text = QGuiApplication.clipboard().text()
    assert "4,00\t40,00\tWater phase" in text
    dialog = pasted(hand, text)
    dialog.state.place = 0
    dialog.put_in()
    lines = [(line.ingredient, line.percent) for line in hand.work.formula.lines()]
    assert lines == [
        ("water", None),  # the amounts make 100, so it may go on taking the rest
        ("glycerin", Decimal(4)),
        ("xanthan_gum", Decimal("0.2")),
        ("benzyl_alcohol_dha", Decimal(1)),
    ]
    assert [phase.name for phase in hand.work.formula.phases] == ["Water phase"]


LIST = "Glycerin\t4\nShea butter\t10\nWater\t80\nRose fragrance\t0\nCetyl alcohol\t6\n"


def test_that_rows_without_phases_go_into_phases_by_what_they_are(hand):
    hand.at(GLYCERIN)
    dialog = pasted(hand, LIST)
    assert dialog._phases.isVisibleTo(dialog)
    assert "they go into Water phase (2 lines), Oil phase (2 lines)" in dialog._sums.text()
    dialog.put_in()
    phases = hand.work.formula.phases
    assert [(phase.name, phase.kind) for phase in phases][:2] == [
        ("Water phase", "water"),
        ("Oil phase", "oil"),
    ]
    assert [line.ingredient for line in phases[0].lines] == ["glycerin", "water"]
    assert [line.ingredient for line in phases[1].lines] == ["shea_butter", "cetyl_alcohol"]


def test_that_rows_without_phases_go_into_one_where_that_is_chosen(hand):
    hand.at(GLYCERIN)
    dialog = pasted(hand, LIST)
    dialog._phases.chosen.emit("one")
    assert "all of them go into Phase A" in dialog._sums.text()
    dialog.put_in()
    assert [phase.name for phase in hand.work.formula.phases] == ["Phase A"]


def test_that_rows_with_phases_are_not_asked_about(hand):
    hand.at(GLYCERIN)
    dialog = pasted(hand, "Oil phase\nShea butter\t60\nA\nWater\t40\n")
    assert not dialog._phases.isVisibleTo(dialog)


def test_that_water_takes_the_rest_where_that_changes_no_amount(hand):
    hand.at(GLYCERIN)
    dialog = pasted(hand, LIST)
    assert dialog._rest.isVisibleTo(dialog)
    assert dialog._rest.isChecked()
    assert dialog._rest.text() == "Distilled or deionised water takes the rest"
    dialog.put_in()
    rest = hand.work.formula.rest_line
    assert rest is not None
    assert rest.ingredient == "water"


def test_that_water_keeps_its_amount_in_a_list_that_is_short_until_it_is_ticked(hand):
    hand.at(GLYCERIN)
    dialog = pasted(hand, HAND_CREAM)
    assert not dialog._rest.isChecked()
    dialog._rest.click()
    assert dialog.state.totals_after().percent == 100
    dialog.put_in()
    assert hand.work.formula.rest_line.ingredient == "water"


@pytest.mark.parametrize(
    ("name", "inci", "key", "sure"),
    [
        ("water", "", "water", Confidence.EXACT),
        ("Glycerin", "", "glycerin", Confidence.EXACT),
        ("shea", "", "shea_butter", Confidence.LIKELY),
        ("some butter", "Butyrospermum Parkii Butter", "shea_butter", Confidence.EXACT),
        ("chelator", "", None, Confidence.DOUBTFUL),
        ("qqqzzz", "", "", Confidence.NONE),
    ],
)
def test_that_names_are_matched_with_a_word_for_how_sure_it_is(hand, name, inci, key, sure):
    match = matched(name, inci, hand.work.studio.search)
    assert match.confidence is sure
    assert key is None or match.key == key
    assert match.fate is (Fate.UNLISTED if sure is Confidence.NONE else Fate.LINE)
