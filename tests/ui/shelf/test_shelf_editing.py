from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QLabel, QLineEdit, QPushButton

from tests.ui.shelf.shelf_parts import LAVENDER
from workbench.formula.ingredient import Ingredient, Part
from workbench.formula.ingredient_fields import copied
from workbench.formula.supply import Allergen, Supply
from workbench.ui.places.shelf.ingredient_form import field_texts


@pytest.fixture
def editor(shelf):
    shelf.changing.make_new()
    return shelf.changing.editor


def fill_row(parts, place, name, percent):
    row = parts._rows[place]
    row.name.setText(name)
    row.percent.setText(percent)


def fill(editor, **texts):
    for name, text in texts.items():
        editor.field(name).edit.setText(text)


def fill_whole(qtbot, editor):
    qtbot.keyClicks(editor.field("name").edit, "Oat milk of mine")
    editor.field("purpose").set_value("emollient-oil")
    fill_row(editor.composition, 0, "Aqua", "90")
    fill_row(editor.composition, 1, "Glycerin", "10")


def error(editor, name):
    return editor.findChild(QLabel, f"shelf_error_{name}").text()


def row_errors(parts):
    return [row._error.text() for row in parts._rows if not row._error.isHidden()]


def test_that_an_ingredient_is_made_by_typing(qtbot, shelf, studio, editor):
    fill_whole(qtbot, editor)
    fill(
        editor,
        inci="Avena Sativa Kernel Extract",
        use_max="5",
        ph_min="4",
        ph_max="7",
        cas="56-81-5",
    )
    assert editor.save.isEnabled()
    editor.save.click()
    item, counter = studio.ingredients.entry("oat-milk-of-mine")
    assert counter == 1
    assert (item.name, item.functions, item.use_max, item.cas) == (
        "Oat milk of mine",
        ("emollient-oil",),
        Decimal(5),
        ("56-81-5",),
    )
    assert [(p.substance, p.fraction, p.water) for p in item.composition] == [
        ("water", Decimal("0.9"), Decimal("0.9")),
        ("glycerin", Decimal("0.1"), Decimal(0)),
    ]
    assert shelf.key == "oat-milk-of-mine"
    assert shelf.list.current_key == "oat-milk-of-mine"


def test_that_an_empty_form_says_at_each_field_what_is_needed(editor):
    assert error(editor, "name") == "It needs a name."
    assert error(editor, "purpose") == "Choose what it is mainly there for."
    assert not editor.save.isEnabled()
    assert "to be mended" in editor.findChild(QLabel, "shelf_editor_state").text()


def test_that_what_is_wrong_is_said_while_it_is_typed(qtbot, editor):
    fill_whole(qtbot, editor)
    fill(editor, cas="56-81-6", use_min="9", use_max="5", density="12", hlb="many", log_p="-1.76")
    assert "'56-81-6' is mistyped" in error(editor, "cas")
    assert error(editor, "use_max") == "5 is less than 9, where it begins."
    assert error(editor, "density").startswith("12 cannot be")
    assert error(editor, "hlb") != ""
    assert error(editor, "log_p") == ""
    assert editor.field("cas").edit.accessibleDescription() == error(editor, "cas")
    fill(editor, cas="56-81-5", use_min="", density="", hlb="")
    assert editor.save.isEnabled()


def test_that_nothing_is_stored_before_it_is_whole(qtbot, studio, editor):
    before = studio.ingredients.taken_keys()
    fill_whole(qtbot, editor)
    fill_row(editor.composition, 1, "Glycerin", "9")
    editor.ask_to_store()
    editor.save.click()
    assert studio.ingredients.taken_keys() == before
    assert editor.composition._total.text() == "In all 99 %, 1 % missing"


