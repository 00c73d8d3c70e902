from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QCheckBox, QComboBox, QLabel, QPushButton

from tests.ui.shelf.shelf_parts import LAVENDER, names, spoken
from workbench.formula.ingredient import Ingredient
from workbench.storage.folding import folded
from workbench.storage.shelf_list import ListedIngredient
from workbench.ui.places.shelf.filters import Filters, function_choices, shown_rows
from workbench.ui.places.shelf.keys import SHELF_KEYS
from workbench.ui.places.shelf.list_model import IngredientListModel


def choose(place, name, text):
    box = place.findChild(QComboBox, f"form_shelf_filter_{name}")
    row = box.findText(text)
    assert row >= 0, [box.itemText(row) for row in range(box.count())]
    box.setCurrentIndex(row)
    box.activated.emit(row)


def tick(place, name):
    place.findChild(QCheckBox, f"shelf_filter_{name}").click()


def count(place):
    return place.findChild(QLabel, "shelf_count").text()


def test_that_every_ingredient_is_listed_by_name(shelf):
    assert len(names(shelf)) == 406
    assert count(shelf) == "406 ingredients"
    assert names(shelf)[:2] == sorted(names(shelf)[:2], key=str.casefold)


def test_that_no_stock_stands_among_the_ingredients(shelf):
    shelf.list.search.setText("xanthan gum 1")
    assert "Xanthan gum 1 %" not in names(shelf)


def test_that_the_model_keeps_its_promises(qtmodeltester, shelf):
    model = IngredientListModel(shelf._work.words)
    model.set_rows(shelf.list.model.rows[:20])
    qtmodeltester.check(model)
    model.set_rows(tuple(replace(row, is_there=True) for row in model.rows[:20]))
    model.set_rows(model.rows[5:])
    qtmodeltester.check(model)


def test_that_one_row_that_differs_is_told_alone(qtbot, shelf):
    model = IngredientListModel(shelf._work.words)
    rows = shelf.list.model.rows[:9]
    model.set_rows(rows)
    changed = (*rows[:3], replace(rows[3], is_there=True), *rows[4:])
    with qtbot.assertNotEmitted(model.modelReset), qtbot.waitSignal(model.dataChanged) as told:
        model.set_rows(changed)
    assert told.args[0].row() == 3


# 8000-28-0 is lavender oil (CAS Common Chemistry, from memory)
@pytest.mark.parametrize("typed", ["lavender ess", "lavandula angus", "8000-28", "LAVENDER"])
def test_that_an_ingredient_is_found_by_name_inci_and_number(shelf, typed):
    shelf.list.search.setText(typed)
    assert "Lavender essential oil" in names(shelf)[:3]


def test_that_a_function_finds_what_has_it(shelf, studio):
    shelf.list.search.setText("chelator")
    found = {row.key for row in shelf.list.model.rows}
    assert {row.key for row in studio.ingredients.listed() if "chelator" in row.functions} <= found


def test_that_filters_narrow_the_list_and_are_counted(shelf, studio):
    choose(shelf, "function", "thickener")
    listed = studio.ingredients.listed()
    wanted = [row for row in listed if any(f.startswith("thickener") for f in row.functions)]
    assert names(shelf) == [row.name for row in wanted]
    assert count(shelf) == f"{len(wanted)} of 406"
    choose(shelf, "charge", "negative")
    assert 0 < len(names(shelf)) < len(wanted)
    assert {row.charge for row in shelf.list.model.rows} == {"anionic"}
    choose(shelf, "solubility", "oil")
    assert names(shelf) == []
    assert not shelf.findChild(QLabel, "shelf_none").isHidden()
    shelf.findChild(QPushButton, "shelf_clear").click()
    assert len(names(shelf)) == 406


def test_that_words_and_filters_hold_together(shelf):
    choose(shelf, "function", "preservative")
    shelf.list.search.setText("benzo")
    assert names(shelf)
    assert all("preservative" in row.functions for row in shelf.list.model.rows)


def test_that_on_hand_and_own_are_filters(shelf, studio):
    studio.supplies.set_on_hand("glycerin", on_hand=True)
    studio.ingredients.add_own(Ingredient("mine", "Oat milk of mine", "", is_own=True))
    shelf.refresh()
    tick(shelf, "there")
    assert [row.key for row in shelf.list.model.rows] == ["glycerin"]
    tick(shelf, "there")
    tick(shelf, "own")
    assert [row.key for row in shelf.list.model.rows] == ["mine"]
    assert "your own" in spoken(shelf)[0]


def test_that_a_row_says_all_that_it_shows(shelf, studio):
    studio.supplies.set_on_hand("glycerin", on_hand=True)
    shelf.refresh()
    shelf.list.search.setText("vegetable glycerin")
    assert spoken(shelf)[0] == "Vegetable glycerin 99.5 %, Glycerin, humectant, solvent, on hand"


