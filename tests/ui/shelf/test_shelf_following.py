from __future__ import annotations

from decimal import Decimal

import pytest
from PySide6.QtCore import Qt

from tests.ui.shelf.shelf_parts import LAVENDER
from workbench.formula.supply import Allergen

PANTHENOL = "panthenol_d"


@pytest.fixture
def editor(shelf):
    shelf.changing.copy(PANTHENOL)
    return shelf.changing.editor


def fill_row(parts, place, name, percent):
    parts._rows[place].name.setText(name)
    parts._rows[place].percent.setText(percent)


def halve(editor):
    editor.composition._rows[0].percent.setText("50")
    fill_row(editor.composition, 1, "Aqua", "50")


def typed(qtbot, editor, name, text):
    edit = editor.field(name).edit
    edit.selectAll()
    qtbot.keyClicks(edit, text)


def test_that_strength_water_and_inci_follow_a_changed_composition(studio, editor):
    assert editor.field("active_percent").value == "100"
    halve(editor)
    assert editor.field("active_percent").value == "50"
    assert editor.field("water_percent").value == "50"
    assert editor.field("inci").value == "Panthenol (and) Aqua"
    assert editor.field("active_percent").note == "Worked out from what it is made of."
    editor.save.click()
    (mine,) = [row.key for row in studio.ingredients.listed() if row.is_own]
    item, _ = studio.ingredients.entry(mine)
    assert (item.active_percent, item.water_percent) == (Decimal(50), Decimal(50))
    assert item.inci == "Panthenol (and) Aqua"


def test_that_an_unchanged_composition_leaves_every_fact(editor):
    halve(editor)
    editor.composition._rows[0].percent.setText("100")
    editor.composition._rows[1]._remove.click()
    assert editor.field("active_percent").value == "100"
    assert editor.field("inci").value == "Panthenol"
    assert editor.field("active_percent").note == ""


def test_that_a_typed_fact_that_says_otherwise_is_told_with_a_way_to_follow(qtbot, editor):
    typed(qtbot, editor, "water_percent", "10")
    halve(editor)
    field = editor.field("water_percent")
    assert field.value == "10"
    assert field.note == "What it is made of says 50 %."
    assert field.take.text() == "Take 50 %"
    field.take.click()
    assert field.value == "50"
    assert field.note == "Worked out from what it is made of."


def test_that_a_typed_strength_offers_to_make_the_rest_water(qtbot, editor):
    typed(qtbot, editor, "active_percent", "75")
    field = editor.field("active_percent")
    assert field.other.isVisible()
    assert field.other.text() == "Make the rest water"
    field.other.click()
    rows = [(row.text, row.percent) for row in editor.composition.parts]
    assert rows == [("Panthenol", Decimal(75)), ("Aqua", Decimal(25))]
    assert editor.field("water_percent").value == "25"
    assert editor.field("inci").value == "Panthenol (and) Aqua"
    assert field.value == "75"
    assert not field.other.isVisible()


def test_that_strength_stands_beside_the_name(qtbot, editor):
    name, strength = editor.field("name"), editor.field("active_percent")
    assert strength.geometry().top() == name.geometry().top()
    qtbot.keyClick(name.edit, Qt.Key.Key_Tab)
    assert strength.edit.hasFocus()


@pytest.fixture
def certificate(shelf):
    shelf.changing.certificate(LAVENDER)
    return shelf.changing.certificate_editor


@pytest.mark.qt_log_ignore("does not support")
def test_that_only_allergens_are_offered_those_that_begin_so_first(qtbot, certificate):
    row = certificate.parts._rows[0]
    row.name.setFocus()
    qtbot.keyClicks(row.name, "lina")
    assert row._suggestions.names == ("Linalool", "Linalyl Acetate")
    row.name.clear()
    qtbot.keyClicks(row.name, "silic")
    assert row._suggestions.names == ()


def test_that_the_list_of_names_has_a_ground_an_edge_and_a_mark(certificate):
    style = certificate.parts._rows[0]._suggestions.popup().styleSheet()
    shade = certificate.theme.palette
    assert f"background: {shade.surface}" in style
    assert f"border: 1px solid {shade.secondary}" in style
    assert f"::item:selected {{ background: {shade.accent}" in style


@pytest.mark.qt_log_ignore("does not support")
def test_that_a_row_is_told_nothing_while_it_is_typed(qtbot, certificate):
    row = certificate.parts._rows[0]
    row.name.setFocus()
    qtbot.keyClicks(row.name, "Algi")
    assert row._error.isHidden()
    row._suggestions.popup().hide()
    certificate.has_none.setFocus()
    assert row._error.text().startswith("No table has a substance 'Algi'.")
    assert "number" not in row._error.text()


def test_that_a_certificate_keeps_its_date_and_lot(shelf, studio, certificate):
    fill_row(certificate.parts, 0, "Linalool", "31.5")
    certificate.date.edit.setText("2026-10-01")
    certificate.lot.edit.setText("QL-77")
    certificate.save.click()
    kept = studio.supplies.get(LAVENDER)
    assert kept.allergens == (Allergen("linalool", Decimal("0.315")),)
    assert (kept.certificate_date, kept.certificate_lot) == ("2026-10-01", "QL-77")
    said = shelf.page._headings["certificate"].texts[0]
    assert said.endswith("Supplier's lot QL-77, dated 2026-10-01.")
    shelf.page.supply._take("supplier", "Quince Lane Supplies")
    assert studio.supplies.get(LAVENDER).certificate_lot == "QL-77"


def test_that_a_choice_has_room_for_its_longest_words(editor):
    box = editor.field("purpose")._box
    texts = [box.itemText(row) for row in range(box.count())]
    longest = max(map(box.fontMetrics().horizontalAdvance, texts))
    assert editor.field("purpose").sizeHint().width() > longest