def test_that_an_unknown_substance_is_named_with_what_it_may_have_meant(qtbot, editor):
    fill_whole(qtbot, editor)
    fill_row(editor.composition, 1, "Glycerinn", "10")
    (said,) = row_errors(editor.composition)
    assert said.startswith("No table has a substance 'Glycerinn'. Is it Glycerin")
    fill_row(editor.composition, 1, "glycerin", "10")
    assert row_errors(editor.composition) == []


def test_that_a_name_of_no_table_is_kept_only_when_asked_for(qtbot, studio, editor):
    fill_whole(qtbot, editor)
    fill_row(editor.composition, 1, "Moonflower Milk", "10")
    assert not editor.save.isEnabled()
    keep = editor.composition._rows[1]._keep
    assert not keep.isHidden()
    keep.click()
    editor.save.click()
    item, _ = studio.ingredients.entry("oat-milk-of-mine")
    assert item.composition[1].substance == "Moonflower Milk"


def test_that_rows_grow_and_are_taken_out(qtbot, editor):
    fill_whole(qtbot, editor)
    assert len(editor.composition._rows) == 3
    editor.composition._rows[0]._remove.click()
    assert [row.text for row in editor.composition.parts] == ["Glycerin"]


def test_that_the_key_follows_the_name_until_it_is_typed(qtbot, editor):
    qtbot.keyClicks(editor.field("name").edit, "Glycerin")
    assert editor.field("key").value == "glycerin-2"
    editor.field("key").edit.selectAll()
    qtbot.keyClicks(editor.field("key").edit, "mine")
    qtbot.keyClicks(editor.field("name").edit, " of mine")
    assert editor.field("key").value == "mine"
    editor.field("key").edit.selectAll()
    qtbot.keyClicks(editor.field("key").edit, "glycerin")
    assert error(editor, "key") == "The key 'glycerin' belongs to something else."


def test_that_a_copy_holds_every_fact_of_its_original(shelf, studio):
    shelf.changing.copy(LAVENDER)
    editor = shelf.changing.editor
    editor.save.click()
    original = studio.ingredients.get([LAVENDER])[LAVENDER]
    mine = studio.ingredients.entry("lavender-essential-oil-mine")[0]
    assert mine == copied(original, mine.key, "Lavender essential oil (mine)")


def test_that_every_shipped_ingredient_goes_through_the_form_unchanged(shelf, studio):
    editor = shelf.changing.editor
    items = studio.ingredients.get([row.key for row in studio.ingredients.listed()])
    for key in sorted(items)[::23]:
        shelf.changing.copy(key)
        assert editor.faults() == 0, key
        assert editor._stated(editor._typed().item) == editor._edited.base, key


def test_that_f2_copies_what_is_shipped_and_edits_what_is_own(qtbot, shelf, studio):
    shelf.show_ingredient("glycerin")
    qtbot.keyClick(shelf.list.view, Qt.Key.Key_F2)
    assert shelf.changing.editor._edited.counter == 0
    assert shelf.changing.is_open
    qtbot.keyClick(shelf.changing.editor, Qt.Key.Key_Escape)
    assert shelf.pages.currentWidget() is shelf.page


@pytest.fixture
def own(studio, shelf):
    """An own humectant in a formula of its own and, through a stock, in another."""
    item = Ingredient(
        key="mine",
        name="My humectant",
        inci="Glycerin",
        functions=("humectant",),
        use_max=Decimal(10),
        composition=(Part("glycerin", Decimal(1)),),
        is_own=True,
    )
    studio.ingredients.add_own(item)
    draft, _ = studio.formulas.draft("harbour-fog-lotion")
    line = replace(draft.line(2), ingredient="mine")
    studio.formulas.create("Mine lotion", draft.with_line(line))
    return item


def test_that_a_change_nobody_would_notice_is_stored_at_once(shelf, studio, own):
    shelf.changing.edit("mine")
    fill(shelf.changing.editor, use_max="11")
    shelf.changing.editor.save.click()
    assert studio.ingredients.entry("mine")[0].use_max == 11


