"""The rules of the trade on the studio page: read, written, told when bad, taken back."""

from __future__ import annotations

import json

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QAbstractButton,
    QLabel,
    QLineEdit,
    QListWidget,
    QPlainTextEdit,
    QPushButton,
    QTextBrowser,
)

from tests.ui.desk.panels import make_parts
from workbench.paths import resources
from workbench.ui.places.studio.studio import StudioPlace
from workbench.ui.theme import Appearance, SchemeChoice

RULE = {
    "key": "glycerin-sticks",
    "severity": "note",
    "when": "has [key glycerin] >= 3",
    "message": "Our testers find it sticky.",
    "why": "Glycerin stays on the skin.",
    "source": "batch notes",
    "confidence": "memory",
    "fires": {"glycerin": "4"},
    "quiet": {"glycerin": "2"},
}


@pytest.fixture
def parts(qtbot, tmp_path):
    made = make_parts(tmp_path)
    made.work.open(made.lotion)
    yield made
    made.work.studio.close()


@pytest.fixture
def page(qtbot, parts):
    place = StudioPlace(parts.work, Appearance(resources(), SchemeChoice.LIGHT))
    qtbot.addWidget(place)
    place.resize(1100, 760)
    place.show()
    place.findChild(QPushButton, "studio_open_rules").click()
    return place.rules


def press(page, name: str) -> None:
    page.findChild(QPushButton, name).click()


def write(page, **changes) -> None:
    press(page, "own_rules_write")
    page.findChild(QPlainTextEdit, "own_rule_text").setPlainText(json.dumps({**RULE, **changes}))
    press(page, "own_rule_keep")


def spoken(parts) -> list[object]:
    return [found.values_of("message") for found in parts.work.assessment.findings]


def stored(parts) -> list[str]:
    return [rule.key for rule in parts.work.studio.own_rules.written()]


def said(page) -> str:
    return page.findChild(QLabel, "own_rule_said").text()


def test_that_a_kept_rule_speaks_on_the_open_draft_at_once(parts, page):
    assert RULE["message"] not in spoken(parts)
    write(page)
    assert stored(parts) == ["glycerin-sticks"]
    assert RULE["message"] in spoken(parts)
    assert page.findChild(QLabel, "own_rules_message").text() == RULE["message"]


@pytest.mark.parametrize(
    ("changes", "reason"),
    [
        ({"when": "has [key glycerine]"}, "'glycerine' is not known here."),
        ({"quiet": {"glycerin": "9"}}, "its own example 'quiet'"),
        ({"key": "benzene"}, "another rule is called 'benzene'."),
    ],
)
def test_that_a_bad_rule_is_told_and_not_stored(parts, page, changes, reason):
    before = spoken(parts)
    write(page, **changes)
    assert reason in said(page)
    assert stored(parts) == []
    assert spoken(parts) == before


def test_that_a_fault_is_told_while_typing(qtbot, page):
    press(page, "own_rules_write")
    assert said(page).startswith("It can be kept")
    page.findChild(QPlainTextEdit, "own_rule_text").setPlainText("{")
    qtbot.waitUntil(lambda: "not written as a rule is" in said(page), timeout=3000)


def test_that_a_removed_rule_is_silent_until_undo_brings_it_back(parts, page):
    write(page)
    press(page, "own_rules_remove")
    assert stored(parts) == []
    assert RULE["message"] not in spoken(parts)
    press(page, "own_rules_undo")
    assert stored(parts) == ["glycerin-sticks"]
    assert RULE["message"] in spoken(parts)


def test_that_a_rule_is_changed_under_its_own_key_only(parts, page):
    write(page)
    press(page, "own_rules_edit")
    edit = page.findChild(QPlainTextEdit, "own_rule_text")
    edit.setPlainText(json.dumps({**RULE, "key": "other"}))
    press(page, "own_rule_keep")
    assert "keeps its key" in said(page)
    edit.setPlainText(json.dumps({**RULE, "message": "Sticky."}))
    press(page, "own_rule_keep")
    assert stored(parts) == ["glycerin-sticks"]
    assert "Sticky." in spoken(parts)


def test_that_every_shipped_rule_is_listed_found_and_can_be_copied(parts, page):
    listed = page.findChild(QListWidget, "own_rules_list")
    shipped = parts.work.rules.compatibility.rules
    assert listed.count() == len(shipped)
    page.findChild(QLineEdit, "own_rules_find").setText("curdle anionic")
    assert 0 < listed.count() < len(shipped)
    for rule in shipped:
        page.copy(rule.key)
        assert said(page).startswith("It can be kept"), rule.key


def test_that_the_language_can_be_read_on_the_page(page):
    press(page, "own_rules_language")
    text = page.findChild(QTextBrowser, "own_rules_reference")
    assert text.isVisible()
    assert text.isReadOnly()
    assert "phototoxic" in text.toPlainText()


def test_that_every_control_of_the_rules_has_a_name(page):
    nameless = [
        child.objectName()
        for kind in (QAbstractButton, QLineEdit, QPlainTextEdit, QListWidget, QTextBrowser)
        for child in page.findChildren(kind)
        if child.focusPolicy() & Qt.FocusPolicy.TabFocus
        and not (child.accessibleName() or getattr(child, "text", str)())
    ]
    assert nameless == []
