from __future__ import annotations

import pytest
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QApplication, QLineEdit

from tests.ui.windows import make_window, settle, small_studio
from workbench.errors import WorkbenchError
from workbench.storage.opening import open_studio


@pytest.fixture
def path(tmp_path):
    return small_studio(tmp_path / "pebblewick.studio", "Millrace wash")


@pytest.fixture
def window(qtbot, path):
    made = make_window(path)
    yield made
    made.close()
    made.deleteLater()


def placed(window):
    body = window.centralWidget()
    return [(child.objectName(), child.geometry()) for child in (window._stack, window.foot, body)]


def test_that_a_notice_moves_nothing(window):
    before = placed(window)
    window.work.notices.inform("Stored.")
    settle(window)
    assert window._notices.isVisible()
    assert placed(window) == before
    window.work.notices.tell(WorkbenchError("The studio is locked.", "Close the other window."))
    settle(window)
    assert placed(window) == before


def test_that_a_notice_of_one_line_covers_nothing_of_a_page(window):
    window.work.notices.inform("Stored.")
    settle(window)
    bar = window._notices
    assert bar.geometry().top() >= window._stack.geometry().bottom()
    assert bar.geometry().bottom() == window.centralWidget().rect().bottom()


def test_that_a_notice_stays_at_the_foot_of_a_window_that_grows(window):
    window.work.notices.inform("Stored.")
    window.resize(1400, 900)
    settle(window)
    assert window._notices.width() == window.centralWidget().width()
    assert window._notices.geometry().bottom() == window.centralWidget().rect().bottom()


def test_that_the_shopping_list_of_the_open_formula_is_in_the_menu(window):
    window.findChild(QAction, "action-shopping").trigger()
    settle(window)
    shelf = window._made["shelf"]
    assert shelf.pages.currentWidget() is shelf.shopping
    assert shelf.shopping._formula.name == "Millrace wash"


def test_that_the_shopping_list_is_found_by_its_name(window):
    window._find()
    window.sheets._finder.line.setText("shopping")
    assert window.sheets._finder.found[0].name == "Shopping list"


def test_that_the_sheet_of_keys_names_those_of_the_shelf(window):
    window._show_keys()
    said = window.sheets._keys._held.accessibleName()
    assert "New blend: Ctrl+Shift+B" in said
    assert "Shopping list: Ctrl+Shift+L" in said


def test_that_closing_the_window_keeps_what_is_typed(window, path):
    window.show_ingredient("glycerin")
    settle(window)
    edit = window._made["shelf"].findChild(QLineEdit, "form_supply_supplier")
    edit.setFocus()
    edit.insert("Quince Lane")
    edit.setModified(True)
    window.close()
    QApplication.processEvents()
    with open_studio(path) as studio:
        assert studio.supplies.get("glycerin").supplier == "Quince Lane"