def test_that_formulas_that_would_differ_are_listed_before_anything_is_stored(shelf, studio, own):
    shelf.changing.edit("mine")
    editor = shelf.changing.editor
    fill(editor, use_max="2")
    editor.save.click()
    assert studio.ingredients.entry("mine")[0].use_max == 10
    (found,) = editor.consequences.facts
    assert found.label == "Mine lotion"
    assert "New: " in found.value
    assert "My humectant" in found.value
    assert "1 formula will differ" in editor.save.text()
    draft = studio.formulas.draft("mine-lotion")
    editor.save.click()
    assert studio.ingredients.entry("mine")[0].use_max == 2
    assert studio.formulas.draft("mine-lotion") == draft


def test_that_typing_on_asks_for_the_list_again(shelf, studio, own):
    shelf.changing.edit("mine")
    editor = shelf.changing.editor
    fill(editor, use_max="2")
    editor.save.click()
    fill(editor, use_max="3")
    assert editor.consequences.isHidden()
    editor.save.click()
    assert studio.ingredients.entry("mine")[0].use_max == 10


def test_that_the_open_draft_is_computed_anew(shelf, studio, own):
    shelf._work.open("mine-lotion")
    shelf.changing.edit("mine")
    fill(shelf.changing.editor, use_max="2")
    shelf.changing.editor.save.click()
    shelf.changing.editor.save.click()
    assert any(finding.code.startswith("use-over") for finding in shelf._work.assessment.findings)


def test_that_a_change_over_a_newer_state_is_told(shelf, studio, own):
    shelf.changing.edit("mine")
    studio.ingredients.update_own(replace(own, hlb=Decimal(9)), 1)
    fill(shelf.changing.editor, use_max="11")
    shelf.changing.editor.save.click()
    assert "another window" in shelf._work.notices.told[0].what
    assert studio.ingredients.entry("mine")[0].use_max == 10


def test_that_an_own_ingredient_is_deleted_with_a_way_back(shelf, studio):
    studio.ingredients.add_own(Ingredient("spare", "Spare", "", is_own=True))
    studio.supplies.save(Supply("spare", supplier="Quince Lane Supplies"))
    shelf.show_ingredient("spare")
    shelf.findChild(QPushButton, "shelf_delete").click()
    assert studio.ingredients.get(["spare"]) == {}
    shelf._work.notices.undos[-1]()
    assert studio.ingredients.get(["spare"])
    assert studio.supplies.get("spare").supplier == "Quince Lane Supplies"


def test_that_one_in_use_is_not_deleted(shelf, studio, own):
    shelf.changing.delete("mine")
    assert "Mine lotion" in shelf._work.notices.told[0].what + shelf._work.notices.told[0].remedy
    assert studio.ingredients.get(["mine"])


def test_that_a_blend_is_worked_out_of_its_parts(qtbot, shelf, studio):
    shelf.changing.blend()
    (blend,) = [e for e in shelf.changing._made if e.objectName() == "shelf_blend"]
    qtbot.keyClicks(blend.name.edit, "House preservative")
    blend.purpose.set_value("preservative")
    fill_row(blend.parts, 0, "Phenoxyethanol", "80")
    fill_row(blend.parts, 1, "Nonesuch", "20")
    assert not blend.save.isEnabled()
    assert row_errors(blend.parts) == ["The shelf has no ingredient 'Nonesuch'."]
    fill_row(blend.parts, 1, "Ethylhexylglycerin", "20")
    blend.save.click()
    item, _ = studio.ingredients.entry("house-preservative")
    assert {part.substance: part.fraction for part in item.composition} == {
        "phenoxyethanol": Decimal("0.8"),
        "ethylhexylglycerin": Decimal("0.2"),
    }
    assert item.source == "mixed of 80 % Phenoxyethanol and 20 % Ethylhexylglycerin"


@pytest.fixture
def certificate(shelf):
    shelf.changing.certificate(LAVENDER)
    return shelf.changing.certificate_editor


