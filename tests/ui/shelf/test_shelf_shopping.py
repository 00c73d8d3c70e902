from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QApplication, QComboBox, QLineEdit, QPushButton

from workbench.formula.supply import Supply


@pytest.fixture
def page(shelf):
    supplies = shelf._work.studio.supplies
    supplies.set_on_hand("water", on_hand=True)
    pack = {"pack_g": Decimal(25), "pack_price": Decimal("3.00"), "currency": "EUR"}
    supplies.save(Supply("glycerin", **pack))
    shelf.show_shopping("harbour-fog-lotion")
    return shelf.shopping


def cells(page):
    model = page.model
    return [
        [model.index(row, column).data() for column in range(model.columnCount())]
        for row in range(model.rowCount())
    ]


def test_that_a_batch_says_what_it_needs_and_what_to_buy(page):
    # 1000 g with 4 % glycerin are 40 g: two packs of 25 g
    assert cells(page)[:2] == [
        ["Distilled or deionised water", "948.00 g", "on hand", "", ""],
        ["Vegetable glycerin 99.5 %", "40.00 g", "2 packs of 25 g", "6.00 EUR", ""],
    ]
    assert "3 of 4 ingredients are not on hand" in page.summary
    assert "cost 6.00 EUR" in page.summary
    assert "Not in that cost" not in page.summary  # what has a pack has a price here
    assert cells(page)[2][2] == "10.00 g"
    last = page.summary.splitlines()[-1]
    assert last.startswith("No pack is entered for: ")
    assert "Xanthan gum" in last
    assert last.endswith("They are not in that cost.")


def test_that_another_batch_is_another_list(qtbot, page):
    edit = page.findChild(QLineEdit, "form_shopping_mass")
    edit.setFocus()
    edit.selectAll()
    qtbot.keyClicks(edit, "250 g")
    qtbot.keyClick(edit, Qt.Key.Key_Return)
    assert cells(page)[1][1:4] == ["10.00 g", "1 pack of 25 g", "3.00 EUR"]
    edit.selectAll()
    qtbot.keyClicks(edit, "lots")
    qtbot.keyClick(edit, Qt.Key.Key_Return)
    assert edit.accessibleDescription() != ""
    assert cells(page)[1][1] == "10.00 g"


def test_that_stocks_are_taken_apart(page):
    box = page.findChild(QComboBox, "form_shopping_formula")
    box.setCurrentIndex(box.findText("Oat Quilt gel"))
    box.activated.emit(box.currentIndex())
    rows = {row[0]: row for row in cells(page)}
    assert any(row[4] == "Xanthan gum 1 %" and row[1] == "2.00 g" for row in rows.values())


def test_that_the_list_is_copied_as_text(page):
    page.findChild(QPushButton, "shelf_shopping_copy").click()
    lines = QGuiApplication.clipboard().text().splitlines()
    assert lines[0] == "Shopping list: 1000.00 g of Harbour Fog lotion"
    assert lines[2].split("\t") == ["Ingredient", "Needed", "To buy", "Cost", "Comes through"]
    assert lines[4] == "Vegetable glycerin 99.5 %\t40.00 g\t2 packs of 25 g\t6.00 EUR\t"


def test_that_the_model_keeps_its_promises(qtmodeltester, page):
    qtmodeltester.check(page.model)


def test_that_escape_goes_back(qtbot, shelf, page):
    qtbot.keyClick(page, Qt.Key.Key_Escape)
    assert shelf.pages.currentWidget() is not page
    assert shelf.list.view.hasFocus()


def test_that_without_a_formula_the_page_says_so(shelf, page):
    for entry in shelf._work.studio.formulas.entries():
        shelf._work.studio.formulas.archive(entry.key)
    page.begin()
    assert "no formula yet" in page.summary


def test_that_the_list_is_saved_as_text(page, tmp_path):
    page.save_to(tmp_path / "list.txt")
    assert (tmp_path / "list.txt").read_text(encoding="utf-8") == page.text
    assert page.text.startswith("Shopping list: 1000.00 g of Harbour Fog lotion")
    assert "list.txt" in page._work.notices.informed[-1]


def test_that_a_list_that_cannot_be_saved_is_told(page, tmp_path):
    page.save_to(tmp_path / "missing" / "list.txt")
    assert "list.txt" in page._work.notices.told[0].what


def test_that_what_is_on_no_pack_is_bought_by_mass_and_no_cost_is_spoken_of(shelf):
    shelf.show_shopping("harbour-fog-lotion")
    page = shelf.shopping
    assert cells(page)[1][2] == "40.00 g"
    assert "cost" not in page.summary
    assert page.table.isColumnHidden(3)


def test_that_every_row_is_seen_at_twice_the_size(shelf, page):
    page.set_theme(replace(shelf._theme, scale=2.0))
    QApplication.processEvents()
    table = page.table
    last = table.rowViewportPosition(page.model.rowCount() - 1) + table.rowHeight(
        page.model.rowCount() - 1
    )
    assert table.viewport().height() >= last
