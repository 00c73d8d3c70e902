"""The studio page: each setting stored at once, its effect beside it, a change taken back."""

from __future__ import annotations

import io
from dataclasses import replace
from decimal import Decimal

import pytest
from PIL import Image
from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QAbstractButton,
    QCheckBox,
    QComboBox,
    QLabel,
    QLineEdit,
    QPlainTextEdit,
    QPushButton,
    QWidget,
)

from tests.ui.desk.panels import make_parts
from workbench.errors import WorkbenchError
from workbench.formula.weighability import Balance
from workbench.paths import resources
from workbench.storage.opening import open_studio
from workbench.ui.places.studio.studio import StudioPlace
from workbench.ui.theme import Appearance, SchemeChoice
from workbench.words.numbers import NumberStyle


@pytest.fixture
def parts(qtbot, tmp_path):
    made = make_parts(tmp_path)
    made.work.studio.settings.set_balances((Balance("Fine", Decimal("0.01"), Decimal(200)),))
    yield made
    made.work.studio.close()


@pytest.fixture
def place(qtbot, parts) -> StudioPlace:
    shown = StudioPlace(parts.work, Appearance(resources(), SchemeChoice.LIGHT))
    qtbot.addWidget(shown)
    shown.resize(1000, 800)
    shown.show()
    return shown


def type_in(qtbot, place, name: str, text: str) -> QLineEdit:
    edit = place.findChild(QLineEdit, f"form_{name}")
    edit.setFocus()
    edit.selectAll()
    qtbot.keyClicks(edit, text)
    return edit


def effect(place, name: str) -> str:
    return place.findChild(QLabel, f"effect_{name}").text()


def stored(parts):
    return parts.work.studio.settings.load()


def choose(place, name: str, data: str) -> None:
    box = place.findChild(QComboBox, f"form_studio_{name}")
    row = box.findData(data)
    box.setCurrentIndex(row)
    box.activated.emit(row)


def test_that_every_letter_is_stored_and_one_undo_takes_the_name_back(qtbot, parts, place):
    type_in(qtbot, place, "studio_name", "Pebblewick")
    assert stored(parts).name == "Pebblewick"
    assert "Pebblewick" in place.findChild(QWidget, "head_preview").accessibleDescription()
    undo = place.findChild(QPushButton, "studio_undo")
    assert undo.text() == "Undo: Change Studio name"
    undo.click()
    assert stored(parts).name == ""
    assert not undo.isVisible()


def test_that_a_currency_is_judged_while_it_is_typed(qtbot, parts, place):
    edit = type_in(qtbot, place, "studio_currency", "GB")
    error = place.findChild(QLabel, "error_currency")
    assert error.text() == "A currency is three letters, such as EUR, GBP or USD."
    assert edit.accessibleDescription() == error.text()
    assert stored(parts).currency == "EUR"
    qtbot.keyClicks(edit, "P")
    assert not error.isVisible()
    assert stored(parts).currency == "GBP"
    assert effect(place, "currency") == "Prices read 12.50 GBP."


def test_that_what_cannot_be_taken_goes_back_when_the_field_is_left(qtbot, parts, place):
    edit = type_in(qtbot, place, "studio_currency", "GB")
    place.findChild(QLineEdit, "form_studio_name").setFocus()
    assert edit.text() == "EUR"


def test_that_the_decimal_mark_changes_every_number_at_once(qtbot, parts, place):
    parts.work.open(parts.lotion)
    choose(place, "decimals", ",")
    assert stored(parts).decimal_style is NumberStyle.COMMA
    assert parts.work.decimal_comma
    assert effect(place, "decimals") == "Shown, printed and typed as 2,50 % and 1234,5 g."
    assert effect(place, "currency") == "Prices read 12,50 EUR."


def test_that_the_last_market_stays(qtbot, parts, place):
    box = place.findChild(QCheckBox, "studio_markets_EU")
    box.click()
    error = place.findChild(QLabel, "error_markets").text()
    assert error.startswith("Choose at least one market")
    assert stored(parts).markets == ("EU",)
    place.findChild(QCheckBox, "studio_markets_UK").click()
    assert "UK" in stored(parts).markets


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("{initials}", "has to count"),
        ("{count}{moon}", "'moon' cannot be filled in"),
        ("{count}{", "not closed"),
    ],
)
def test_that_numbering_has_to_count(qtbot, parts, place, text, said):
    edit = place.findChild(QLineEdit, "form_studio_numbering")
    edit.setText(text)
    edit.textEdited.emit(text)
    assert said in place.findChild(QLabel, "error_numbering").text()
    assert stored(parts).numbering == "{initials}-{yymm}-{count}"


