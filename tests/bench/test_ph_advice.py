"""What the pH guide advises: steps, landing, thinning, ways back, contradictions."""

from __future__ import annotations

import time

import pytest

from tests.bench.beakers import ADJUSTERS
from tests.chemistry.acids import acids
from workbench import paths
from workbench.bench.ph_advice import (
    NEAR_EDGE,
    NO_PRIOR,
    NO_WAY_BACK,
    OTHER_WAY,
    OVER_RESERVE,
    PASSED,
    STRIP,
    TEMPERATURE,
    UNBUFFERED,
    WEAKER,
    advise,
)
from workbench.bench.ph_log import Method, PhAddition, PhLog, PhReading
from workbench.bench.ph_reading import CONTRADICTS, noise_of
from workbench.bench.ph_values import Advice, Limits, PhStatus, Prior, Window
from workbench.chemistry.acid_base import solve
from workbench.chemistry.facts import EXACT, Gift
from workbench.chemistry.mixture import Mixture, Portion
from workbench.chemistry.system import Solution, StrongIon, dissolved
from workbench.storage.reference.bench_figures import load_guide_figures

FIGURES = load_guide_figures(paths.resources() / "reference")
LIMITS = Limits(0.20, 0.01)
SODA, ARGININE, CITRIC, LACTIC = ADJUSTERS
WINDOW = Window(4.2, 4.8)


def lactic_lotion(molality: float = 0.2) -> Mixture:
    gift = Gift(((acids()["lactic"], molality),))
    return Mixture((Portion("lactic_acid", gift, EXACT),), 0.8, {})


PRIOR = Prior(lactic_lotion(), FIGURES)


def after_soda(grams: float, molality: float = 0.2, batch_g: float = 500.0) -> float:
    """Return the pH of the lotion with some 10 % lye, from the engine itself."""
    lye = 0.1 / 39.9971 * grams * 1000.0 / batch_g
    water = 0.8 + 0.9 * grams / batch_g
    mixed: Solution = dissolved([(acids()["lactic"], molality)], [StrongIon(1, lye)], 0.0, water)
    return solve(mixed).ph


def advised(log: PhLog, *bottles: object, prior: Prior = PRIOR, window: Window = WINDOW) -> Advice:
    return advise(prior, log, window, bottles or (SODA,), LIMITS)  # type: ignore[arg-type]


def codes(advice: Advice) -> list[str]:
    return [reason.code for reason in advice.reasons]


def read(ph: float, **more: object) -> PhReading:
    return PhReading(ph, **more)  # type: ignore[arg-type]


def test_that_a_reading_comes_before_any_advice():
    assert advised(PhLog(500.0)).status is PhStatus.READ_FIRST
    poured = PhLog(500.0, (read(2.4), PhAddition(SODA.key, 50.0, 45.0)))
    assert advised(poured).status is PhStatus.READ_FIRST
    assert advised(poured).wait_min == FIGURES["wait_thin"]


def test_that_creams_wait_longer():
    cream = Prior(lactic_lotion(), FIGURES, is_thick=True)
    assert advised(PhLog(500.0, (read(2.4),)), prior=cream).wait_min == FIGURES["wait_cream"]


def test_that_the_step_stays_short_of_mid_window_and_of_the_far_edge():
    advice = advised(PhLog(500.0, (read(round(after_soda(0.0), 2)),)))
    assert advice.status is PhStatus.ADD
    assert advice.dose is not None
    assert advice.dose.landing.low < advice.dose.landing.estimate < advice.dose.landing.high
    assert advice.dose.landing.estimate <= WINDOW.middle + 0.02
    assert advice.dose.passing < 0.05


def test_that_readings_narrow_the_landing_and_find_the_assay():
    # The lotion holds a fifth less acid than its recipe says.
    log = PhLog(500.0, (read(round(after_soda(0.0, 0.16), 2)),))
    first = advised(log).dose
    assert first is not None
    log = log.with_entry(PhAddition(SODA.key, 60.0, 60.0 - first.mass_g))
    log = log.with_entry(read(round(after_soda(first.mass_g, 0.16), 2)))
    second = advised(log).dose
    assert second is not None
    width = second.landing.high - second.landing.low
    assert width < first.landing.high - first.landing.low
    truth = after_soda(first.mass_g + second.mass_g, 0.16)
    assert second.landing.low - 0.05 <= truth <= second.landing.high + 0.05


def test_that_the_same_readings_give_the_same_advice():
    log = PhLog(500.0, (read(2.35),))
    assert advised(log) == advised(log)


def test_that_a_reading_in_the_window_ends_it_with_later_readings():
    log = PhLog(500.0, (read(2.35), PhAddition(SODA.key, 60.0, 38.0), read(4.5)))
    advice = advised(log)
    assert advice.status is PhStatus.DONE
    assert advice.dose is None
    assert [one.hours for one in advice.rereads] == [24.0, 72.0]


