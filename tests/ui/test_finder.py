"""Find anything, and the sheet of keys."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QApplication, QLabel, QLineEdit

from tests.builders import make_formula
from tests.ui.windows import Hand, make_window, settle
from workbench.storage.opening import create_studio
from workbench.ui.finder_sources import plain


@pytest.fixture
def window(qtbot, tmp_path: Path):
    path = tmp_path / "mine.studio"
    with create_studio(path) as studio:
        formula = make_formula(("water*", "0"), ("glycerin", "4.00"))
        studio.formulas.create("Glade lotion", formula)
        studio.formulas.create("Gum stock", replace(formula, product_type="stock"))
        gone = studio.formulas.create("Old glaze", formula)
        studio.formulas.archive(gone)
    made = make_window(path)
    qtbot.addWidget(made)
    yield made
    made.close()


@pytest.fixture
def hand(window) -> Hand:
    return Hand(window)


def found(window) -> list[tuple[str, str]]:
    return [(one.name, one.kind) for one in window.sheets._finder.found]


def begin(hand, text: str) -> None:
    hand.press(Qt.Key.Key_K, ctrl=True)
    hand.type(text)


def test_that_every_kind_of_thing_is_found_with_its_kind(window, hand):
    begin(hand, "gl")
    names = dict(found(window))
    assert names["Glade lotion"] == "formula"
    assert "ingredient on the shelf" in names.values()
    window.sheets._finder.line.setText("gum")
    assert ("Gum stock", "stock") in found(window)
    assert sum(name == "Gum stock" for name, _ in found(window)) == 1
    window.sheets._finder.line.setText("glaze")
    assert ("Old glaze", "formula in the archive") in found(window)
    window.sheets._finder.line.setText("back up")
    assert found(window)[0] == ("Back up the studio", "something to do")
    window.sheets._finder.line.setText("currency")
    assert found(window)[0] == ("Currency", "a setting of the studio")


def test_that_enter_goes_there_and_the_focus_with_it(window, hand):
    begin(hand, "gum st")
    hand.press(Qt.Key.Key_Return)
    assert window.work.formula.name == "Gum stock"
    assert not window.sheets._finder.isVisible()
    begin(hand, "currency")
    hand.press(Qt.Key.Key_Return)
    assert window.place == "studio"
    assert QApplication.focusWidget().objectName() == "form_studio_currency"


def test_that_an_ingredient_leads_to_the_shelf(window, hand):
    begin(hand, "xylitol")
    hand.press(Qt.Key.Key_Return)
    settle(window)
    assert window.place == "shelf"
    assert window._made["shelf"]._wanted in ("", "xylitol")


@pytest.mark.parametrize(
    ("typed", "first"),
    [
        ("text size", "action-larger"),
        ("text size", "action-usual-size"),
        ("archive", "list-archive"),
        ("delete", "list-delete"),
        ("remove", "list-delete"),
        ("theme", "action-scheme-dark"),
        ("print", "action-worksheet"),
    ],
)
def test_that_what_can_be_done_is_found_by_other_words_too(window, hand, typed, first):
    begin(hand, typed)
    action = window.findChild(QAction, first)
    names = [name for name, kind in found(window) if kind == "something to do"]
    assert plain(action.text()) in names


def test_that_what_cannot_be_done_now_is_found_and_says_so(window, hand):
    begin(hand, "undo")
    undo = next(one for one in window.sheets._finder.found if one.name == "Undo")
    assert undo.under == "something to do, not possible just now"
    hand.press(Qt.Key.Key_Return)  # nothing to do: the line stays
    assert window.sheets._finder.isVisible()


def test_that_the_kind_and_the_key_are_said_under_the_name(window, hand):
    begin(hand, "duplicate")
    one = window.sheets._finder.found[0]
    assert one.under == "something to do, Ctrl+Shift+D"
    assert one.under in window.sheets._finder.line.accessibleDescription()


def test_that_arrows_choose_and_escape_gives_the_focus_back(window, hand):
    window.desk.sheet.setFocus()
    begin(hand, "gl")
    hand.press(Qt.Key.Key_Down)
    assert window.sheets._finder.hits.currentRow() == 1
    hand.press(Qt.Key.Key_Up, Qt.Key.Key_Up)
    assert window.sheets._finder.hits.currentRow() == len(found(window)) - 1
    line = window.sheets._finder.line
    assert window.sheets._finder.found[-1].name in line.accessibleDescription()
    hand.press(Qt.Key.Key_Escape)
    assert QApplication.focusWidget() is window.desk.sheet


def test_that_nothing_found_is_said(window, hand):
    begin(hand, "zzzz")
    assert found(window) == []
    assert window.sheets._finder._nothing.isVisible()
    hand.press(Qt.Key.Key_Return)  # does nothing
    assert window.sheets._finder.isVisible()


def test_that_a_focus_elsewhere_takes_the_line_away(window, hand):
    begin(hand, "gl")
    window.desk.list._find.setFocus()
    assert not window.sheets._finder.isVisible()


def test_that_the_sheet_of_keys_lists_the_keys_of_the_actions(window, hand):
    hand.press(Qt.Key.Key_F1)
    keys = window.sheets._keys
    shown = {label.text() for label in keys.findChildren(QLabel)}
    wanted = {
        key.toString()
        for action in window.findChildren(QAction)
        if action.objectName().startswith(("action-", "place-"))
        for key in action.shortcuts()[:1]
    }
    assert {"Ctrl+K", "Ctrl+N", "F1"} <= wanted
    assert not {key for key in wanted if not any(key in text for text in shown)}
    hand.press(Qt.Key.Key_F1)
    assert not keys.isVisible()


def test_that_the_sheet_of_keys_says_undo_by_its_name_and_no_key_of_few_keyboards(window, hand):
    window.work.edit("Change how it is bought", lambda one: replace(one, pack="jar"))
    assert "bought" in window.findChild(QAction, "action-undo").text()
    hand.press(Qt.Key.Key_F1)
    rows = dict(line.split(": ") for line in window.sheets._keys._held.accessibleName().split("\n"))
    assert rows["Undo"].split(", ")[0] == "Ctrl+Z"
    assert "F14" not in rows["Undo"]
    assert rows["Undo"].count("Undo") == 0
    assert not any("Return" in keys for keys in rows.values())


def test_that_no_two_actions_of_the_window_listen_to_the_same_key(window):
    def heard(actions) -> list[str]:
        return [
            key.toString()
            for action in actions
            if action.shortcutContext() is not Qt.ShortcutContext.WidgetShortcut
            for key in action.shortcuts()
        ]

    actions = [*window.menus.actions, *window.desk.list.actions_of_list.keyed()]
    sheet = {key.toString() for one in window.desk.sheet.sheet_actions() for key in one.shortcuts()}
    twice = [key for key, times in Counter(heard(actions)).items() if times > 1]
    assert twice == []
    assert set(heard(actions)) & sheet == set()


def test_that_the_line_has_a_name_and_a_place_in_the_window(window, hand):
    begin(hand, "gl")
    finder = window.sheets._finder
    assert finder.accessibleName() == "Find anything"
    assert finder.findChild(QLineEdit).accessibleName()
    assert window.rect().contains(finder.geometry())
