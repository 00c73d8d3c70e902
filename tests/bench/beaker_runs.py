"""Virtual beakers brought into their windows: by the guide's advice, and by steps of one size."""

from __future__ import annotations

import time
from collections.abc import Iterator, Mapping
from copy import deepcopy
from dataclasses import dataclass
from statistics import median

from tests.bench.beakers import ADJUSTERS, Beaker, begun
from tests.chemistry.phreeqc_engine import Phreeqc
from workbench.bench.ph_advice import advise
from workbench.bench.ph_values import Limits, PhStatus, Prior

LIMITS = Limits(least_g=0.20, step_g=0.01)
STEP_SHARE = 0.001
MOST_ADDITIONS = 25
MOST_STEPS = 400


@dataclass(frozen=True, slots=True)
class Run:
    """Hold how one beaker went."""

    adjuster: str
    additions: int
    passed: bool
    ended_inside: bool
    slowest_s: float = 0.0


@dataclass(frozen=True, slots=True)
class Tally:
    """Hold how many beakers went."""

    count: int
    median_additions: float
    p95_additions: int
    passed_percent: float
    inside_percent: float
    slowest_ms: float
    p95_ms: float


def guided(
    beaker: Beaker, truth: Phreeqc, figures: Mapping[str, float], *, knows_design: bool
) -> Run:
    """Follow the advice until it says done; the beaker itself is left as it is."""
    beaker = deepcopy(beaker)
    recipe = beaker.recipe
    prior = Prior(recipe.mixture if knows_design else None, figures)
    bottles = (recipe.adjuster, *(one for one in ADJUSTERS if one is not recipe.adjuster))
    log, additions, passed, slowest = begun(beaker), 0, False, 0.0
    while True:
        log = log.with_entry(beaker.read(truth))
        begun_at = time.process_time()
        advice = advise(prior, log, recipe.window, bottles, LIMITS)
        slowest = max(slowest, time.process_time() - begun_at)
        true = truth.ph(beaker.solution())
        passed = passed or _is_past(beaker, true)
        dose = advice.dose
        if advice.status is not PhStatus.ADD or dose is None or additions == MOST_ADDITIONS:
            inside = recipe.window.low <= true <= recipe.window.high
            return Run(recipe.adjuster.key, additions, passed, inside, slowest)
        fold = 1.0 if dose.weaker is None else float(dose.weaker.fold)
        log = log.with_entry(beaker.pour(dose.adjuster, dose.mass_g, fold))
        additions += 1


def stepped(beaker: Beaker, truth: Phreeqc) -> Run:
    """Add a thousandth of the batch at a time until the meter shows the window."""
    beaker = deepcopy(beaker)
    recipe = beaker.recipe
    for additions in range(MOST_STEPS + 1):
        shown = beaker.read(truth).ph
        # The cap on samples: a maker who steps does not pour the batch into the test glass.
        short = shown < recipe.window.low if recipe.adjuster.is_base else shown > recipe.window.high
        if not short or additions == MOST_STEPS or beaker.mass_g < 0.2 * recipe.batch_g:
            break
        beaker.pour(recipe.adjuster.key, STEP_SHARE * recipe.batch_g, 1.0)
    true = truth.ph(beaker.solution())
    inside = recipe.window.low <= true <= recipe.window.high
    return Run(recipe.adjuster.key, additions, _is_past(beaker, true), inside)


def tally(runs: list[Run]) -> Tally:
    """Return how runs went together."""
    additions = sorted(run.additions for run in runs)
    slowest = sorted(run.slowest_s for run in runs)
    count = len(runs)
    last = -(-95 * count // 100) - 1
    return Tally(
        count,
        median(additions),
        additions[last],
        100.0 * sum(run.passed for run in runs) / count,
        100.0 * sum(run.ended_inside for run in runs) / count,
        1000.0 * slowest[-1],
        1000.0 * slowest[last],
    )


def by_adjuster(runs: list[Run]) -> Iterator[tuple[str, list[Run]]]:
    """Yield the runs of each adjuster, then all of them."""
    for one in ADJUSTERS:
        chosen = [run for run in runs if run.adjuster == one.key]
        if chosen:
            yield one.key, chosen
    yield "all", runs


def _is_past(beaker: Beaker, true: float) -> bool:
    recipe = beaker.recipe
    if recipe.adjuster.is_base:
        return true > recipe.window.high
    return true < recipe.window.low
