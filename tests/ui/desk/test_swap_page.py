"""The page of a swap: candidates, ratios, before and after, and what comes of it."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLabel, QPushButton

from tests.builders import make_formula
from tests.scenarios.test_niacin_gel import ACID, BLEND, GUM, PANTHENOL, WATER
from tests.ui.desk.niacin import NAME, NEAT, STOCK_NAME, niacin_window
from tests.ui.desk.panels import make_parts, theme
from tests.ui.windows import Hand, settle
from workbench.formula.edits import with_lock
from workbench.formula.totals import totals
from workbench.ui.places.desk.swap_model import CandidateSource, candidate_model
from workbench.ui.places.desk.swap_trial import SwapTrials

KEY = Qt.Key
GLYCERIN = 2


@pytest.fixture
def window(qtbot, tmp_path):
    made = niacin_window(tmp_path / "pebblewick.studio")
    qtbot.addWidget(made)
    yield made
    made.close()


@pytest.fixture
def hand(window) -> Hand:
    return Hand(window)


@pytest.fixture
def page(window):
    return window.desk.rework.page


def begin(window, hand, line=GLYCERIN):
    window.desk.sheet.focus_line(line)
    settle(window)
    hand.press(KEY.Key_X, ctrl=True, shift=True)


def test_that_the_key_opens_the_page_with_ranked_candidates(window, hand, page):
    begin(window, hand, PANTHENOL)
    assert page.isVisible()
    assert page.search.hasFocus()
    first = page.list.rows[0]
    assert first.key == "panthenol_d"
    assert "usual swap" in first.why
    assert "strength" in first.differs


def test_that_the_arrow_keys_change_before_and_after(window, hand, page):
    begin(window, hand)
    one, text = page.list.row, page.effect.text
    hand.press(KEY.Key_Down)
    assert page.list.row != one
    assert page.effect.text != text
    assert page.list.row.name in page.effect.text


def test_that_before_and_after_hold_lines_total_findings_figures_and_ladders(window, hand, page):
    begin(window, hand, PANTHENOL)
    text = page.effect.text
    for said in ("1.3333", "D-panthenol", "Total", "100.00", "Few rules for US", "unchanged"):
        assert said in text
    assert len(page.effect.ladders) == 2
    before, after = (ladder.ladder for ladder in page.effect.ladders)
    assert before.rungs
    assert after.rungs


def test_that_equal_pure_matter_gives_way_to_the_water_exactly(window, hand, page):
    begin(window, hand, PANTHENOL)
    hand.press(KEY.Key_Return)
    after = totals(window.work.formula).percents
    assert window.work.formula.line(PANTHENOL).ingredient == "panthenol_d"
    assert after[PANTHENOL] == Decimal("1.0000")  # 1.3333 x 0.75
    assert totals(window.work.formula).percent == Decimal(100)
    assert not page.isVisible()
    assert window.desk.sheet.focused_line == PANTHENOL
    assert window.desk.sheet.hasFocus()
    assert window.work.session.stack.count() == 1


def test_that_escape_goes_back_and_changes_nothing(window, hand, page):
    before = window.work.formula
    begin(window, hand)
    hand.press(KEY.Key_Down, KEY.Key_Escape)
    assert not page.isVisible()
    assert window.work.formula == before
    assert window.desk.side.isVisible()
    assert window.desk.sheet.focused_line == GLYCERIN


def test_that_any_ingredient_can_be_typed(window, hand, page):
    begin(window, hand)
    hand.type("squalane")
    assert page.list.row.key == "squalane"
    hand.press(KEY.Key_Return)
    assert window.work.formula.line(GLYCERIN).ingredient == "squalane"


def test_that_a_name_nothing_fits_is_told_and_enter_does_nothing(window, hand, page):
    before = window.work.formula
    begin(window, hand)
    hand.type("zzzz")
    assert "zzzz" in page._none.text()
    assert not page.findChild(QPushButton, "swap_apply").isEnabled()
    hand.press(KEY.Key_Return)
    assert window.work.formula == before


def test_that_what_is_on_hand_is_marked_typed_or_ranked(window, hand, page):
    window.work.studio.supplies.set_on_hand("sorbitol_70", on_hand=True)
    begin(window, hand)
    ranked = {row.key: row for row in page.list.rows}
    assert "I have this" in ranked["sorbitol_70"].beside
    assert ranked["propanediol"].beside == ""
    hand.type("sorb")
    typed = {row.key: row for row in page.list.rows}
    assert typed["sorbitol_70"].on_hand


def test_that_a_typed_ratio_is_taken_as_it_is_typed(window, hand, page):
    begin(window, hand)
    page._parts.edit.setFocus()
    page._parts.edit.selectAll()
    hand.type("0.5")
    assert page._ratio.box.currentData() == "typed"
    assert page.trial.rework.formula.line(GLYCERIN).percent == Decimal(2)
    hand.press(KEY.Key_Return)
    assert window.work.formula.line(GLYCERIN).percent == Decimal(2)


@pytest.mark.parametrize("text", ["", "0", "-1", "much"])
def test_that_a_ratio_that_is_none_is_told(window, hand, page, text):
    begin(window, hand)
    page._parts.edit.setText(text)
    page._parts.edit.textEdited.emit(text)
    assert page.trial is None
    assert page.findChild(QLabel, "swap_said").text()


def test_that_a_variant_is_a_draft_of_its_own_and_the_old_one_stays(window, hand, page):
    work, key, before = window.work, window.work.key, window.work.formula
    begin(window, hand, PANTHENOL)
    hand.press(KEY.Key_Return, ctrl=True)
    assert work.key != key
    assert work.formula.line(PANTHENOL).ingredient == "panthenol_d"
    assert work.formula.name.startswith(f"{NAME}, with D-panthenol")
    assert work.studio.formulas.draft(key)[0] == before
    assert not page.isVisible()
    assert not work.session.stack.canUndo()


def test_that_the_stock_of_the_powder_is_the_exact_change(window, hand, page):
    begin(window, hand, GUM)
    hand.type("xanthan stock")
    assert page.list.row.name == STOCK_NAME
    hand.press(KEY.Key_Return)
    percents = totals(window.work.formula).percents
    assert (percents[GUM], percents[BLEND], percents[WATER]) == (
        Decimal(35),
        Decimal("0.65"),
        Decimal("54.0167"),
    )


def test_that_a_refusal_is_in_words_and_may_be_let_stand(window, hand, page):
    window.work.edit("Lock", lambda formula: with_lock(formula, BLEND, locked=True))
    begin(window, hand, GUM)
    hand.type("xanthan stock")
    said = page.findChild(QLabel, "swap_said")
    assert "locked" in said.text()
    assert not page.findChild(QPushButton, "swap_apply").isEnabled()
    page._stands.click()
    assert "higher than designed" in said.text()
    assert "<b>new</b>" in page.effect.text  # the cap of phenoxyethanol is passed
    page.apply()
    assert window.work.formula.line(GUM).percent == Decimal(35)


def test_that_a_new_stop_is_shown_with_its_word(window, hand, page):
    begin(window, hand, BLEND)
    page._parts.edit.setText("3")
    page._parts.edit.textEdited.emit("3")
    text = page.effect.text
    assert page.trial.rework is not None
    assert "<b>new</b>" in text
    assert "data:image/png" in text


def test_that_a_change_from_elsewhere_is_shown_and_a_gone_line_leaves(window, hand, page):
    begin(window, hand)
    window.work.session.edit("Rename", lambda formula: replace(formula, name="Other"))
    assert page.isVisible()
    without = make_formula(("water*", "0"))
    window.work.session.edit("Other", lambda _formula: without)
    assert not page.isVisible()


def test_that_a_finding_about_one_line_leads_to_the_page(window, hand, page):
    begin(window, hand, BLEND)
    hand.press(KEY.Key_Escape)
    window.desk.sheet.focus_line(BLEND)
    hand.type("2")
    hand.press(KEY.Key_Return)
    views = window.desk.side.findings.views
    link = next(view._swap for view in views if view._swap.isVisible())
    assert link.accessibleName().startswith("Swap ")
    link.click()
    settle(window)
    assert page.isVisible()


def test_that_tab_goes_through_the_page_in_the_order_of_the_eye(window, hand, page):
    begin(window, hand)
    order = []
    for _ in range(9):
        order.append(QApplication.focusWidget().objectName())
        hand.press(KEY.Key_Tab)
    assert order[:5] == [
        "swap_search",
        "swap_candidates",
        "form_swap_ratio",
        "form_swap_parts",
        "effect_view",
    ]
    assert order[-2:] == ["swap_apply", "swap_keep"]


def test_that_everything_that_takes_the_focus_has_a_name(window, hand, page):
    begin(window, hand)
    for child in (page.search, page.list, page._ratio.box, page._parts.edit, page.effect):
        assert child.accessibleName()
    assert all(ladder.accessibleName() for ladder in page.effect.ladders)
    first = page.list.model().index(0, 0)
    told = first.data(Qt.ItemDataRole.AccessibleTextRole)
    assert page.list.rows[0].name in told
    assert page.list.rows[0].why in told


def test_that_the_acid_stock_is_a_candidate_like_any(window, hand, page):
    begin(window, hand, ACID)
    assert page.list.rows
    assert NEAT not in {row.key for row in page.list.rows}


def test_that_a_stock_is_swapped_by_what_it_is_made_for_and_not_by_its_mass(window, hand, page):
    window.desk.sheet.focus_line(GUM)
    hand.press(KEY.Key_K, ctrl=True, shift=True)
    hand.press(KEY.Key_Return)
    begin(window, hand, GUM)
    hand.type("guar gum")
    after = totals(page.trial.rework.formula)
    assert after.percents[GUM] == Decimal("0.35")
    assert after.percents[BLEND] == Decimal(1)
    assert after.percent == Decimal(100)


def test_that_the_model_of_candidates_keeps_its_promises(qtmodeltester, tmp_path):
    parts = make_parts(tmp_path)
    parts.work.open(parts.lotion)
    source = CandidateSource(parts.work)
    source.rank(GLYCERIN)
    model = candidate_model(parts.work.words)
    model.set_rows(source.rows(""))
    qtmodeltester.check(model)
    model.set_rows(source.rows("prop"))
    qtmodeltester.check(model)
    parts.work.studio.close()


def test_that_there_and_back_by_pure_matter_is_the_same_composition(tmp_path):
    parts = make_parts(tmp_path)
    work = parts.work
    work.open(parts.lotion)
    before = work.assessment.composition.substances
    trials = SwapTrials(work, GLYCERIN)
    ratio = next(each for each in trials.ratios("sorbitol_70") if each.kind == "active")
    there = trials.swap("sorbitol_70", ratio.factor, stands=False).rework
    work.edit("There", lambda _formula: there.formula)
    again = SwapTrials(work, GLYCERIN)
    ratio = next(each for each in again.ratios("glycerin") if each.kind == "active")
    back = again.swap("glycerin", ratio.factor, stands=False).rework
    work.edit("Back", lambda _formula: back.formula)
    after = work.assessment.composition.substances
    assert set(after) == set(before)
    for name, percent in before.items():
        assert abs(after[name] - percent) <= Decimal("0.0001"), name
    work.studio.close()


def test_that_the_page_is_painted_in_both_looks_and_twice_as_large(window, hand, page):
    begin(window, hand)
    for scheme, scale in (("dark", 1.0), ("light", 2.0)):
        page.set_theme(theme(scheme, scale))
        settle(window)
        assert not page.grab().isNull()
        assert page.effect.text