def test_that_the_keyboard_goes_from_words_to_list_to_page_and_back(qtbot, shelf):
    shelf.list.search.setFocus()
    qtbot.keyClicks(shelf.list.search, "lavender ess")
    qtbot.keyClick(shelf.list.search, Qt.Key.Key_Down)
    assert shelf.list.view.hasFocus()
    qtbot.keyClick(shelf.list.view, Qt.Key.Key_Return)
    assert shelf.key == LAVENDER
    assert shelf.page.isAncestorOf(shelf.focusWidget())
    qtbot.keyClick(shelf.focusWidget(), Qt.Key.Key_Escape)
    assert shelf.list.view.hasFocus()
    qtbot.keyClick(shelf.list.view, Qt.Key.Key_Escape)
    assert shelf.list.search.hasFocus()
    qtbot.keyClick(shelf.list.search, Qt.Key.Key_Escape)
    assert shelf.list.search.text() == ""


def test_that_space_ticks_what_is_on_hand(qtbot, shelf, studio):
    shelf.show_ingredient("glycerin")
    shelf.list.view.setFocus()
    qtbot.keyClick(shelf.list.view, Qt.Key.Key_Space)
    assert studio.supplies.on_hand() == {"glycerin"}
    assert shelf.page.supply.there.isChecked()
    assert shelf.list.current_key == "glycerin"
    qtbot.keyClick(shelf.list.view, Qt.Key.Key_Space)
    assert studio.supplies.on_hand() == frozenset()


def test_that_walking_the_list_turns_the_page(qtbot, shelf):
    shelf.show_ingredient("glycerin")
    shelf.list.view.setFocus()
    qtbot.keyClick(shelf.list.view, Qt.Key.Key_Down)
    qtbot.waitUntil(lambda: shelf.key == shelf.list.current_key != "glycerin")


def test_that_an_asked_ingredient_is_shown_even_when_filters_hide_it(shelf):
    tick(shelf, "own")
    shelf.show_ingredient("glycerin")
    assert shelf.key == "glycerin"
    assert shelf.list.current_key == "glycerin"


def test_that_drafting_from_what_is_on_hand_is_a_setting(shelf, studio):
    box = shelf.findChild(QCheckBox, "shelf_on_hand_only")
    assert not box.isChecked()
    box.click()
    assert studio.settings.load().on_hand_only
    assert "only what is on hand" in shelf._work.notices.informed[-1]
    box.click()
    assert not studio.settings.load().on_hand_only


ROW = ListedIngredient(
    key="a",
    name="A",
    inci="Aaa",
    functions=("thickener-gum", "stabiliser"),
    solubility="water",
    charge="anionic",
    is_own=False,
    is_there=False,
)


@pytest.mark.parametrize(
    ("filters", "lets"),
    [
        (Filters(), True),
        (Filters(functions=frozenset({"stabiliser"})), True),
        (Filters(functions=frozenset({"wax"})), False),
        (Filters(solubility="water", charge="anionic"), True),
        (Filters(solubility="water", charge="cationic"), False),
        (Filters(only_there=True), False),
        (Filters(only_own=True), False),
    ],
)
def test_that_a_filter_lets_through_what_fits(filters, lets):
    assert filters.lets(ROW) is lets
    assert shown_rows({"a": ROW}, filters, None) == ((ROW,) if lets else ())


def test_that_functions_of_one_name_are_chosen_together(shelf):
    choices = function_choices(shelf.list.model.rows, shelf._work.words)
    assert choices["thickener"] >= {"thickener-gum", "thickener-polymer"}


def test_that_what_is_found_stands_in_the_order_of_fit(shelf):
    shelf.list.search.setText("glycer")
    found = names(shelf)
    starts = [name.startswith("Glycer") for name in found]
    words = [" glycer" in f" {folded(name)}" for name in found]
    assert starts == sorted(starts, reverse=True)
    assert words == sorted(words, reverse=True)
    assert starts.count(True) < words.count(True) < len(found)
    assert found[: starts.count(True)] == sorted(found[: starts.count(True)], key=str.casefold)


def test_that_a_main_function_comes_before_another_one(shelf):
    shelf.list.search.setText("humectant")
    mains = [row.functions[0] == "humectant" for row in shelf.list.model.rows]
    assert mains[0]
    assert mains == sorted(mains, reverse=True)
    humectants = [name.casefold() for name in names(shelf)[: mains.count(True)]]
    assert humectants == sorted(humectants)


def test_that_a_new_search_is_shown_from_its_best(shelf):
    shelf.list.search.setText("oil")
    bar = shelf.list.view.verticalScrollBar()
    bar.setValue(bar.maximum())
    shelf.list.search.setText("shea")
    assert bar.value() == 0
    assert names(shelf)[0] == "Shea butter"


def test_that_a_filter_has_room_for_what_is_chosen(shelf):
    box = shelf.findChild(QComboBox, "form_shelf_filter_function")
    texts = [box.itemText(row) for row in range(box.count())]
    box.setCurrentIndex(texts.index(max(texts, key=box.fontMetrics().horizontalAdvance)))
    shelf.list._show()
    held = box.parentWidget().maximumWidth()
    assert held > box.fontMetrics().horizontalAdvance(box.currentText())


def test_that_the_keys_known_beforehand_are_those_of_the_place(shelf):
    held = {
        action.objectName().removeprefix("shelf-action-"): action.shortcut().toString()
        for action in shelf.actions()
    }
    assert held == SHELF_KEYS
