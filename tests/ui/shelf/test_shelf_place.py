from __future__ import annotations

import time
from itertools import pairwise

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractItemView, QApplication, QWidget

from tests.ui.shelf.shelf_parts import LAVENDER, make_shelf, stops
from workbench.storage.search_benchmark import fill_with_invented


def spoken_name(widget) -> str:
    text = getattr(widget, "text", None)
    return widget.accessibleName() or (text() if callable(text) else "")


def open_page(shelf, name):
    studio = shelf._work.studio
    if name == "page":
        studio.supplies.set_on_hand(LAVENDER, on_hand=True)
        shelf.show_ingredient(LAVENDER)
    elif name == "editor":
        shelf.changing.copy(LAVENDER)
    elif name == "blend":
        shelf.changing.blend()
    elif name == "certificate":
        shelf.changing.certificate(LAVENDER)
    else:
        shelf.show_shopping("harbour-fog-lotion")
    QApplication.processEvents()  # a layout shows what was put into it afterwards


PAGES = ["page", "editor", "blend", "certificate", "shopping"]


@pytest.mark.parametrize("name", PAGES)
def test_that_everything_tab_reaches_has_a_name(shelf, name):
    open_page(shelf, name)
    reached = stops(shelf)
    assert len(reached) > 8
    assert [w.objectName() or type(w).__name__ for w in reached if not spoken_name(w)] == []


@pytest.mark.parametrize("name", PAGES)
def test_that_tab_goes_down_the_list_and_then_the_page(shelf, name):
    open_page(shelf, name)
    reached = stops(shelf)
    is_left = [not shelf.pages.isAncestorOf(widget) for widget in reached]
    first = is_left.index(True)
    turned = is_left[first:] + is_left[:first]
    assert turned == sorted(turned, reverse=True)  # each side is one run


@pytest.mark.parametrize("name", ["editor", "blend", "certificate"])
def test_that_tab_goes_through_a_form_from_the_top(shelf, name):
    open_page(shelf, name)
    page = shelf.pages.currentWidget()
    inside = [widget for widget in stops(shelf) if page.isAncestorOf(widget)]
    foot = [widget for widget in inside if widget in (page.save, page.cancel)]
    assert inside[-len(foot) :] == foot
    inside = inside[: -len(foot)]
    tops = [widget.mapTo(page, widget.rect().topLeft()).y() for widget in inside]
    below = [b - a for a, b in pairwise(tops)]
    assert sum(step < -40 for step in below) == 0, list(zip(tops, inside, strict=True))


def test_that_no_row_of_facts_takes_the_focus(shelf):
    shelf.show_ingredient(LAVENDER)
    groups = [group for group in shelf.page.groups.values() if group.facts]
    for group in groups:
        for child in group.findChildren(QWidget):
            assert not child.focusPolicy() & Qt.FocusPolicy.TabFocus


def test_that_place_is_what_the_window_asks_of_one(qtbot, shelf):
    shelf.focus_place()
    qtbot.waitUntil(lambda: shelf.isAncestorOf(shelf.focusWidget()))
    assert shelf.undo_stack.count() == 0
    assert isinstance(shelf.list.view, QAbstractItemView)


def test_that_every_action_has_a_key_of_its_own_here(shelf):
    keys = [action.shortcut().toString() for action in shelf.actions()]
    assert len(set(keys)) == len(keys) == 6
    assert all(action.text() for action in shelf.actions())


@pytest.mark.parametrize(
    ("key", "page"),
    [
        (Qt.Key.Key_N, "shelf_editor"),
        (Qt.Key.Key_B, "shelf_blend"),
        (Qt.Key.Key_D, "shelf_editor"),
        (Qt.Key.Key_L, "shelf_shopping_page"),
    ],
)
def test_that_keys_lead_to_the_pages(qtbot, shelf, key, page):
    shelf.show_ingredient(LAVENDER)
    shelf.focus_place()
    qtbot.waitUntil(lambda: shelf.isAncestorOf(shelf.focusWidget()))
    control = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier
    qtbot.keyClick(shelf.focusWidget(), key, control)
    assert shelf.pages.currentWidget().objectName() == page


@pytest.mark.speed
def test_that_fifty_thousand_ingredients_are_searched_and_walked_without_a_wait(qtbot, tmp_path):
    parts, place = make_shelf(tmp_path)
    qtbot.addWidget(place)
    fill_with_invented(parts.work.studio.path)
    place.resize(1280, 760)
    place.show()
    assert len(place.list.model.rows) == 50_406
    times = []
    for typed in ("g", "gl", "gly", "glyc", "a", "al", "alo", "p", "po", "pol") * 3:
        start = time.perf_counter()
        place.list.search.setText(typed)
        times.append(time.perf_counter() - start)
    times.sort()
    assert times[len(times) * 95 // 100] <= 0.05, times
    start = time.perf_counter()
    place.list.search.clear()
    place.list.view.scrollToBottom()
    place.grab()
    assert time.perf_counter() - start <= 0.5
    parts.work.studio.close()
