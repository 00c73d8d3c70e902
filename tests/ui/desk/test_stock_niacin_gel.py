"""Acceptance scenario "Quillmoss Niacin Gel" in the window, by the keys.

The figures are those of the scenario; test_niacin_gel.py says how each is found. The cap of
1.0 % phenoxyethanol is Regulation (EC) 1223/2009, Annex V, entry 29; the order of names is its
Article 19(1)(g).
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from PySide6.QtCore import Qt

from tests.scenarios.test_niacin_gel import ACID, BLEND, GUM, PANTHENOL, WATER
from tests.ui.desk.niacin import STOCK_NAME, niacin_window
from tests.ui.windows import Hand, settle
from workbench.formula.totals import totals
from workbench.ui.places.desk.rows import line_id

KEY = Qt.Key


@pytest.fixture
def window(qtbot, tmp_path):
    made = niacin_window(tmp_path / "pebblewick.studio")
    qtbot.addWidget(made)
    yield made
    made.close()


@pytest.fixture
def hand(window) -> Hand:
    return Hand(window)


def go(window, line):
    window.desk.sheet.focus_line(line)
    settle(window)


def use_stock(window, hand):
    go(window, GUM)
    hand.press(KEY.Key_K, ctrl=True, shift=True)
    hand.press(KEY.Key_Return)


def shown(window, line):
    """Return the row of a line as the sheet shows it."""
    model = window.desk.sheet.model()
    return model.row_at(model.index_of(line_id(line), "percent"))


def figures(window):
    return {each.key: each.value for each in window.work.assessment.figures}


def test_that_the_preview_shows_each_change_before_anything_is_changed(window, hand):
    before = window.work.formula
    go(window, GUM)
    hand.press(KEY.Key_K, ctrl=True, shift=True)
    panel = window.desk.rework.panel
    assert panel.isVisible()
    for text in ("54.0167", "0.35", "35.00", "1.00", "0.65", STOCK_NAME):
        assert text in panel.text
    assert window.work.formula == before
    hand.press(KEY.Key_Escape)
    assert not panel.isVisible()
    assert window.work.formula == before


def test_that_the_stock_comes_with_every_percent_and_gram_of_the_scenario(window, hand):
    use_stock(window, hand)
    expected = {
        GUM: ("35.00", "288.75"),
        PANTHENOL: ("1.3333", "11.00"),
        BLEND: ("0.65", "5.36"),
        WATER: ("54.0167", "445.64"),
        ACID: ("1.00", "8.25"),
    }
    for line, (percent, grams) in expected.items():
        assert shown(window, line).percent == percent
        assert shown(window, line).grams == grams
    assert totals(window.work.formula).percent == Decimal(100)
    assert window.desk.sheet.hasFocus()
    assert window.desk.sheet.focused_line == GUM


def test_that_water_in_all_and_the_masses_are_those_of_the_scenario(window, hand):
    use_stock(window, hand)
    found = figures(window)
    assert round(found["water"], 2) == Decimal("89.55")
    assert found["filled-mass"] == Decimal("795.6")
    assert found["needed-mass"] == Decimal("820.2")
    substances = window.work.assessment.composition.substances
    assert substances["phenoxyethanol"] == Decimal("0.90")
    assert substances["xanthan_gum"] == Decimal("0.35")
    assert round(substances["panthenol"], 2) == Decimal("1.00")


def test_that_forgetting_the_preservative_of_the_stock_is_a_stop_in_the_panel(window, hand):
    use_stock(window, hand)
    go(window, BLEND)
    hand.type("1")
    hand.press(KEY.Key_Return)
    stops = [
        view
        for view in window.desk.side.findings.views
        if view.finding.severity.word == "stop"
        and view.finding.values_of("substance") == "phenoxyethanol"
    ]
    assert [view.finding.value for view in stops] == [Decimal("1.215")]
    hand.press(KEY.Key_Z, ctrl=True)
    assert window.work.formula.line(BLEND).percent == Decimal("0.65")


def test_that_the_label_page_names_the_order_of_the_scenario(window, hand):
    use_stock(window, hand)
    window.desk.show_label()
    settle(window)
    listed = "Panthenol, Phenoxyethanol, Xanthan Gum, Ethylhexylglycerin, Citric Acid"
    assert listed in window.desk.label.text


def test_that_back_to_powder_gives_the_design_again_and_so_does_undo(window, hand):
    design = window.work.formula
    use_stock(window, hand)
    hand.press(KEY.Key_K, ctrl=True, shift=True)
    hand.press(KEY.Key_Return)
    assert window.work.formula == design
    hand.press(KEY.Key_Z, ctrl=True)
    assert window.work.formula.line(GUM).percent == Decimal(35)
    hand.press(KEY.Key_Z, ctrl=True)
    assert window.work.formula == design
    assert not window.work.session.stack.canUndo()


def test_that_wetting_the_powder_adds_its_step_and_moves_no_percent(window, hand):
    before = totals(window.work.formula).percents
    go(window, GUM)
    hand.press(KEY.Key_K, ctrl=True, shift=True)
    hand.press(KEY.Key_Down)
    assert "Neat glycerin" in window.desk.rework.panel.text
    hand.press(KEY.Key_Return)
    steps = window.work.formula.phases[0].steps
    assert [("slurry" in step.text, "Neat glycerin" in step.text) for step in steps] == [
        (True, True)
    ]
    assert totals(window.work.formula).percents == before


def test_that_a_locked_preservative_stands_in_the_way_until_it_may_stand(window, hand):
    go(window, BLEND)
    hand.press(KEY.Key_L, ctrl=True)
    go(window, GUM)
    hand.press(KEY.Key_K, ctrl=True, shift=True)
    panel = window.desk.rework.panel
    assert panel.trial.rework is None
    assert "locked" in panel.text
    assert panel._stands.isVisible()
    panel._stands.click()
    settle(window)
    assert panel.trial.rework is not None
    assert "higher than designed" in panel.text
    panel.apply()
    assert window.work.formula.line(GUM).percent == Decimal(35)
    assert window.work.formula.line(BLEND).percent == Decimal(1)


def test_that_the_action_is_called_by_what_is_on_the_line(window, hand):
    named = {each.objectName(): each for each in window.desk.sheet.sheet_actions()}
    go(window, GUM)
    assert named["sheet_stock"].text() == "Use a stock, or wet it first"
    go(window, ACID)
    assert named["sheet_stock"].text() == "Back to powder"
