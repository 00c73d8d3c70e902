"""Making a version and its worksheet in the window."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime
from decimal import Decimal
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from PySide6.QtWidgets import QLineEdit

from tests.builders import make_formula
from tests.fakes import FakeNotices
from workbench import paths
from workbench.formula.formula import Plan
from workbench.storage.opening import create_studio
from workbench.storage.reference.limits import load_rules
from workbench.ui.places.desk.files import Files
from workbench.ui.places.desk.make_page import MakePage
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.tasks import InlineTasks
from workbench.ui.theme import Appearance, SchemeChoice
from workbench.words.catalogue import load_words

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot


@pytest.fixture
def work(tmp_path: Path, qtbot: QtBot) -> Iterator[DeskWork]:
    """Return the work on one lotion of 500 g."""
    assert qtbot
    studio = create_studio(tmp_path / "bench.studio")
    formula = make_formula(
        ("water*", "0"), ("glycerin", "4.00"), plan=Plan(batch_mass=Decimal(500))
    )
    key = studio.formulas.create("Bench lotion", formula)
    made = DeskWork(
        studio,
        load_rules(paths.resources() / "reference"),
        load_words(paths.resources() / "words"),
        InlineTasks(),
        FakeNotices(),
        lambda: datetime(2026, 11, 25, 10, 0, tzinfo=UTC),
    )
    made.open(key)
    yield made
    studio.close()


@pytest.fixture
def page(work: DeskWork, qtbot: QtBot) -> MakePage:
    """Return the page on that work, shown."""
    appearance = Appearance(paths.resources(), SchemeChoice.LIGHT)
    made = MakePage(work, appearance.theme)
    qtbot.addWidget(made)
    made.begin()
    return made


def test_that_a_draft_without_a_reason_takes_no_number(page: MakePage, work: DeskWork) -> None:
    page.take_number()
    assert work.studio.versions.numbers(work.key) == ()
    assert work.studio.batches.of_formula(work.key) == ()


def test_that_a_reason_makes_a_version_and_a_batch_number(page: MakePage, work: DeskWork) -> None:
    page.findChild(QLineEdit, "version_reason").setText("first trial")
    page.take_number()
    assert work.studio.versions.numbers(work.key) == (1,)
    batches = work.studio.batches.of_formula(work.key)
    assert [batch.number for batch in batches] == ["BL-2611-01"]
    assert batches[0].batch_mass_g == Decimal(500)


def test_that_a_version_chosen_again_gets_the_next_number(page: MakePage, work: DeskWork) -> None:
    page.findChild(QLineEdit, "version_reason").setText("first trial")
    page.take_number()
    page.take_number()
    numbers = [batch.number for batch in work.studio.batches.of_formula(work.key)]
    assert sorted(numbers) == ["BL-2611-01", "BL-2611-02"]
    assert work.studio.versions.numbers(work.key) == (1,)


def test_that_an_exported_formula_taken_in_again_is_the_same_design(
    work: DeskWork, tmp_path: Path, qtbot: QtBot
) -> None:
    from PySide6.QtWidgets import QWidget

    from workbench.formula.versions import same_design

    window = QWidget()
    qtbot.addWidget(window)
    files = Files(work, window)
    before = work.formula
    files.export_to(tmp_path / "out.formula.json")
    files.import_from(tmp_path / "out.formula.json")
    assert work.key != "bench-lotion"
    assert same_design(work.formula, before)


def test_that_a_backup_opens_as_a_studio(work: DeskWork, tmp_path: Path, qtbot: QtBot) -> None:
    from PySide6.QtWidgets import QWidget

    from workbench.storage.opening import open_studio

    window = QWidget()
    qtbot.addWidget(window)
    Files(work, window).backup_to(tmp_path / "copy.studio")
    with open_studio(tmp_path / "copy.studio") as copy:
        assert [entry.name for entry in copy.formulas.entries()] == ["Bench lotion"]
