"""The whole window on a studio with the niacin gel, its stock of gum and its acid."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from tests.scenarios.test_niacin_gel import CITRIC, GLYCERIN, GUM_STOCK, STOCKS, with_powders
from tests.ui.windows import make_window, settle
from workbench.formula.formula import Formula
from workbench.storage.opening import create_studio
from workbench.ui.main_window import MainWindow

NAME, STOCK_NAME = "Quillmoss Niacin Gel", "Xanthan stock 1 %"
NEAT = "glycerin_neat"
"""The design counts glycerin as pure; the shipped grade holds half a per cent of water."""


def niacin_studio(path: Path) -> dict[str, str]:
    """Make the studio and return the keys of its formulas by name."""
    with create_studio(path) as studio:
        studio.ingredients.add_own(
            replace(
                GLYCERIN,
                key=NEAT,
                name="Neat glycerin",
                inci="Glycerin",
                form="liquid",
                is_own=True,
            )
        )
        gum = studio.formulas.create(STOCK_NAME, replace(STOCKS[GUM_STOCK], name=STOCK_NAME))
        acid = studio.formulas.create("Citric acid 10 %", STOCKS[CITRIC])
        gel = studio.formulas.create(NAME, _with_keys(with_powders(), acid))
    return {NAME: gel, STOCK_NAME: gum, "Citric acid 10 %": acid}


def niacin_window(path: Path) -> MainWindow:
    """Return the window with the gel open."""
    keys = niacin_studio(path)
    window = make_window(path)
    window.work.open(keys[NAME])
    settle(window)
    return window


def _with_keys(formula: Formula, acid: str) -> Formula:
    names = {CITRIC: acid, "glycerin": NEAT}
    phase = formula.phases[0]
    lines = tuple(
        replace(line, ingredient=names.get(line.ingredient, line.ingredient))
        for line in phase.lines
    )
    return replace(formula, name=NAME, phases=(replace(phase, name="Water phase", lines=lines),))
