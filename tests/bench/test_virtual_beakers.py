"""The pH guide on virtual beakers, whose every pH comes from PHREEQC.

`python -m tests.benchmark beakers` prints the table of 400.
"""

from __future__ import annotations

import pytest

from tests.bench.beaker_runs import guided, stepped, tally
from tests.bench.beakers import WIDTH, beakers
from workbench import paths
from workbench.storage.reference.bench_figures import load_guide_figures

pytest.importorskip("phreeqpython")

COUNT = 40
FIGURES = load_guide_figures(paths.resources() / "reference")


@pytest.fixture(scope="module")
def truth():
    from tests.bench.beakers import truth_engine

    return truth_engine()


@pytest.fixture(scope="module")
def drawn(truth):
    return beakers(COUNT, truth)


def test_that_beakers_start_outside_windows_of_one_width(drawn, truth):
    for beaker in drawn:
        window, ph = beaker.recipe.window, truth.ph(beaker.solution())
        assert window.high - window.low == pytest.approx(WIDTH)
        assert not window.low <= ph <= window.high


def test_that_the_same_seed_draws_the_same_beakers(drawn, truth):
    assert [one.acids for one in beakers(8, truth)] == [one.acids for one in drawn[:8]]


def test_that_a_design_brings_beakers_in_with_two_additions(drawn, truth):
    runs = [guided(one, truth, FIGURES, knows_design=True) for one in drawn]
    found = tally(runs)
    assert found.median_additions <= 2
    assert found.p95_additions <= 4
    assert sum(run.passed for run in runs) <= 1
    assert sum(run.ended_inside for run in runs) >= 0.9 * COUNT


def test_that_without_a_design_a_handful_of_additions_do(drawn, truth):
    runs = [guided(one, truth, FIGURES, knows_design=False) for one in drawn[: COUNT // 2]]
    found = tally(runs)
    assert found.median_additions <= 5
    assert found.p95_additions <= 8
    assert sum(run.passed for run in runs) <= 2


def test_that_steps_of_one_size_take_longer(drawn, truth):
    few = drawn[:12]
    steps = tally([stepped(one, truth) for one in few])
    advice = tally([guided(one, truth, FIGURES, knows_design=True) for one in few])
    assert steps.median_additions > 3 * advice.median_additions
