from __future__ import annotations

from decimal import Decimal

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QLineEdit, QScrollArea, QWidget

from tests.ui.desk.panels import make_parts
from workbench.formula.edits import with_percent
from workbench.paths import resources
from workbench.ui.places.desk.desk import Desk
from workbench.ui.theme import Appearance, SchemeChoice


@pytest.fixture
def parts(qtbot, tmp_path):
    made = make_parts(tmp_path)
    yield made
    made.work.studio.close()


@pytest.fixture
def appearance(qtbot):
    return Appearance(resources(), SchemeChoice.LIGHT)


@pytest.fixture
def desk(qtbot, parts, appearance):
    shown = Desk(parts.work, appearance)
    qtbot.addWidget(shown)
    shown.resize(1024, 700)
    shown.show()
    return shown


def side(desk) -> QWidget:
    return desk.findChild(QWidget, "desk_side")


def scrolled(desk) -> tuple[QScrollArea, ...]:
    names = ("desk_findings_scroll", "desk_instruments_scroll")
    return tuple(desk.findChild(QScrollArea, name) for name in names)


def test_that_a_desk_without_a_formula_says_what_to_do(desk):
    said = [label.text() for label in desk.findChildren(QLabel) if label.isVisible()]
    assert "No formula is open" in said
    assert not side(desk).isVisible()


def test_that_an_opened_formula_is_shown(parts, desk):
    parts.work.open(parts.lotion)
    assert desk.findChild(QLabel, "formula_name").text() == "Harbour Fog lotion"
    assert side(desk).isVisible()


def test_that_a_new_formula_is_named_at_once(qtbot, parts, desk):
    desk.begin_new()
    qtbot.keyClick(desk.new.list, Qt.Key.Key_Return)
    edit = desk.findChild(QLineEdit, "formula_name_edit")
    assert edit.isVisible()
    assert edit.selectedText() == "New formula"


def test_that_a_made_version_is_told_in_the_head(parts, desk):
    work = parts.work
    work.open(parts.lotion)
    work.studio.versions.make_version(parts.lotion, "first", parts.clock(), work.shelf)
    desk.refresh()
    assert desk.findChild(QLabel, "draft_state").text().startswith("draft after v1")


@pytest.mark.parametrize("scale", [1.0, 2.0])
def test_that_nothing_at_the_side_is_cut(qtbot, parts, appearance, desk, scale):
    appearance.apply()
    appearance.set_scale(scale)
    parts.work.open(parts.lotion)
    parts.work.edit("Set", lambda formula: with_percent(formula, 4, Decimal("1.4")))
    for area in scrolled(desk):
        inside, port = area.widget(), area.viewport()
        qtbot.waitUntil(lambda inside=inside, port=port: inside.width() <= port.width())
        assert inside.minimumSizeHint().width() <= port.width()


def test_that_the_desk_fits_a_small_screen(parts, desk):
    parts.work.open(parts.lotion)
    assert desk.minimumSizeHint().width() <= 1024