def test_that_slow_acids_are_read_again_after_two_weeks():
    slow = Prior(lactic_lotion(), FIGURES, is_slow=True)
    advice = advised(PhLog(500.0, (read(4.5),)), prior=slow)
    assert [one.hours for one in advice.rereads] == [24.0, 72.0, 336.0]


def test_that_a_reading_at_an_edge_is_said_to_be_unsure():
    log = PhLog(500.0, (read(2.35), PhAddition(SODA.key, 60.0, 41.0), read(4.21)))
    assert NEAR_EDGE in codes(advised(log))


def test_that_past_the_window_the_way_back_is_the_other_adjuster():
    log = PhLog(500.0, (read(2.35), PhAddition(SODA.key, 60.0, 33.0), read(5.6)))
    advice = advised(log, SODA, ARGININE, LACTIC, CITRIC)
    assert PASSED in codes(advice)
    assert advice.dose is not None
    assert advice.dose.adjuster == LACTIC.key
    assert [one.adjuster for one in advice.alternatives] == [CITRIC.key]
    assert NO_WAY_BACK in codes(advised(log, SODA, ARGININE))


def test_that_the_wrong_side_of_the_shelf_is_said():
    assert OTHER_WAY in codes(advised(PhLog(500.0, (read(2.35),)), LACTIC, SODA))


def test_that_arginine_is_out_of_reach_of_a_strong_acid_lotion():
    # Half a mole of acid takes 87 g of arginine in a kilogram: 870 g of a tenth solution.
    strong = Prior(lactic_lotion(1.0), FIGURES)
    window = Window(6.2, 6.8)
    log = PhLog(500.0, (read(1.95),))
    advice = advised(log, ARGININE, prior=strong, window=window)
    assert advice.dose is None or advice.dose.total_g is None or advice.dose.total_g > 100.0


def test_that_an_unbuffered_gel_ends_in_advice_to_thin():
    # 500 g of gel with so little acid in it that 0.1 g of lye moves it by more than 0.5.
    gel = Prior(Mixture((), 0.95, {}), FIGURES)
    log = PhLog(
        500.0,
        (read(5.1), PhAddition(SODA.key, 30.0, 29.9), read(5.62)),
    )
    advice = advised(log, prior=gel, window=Window(6.0, 6.6))
    assert advice.dose is not None
    assert advice.dose.weaker is not None
    assert {WEAKER, UNBUFFERED} <= set(codes(advice))
    weaker = advice.dose.weaker
    assert advice.dose.mass_g >= LIMITS.least_g - LIMITS.step_g
    assert weaker.stock_g >= LIMITS.least_g
    made = weaker.stock_g + weaker.water_g
    assert made / weaker.stock_g == pytest.approx(weaker.fold)
    assert made >= advice.dose.mass_g


def test_that_a_contradicting_reading_widens_the_model_and_is_said():
    # Twenty grams of lye cannot leave this lotion where it was.
    log = PhLog(500.0, (read(2.35), PhAddition(SODA.key, 60.0, 40.0), read(2.36)))
    advice = advised(log)
    assert CONTRADICTS in codes(advice)
    assert CONTRADICTS not in codes(advised(PhLog(500.0, (read(2.35),))))


def test_that_a_reserve_used_up_is_said():
    limits = Limits(0.20, 0.01, reserve_g=5.0)
    advice = advise(PRIOR, PhLog(500.0, (read(2.35),)), WINDOW, (SODA,), limits)
    assert advice.dose is not None
    assert (advice.dose.mass_g > 5.0) == (OVER_RESERVE in codes(advice))
    assert OVER_RESERVE in codes(advice)


def test_that_without_a_design_the_first_step_is_smaller():
    blank = Prior(None, FIGURES)
    log = PhLog(500.0, (read(2.35),))
    first, known = advised(log, prior=blank), advised(log)
    assert NO_PRIOR in codes(first)
    assert first.dose is not None
    assert known.dose is not None
    assert first.dose.mass_g < known.dose.mass_g


def test_that_strips_and_warm_products_are_said_and_count_less():
    log = PhLog(500.0, (read(2.5, method=Method.STRIP, temperature_c=40.0),))
    assert {STRIP, TEMPERATURE} <= set(codes(advised(log)))
    cold = noise_of(read(4.0), FIGURES)
    assert noise_of(read(4.0, method=Method.DILUTED), FIGURES) > cold
    assert noise_of(read(4.0, method=Method.STRIP), FIGURES) == pytest.approx(0.3)
    assert noise_of(read(4.0, temperature_c=45.0), FIGURES) > cold


@pytest.mark.speed
def test_that_advice_comes_within_150_ms():
    log = PhLog(500.0, (read(2.35), PhAddition(SODA.key, 60.0, 50.0), read(3.4)))
    advised(log, *ADJUSTERS)
    # The time of this process alone: a busy machine says nothing of the program.
    took = []
    for _ in range(5):
        begun = time.process_time()
        advised(log, *ADJUSTERS)
        took.append(time.process_time() - begun)
    assert min(took) < 0.150
