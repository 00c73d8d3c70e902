from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import QLabel, QLineEdit, QPushButton, QStyleOptionButton, QWidget

from tests.ui.desk.panels import theme
from workbench.checks.assessment import Figure
from workbench.checks.finding import Finding, Severity
from workbench.formula.absent import Absent
from workbench.formula.cost import Cost
from workbench.formula.edits import with_percent
from workbench.ui.places.desk.figures_panel import FiguresPanel
from workbench.ui.places.desk.findings_panel import FindingsPanel
from workbench.ui.places.desk.flow import FlowLayout
from workbench.ui.places.desk.link_button import LinkButton

PRESERVATIVE = 4
OVER = Decimal("1.40")  # 87 % benzyl alcohol: 1.218 % over the 1.0 % of EU Annex V entry 34


@pytest.fixture
def panel(qtbot, parts):
    shown = FindingsPanel(parts.work, theme())
    qtbot.addWidget(shown)
    shown.resize(345, 600)
    shown.show()
    return shown


def text(widget, name: str) -> str:
    return widget.findChild(QLabel, name).text()


def set_percent(parts, percent: Decimal) -> None:
    parts.work.edit("Set", lambda formula: with_percent(formula, PRESERVATIVE, percent))


def test_that_a_draft_without_findings_says_what_was_checked(parts, panel):
    parts.work.edit("No target", lambda formula: replace(formula, target_ph=None))
    assert [view.sentence for view in panel.views] == []
    said = text(panel, "findings_empty")
    assert said.startswith("Nothing to look at. What was checked:")
    assert "EU and UK" in said
    assert not {"safe", "compliant", "complies"} & set(said.lower().replace(".", "").split())


def test_that_a_stop_is_shown_with_its_word_reason_and_source(parts, panel):
    set_percent(parts, OVER)
    stop = panel.views[0]
    assert stop.sentence == "stop: Over the legal limit: Benzyl Alcohol"
    assert "1.218 %" in text(stop, "finding_detail")
    assert "Annex V entry 34" in text(stop, "finding_source")
    assert panel.findChild(QLabel, "findings_empty").isHidden()


def test_that_a_remedy_clears_its_finding_in_one_step(qtbot, parts, panel):
    set_percent(parts, OVER)
    button = panel.views[0].findChild(QPushButton, "finding_remedy")
    assert button.text().startswith("Set Benzyl alcohol and dehydroacetic acid to 1.1")
    steps = parts.work.session.stack.count()
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)
    assert parts.work.session.stack.count() == steps + 1
    assert not any(view.sentence.startswith("stop") for view in panel.views)
    parts.work.session.stack.undo()
    assert panel.views[0].sentence.startswith("stop")


def test_that_a_finding_that_stays_keeps_its_widget(parts, panel):
    set_percent(parts, OVER)
    before = panel.views[0]
    set_percent(parts, Decimal("1.50"))
    assert panel.views[0] is before
    assert "1.305 %" in text(before, "finding_detail")  # 1.50 x 0.87


def test_that_two_findings_of_one_key_are_both_shown(parts, panel):
    twin = Finding("use-over", Severity.NOTE, (("ingredient", "glycerin"),), (2,))
    other = replace(twin, values=(*twin.values, ("percent", "9"), ("limit", "7")))
    twin = replace(twin, values=(*twin.values, ("percent", "9"), ("limit", "8")))
    panel.show_assessment(replace(parts.work.assessment, findings=(twin, other)))
    assert [view.finding for view in panel.views] == [twin, other]


def test_that_a_click_or_enter_asks_for_the_first_line(qtbot, parts, panel):
    set_percent(parts, OVER)
    with qtbot.waitSignal(panel.line_wanted, timeout=0) as asked:
        qtbot.mouseClick(panel.views[0], Qt.MouseButton.LeftButton)
    assert asked.args == [PRESERVATIVE]
    with qtbot.waitSignal(panel.line_wanted, timeout=0):
        qtbot.keyClick(panel.views[0], Qt.Key.Key_Return)


def test_that_why_shows_value_limit_basis_and_the_whole_source(qtbot, parts, panel):
    set_percent(parts, OVER)
    view = panel.views[0]
    assert view.findChild(QLabel, "finding_why").isHidden()
    qtbot.mouseClick(view.findChild(QPushButton, "finding_why_link"), Qt.MouseButton.LeftButton)
    why = text(view, "finding_why")
    assert "Found: 1.218 %" in why
    assert "Limit: 1 %" in why
    assert view.finding.source.split(";")[-1].strip() in why.replace("\u200b", "")
    set_percent(parts, Decimal("1.50"))
    assert "Found: 1.305 %" in text(view, "finding_why")
    assert view.findChild(QLabel, "finding_source").isHidden()


