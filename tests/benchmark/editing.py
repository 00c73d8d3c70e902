"""From key press to painted window, 60 and 200 lines, 1280 x 800."""

from __future__ import annotations

import time
from decimal import Decimal
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractItemView, QApplication

from tests.benchmark.timing import Spread, spread
from tests.builders import make_formula
from workbench import paths
from workbench.app import compose, settle
from workbench.formula.formula import Formula
from workbench.storage.opening import create_studio, open_studio
from workbench.storage.reference.shipped import Shipped
from workbench.ui.main_window import MainWindow
from workbench.ui.theme import Appearance, SchemeChoice
from workbench.words.catalogue import load_words

LINES, MANY, ROUNDS = 60, 200, 150


def sixty_lines() -> Formula:
    """Return a formula of 60 ordinary lines of the shipped shelf, water as the rest."""
    return ordinary_lines(LINES)


def ordinary_lines(count: int) -> Formula:
    """Return a formula of so many ordinary lines of the shipped shelf, water as the rest."""
    keys = [key for key in Shipped(paths.resources() / "reference").ingredients if key != "water"]
    step = len(keys) // (count - 1)
    percent = "1.00" if count <= LINES else "0.30"
    entries = [("water*", "0"), *((key, percent) for key in keys[::step][: count - 1])]
    return make_formula(*entries, markets=("EU", "UK"))


def editing_times(folder: Path, lines: int = LINES) -> dict[str, Spread]:
    """Type percents into the sheet and time each key press until the window is painted."""
    path = folder / ("editing.studio" if lines == LINES else f"editing{lines}.studio")
    with create_studio(path) as studio:
        studio.formulas.create(f"{lines} lines", ordinary_lines(lines))
    application = QApplication.instance() or QApplication([])
    assert isinstance(application, QApplication)
    appearance = Appearance(paths.resources(), SchemeChoice.LIGHT)
    appearance.apply()
    window = compose(open_studio(path), appearance, load_words(paths.resources() / "words"))
    window.resize(1280, 800)
    window.show()
    QTest.qWaitForWindowExposed(window)
    window.activateWindow()
    QTest.qWaitForWindowActive(window)
    settle()
    times = _typed(window, application)
    window.close()
    if lines == LINES:
        return times
    return {f"{name}, {lines} lines": figures for name, figures in times.items()}


def _typed(window: MainWindow, application: QApplication) -> dict[str, Spread]:
    view = window.desk.sheet
    whole: list[float] = []
    assess: list[float] = []
    painted: list[float] = []
    rows: list[float] = []
    ids = [line.id for line in window.work.formula.lines() if not line.is_rest][:12]
    for round_ in range(ROUNDS):
        window.desk.sheet.focus_line(ids[round_ % len(ids)])
        _to_percent(view)
        view.setFocus()
        application.processEvents()
        QTest.keyClick(view, Qt.Key.Key_1)
        editor = window.focusWidget()
        QTest.keyClicks(editor, f".{round_ % 9 + 1}")
        application.processEvents()
        begun = time.perf_counter()
        QTest.keyClick(editor, Qt.Key.Key_Return)
        application.processEvents()
        whole.append(time.perf_counter() - begun)
        begun = time.perf_counter()
        window.work._assess()
        assess.append(time.perf_counter() - begun)
        begun = time.perf_counter()
        view.viewport().repaint()
        painted.append(time.perf_counter() - begun)
        begun = time.perf_counter()
        view._show()
        rows.append(time.perf_counter() - begun)
        line = window.work.formula.line(ids[round_ % len(ids)])
        assert line.percent == Decimal(f"1.{round_ % 9 + 1}"), line
    return {
        "edit: key press to painted window": spread(whole),
        "  of which assess": spread(assess),
        "  of which rows of the sheet made": spread(rows),
        "  whole sheet painted anew": spread(painted),
    }


def _to_percent(view: QAbstractItemView) -> None:
    model = view.model()
    for column in range(model.columnCount()):
        header = str(model.headerData(column, Qt.Orientation.Horizontal) or "")
        if header.startswith("%"):
            view.setCurrentIndex(view.currentIndex().siblingAtColumn(column))
            return
    raise AssertionError("the sheet has no percent column")
