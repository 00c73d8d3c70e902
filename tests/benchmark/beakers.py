"""The pH guide on virtual beakers, solved by PHREEQC: additions, and beakers past the far edge.

Every pH the guide is shown comes from a PHREEQC run of the beaker as it then stands; no curve is
kept or interpolated. `tests/bench/beakers.py` says what is in them.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from tests.bench.beaker_runs import Run, by_adjuster, guided, stepped, tally
from tests.bench.beakers import Beaker, beakers, truth_engine
from workbench import paths
from workbench.storage.reference.bench_figures import load_guide_figures

COUNT = 400
WANTED = {
    "design": "median 2, p95 4, past <= 1 %",
    "no prior": "p95 <= 6, past <= 2 %",
    "0.1 % steps": "-",
}


def beaker_lines(count: int = COUNT) -> Iterator[str]:
    """Yield the table, line by line as the runs end."""
    truth = truth_engine()
    figures = load_guide_figures(paths.resources() / "reference")
    drawn = beakers(count, truth)
    yield f"{count} beakers, PHREEQC for every reading; window 0.6 wide, meter noise 0.03"
    yield (
        f"{'way':12} {'adjuster':20} {'n':>4} {'median':>6} {'p95':>4} {'past far edge':>13} "
        f"{'ends inside':>11} {'advice p95':>10} {'slowest':>8}"
    )
    ways: dict[str, Callable[[Beaker], Run]] = {
        "design": lambda one: guided(one, truth, figures, knows_design=True),
        "no prior": lambda one: guided(one, truth, figures, knows_design=False),
        "0.1 % steps": lambda one: stepped(one, truth),
    }
    for way, brought in ways.items():
        runs = [brought(one) for one in drawn]
        for name, chosen in by_adjuster(runs):
            yield _line(way, name, chosen)
        yield f"{'':12} wanted: {WANTED[way]}"


def _line(way: str, name: str, runs: list[Run]) -> str:
    all_in = tally(runs)
    speed = f"{all_in.p95_ms:7.0f} ms {all_in.slowest_ms:5.0f} ms" if all_in.slowest_ms else ""
    return (
        f"{way:12} {name:20} {all_in.count:4d} {all_in.median_additions:6.1f} "
        f"{all_in.p95_additions:4d} {all_in.passed_percent:11.2f} % "
        f"{all_in.inside_percent:9.1f} % {speed}"
    )
