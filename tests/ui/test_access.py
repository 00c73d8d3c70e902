"""Names for those who hear the window, and the order in which Tab walks it."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QAbstractSpinBox, QApplication, QLineEdit, QWidget

from tests.ui.theme.test_palette import contrast
from tests.ui.windows import make_window, settle, small_studio
from workbench.ui.places.studio import head_preview


@pytest.fixture
def window(qtbot, tmp_path: Path):
    made = make_window(small_studio(tmp_path / "mine.studio", "Glade lotion"))
    qtbot.addWidget(made)
    yield made
    made.close()


def show_notes(window) -> None:
    window.show_desk()
    window.desk.form.open_editor("notes")


SCREENS = [
    pytest.param(lambda window: window.show_desk(), id="desk"),
    pytest.param(show_notes, id="notes"),
    pytest.param(lambda window: window.desk.versions._show(), id="versions"),
    pytest.param(lambda window: window.desk.versions.ask_to_keep(), id="versions-keep"),
    pytest.param(
        lambda window: window.desk.old_sheets.bring_in_text("Ingredient,Amount\nWater,60\nGum,7"),
        id="sheet-import",
    ),
    pytest.param(lambda window: window.begin_new(), id="new"),
    pytest.param(lambda window: window.show_place("studio"), id="studio"),
    pytest.param(lambda window: window.show_place("shelf"), id="shelf"),
    pytest.param(lambda window: window.sheets.find(), id="find"),
    pytest.param(lambda window: window.sheets.show_keys(), id="keys"),
    pytest.param(lambda window: window.show_worksheet(), id="worksheet"),
]


def name_of(widget: QWidget) -> str:
    text = widget.text() if isinstance(widget, QAbstractButton) else ""
    return widget.accessibleName() or text


def is_reached(widget: QWidget) -> bool:
    inside = isinstance(widget.parentWidget(), QAbstractSpinBox)
    takes_tab = widget.focusPolicy() & Qt.FocusPolicy.TabFocus
    return bool(takes_tab) and widget.isVisible() and not inside


@pytest.mark.parametrize("show", SCREENS)
def test_that_everything_tab_reaches_has_a_name(window, show):
    show(window)
    settle(window)
    reached = [widget for widget in window.findChildren(QWidget) if is_reached(widget)]
    assert reached
    nameless = [
        f"{type(widget).__name__} {widget.objectName()}"
        for widget in reached
        if not name_of(widget)
    ]
    assert nameless == []


def test_that_arrows_walk_the_places_and_tab_goes_on_to_the_list(window):
    window.bar._buttons["desk"].setFocus()
    QTest.keyClick(QApplication.focusWidget(), Qt.Key.Key_Right)
    settle(window)
    assert window.place == "shelf"
    window.show_desk()
    window.bar._buttons["desk"].setFocus()
    seen = []
    for _ in range(4):
        QTest.keyClick(QApplication.focusWidget(), Qt.Key.Key_Tab)
        widget = QApplication.focusWidget()
        seen.append(widget.objectName() or type(widget).__name__)
    assert seen == ["formula_list_find", "formula_list_order", "formula_list", "new_formula"]


def test_that_a_place_says_its_keys_and_whether_it_is_the_current_one(window):
    button = window.bar._buttons["desk"]
    assert (button.text(), button.accessibleDescription(), button.isChecked()) == (
        "Desk",
        "Ctrl+1",
        True,
    )


def test_that_the_current_place_is_not_told_by_colour_alone(window):
    """The line under it is thick where another place has none: compare pixels, not hues."""
    current, other = window.bar._buttons["desk"], window.bar._buttons["studio"]
    window.desk.sheet.setFocus()
    QApplication.processEvents()

    def foot_is_drawn(button) -> bool:
        picture = button.grab().toImage()
        middle = picture.width() // 2
        return picture.pixelColor(middle, picture.height() - 2) != picture.pixelColor(middle, 1)

    assert foot_is_drawn(current)
    assert not foot_is_drawn(other)


def test_that_the_head_of_a_paper_can_be_read_in_any_scheme():
    ink, paper = head_preview._INK.name().upper(), head_preview._PAPER.name().upper()
    assert contrast(ink, paper) >= 4.5


def test_that_an_error_is_read_out_with_its_field(window, qtbot):
    window.show_setting("currency")
    edit = window.findChild(QLineEdit, "form_studio_currency")
    edit.selectAll()
    qtbot.keyClicks(edit, "EU")
    assert edit.accessibleDescription().startswith("A currency is three letters")
