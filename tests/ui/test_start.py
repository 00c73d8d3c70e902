"""What the window may load before it is painted, and that closing stores everything."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt

from tests.builders import make_formula
from workbench import paths
from workbench.app import Windows, compose
from workbench.formula.edits import with_percent
from workbench.storage.opening import create_studio, open_studio
from workbench.ui.main_window import MainWindow
from workbench.ui.theme import Appearance, SchemeChoice
from workbench.words.catalogue import load_words

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot

LATE = ("pint", "pyqtgraph", "reportlab", "alembic", "scipy", "pypdfium2", "jsonschema")

START = """
import sys
from datetime import datetime
from pathlib import Path
from PySide6.QtWidgets import QApplication
from workbench import paths
from workbench.app import Windows, compose
from workbench.storage.opening import open_studio
from workbench.ui.theme import Appearance
from workbench.words.catalogue import load_words

application = QApplication([])
appearance = Appearance(paths.resources())
appearance.apply()
window = compose(
    open_studio(Path(sys.argv[1])), appearance, load_words(paths.resources() / "words")
)
window.show()
application.processEvents()
assert window.grab().width() > 0
late = sys.argv[2].split(",")
print(",".join(name for name in late if name in sys.modules))
window.close()
"""


@pytest.fixture
def studio_path(tmp_path: Path) -> Path:
    """Return a studio that holds one formula."""
    path = tmp_path / "bench.studio"
    with create_studio(path) as studio:
        formula = make_formula(("water*", "0"), ("glycerin", "4.00"))
        studio.formulas.create("Bench lotion", formula)
    return path


@pytest.fixture
def window(studio_path: Path, qtbot: QtBot) -> Iterator[MainWindow]:
    """Return the whole window on that studio."""
    appearance = Appearance(paths.resources(), SchemeChoice.LIGHT)
    appearance.apply()
    words = load_words(paths.resources() / "words")
    made = compose(open_studio(studio_path), appearance, words)
    qtbot.addWidget(made)
    made.show()
    yield made
    made.close()


def test_that_the_window_is_painted_before_heavy_libraries_are_loaded(
    studio_path: Path, run_python
) -> None:
    ran = run_python("-c", START, str(studio_path), ",".join(LATE))
    assert ran.returncode == 0, ran.stderr
    assert ran.stdout.strip() == ""


def test_that_the_latest_formula_is_open_at_start(window: MainWindow) -> None:
    assert window.work.formula.name == "Bench lotion"


def test_that_an_edit_is_stored_when_the_window_is_closed_at_once(
    window: MainWindow, studio_path: Path
) -> None:
    from decimal import Decimal

    work = window.work
    glycerin = next(line for line in work.formula.lines() if line.ingredient == "glycerin")
    work.edit("Set glycerin", lambda formula: with_percent(formula, glycerin.id, Decimal("7.5")))
    window.close()
    with open_studio(studio_path) as studio:
        formula, _ = studio.formulas.draft(work.key)
    assert [line.percent for line in formula.lines()] == [None, Decimal("7.5")]


def test_that_undo_takes_back_one_edit(window: MainWindow) -> None:
    from decimal import Decimal

    work = window.work
    first = work.formula
    glycerin = next(line for line in first.lines() if line.ingredient == "glycerin")
    work.edit("Set glycerin", lambda formula: with_percent(formula, glycerin.id, Decimal("7.5")))
    work.session.stack.undo()
    assert work.formula == first
    assert work.assessment.line(glycerin.id).percent == Decimal("4.00")


def test_that_the_worksheet_page_opens_and_escape_leaves_it(
    window: MainWindow, qtbot: QtBot
) -> None:
    assert isinstance(window.work.clock(), datetime)
    window.show_worksheet()
    qtbot.waitUntil(window.make_page.isVisible)
    qtbot.keyClick(window.make_page.preview, Qt.Key.Key_Escape)
    qtbot.waitUntil(window.desk.isVisible)


def test_that_opening_another_studio_closes_the_window_before(
    studio_path: Path, tmp_path: Path, qtbot: QtBot
) -> None:
    other = tmp_path / "other.studio"
    create_studio(other).close()
    appearance = Appearance(paths.resources(), SchemeChoice.LIGHT)
    appearance.apply()
    windows = Windows(appearance, load_words(paths.resources() / "words"))
    windows.show(open_studio(studio_path))
    first = windows.window
    windows.open(tmp_path / "missing.studio")
    assert windows.window is first
    windows.open(other)
    assert windows.window is not None
    assert windows.window is not first
    assert windows.window.work.studio.path == other
    qtbot.addWidget(windows.window)
    windows.window.close()
