"""A hand cream typed, pasted, repaired and undone in the window, by keys alone."""

from __future__ import annotations

from decimal import Decimal

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication

from tests.formula.test_pasted import HAND_CREAM
from tests.ui.desk.hand import CTRL, Hand
from tests.ui.desk.panels import make_parts
from workbench.formula.formula import Formula
from workbench.ui.places.desk.paste_dialog import PasteDialog
from workbench.ui.places.desk.rows import Kind
from workbench.words.numbers import NumberStyle

# What a maker types of each name until the list stands on it, and the percent with a comma.
TYPED = (
    ("distilled", "69,10"),
    ("vegetable glyc", "5"),
    ("disodium edta", "0,2"),
    ("xanthan gum (s", "0,25"),
    ("fractionated", "10"),
    ("shea", "6"),
    ("glyceryl stearate se", "4"),
    ("cetyl", "2,5"),
    ("d-panthenol (l", "1"),
    ("vitamin e (a", "0,2"),
    ("phenoxyethanol 90", "0,9"),
    ("fragrance oil", "0,4"),
    ("lactic acid 80", "0,3"),
)


@pytest.fixture
def hand(qtbot, tmp_path):
    parts = make_parts(tmp_path, NumberStyle.COMMA)
    key = parts.work.studio.formulas.create("Hushlark hand cream", Formula(name=""))
    parts.work.open(key)
    return Hand(qtbot, parts)


def total(hand):
    (row,) = [row for row in hand.sheet.rows if row.kind is Kind.TOTAL]
    return row.percent, row.alarm


def water(hand):
    return next(iter(hand.work.formula.lines()))


def repair_and_undo(hand):
    assert total(hand) == ("99,85", "short 0,15 %")
    hand.at(water(hand).id)
    hand.press(Qt.Key.Key_T, CTRL)
    assert water(hand).percent == Decimal("69.25")
    assert total(hand) == ("100,00", "")
    hand.press(Qt.Key.Key_Z, CTRL)
    assert water(hand).percent == Decimal("69.10")
    assert total(hand) == ("99,85", "short 0,15 %")


def test_that_thirteen_lines_are_typed_repaired_and_undone(hand):
    for name, percent in TYPED:
        hand.new()
        hand.type(name)
        hand.press(Qt.Key.Key_Return)
        hand.enter(percent)
    assert len(list(hand.work.formula.lines())) == 13
    repair_and_undo(hand)
    while hand.work.session.stack.canUndo():
        hand.press(Qt.Key.Key_Z, CTRL)
    assert list(hand.work.formula.lines()) == []


def test_that_thirteen_lines_are_pasted_repaired_and_undone(hand):
    hand.new()
    QGuiApplication.clipboard().setText(HAND_CREAM)
    hand.press(Qt.Key.Key_V, CTRL)
    (dialog,) = hand.sheet.window().findChildren(PasteDialog)
    assert len(dialog.table.rows) == 13
    assert "99,85 %, short 0,15 %" in dialog._sums.text()
    hand.bot.keyClick(dialog, Qt.Key.Key_Return, CTRL)
    hand.bot.waitUntil(lambda: len(list(hand.work.formula.lines())) == 13)
    assert [line.percent for line in hand.work.formula.lines()][-1] == Decimal("0.30")
    repair_and_undo(hand)
    hand.press(Qt.Key.Key_Z, CTRL)
    assert list(hand.work.formula.lines()) == []