def test_that_a_figure_from_memory_is_said_to_be_so(parts, panel):
    found = Finding(
        "market-not-covered",
        Severity.NOTE,
        (("market", "US"),),
        source="a book",
        confidence="memory",
    )
    panel.show_assessment(replace(parts.work.assessment, findings=(found,)))
    assert "from memory" in text(panel.views[0], "finding_source")


def test_that_a_new_finding_is_announced_politely(qtbot, parts, panel, monkeypatch):
    told = []
    monkeypatch.setattr(
        QAccessible,
        "updateAccessibility",
        lambda event: told.append((event.message(), event.politeness())),
    )
    set_percent(parts, OVER)
    set_percent(parts, Decimal("1.50"))
    assert not any("Over the legal limit" in message for message, _ in told)  # the keys do not rest
    qtbot.waitUntil(lambda: any("Over the legal limit" in message for message, _ in told))
    qtbot.wait(600)
    spoken = [message for message, _ in told if "Over the legal limit" in message]
    assert len(spoken) == 1
    assert {politeness for _, politeness in told} == {QAccessible.AnnouncementPoliteness.Polite}


def test_that_a_finding_that_went_before_the_keys_rest_is_not_announced(
    qtbot, parts, panel, monkeypatch
):
    told = []
    monkeypatch.setattr(QAccessible, "updateAccessibility", told.append)
    before = parts.work.formula
    set_percent(parts, OVER)
    parts.work.edit("Back", lambda _formula: before)
    qtbot.wait(600)
    assert not any("Over the legal limit" in event.message() for event in told)


def test_that_findings_that_all_come_at_once_stand_one_below_the_other(qtbot, parts, panel):
    panel.show_assessment(replace(parts.work.assessment, findings=()))
    many = tuple(
        Finding("market-not-covered", Severity.NOTE, (("market", "US"),), (line,))
        for line in range(1, 31)
    )
    panel.show_assessment(replace(parts.work.assessment, findings=many))
    qtbot.waitUntil(lambda: len(panel.findChildren(QLabel, "finding_title")) >= len(many))
    views = panel.views
    assert [view.finding for view in views] == list(many)
    assert all(view.isVisible() for view in views)
    tops = [view.y() for view in views]
    assert tops == sorted(set(tops))


def test_that_tab_goes_through_the_findings_in_order(qtbot, parts, panel):
    set_percent(parts, OVER)
    panel.views[0].setFocus()
    stops, here = [], panel.views[0]
    for _ in range(200):
        if here in panel.views:
            stops.append(here)
        here = here.nextInFocusChain()
    assert tuple(stops[: len(panel.views)]) == panel.views


def test_that_a_widget_used_again_shows_nothing_of_what_it_showed(qtbot, parts, panel):
    set_percent(parts, OVER)
    view = panel.views[0]
    qtbot.mouseClick(view.findChild(QPushButton, "finding_why_link"), Qt.MouseButton.LeftButton)
    found = Finding("market-not-covered", Severity.NOTE, (("market", "US"),))
    panel.show_assessment(replace(parts.work.assessment, findings=()))
    panel.show_assessment(replace(parts.work.assessment, findings=(found,)))
    again = panel.views[0]
    assert again.sentence.startswith("note: ")
    assert again.findChild(QLabel, "finding_why").isHidden()
    assert again.findChildren(QPushButton, "finding_remedy") == [] or all(
        button.isHidden() for button in again.findChildren(QPushButton, "finding_remedy")
    )


def test_that_no_word_is_cut_at_twice_the_text_size(qtbot, parts):
    panel = FindingsPanel(parts.work, theme(scale=2.0))
    qtbot.addWidget(panel)
    set_percent(parts, OVER)
    assert panel.minimumSizeHint().width() <= 300


def figures(parts, qtbot, **changes) -> FiguresPanel:
    panel = FiguresPanel(parts.work, theme())
    qtbot.addWidget(panel)
    panel.show_assessment(replace(parts.work.assessment, **changes))
    return panel


def shown(panel, name: str) -> list[str]:
    return [label.text() for label in panel.findChildren(QLabel, name) if not label.isHidden()]


def test_that_a_figure_is_shown_with_its_unit(qtbot, parts):
    panel = figures(
        parts,
        qtbot,
        figures=(
            Figure("water", Decimal("70.9"), "percent"),
            Figure("needed-mass", Decimal("707.3"), "gram"),
            Figure("cost-unit", Decimal("0.36"), "money", (("currency", "EUR"),)),
        ),
    )
    assert shown(panel, "figure_value") == ["70.90 %", "707.3 g", "0.36 EUR"]


def test_that_a_figure_that_is_not_computed_says_why(qtbot, parts):
    panel = figures(
        parts, qtbot, figures=(Figure("cost-batch", Absent("absent-no-price"), "money"),)
    )
    assert shown(panel, "figure_value") == []
    assert shown(panel, "figure_reason") == ["No price is known."]