def test_that_a_certificate_is_typed_by_label_name(shelf, studio, certificate):
    fill_row(certificate.parts, 0, "Linalool", "31.5")
    fill_row(certificate.parts, 1, "Limonene", "0.4 %")
    certificate.save.click()
    assert studio.supplies.get(LAVENDER).allergens == (
        Allergen("linalool", Decimal("0.315")),
        Allergen("limonene", Decimal("0.004")),
    )
    shelf.show_ingredient(LAVENDER)
    assert shelf.page.groups["constituents"].facts[0].value == "31.5 %"


def test_that_a_whole_list_is_pasted(qtbot, studio, certificate):
    text = "Linalool\t31.5\nLimonene 0.4 %\n\nNonesuch\n"
    QGuiApplication.clipboard().setText(text)
    first = certificate.parts._rows[0].name
    first.setFocus()
    qtbot.keyClick(first, Qt.Key.Key_V, Qt.KeyboardModifier.ControlModifier)
    typed = [(row.text, row.percent) for row in certificate.parts.parts]
    assert typed == [
        ("Linalool", Decimal("31.5")),
        ("Limonene", Decimal("0.4")),
        ("Nonesuch", None),
    ]
    assert "'Nonesuch'" in row_errors(certificate.parts)[0]
    assert len(certificate.parts._rows) == 4


def test_that_a_name_no_table_has_is_refused_by_name(studio, certificate):
    fill_row(certificate.parts, 0, "Linalol-ish", "31.5")
    certificate.has_none.setFocus()
    assert "'Linalol-ish'" in row_errors(certificate.parts)[0]
    assert not certificate.save.isEnabled()
    assert certificate.parts._rows[0]._keep.isHidden()


def test_that_more_than_the_material_holds_is_refused(certificate):
    fill_row(certificate.parts, 0, "Linalool", "70")
    fill_row(certificate.parts, 1, "Limonene", "40")
    assert "more than the material holds" in certificate.parts._total.text()
    assert not certificate.save.isEnabled()


def test_that_a_certificate_of_nothing_and_no_certificate_differ(studio, certificate):
    certificate.has_none.click()
    certificate.save.click()
    assert studio.supplies.get(LAVENDER).allergens == ()
    certificate.begin(studio.ingredients.get([LAVENDER])[LAVENDER], studio.supplies.get(LAVENDER))
    certificate.without.click()
    certificate.save.click()
    assert studio.supplies.get(LAVENDER).allergens is None


def test_that_fields_show_what_is_typed_back(shelf, studio):
    item = studio.ingredients.get([LAVENDER])[LAVENDER]
    texts = field_texts(item, shelf._work.words)
    assert (texts["purpose"], texts["functions"]) == ("essential-oil", "fragrance")
    assert texts["is_phototoxic"] == "no"


def test_that_edits_of_a_supply_are_undone_on_the_shelf(shelf, studio):
    shelf.steps.set_there("glycerin", is_there=True)
    shelf.undo_stack.undo()
    assert studio.supplies.on_hand() == frozenset()
    shelf.undo_stack.redo()
    assert studio.supplies.on_hand() == {"glycerin"}
    studio.supplies.save(replace(studio.supplies.get("glycerin"), allergens=()))
    shelf.undo_stack.undo()
    assert studio.supplies.get("glycerin").allergens == ()  # a certificate is none of the steps


def test_that_a_studio_open_for_reading_changes_nothing(shelf, studio):
    studio.read_only = True
    shelf.changing.make_new()
    shelf.changing.copy("glycerin")
    shelf.changing.blend()
    shelf.changing.certificate(LAVENDER)
    assert not shelf.changing.is_open
    assert set(shelf._work.notices.informed) == {shelf._work.words.say("shelf-read-only")}
    shelf.show_ingredient("glycerin")
    assert not shelf.findChild(QLineEdit, "form_supply_supplier").isEnabled()
