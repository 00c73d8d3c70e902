from __future__ import annotations

from dataclasses import fields, replace
from decimal import Decimal
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QCheckBox, QLabel, QLineEdit, QPushButton

from tests.ui.shelf.shelf_parts import LAVENDER
from workbench.formula.ingredient import Ingredient
from workbench.formula.ingredient_fields import GROUPS, SPANS, copied
from workbench.formula.supply import Allergen, Supply
from workbench.storage.attachments import DATA_SHEET


def facts(shelf, group):
    return {fact.label: fact for fact in shelf.page.groups[group].facts}


def type_into(qtbot, shelf, name, text):
    edit = shelf.findChild(QLineEdit, f"form_supply_{name}")
    edit.setFocus()
    edit.selectAll()
    qtbot.keyClicks(edit, text)
    qtbot.keyClick(edit, Qt.Key.Key_Return)
    return edit


def test_that_every_fact_of_an_ingredient_has_its_place():
    grouped = {name for _, names in GROUPS for name in names}
    shown = {part for name in grouped for part in SPANS.get(name, (name,))}
    apart = {"key", "name", "composition", "constituents", "cautions", "source", "confidence"}
    about = {"verified_fields", "is_own", "based_on", "is_certified"}
    assert {field.name for field in fields(Ingredient)} == shown | apart | about


def test_that_what_is_known_and_what_is_not_is_said(shelf):
    shelf.show_ingredient("glycerin")
    nature = facts(shelf, "nature")
    assert nature["Density"].value == "1.261 g/ml"
    assert nature["Water in it"].value == "0.5 %"
    assert "Not known: HLB, Required HLB." in shelf.page.groups["nature"].texts
    assert facts(shelf, "use")["Usual level"].value == "1 to 15 %"


def test_that_each_fact_says_how_far_it_was_confirmed(shelf, studio):
    listed = studio.ingredients.get([row.key for row in studio.ingredients.listed()])
    item = next(item for item in listed.values() if "cas" in item.verified_fields)
    shelf.show_ingredient(item.key)
    identity = facts(shelf, "identity")
    assert identity["CAS number"].confidence == "read"
    assert identity["Origin"].confidence == "memory"
    row = next(r for r in shelf.page.groups["identity"]._rows if r.fact == identity["CAS number"])
    assert row.accessibleName().endswith("confirmed in a text")
    marks = [row._mark.text() for row in shelf.page.groups["identity"]._rows]
    assert {"confirmed in a text", "not confirmed"} <= set(marks)


def test_that_the_head_counts_what_is_confirmed(shelf):
    shelf.show_ingredient("glycerin")
    said = shelf.findChild(QLabel, "shelf_page_confirmed").text()
    groups = ("identity", "use", "nature", "handling", "composition", "constituents")
    shown = [fact for name in groups for fact in shelf.page.groups[name].facts]
    read = [fact for fact in shown if fact.confidence == "read"]
    assert said.startswith(f"{len(read)} of {len(shown)} facts confirmed in a")
    assert "published text" in said


def test_that_typed_supplies_are_kept_when_another_page_comes(qtbot, shelf, studio):
    shelf.show_ingredient("glycerin")
    for name, text in (("supplier", "Quince Lane"), ("pack_g", "250"), ("pack_price", "x")):
        edit = shelf.findChild(QLineEdit, f"form_supply_{name}")
        edit.clear()
        edit.insert(text)
        edit.setModified(True)
    shelf.show_ingredient(LAVENDER)
    kept = studio.supplies.get("glycerin")
    assert (kept.supplier, kept.pack_g, kept.pack_price) == ("Quince Lane", Decimal(250), None)
    assert shelf.findChild(QLineEdit, "form_supply_supplier").text() == ""


def test_that_a_click_beside_the_fields_stores_what_was_typed(qtbot, shelf, studio):
    shelf.show_ingredient("glycerin")
    edit = shelf.findChild(QLineEdit, "form_supply_supplier")
    edit.setFocus()
    qtbot.keyClicks(edit, "Quince Lane")
    qtbot.mouseClick(shelf.page._inside, Qt.MouseButton.LeftButton, pos=QPoint(3, 3))
    assert studio.supplies.get("glycerin").supplier == "Quince Lane"


