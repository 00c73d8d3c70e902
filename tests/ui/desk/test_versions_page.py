"""Keeping versions, comparing them and coming back to them, through the keys."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLineEdit, QPushButton, QWidget

from tests.ui.desk.panels import theme
from workbench.formula.edits import with_percent
from workbench.formula.versions import same_design
from workbench.ui.places.desk.version_ways import VersionWays

GLYCERIN = 2


class Ways:
    """The page and the question on a desk that is only a widget."""

    def __init__(self, qtbot, parts):
        self.bot, self.parts, self.work = qtbot, parts, parts.work
        self.desk = QWidget()
        qtbot.addWidget(self.desk)
        self.made = []
        self.ways = VersionWays(parts.work, theme(), self.desk, self._make)
        self.page, self.keep = self.ways.page, self.ways.keep
        for widget in (self.page, self.keep):
            qtbot.addWidget(widget)
        self.page.resize(1000, 700)
        self.page.show()

    def _make(self, formula):
        key = self.work.studio.formulas.create(formula.name, formula)
        self.work.open(key)
        self.made.append(key)
        return True

    def glycerin(self, text):
        self.work.edit("Set", lambda draft: with_percent(draft, GLYCERIN, Decimal(text)))

    def keep_as(self, reason):
        self.ways.ask_to_keep()
        field = self.keep.findChild(QLineEdit, "keep_version_reason")
        self.bot.keyClicks(field, reason)
        self.bot.keyClick(field, Qt.Key.Key_Return)

    def press(self, key):
        self.bot.keyClick(self.page.table, key)

    @property
    def text(self):
        return self.page.difference.text


@pytest.fixture
def ways(qtbot, parts):
    return Ways(qtbot, parts)


@pytest.fixture
def two(ways):
    """Version 1 with 4 % glycerin, version 2 with 6 %, a draft with 5 %."""
    ways.keep_as("first trial")
    ways.glycerin("6")
    ways.keep_as("was too dry")
    ways.glycerin("5")
    ways.page.begin()
    return ways


def test_that_enter_keeps_the_draft_as_the_next_version_with_its_reason(ways):
    ways.keep_as("first trial")
    entries = ways.work.studio.versions.entries(ways.work.key)
    assert [(one.number, one.reason) for one in entries] == [(1, "first trial")]
    assert not ways.keep.isVisible()


def test_that_the_reason_is_asked_for_anew_and_never_left_empty(ways):
    ways.keep_as("first trial")
    ways.ways.ask_to_keep()
    field = ways.keep.findChild(QLineEdit, "keep_version_reason")
    assert field.text() == ""
    ways.bot.keyClick(field, Qt.Key.Key_Return)
    assert ways.work.studio.versions.numbers(ways.work.key) == (1,)
    assert "in a few words" in ways.keep.hint


def test_that_escape_keeps_nothing(ways):
    ways.ways.ask_to_keep()
    field = ways.keep.findChild(QLineEdit, "keep_version_reason")
    ways.bot.keyClicks(field, "half a thought")
    ways.bot.keyClick(field, Qt.Key.Key_Escape)
    assert ways.work.studio.versions.numbers(ways.work.key) == ()
    assert not ways.keep.isVisible()


def test_that_several_decisions_since_the_last_version_are_listed(ways):
    ways.keep_as("first trial")
    ways.glycerin("6")
    ways.ways.ask_to_keep()
    assert "One decision" in ways.keep.hint
    ways.work.edit("Set", lambda draft: replace(draft, area="face"))
    assert "2 decisions" in ways.keep.hint
    assert "another area" in ways.keep.hint


def test_that_a_draft_that_has_not_changed_is_said_to_be_the_same(ways):
    ways.keep_as("first trial")
    ways.ways.ask_to_keep()
    assert ways.keep.hint == "Nothing has changed since version 1."


def test_that_the_list_shows_the_draft_and_the_versions_newest_first(two):
    rows = two.page.table.rows
    assert [row.name for row in rows] == ["Draft", "Version 2", "Version 1"]
    assert rows[0].reason == "changed since version 2"
    assert rows[1].reason == "was too dry"


def test_that_the_list_counts_the_batches_of_each_version(two):
    now = two.parts.clock()
    two.work.studio.batches.take_number(two.work.key, 1, Decimal(500), now)
    two.work.studio.batches.take_number(two.work.key, 1, Decimal(500), now)
    two.page.begin()
    assert [row.batches for row in two.page.table.rows] == [0, 0, 2]


def test_that_down_shows_what_a_version_changed(two):
    assert "Version 2 and Draft" in two.text
    two.press(Qt.Key.Key_Down)
    assert "Version 1 and Version 2" in two.text
    for shown in ("4.00", "6.00", "+2.00"):
        assert shown in two.text


def test_that_space_marks_the_version_to_compare_with(two):
    two.press(Qt.Key.Key_End)
    two.page.table.go_to(1)
    two.press(Qt.Key.Key_Space)
    assert two.page.table.current().is_marked
    two.page.table.go_to(0)
    assert "Version 1 and Draft" in two.text
    assert "+1.00" in two.text
    two.page.table.go_to(1)
    two.press(Qt.Key.Key_Space)
    assert not two.page.table.current().is_marked


def test_that_the_first_version_is_shown_with_its_lines(two):
    two.page.table.go_to(1)
    assert "there is nothing before it" in two.text
    assert "4.00" in two.text


def test_that_the_difference_tells_head_figures_list_and_findings(two):
    two.work.edit("Area", lambda draft: replace(draft, area="face", pack="jar"))
    two.glycerin("60")
    assert "Area" in two.text
    assert "jar" in two.text
    assert "Water in all" in two.text
    assert "Ingredient list, EU" in two.text
    assert "In another place" in two.text or "Glycerin, Aqua" in two.text
    assert "New" in two.text


def test_that_enter_goes_into_the_comparison_and_escape_comes_back(two, qtbot):
    two.page.activateWindow()
    two.page.focus_first()
    two.press(Qt.Key.Key_Return)
    assert two.page.focusWidget() is two.page.difference
    with qtbot.assertNotEmitted(two.page.left, wait=10):
        two.bot.keyClick(two.page.difference, Qt.Key.Key_Escape)


def test_that_restoring_is_one_step_and_undo_brings_the_draft_back(two):
    before, steps = two.work.formula, two.work.session.stack.count()
    two.page.table.go_to(1)
    button = two.page.findChild(QPushButton, "versions_restore")
    two.bot.keyClick(button, Qt.Key.Key_Space)
    assert two.work.formula.line(GLYCERIN).percent == Decimal(4)
    assert two.work.session.stack.count() == steps + 1
    two.work.session.stack.undo()
    assert two.work.formula == before
    assert two.work.studio.versions.numbers(two.work.key) == (1, 2)


def test_that_a_version_stays_as_it_was_after_restoring_and_editing(two):
    old = two.work.studio.versions.get(two.work.key, 1)
    two.page.table.go_to(1)
    two.page.restore()
    two.glycerin("9")
    assert same_design(two.work.studio.versions.get(two.work.key, 1).formula, old.formula)


def test_that_a_branch_is_a_new_formula_whose_notes_say_where_it_comes_from(two):
    key, name = two.work.key, two.work.formula.name
    two.page.table.go_to(1)
    two.page.branch()
    assert two.made == [two.work.key] != [key]
    assert two.work.formula.line(GLYCERIN).percent == Decimal(4)
    notes = two.work.studio.formulas.notes(two.work.key)
    assert name in notes
    assert "version 1" in notes
    assert "first trial" in notes
    assert two.work.studio.versions.numbers(two.work.key) == ()


def test_that_the_draft_itself_can_neither_be_restored_nor_branched(two):
    two.page.table.go_to(0)
    for name in ("restore", "branch"):
        assert not two.page.findChild(QPushButton, f"versions_{name}").isEnabled()


def test_that_the_rows_read_out_name_date_and_reason(two):
    model = two.page.table.model()
    said = model.index(1, 0).data(Qt.ItemDataRole.AccessibleTextRole)
    assert said.startswith("Version 2, 2026-11-25")
    assert said.endswith("was too dry")


def test_that_the_model_of_the_list_is_sound(two, qtmodeltester):
    qtmodeltester.check(two.page.table.model())
    two.page.begin()


def test_that_everything_has_a_name_to_read_out(two):
    for widget in (two.page.table, two.page.difference):
        assert widget.accessibleName()
    assert two.keep.findChild(QLineEdit, "keep_version_reason").accessibleName()


def test_that_only_what_moved_in_an_ingredient_list_is_named(two):
    two.work.edit("Gum", lambda draft: with_percent(draft, 3, Decimal(30)))
    said = next(line for line in two.text.splitlines() if line.startswith("In another place"))
    assert said == "In another place: Xanthan Gum"
