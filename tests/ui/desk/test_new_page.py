"""The page on which a formula is begun: what a type proposes, and what the maker set."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel

from tests.ui.desk.panels import make_parts, theme
from workbench.ui.places.desk.new_page import NewPage


@pytest.fixture
def parts(qtbot, tmp_path):
    made = make_parts(tmp_path)
    yield made
    made.work.studio.close()


@pytest.fixture
def page(qtbot, parts):
    shown = NewPage(parts.work, theme())
    qtbot.addWidget(shown)
    shown.resize(1000, 700)
    shown.show()
    shown.begin()
    return shown


def choose_type(page, key: str) -> None:
    items = (page.list.item(row) for row in range(page.list.count()))
    page.list.setCurrentItem(
        next(one for one in items if one.data(Qt.ItemDataRole.UserRole) == key)
    )


def set_area(page, area: str) -> None:
    box = page._area.box
    box.setCurrentIndex(box.findData(area))
    box.activated.emit(box.currentIndex())


def told(page) -> str:
    return page.findChild(QLabel, "new_proposed").text()


def test_that_a_type_proposes_its_area_and_says_so(page):
    choose_type(page, "shampoo")
    assert page._area.box.currentData() == "hair"
    assert page._exposure.box.currentData() == "rinse-off"
    assert told(page).startswith("Exposure and area are proposed by the type")


def test_that_an_area_the_maker_set_stays_whatever_type_is_chosen(qtbot, page):
    set_area(page, "eye")
    choose_type(page, "shampoo")
    assert page._area.box.currentData() == "eye"
    assert page._exposure.box.currentData() == "rinse-off"
    assert told(page) == (
        "The exposure is proposed by the type; change it where yours differs."
        " The area stays around the eyes, as you set it; for this type it is usually hair."
    )
    with qtbot.waitSignal(page.begun, timeout=0) as begun:
        page.start()
    assert begun.args[0].area == "eye"


def test_that_the_next_formula_begins_untouched(page):
    set_area(page, "eye")
    page.begin()
    choose_type(page, "shampoo")
    assert page._area.box.currentData() == "hair"
