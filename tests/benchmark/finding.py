"""Find anything: from a letter to the painted answer, among many ingredients and formulas."""

from __future__ import annotations

import time
from dataclasses import replace
from pathlib import Path

from PySide6.QtWidgets import QApplication

from tests.benchmark.editing import sixty_lines
from tests.benchmark.timing import Spread, spread
from tests.ui.windows import make_window, settle
from workbench.storage.formulas import insert_formula
from workbench.storage.opening import create_studio
from workbench.storage.search_benchmark import fill_with_invented

TYPED = ("glycerin", "lotion 12", "back up the", "sodium hydroxide", "emulsifying", "zzzz")
INGREDIENTS, FORMULAS = 50_000, 5_000


def finding_times(folder: Path) -> Spread:
    """Type words letter by letter and return how long each letter takes."""
    application = QApplication.instance() or QApplication([])
    path = folder / "finding.studio"
    with create_studio(path) as studio, studio._file.writing() as connection:
        formula = sixty_lines()
        for number in range(FORMULAS):
            named = replace(formula, name=f"Lotion {number:04}")
            insert_formula(connection, f"lotion-{number}", named, studio._file.clock())
    fill_with_invented(path, INGREDIENTS)
    window = make_window(path)
    window.sheets.find()
    finder = window.sheets._finder
    times: list[float] = []
    for word in TYPED:
        finder.line.clear()
        settle(window)
        for length in range(1, len(word) + 1):
            begun = time.perf_counter()
            finder.line.setText(word[:length])
            finder.repaint()
            times.append(time.perf_counter() - begun)
    window.close()
    assert application is not None
    return spread(times)