def test_that_the_next_batch_number_is_shown(parts, place):
    parts.work.open(parts.lotion)
    place.hide()
    place.show()
    assert "HF-2611-01" in effect(place, "numbering")


def test_that_a_balance_says_what_it_weighs(qtbot, parts, place):
    # 20 d at 5 %; USP general chapter 41: 2 · 0.41 d / 0.10 % = 820 d
    text = place.findChild(QLabel, "balance_0_effect").text()
    assert text.startswith("Weighs 0.2 g and more within 5 %.")
    assert "8.2 g" in text
    edit = type_in(qtbot, place, "balance_0_readability", "0.1 g")
    assert place.findChild(QLabel, "balance_0_effect").text().startswith("Weighs 2 g")
    assert parts.work.studio.settings.balances()[0].readability == Decimal("0.1")
    edit.clear()
    qtbot.keyClicks(edit, "900")
    error = place.findChild(QLabel, "balance_0_error")
    assert error.text() == "The capacity has to be more than the readability."


def test_that_balances_are_added_removed_and_brought_back(qtbot, parts, place):
    settings = parts.work.studio.settings
    place.findChild(QPushButton, "balance_add").click()
    assert [item.name for item in settings.balances()] == ["Fine", "Balance 1"]
    type_in(qtbot, place, "balance_1_name", "Fine")
    assert "Another balance" in place.findChild(QLabel, "balance_1_error").text()
    place.findChild(QPushButton, "balance_0_remove").click()
    assert len(settings.balances()) == 1
    place.held.session.stack.undo()
    assert "Fine" in [item.name for item in settings.balances()]


def test_that_own_repeatability_counts_once_it_is_larger(qtbot, parts, place):
    type_in(qtbot, place, "balance_0_repeatability", "0.05")
    assert place.findChild(QLabel, "balance_0_effect").text().startswith("Weighs 1 g")


def test_that_a_picture_is_kept_small_and_taken_out(parts, place, tmp_path):
    file = tmp_path / "mark.png"
    Image.new("RGB", (2400, 800), "#1E6B69").save(file)
    place._logo.take(file)
    kept = parts.work.studio.settings.logo()
    assert Image.open(io.BytesIO(kept)).size == (600, 200)
    place.findChild(QPushButton, "logo_remove").click()
    assert parts.work.studio.settings.logo() == b""
    place.held.session.stack.undo()
    assert parts.work.studio.settings.logo() == kept


def test_that_a_file_that_is_no_picture_is_told(parts, place, tmp_path):
    file = tmp_path / "mark.png"
    file.write_text("Dear aunt")
    place._logo.take(file)
    assert "not a picture" in parts.notices.told[0].what
    assert parts.work.studio.settings.logo() == b""


def test_that_a_picture_of_more_than_a_megabyte_is_refused(parts):
    with pytest.raises(WorkbenchError, match="larger than a megabyte"):
        parts.work.studio.settings.set_logo(bytes(1_000_001))


def test_that_settings_changed_in_another_window_are_not_written_over(qtbot, parts, place):
    with open_studio(parts.work.studio.path) as other:
        other.settings.save(replace(other.settings.load(), contact="there"))
    type_in(qtbot, place, "studio_name", "P")
    assert "changed in another window" in parts.notices.told[0].what
    parts.notices.offers[0].act()
    assert place.held.value.settings.contact == "there"
    assert place.held.value.settings.name == ""


def test_that_a_studio_for_reading_refuses_in_words(qtbot, parts, tmp_path):
    parts.work.studio.read_only = True
    place = StudioPlace(parts.work, Appearance(resources(), SchemeChoice.LIGHT))
    qtbot.addWidget(place)
    place.show()
    type_in(qtbot, place, "studio_name", "P")
    assert parts.notices.informed
    assert stored(parts).name == ""


def test_that_every_control_of_the_page_has_a_name(place):
    nameless = [
        child
        for kind in (QAbstractButton, QLineEdit, QComboBox, QPlainTextEdit)
        for child in place.findChildren(kind)
        if child.focusPolicy() & Qt.FocusPolicy.TabFocus
        and not (child.accessibleName() or getattr(child, "text", str)())
    ]
    assert nameless == []


def test_that_tab_walks_the_page_from_above_to_below(qtbot, place):
    place.focus_place()
    seen: list[int] = []
    for _ in range(8):
        widget = place.window().focusWidget()
        seen.append(widget.mapTo(place, widget.rect().topLeft()).y())
        qtbot.keyClick(widget, Qt.Key.Key_Tab)
    rows = [round(y / 40) for y in seen]
    assert rows == sorted(rows)


def test_that_a_setting_is_shown_when_it_is_asked_for(place):
    place.show_setting("balances")
    assert place.window().focusWidget().objectName() == "form_balance_0_name"
