"""Print how quick the program is, against what was wanted."""

from __future__ import annotations

import os

# As the program does it: numpy reads this when it is loaded.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from tests.benchmark.timing import Spread, spread

WANTED = {
    "edit: key press to painted window": "p95 <= 16 ms",
    "  of which assess": "<= 8 ms",
    "edit: key press to painted window, 200 lines": "p95 <= 30 ms",
    "assess with chemistry, 60 lines": "p95 <= 8 ms",
    "start: window usable": "<= 1000 ms",
    "worksheet, 60 lines": "<= 300 ms",
    "search, 50,000 ingredients, each keystroke": "p95 <= 10 ms",
    "find anything, 50,000 and 5,000 formulas": "p95 <= 10 ms",
}


def main() -> int:
    """Measure under a virtual screen where there is no other, and print each figure.

    With the word `chemistry` only the acid–base engine is measured, with `beakers` the pH guide
    is tried on virtual beakers; neither needs a screen.
    """
    from tests.benchmark.chemistry import chemistry_lines

    if sys.argv[1:] == ["beakers"]:
        from tests.benchmark.beakers import beaker_lines

        for line in beaker_lines():
            sys.stdout.write(line + "\n")
            sys.stdout.flush()
        return 0
    if sys.argv[1:] == ["chemistry"]:
        sys.stdout.write("\n".join(chemistry_lines()) + "\n")
        _tell_assess()
        return 0
    if sys.platform == "linux" and not os.environ.get("DISPLAY") and shutil.which("xvfb-run"):
        screen = ["xvfb-run", "-a", "-s", "-screen 0 1280x800x24"]
        return subprocess.run(
            [*screen, sys.executable, "-m", "tests.benchmark"], check=False
        ).returncode
    from tests.benchmark.editing import MANY, editing_times
    from tests.benchmark.finding import finding_times
    from tests.benchmark.starting import start_times

    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        _tell(editing_times(folder))
        _tell(editing_times(folder, MANY))
        _tell_assess()
        _tell(start_times(folder / "editing.studio"))
        _tell({"worksheet, 60 lines": _worksheet_times()})
        _tell({"search, 50,000 ingredients, each keystroke": _search_times(folder)})
        _tell({"find anything, 50,000 and 5,000 formulas": finding_times(folder)})
    sys.stdout.write("\n".join(chemistry_lines()) + "\n")
    return 0


def _tell_assess() -> None:
    from tests.benchmark.assessing import assess_times

    _tell({"assess with chemistry, 60 lines": assess_times()})


def _tell(times: dict[str, Spread]) -> None:
    for name, figures in times.items():
        sys.stdout.write(figures.told(name, WANTED.get(name, "-")) + "\n")
    sys.stdout.flush()


def _worksheet_times() -> Spread:
    from dataclasses import replace
    from decimal import Decimal

    from tests.benchmark.editing import sixty_lines
    from tests.builders import make_scope
    from workbench import paths
    from workbench.bench.batch import BatchOrder
    from workbench.checks.assess import assess
    from workbench.documents.making import worksheet_bytes
    from workbench.documents.worksheet_content import Print, StudioBlock
    from workbench.formula.formula import Plan
    from workbench.storage.reference.shipped import Shipped
    from workbench.words.catalogue import load_words

    shipped = Shipped(paths.resources() / "reference")
    words = load_words(paths.resources() / "words")
    formula = replace(sixty_lines(), plan=Plan(batch_mass=Decimal(1000)))
    scope = make_scope()
    order = BatchOrder("SL-2611-01", "version 1", Decimal(1000), scope.on)
    made = Print(StudioBlock("Pebblewick", ""), words, shipped.rules.accept_bands)
    times: list[float] = []
    for _ in range(10):
        begun = time.perf_counter()
        worksheet_bytes(
            order,
            formula,
            shipped.shelf,
            assess(formula, shipped.shelf, scope, shipped.rules),
            made,
        )
        times.append(time.perf_counter() - begun)
    return spread(times)


def _search_times(folder: Path) -> Spread:
    from workbench.storage.opening import create_studio
    from workbench.storage.search_benchmark import fill_with_invented, time_search

    path = folder / "search.studio"
    create_studio(path).close()
    fill_with_invented(path, 50_000)
    found = time_search(path)
    return Spread(found.median_ms, found.p95_ms, found.keystrokes)


if __name__ == "__main__":
    sys.exit(main())
