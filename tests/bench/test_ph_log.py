"""What stands in the beaker after readings and additions."""

from __future__ import annotations

import pytest

from workbench.bench.ph_log import PhAddition, PhLog, PhReading, read_states, state_after

SODA = "sodium_hydroxide_10"


def test_that_an_addition_is_what_the_bottle_lost():
    addition = PhAddition(SODA, 84.30, 82.15)
    assert addition.mass_g == pytest.approx(2.15)
    assert PhAddition(SODA, 82.0, 82.5).mass_g == 0.0


def test_that_a_sample_leaves_the_batch_with_what_is_in_it():
    log = PhLog(100.0, (PhAddition(SODA, 20.0, 10.0), PhReading(5.0, sample_g=11.0)))
    state = state_after(log)
    assert state.mass_g == pytest.approx(99.0)
    assert state.product_g == pytest.approx(90.0)
    assert state.composed.added == ((SODA, pytest.approx(0.1)),)
    assert (state.used_g, state.sampled_g) == (10.0, 11.0)


def test_that_the_same_dose_counts_for_more_in_what_a_sample_left():
    whole = PhLog(100.0, (PhAddition(SODA, 1.0, 0.0),))
    sampled = PhLog(100.0, (PhReading(4.0, sample_g=50.0), PhAddition(SODA, 1.0, 0.0)))
    assert state_after(whole).composed.added[0][1] == pytest.approx(0.01)
    assert state_after(sampled).composed.added[0][1] == pytest.approx(0.02)


def test_that_a_thinned_solution_counts_as_stated_and_as_water():
    log = PhLog(100.0, (PhAddition(SODA, 10.0, 5.0, fold=10.0),))
    state = state_after(log)
    assert state.composed.added == ((SODA, pytest.approx(0.005)),)
    assert state.composed.thinning == pytest.approx(0.045)
    assert state.mass_g == pytest.approx(105.0)


def test_that_a_reading_belongs_to_what_stood_there_then():
    log = PhLog(100.0, (PhReading(4.0), PhAddition(SODA, 2.0, 0.0), PhReading(4.5)))
    (before, _), (after, reading) = read_states(log)
    assert before.added == ()
    assert after.added == ((SODA, pytest.approx(0.02)),)
    assert reading.ph == 4.5