def test_that_a_cost_names_what_has_no_price(qtbot, parts):
    cost = Cost({}, Decimal(1), None, "EUR", ("glycerin", "xanthan_gum"))
    panel = figures(parts, qtbot, cost=cost)
    assert "no price for Vegetable glycerin" in text(panel, "figures_missing")
    assert "Xanthan gum" in text(panel, "figures_missing")
    panel.show_assessment(replace(parts.work.assessment, cost=replace(cost, missing=())))
    assert panel.findChild(QLabel, "figures_missing").isHidden()


def test_that_every_figure_has_words(parts):
    words = parts.work.words
    keys = ("oils", "emulsifier-of-oils", "water", "cost-batch", "cost-unit", "needed-mass")
    assert all(words.has(f"figure-{key}") for key in (*keys, "filled-mass"))


def test_that_a_caution_is_accepted_with_a_reason_and_taken_back(parts, panel, qtbot):
    set_percent(parts, Decimal("1.15"))  # over the usual 1.1 %: a caution, and just legal
    view = next(one for one in panel.views if one.sentence.startswith("caution"))
    found = view.finding
    qtbot.mouseClick(view.findChild(QPushButton, "finding_accept"), Qt.MouseButton.LeftButton)
    reason = view.findChild(QLineEdit, "finding_reason")
    qtbot.keyClick(reason, Qt.Key.Key_Return)
    assert not parts.work.formula.accepted  # no reason, no acceptance
    qtbot.keyClicks(reason, "challenge test passed at this level")
    qtbot.keyClick(reason, Qt.Key.Key_Return)
    assert [one.reason for one in parts.work.formula.accepted] == [
        "challenge test passed at this level"
    ]
    told = panel.views[-1]
    assert told.finding.code == found.code
    assert text(told, "finding_accepted") == "Accepted: challenge test passed at this level"
    parts.work.session.stack.undo()
    assert not parts.work.formula.accepted


def test_that_escape_leaves_a_caution_open(parts, panel, qtbot):
    set_percent(parts, Decimal("1.15"))
    view = next(one for one in panel.views if one.sentence.startswith("caution"))
    qtbot.mouseClick(view.findChild(QPushButton, "finding_accept"), Qt.MouseButton.LeftButton)
    reason = view.findChild(QLineEdit, "finding_reason")
    qtbot.keyClicks(reason, "half a thou")
    qtbot.keyClick(reason, Qt.Key.Key_Escape)
    assert not reason.isVisible()
    assert not parts.work.formula.accepted


def test_that_a_stop_offers_no_acceptance(parts, panel):
    set_percent(parts, OVER)
    stop = panel.views[0]
    assert not stop.findChild(QPushButton, "finding_accept").isVisible()


def test_that_the_computation_is_shown_line_by_line(parts, panel, qtbot):
    set_percent(parts, OVER)
    stop = panel.views[0]
    qtbot.mouseClick(stop.findChild(QPushButton, "finding_why_link"), Qt.MouseButton.LeftButton)
    said = text(stop, "finding_why").replace("\u200b", "")
    assert "at 1.4 % brings 1.218 % Benzyl Alcohol" in said
    assert "Together 1.218 %, held against 1 %." in said


def test_that_a_source_takes_one_line_and_stands_in_full_under_why(parts, panel):
    set_percent(parts, Decimal("1.4"))
    view = panel.views[0]
    source = text(view, "finding_source")
    assert not source.endswith("\u2026")
    assert len(source) < 60
    view.findChild(QPushButton, "finding_why_link").click()
    assert len(text(view, "finding_why").splitlines()[-1]) > len(source)


def test_that_the_words_of_a_remedy_are_wrapped_and_never_cut(qtbot):
    words = "Put the difference on Distilled or deionised water, which takes the rest"
    button = LinkButton(words, "finding_remedy", wraps=True)
    qtbot.addWidget(button)
    button.resize(200, button.heightForWidth(200))
    option = QStyleOptionButton()
    button.initStyleOption(option)
    assert option.text.split() == words.split()
    assert "\n" in option.text
    assert button.heightForWidth(200) >= button.fontMetrics().height() * 2


def test_that_a_layout_gives_a_wrapped_remedy_all_its_lines(qtbot):
    holder = QWidget()
    qtbot.addWidget(holder)
    flow = FlowLayout(4, 4, holder)
    words = "Put the difference on Distilled or deionised water, which takes the rest"
    button = LinkButton(words, "finding_remedy", holder, wraps=True)
    flow.addWidget(button)
    holder.resize(200, flow.heightForWidth(200))
    holder.show()
    assert button.height() >= button.fontMetrics().lineSpacing() * 2
