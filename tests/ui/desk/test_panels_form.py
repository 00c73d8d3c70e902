from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractButton, QCheckBox, QComboBox, QLabel, QLineEdit

from tests.ui.desk.panels import make_parts, theme
from workbench.formula.edits import with_percent
from workbench.formula.formula import Plan
from workbench.paths import resources
from workbench.ui.places.desk.batch_editor import planned
from workbench.ui.places.desk.form_row import FormRow
from workbench.ui.places.desk.typed import NotTaken, read_mass, read_window
from workbench.ui.theme import Appearance
from workbench.words.numbers import NumberStyle


@pytest.fixture
def row(qtbot, parts):
    shown = FormRow(parts.work, theme())
    qtbot.addWidget(shown)
    shown.resize(860, 200)
    shown.show()
    return shown


def value(row, key: str) -> str:
    return row.findChild(QAbstractButton, f"form_field_{key}").value


def type_in(qtbot, row, name: str, text: str) -> QLineEdit:
    edit = row.findChild(QLineEdit, f"form_{name}")
    edit.setText(text)  # as pasted: a dash is no key
    edit.setModified(True)
    qtbot.keyClick(edit, Qt.Key.Key_Return)
    return edit


def choose(row, name: str, data: str) -> None:
    box = row.findChild(QComboBox, f"form_{name}")
    place = box.findData(data)
    box.setCurrentIndex(place)
    box.activated.emit(place)


def error(row) -> str:
    return row.findChild(QLabel, "form_error").text()


def test_that_the_row_reads_the_draft(row):
    fields = {key: value(row, key) for key in ("product", "market", "ph", "batch", "rest")}
    assert fields == {
        "product": "Lotion, leave-on, hands",
        "market": "EU and UK",
        "ph": "5.0 \u2013 5.4",
        "batch": "1000 g",
        "rest": "Distilled or deionised water",
    }


def test_that_keys_open_and_close_an_editor(qtbot, row):
    field = row.findChild(QAbstractButton, "form_field_ph")
    qtbot.keyClick(field, Qt.Key.Key_Return)
    assert row.opened_field == "ph"
    qtbot.keyClick(row.findChild(QLineEdit, "form_ph"), Qt.Key.Key_Escape)
    assert row.opened_field == ""


def test_that_another_field_takes_the_place_of_the_first(qtbot, row):
    for key in ("ph", "batch"):
        qtbot.mouseClick(
            row.findChild(QAbstractButton, f"form_field_{key}"), Qt.MouseButton.LeftButton
        )
    assert row.opened_field == "batch"
    assert not row.findChild(QAbstractButton, "form_field_ph").isChecked()


def test_that_a_choice_of_product_is_one_undo_step(parts, row):
    row.open_editor("product")
    choose(row, "product_type", "cream")
    choose(row, "exposure", "rinse-off")
    choose(row, "users", "under-3")
    choose(row, "form", "spray")
    assert value(row, "product") == "Cream, rinse-off, hands, children under 3, spray"
    assert parts.work.session.stack.count() == 4
    assert parts.work.session.stack.undoText() == "Change product"
    parts.work.session.stack.undo()
    assert row.findChild(QComboBox, "form_form").currentData() == "usual"


def test_that_markets_are_ticked_and_one_stays(qtbot, parts, row):
    row.open_editor("market")
    for market in ("UK", "EU"):
        row.findChild(QCheckBox, f"form_market_{market}").click()
    assert parts.work.formula.markets == ("EU",)
    assert row.findChild(QCheckBox, "form_market_EU").isChecked()
    assert parts.notices.informed[0].startswith("Choose at least one market")


def test_that_a_window_of_ph_is_typed(qtbot, parts, row):
    row.open_editor("ph")
    type_in(qtbot, row, "ph", "4.8 to 5.25")
    assert parts.work.formula.target_ph == (Decimal("4.8"), Decimal("5.25"))
    assert value(row, "ph") == "4.8 \u2013 5.25"
    type_in(qtbot, row, "ph", "")
    assert parts.work.formula.target_ph is None
    assert value(row, "ph") == "not set"


@pytest.mark.parametrize("text", ["5", "5.6 - 5.0", "4 - 15", "4 - x", "4 - 5 g"])
def test_that_a_bad_window_is_refused_in_words_and_changes_nothing(qtbot, parts, row, text):
    row.open_editor("ph")
    before = parts.work.formula
    edit = type_in(qtbot, row, "ph", text)
    assert parts.work.formula is before
    assert error(row).startswith("Lowest and highest pH: ")
    assert edit.text() == text
    assert edit.property("invalid") is True
    row.close_editor()
    assert parts.work.formula is before


def test_that_the_packs_say_what_they_need(qtbot, parts, row):
    row.open_editor("batch")
    for name, text in (("batch_mass", ""), ("units", "7"), ("fill", "100 ml")):
        type_in(qtbot, row, name, text)
    assert "the density" in row.findChild(QLabel, "form_needed").text()
    assert value(row, "batch") == "not set"
    type_in(qtbot, row, "density", "0.98")
    type_in(qtbot, row, "hold_up", "3 %")
    # 7 x 100 ml x 0.98 g/ml / (1 - 0.03) = 707.216 g
    assert "707.2 g" in row.findChild(QLabel, "form_needed").text()
    assert value(row, "batch") == "707.2 g, fills 7 \u00d7 100 ml"
    type_in(qtbot, row, "batch_mass", "0.5 kg")
    assert value(row, "batch") == "500 g; 7 \u00d7 100 ml needs 707.2 g"