def test_that_a_page_ends_where_its_text_ends(qtbot, shelf):
    shelf.show_ingredient(LAVENDER)
    page = shelf.page
    bar = page._scroll.verticalScrollBar()
    qtbot.waitUntil(lambda: bar.maximum() > 0)
    last = page.groups["source"]
    qtbot.waitUntil(lambda: page._inside.height() - last.geometry().bottom() < 90)


def test_that_another_ingredient_is_read_from_its_top(qtbot, shelf):
    shelf.show_ingredient(LAVENDER)
    bar = shelf.page._scroll.verticalScrollBar()
    qtbot.waitUntil(lambda: bar.maximum() > 0)
    bar.setValue(bar.maximum())
    shelf.findChild(QLineEdit, "form_supply_supplier").setFocus()
    shelf.show_ingredient("water")
    qtbot.waitUntil(lambda: bar.value() == 0)
    qtbot.wait(50)
    assert bar.value() == 0


def test_that_cautions_are_those_on_file_and_send_to_the_data_sheet(shelf):
    shelf.show_ingredient(LAVENDER)
    lead, standing = shelf.page.groups["cautions"].texts
    assert lead.startswith("sensitiser if oxidised")
    assert "safety data sheet" in standing
    assert "law where you work and sell" in standing


def test_that_composition_and_what_is_inside_are_listed(shelf):
    shelf.show_ingredient("benzyl_alcohol_dha")
    made_of = [(f.label, f.value) for f in shelf.page.groups["composition"].facts]
    assert ("Benzyl Alcohol", "87 %") in made_of
    shelf.show_ingredient(LAVENDER)
    inside = facts(shelf, "constituents")
    assert inside["Linalool"].value.startswith("34 %")
    assert "Typical values" in shelf.page.groups["constituents"].texts[0]


def test_that_a_certificate_is_shown_in_place_of_typical_values(shelf, studio):
    studio.supplies.save(Supply(LAVENDER, allergens=(Allergen("linalool", Decimal("0.31")),)))
    shelf.show_ingredient(LAVENDER)
    (inside,) = shelf.page.groups["constituents"].facts
    assert (inside.label, inside.value, inside.confidence) == ("Linalool", "31 %", "certificate")


def test_that_a_copy_marks_what_differs(shelf, studio):
    original = studio.ingredients.get(["glycerin"])["glycerin"]
    mine = replace(copied(original, "mine", "My glycerin"), use_max=Decimal(9), hlb=Decimal(11))
    studio.ingredients.add_own(mine)
    shelf.show_ingredient("mine")
    level = facts(shelf, "use")["Usual level"]
    assert (level.value, level.was, level.confidence) == ("1 to 9 %", "was 1 to 15 %", "own")
    assert facts(shelf, "nature")["HLB"].was == "was not known"
    assert facts(shelf, "nature")["Density"].was == ""
    lead = shelf.findChild(QLabel, "shelf_page_lead").text()
    assert lead.startswith("Your own, copied from Vegetable glycerin")
    assert "3 facts differ" in lead  # the name, too


def test_that_a_copy_of_something_gone_says_so(shelf, studio):
    studio.ingredients.add_own(Ingredient("mine", "Mine", "", based_on="gone"))
    shelf.show_ingredient("mine")
    assert "no longer here" in shelf.findChild(QLabel, "shelf_page_lead").text()


def test_that_formulas_are_listed_through_stocks_and_open_on_the_desk(qtbot, shelf):
    shelf.show_ingredient("xanthan_gum")
    uses = [(use.name, use.through) for use in shelf.page.uses.uses]
    assert uses == [
        ("Harbour Fog lotion", ""),
        ("Oat Quilt gel", "Xanthan gum 1 %"),
        ("Xanthan gum 1 %", ""),
    ]
    links = shelf.page.uses.findChildren(QPushButton, "shelf_use")
    with qtbot.waitSignal(shelf.draft_wanted) as wanted:
        qtbot.keyClick(links[1], Qt.Key.Key_Space)
    assert wanted.args == ["oat-quilt-gel"]
    assert links[1].accessibleName() == "Open Oat Quilt gel on the Desk"


