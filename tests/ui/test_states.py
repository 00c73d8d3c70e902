"""States of the window: first run, read only, a second window, what is being stored."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractButton, QLabel, QPushButton

from tests.builders import make_formula
from tests.ui.windows import Hand, make_window, settle, small_studio
from workbench.formula.edits import with_percent
from workbench.storage.opening import open_studio


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return small_studio(tmp_path / "mine.studio", "Glade lotion")


@pytest.fixture
def open_window(qtbot):
    windows = []

    def make(path: Path, **how: bool):
        window = make_window(path, **how)
        qtbot.addWidget(window)
        windows.append(window)
        return window

    yield make
    for window in windows:
        window.close()


def set_glycerin(window, percent: int) -> bool:
    line = next(line for line in window.work.formula.lines() if line.ingredient == "glycerin")
    wanted = Decimal(percent)
    return window.work.edit("Set", lambda formula: with_percent(formula, line.id, wanted))


def foot(window, key: str) -> str:
    return window.findChild(QLabel, f"foot_{key}").text()


def test_that_the_foot_says_so_from_the_very_first_edit(open_window, path):
    window = open_window(path)
    assert foot(window, "saved") == "Saved"
    said = []
    window.work.storing.connect(lambda _key: said.append(foot(window, "saved")))
    set_glycerin(window, 5)
    assert said == ["Saving…"] or foot(window, "saved") == "Saving…"
    settle(window)
    assert foot(window, "saved") == "Saved"


def test_that_a_studio_without_formulas_offers_three_ways(open_window, tmp_path):
    window = open_window(small_studio(tmp_path / "empty.studio"))
    first = window.desk.first
    assert first.isVisible()
    assert [button.text() for button in first.findChildren(QPushButton)] == [
        "Start a formula",
        "Bring in a formula document",
        "Open the sample studio",
    ]
    first.findChild(QPushButton, "first_new").click()
    assert window.desk.new.isVisible()


def test_that_the_sample_is_made_once_and_asked_for(
    open_window, path, qtbot, tmp_path, monkeypatch
):
    from workbench import paths

    where = tmp_path / "sample" / "pebblewick.studio"
    monkeypatch.setattr(paths, "sample_studio", lambda: where)
    window = open_window(path)
    for _ in range(2):
        with qtbot.waitSignal(window.studio_asked, timeout=10_000) as asked:
            window.files.open_sample()
        assert asked.args == [where]
    assert where.exists()


def test_that_a_studio_for_reading_shows_everything_and_changes_nothing(open_window, path):
    before = path.read_bytes()
    window = open_window(path, read_only=True)
    assert foot(window, "saved") == "Read only: nothing can be changed"
    assert window.work.formula.name == "Glade lotion"
    assert not set_glycerin(window, 7)
    window.begin_new()
    assert not window.desk.new.isVisible()
    window.show_place("studio")
    settle(window)
    assert path.read_bytes() == before


def test_that_a_stale_write_is_refused_and_the_newer_draft_is_offered(open_window, path, qtbot):
    window = open_window(path)
    key = window.work.key
    with open_studio(path) as other:
        formula, counter = other.formulas.draft(key)
        other.formulas.save_draft(key, replace(formula, pack="jar"), counter)
    set_glycerin(window, 6)
    settle(window)
    assert foot(window, "saved") == "Not stored"
    offer = window.findChild(QPushButton, "notice_undo")
    assert offer.text() == "Load the newer draft"
    offer.click()
    settle(window)
    assert window.work.formula.pack == "jar"
    window.work.session.stack.undo()  # what was here is one step away, and is stored again
    settle(window)
    assert foot(window, "saved") == "Saved"
    assert window.work.formula.pack == ""
    with open_studio(path) as other:
        assert other.formulas.draft(key)[0] == window.work.formula


def test_that_both_windows_on_one_studio_work(open_window, path):
    first, second = open_window(path), open_window(path)
    first.desk.list.make(make_formula(("water*", "0"), name="From the first"))
    settle(first)
    second.desk.refresh()
    settle(second)
    assert "From the first" in {row.name for row in second.desk.list.formulas}


def test_that_the_list_gives_way_where_the_window_is_narrow(open_window, path):
    window = open_window(path)
    window.resize(700, 600)
    settle(window)
    assert not window.desk.list.isVisible()
    button = window.findChild(QAbstractButton, "show_formulas")
    assert button.isVisible()
    button.click()
    settle(window)
    assert window.desk.list.isVisible()
    window.resize(1280, 800)
    settle(window)
    assert window.desk.list.isVisible()
    assert not button.isVisible()


def test_that_undo_belongs_to_the_place_the_maker_is_in(open_window, path):
    window = open_window(path)
    hand = Hand(window)
    set_glycerin(window, 6)
    window.show_place("studio")
    window._made["studio"].held.change("currency", currency="GBP")
    settle(window)
    window._made["studio"].setFocus()
    hand.press(Qt.Key.Key_Z, ctrl=True)
    assert window.work.studio.settings.load().currency == "EUR"
    assert set_glycerin(window, 6) is False  # the draft kept its edit