def test_that_what_cannot_be_a_volume_is_refused_by_name(qtbot, parts, row):
    row.open_editor("batch")
    type_in(qtbot, row, "fill", "95 g")
    assert error(row) == "Fill of one: 'g' is no unit of volume; type millilitres."
    type_in(qtbot, row, "fill", "95")
    assert error(row) == ""
    assert parts.work.formula.plan.fill == Decimal(95)


def test_that_the_rest_line_is_chosen_and_given_up(parts, row):
    row.open_editor("rest")
    choose(row, "rest", "2")
    assert parts.work.formula.rest_line.ingredient == "glycerin"
    assert parts.work.formula.line(1).percent == Decimal("94.8")
    choose(row, "rest", "")
    assert parts.work.formula.rest_line is None
    assert parts.work.formula.line(2).percent == Decimal(4)
    assert value(row, "rest") == "none"


def test_that_a_refused_choice_is_told_and_shown_as_it_was(parts, row):
    parts.work.edit("Set", lambda formula: with_percent(formula, 2, Decimal(99)))
    row.open_editor("rest")
    choose(row, "rest", "3")
    assert parts.work.formula.rest_line.ingredient == "water"
    assert len(parts.notices.informed) == 1
    assert row.findChild(QComboBox, "form_rest").currentData() == "1"


def test_that_a_comma_is_read_where_the_maker_writes_one(qtbot, tmp_path):
    made = make_parts(tmp_path, NumberStyle.COMMA)
    made.work.open(made.lotion)
    row = FormRow(made.work, theme())
    qtbot.addWidget(row)
    row.show()
    row.open_editor("ph")
    type_in(qtbot, row, "ph", "4,8 \u2013 5,2")
    assert made.work.formula.target_ph == (Decimal("4.8"), Decimal("5.2"))
    assert value(row, "ph") == "4,8 \u2013 5,2"
    made.work.studio.close()


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("batch-mass", "0"), ("batch-mass", "-5 g"), ("batch-mass", "1 l"), ("units", "2.5"),
        ("units", "0"), ("fill", "1,234"), ("density", "98"), ("hold-up", "100"), ("retains", "x"),
        ("tests", "2 drops"),
    ],
)  # fmt: skip
def test_that_an_amount_that_cannot_be_is_refused_with_words(parts, name, text):
    with pytest.raises(NotTaken) as refused:
        planned(Plan(), name, text, decimal_comma=False)
    assert parts.work.words.say(refused.value.reason_id, **refused.value.values)


def test_that_a_bare_number_is_grams():
    assert read_mass("250", decimal_comma=False) == Decimal(250)


def test_that_an_empty_window_is_no_target():
    assert read_window("  ", decimal_comma=False) is None


def test_that_fields_that_would_take_three_lines_are_summed_up_in_one(qtbot, row):
    row.resize(260, 300)
    summary = row.findChild(QAbstractButton, "form_field_summary")
    field = row.findChild(QAbstractButton, "form_field_ph")
    assert not summary.isHidden()
    assert field.isHidden()
    assert "Lotion" in summary.accessibleName()
    summary.click()
    assert not field.isHidden()
    qtbot.keyClick(row, Qt.Key.Key_Escape)
    assert field.isHidden()
    row.resize(1200, 300)
    assert summary.isHidden()
    assert not field.isHidden()


def test_that_notes_move_nothing_in_the_row(qtbot, parts, row):
    def places() -> list[tuple[int, int, int]]:
        fields = row.findChildren(QAbstractButton)
        return [
            (one.x(), one.y(), one.width()) for one in fields if "form_field" in one.objectName()
        ]

    before = places()
    assert value(row, "notes") == "none"
    row.kept.write_notes("Too thin at 35 degrees, and a good deal more to say of it.")
    qtbot.waitUntil(lambda: value(row, "notes") == "written")
    assert places() == before


def test_that_the_one_line_names_what_it_says(parts, row):
    parts.work.edit("Clear", lambda formula: replace(formula, target_ph=None))
    summary = row.findChild(QAbstractButton, "form_field_summary")
    assert summary.value == (
        "Lotion, leave-on, hands · EU and UK · pH not set · batch 1000 g"
        " · rest line Distilled or deionised water · notes none"
    )


def test_that_a_low_place_sums_the_fields_up_in_one_line(row):
    summary = row.findChild(QAbstractButton, "form_field_summary")
    before = row.sizeHint().height()
    assert summary.isHidden()
    row.set_low(is_low=True)
    assert summary.isVisible()
    assert row.findChild(QAbstractButton, "form_field_ph").isHidden()
    assert row.sizeHint().height() < before
    row.set_low(is_low=False)
    assert summary.isHidden()


def test_that_a_list_to_choose_from_has_no_edge_but_the_line_under_it(qtbot, row):
    Appearance(resources()).apply()
    row.open_editor("product")
    box = row.findChild(QComboBox, "form_product_type")
    assert box.hasFocus()
    picture = box.grab().toImage()
    dark = {
        (x, y)
        for x in range(picture.width() - 3, picture.width())
        for y in range(picture.height() - 4)
        if picture.pixelColor(x, y).lightness() < 160
    }
    assert dark == set()