def test_that_a_supply_is_stored_field_by_field_and_priced(qtbot, shelf, studio):
    shelf.show_ingredient("glycerin")
    for name, text in (
        ("supplier", "Quince Lane Supplies"),
        ("order_code", "QL-204"),
        ("pack_g", "0.25 kg"),
        ("pack_price", "4.50"),
        ("freight", "0.75"),
    ):
        type_into(qtbot, shelf, name, text)
    stored = studio.supplies.get("glycerin")
    assert (stored.supplier, stored.pack_g, stored.currency) == (
        "Quince Lane Supplies",
        Decimal(250),
        "EUR",
    )
    assert shelf.findChild(QLabel, "shelf_price").text().startswith("21.00 EUR for a kilogram")


@pytest.mark.parametrize(
    ("name", "text"), [("pack_g", "0"), ("pack_price", "much"), ("currency", "MUCHTOOLONG")]
)
def test_that_a_supply_that_makes_no_sense_is_refused_in_words(qtbot, shelf, studio, name, text):
    shelf.show_ingredient("glycerin")
    edit = type_into(qtbot, shelf, name, text)
    error = shelf.findChild(QLabel, "shelf_supply_error")
    assert error.isVisible()
    assert edit.accessibleDescription() in error.text()
    assert studio.supplies.all() == {}
    shelf.show_ingredient(LAVENDER)
    assert not error.isVisible()


def test_that_a_supply_changed_elsewhere_is_told_and_shown(qtbot, shelf, studio):
    shelf.show_ingredient("glycerin")
    studio.supplies.save(Supply("glycerin", supplier="Elsewhere"))
    type_into(qtbot, shelf, "order_code", "QL-1")
    assert "another window" in shelf._work.notices.told[0].what
    assert shelf.findChild(QLineEdit, "form_supply_supplier").text() == "Elsewhere"


def test_that_on_hand_is_ticked_on_the_page_and_seen_in_the_list(shelf, studio):
    shelf.show_ingredient("glycerin")
    shelf.findChild(QCheckBox, "shelf_there").click()
    assert studio.supplies.on_hand() == {"glycerin"}
    place = shelf.list.model.place_of("glycerin")
    assert shelf.list.model.rows[place].is_there


def test_that_the_price_reaches_the_open_draft(qtbot, shelf):
    shelf._work.open("harbour-fog-lotion")
    shelf.show_ingredient("glycerin")
    type_into(qtbot, shelf, "pack_g", "1000")
    type_into(qtbot, shelf, "pack_price", "8")
    line = next(line for line in shelf._work.assessment.lines if line.ingredient == "glycerin")
    assert line.cost == Decimal("0.32")  # 40 g of 8.00 for a kilogram


def test_that_files_are_added_saved_and_taken_out_with_a_way_back(shelf, studio, tmp_path):
    sheet = tmp_path / "sheet.pdf"
    sheet.write_bytes(b"invented" * 500)
    shelf.show_ingredient("glycerin")
    block = shelf.page.files
    block.add(sheet, DATA_SHEET)
    (kept,) = studio.attachments.of("glycerin")
    said = [label.text() for label in block.findChildren(QLabel)]
    assert any("sheet.pdf (data sheet, 4 kB, added" in text for text in said)
    block.write_out(kept, tmp_path / "copy.pdf")
    assert (tmp_path / "copy.pdf").read_bytes() == sheet.read_bytes()
    block.take_out(kept)
    assert studio.attachments.of("glycerin") == ()
    shelf._work.notices.undos[-1]()
    assert studio.attachments.of("glycerin") == (kept,)


def test_that_a_file_that_cannot_be_kept_is_told(shelf, studio, tmp_path):
    shelf.show_ingredient("glycerin")
    shelf.page.files.add(Path(tmp_path / "missing.pdf"), DATA_SHEET)
    assert "missing.pdf" in shelf._work.notices.told[0].what
    assert studio.attachments.of("glycerin") == ()


def test_that_shipped_ingredients_offer_a_copy_and_own_ones_the_rest(shelf, studio):
    shelf.show_ingredient("glycerin")
    assert [n for n, link in shelf.page._links.items() if link.isVisible()] == ["copy-to-change"]
    studio.ingredients.add_own(Ingredient("mine", "Mine", ""))
    shelf.show_ingredient("mine")
    assert all(link.isVisible() for link in shelf.page._links.values())
