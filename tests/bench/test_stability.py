import pytest
from hypothesis import given
from hypothesis import strategies as st

from workbench.bench.stability import (
    Reading,
    Side,
    Verdict,
    arrhenius_factor,
    implied_q10,
    linear_trend,
    pooling,
    q10_factor,
    stands_for,
    time_to_limit,
)


def readings(text):
    pairs = (entry.split(":") for entry in text.split())
    return tuple(Reading(float(months), float(value)) for months, value in pairs)


# LeBlond, Griffith and Aubuchon, J. Validation Technology 17(3) (2011) 47-68: potency, % of label.
B2 = readings("0:101.0 1:101.3 3:99.8 3:99.2 6:99.5 6:97.8 12:97.4 12:97.2 24:96.9 24:96.0")
B4 = readings("0:104.0 3:103.2 6:102.8 6:103.3 12:102.4 12:101.2 24:99.1 24:99.5")
B5 = readings(
    "0:102.0 1:101.4 2:100.8 3:100.2 3:99.7 6:98.8 6:98.5 12:98.0 12:97.1 24:96.6 24:96.1"
)
B7 = readings("0:101.3 1:101.5 3:100.2 3:99.8 6:99.0 6:98.5 12:98.5 12:97.4 24:96.6 24:96.4")
B8 = readings("0:101.6 3:100.0 6:99.0 12:97.8 12:97.0")
RELATED = readings("0:0.102 3:0.150 6:0.180 12:0.216 12:0.240")
INVENTED_PH = readings("0:5.52 1:5.50 2:5.47 3:5.46 6:5.38 9:5.33 12:5.24")


@pytest.mark.parametrize(
    ("lot", "months"),
    [
        ((*B2, *B5, *B7), 25.9958),  # the paper prints 26
        (B4, 40.7918),  # package 40.79176
        (B8, 15.8449),  # another statistics program 15.844877978
        (B2, 23.3264),
        (B5, 23.1480),
        (B7, 25.0525),
    ],
)
def test_that_published_lots_meet_95_percent_when_they_should(lot, months):
    found = time_to_limit(lot, 95.0, Side.LOWER)
    assert found.verdict is Verdict.MEETS
    assert found.months == pytest.approx(months, abs=5e-5)


def test_that_the_pooled_line_is_the_published_one():
    # Printed: y = 100.567 - 0.192994 t; recomputed s 0.78911, Sxx 2157.484.
    trend = linear_trend((*B2, *B5, *B7))
    assert trend is not None
    assert trend.intercept == pytest.approx(100.56688, abs=5e-6)
    assert trend.slope == pytest.approx(-0.1929936, abs=5e-8)
    assert trend.deviation == pytest.approx(0.78911, abs=5e-6)
    assert trend.spread == pytest.approx(2157.484, abs=5e-4)


@pytest.mark.parametrize(
    ("months", "bound"), [(0, 103.596), (12, 101.423), (24, 98.826), (36, 96.097)]
)
def test_that_the_bound_runs_as_recomputed(months, bound):
    trend = linear_trend(B4)
    assert trend is not None
    assert trend.bound(months, Side.LOWER) == pytest.approx(bound, abs=5e-4)


def test_that_another_limit_is_met_earlier():
    assert time_to_limit(B4, 98.0, Side.LOWER).months == pytest.approx(27.653, abs=5e-4)


def test_that_a_rising_figure_meets_an_upper_limit():
    # Related substances of lot 8, limit 0.30: 15.8 months in the paper.
    found = time_to_limit(RELATED, 0.30, Side.UPPER)
    assert found.months == pytest.approx(15.8449, abs=5e-5)


def test_that_lots_of_one_kind_may_be_pooled_and_others_not():
    # The paper pools b2, b5 and b7; b4 starts three per cent higher.
    together = pooling((B2, B5, B7))
    assert together is not None
    assert together.is_allowed
    apart = pooling((B2, B4))
    assert apart is not None
    assert apart.starts < 0.001
    assert not apart.is_allowed


def test_that_pooling_takes_more_than_one_lot():
    assert pooling((B2,)) is None
    assert pooling((B2, readings("0:1 0:2"))) is None


def test_that_no_more_is_stated_than_the_time_observed_allows():
    # Invented pH trend: 29.92 months from 12 observed is 2.5 times as long; 24 may be stated.
    found = time_to_limit(INVENTED_PH, 4.80, Side.LOWER)
    assert found.months == pytest.approx(29.92, abs=0.005)
    assert found.stated_months == 24.0
    assert found.is_cut


def test_that_the_noise_of_the_meter_brings_the_bound_in():
    sure = time_to_limit(INVENTED_PH, 4.80, Side.LOWER)
    noisy = time_to_limit(INVENTED_PH, 4.80, Side.LOWER, noise=0.05)
    assert noisy.trend is not None
    assert noisy.trend.deviation == 0.05
    assert noisy.months is not None
    assert sure.months is not None
    assert noisy.months < sure.months


def test_that_a_change_the_harmless_way_is_no_shelf_life():
    assert time_to_limit(RELATED, 0.05, Side.LOWER).verdict is Verdict.NO_TREND


def test_that_a_slope_that_chance_explains_is_no_shelf_life():
    flat = readings("0:5.50 1:5.53 2:5.48 3:5.52 6:5.49 9:5.51")
    assert time_to_limit(flat, 4.8, Side.LOWER).verdict is Verdict.NO_TREND


def test_that_a_lot_that_fails_at_the_start_is_told_so():
    assert time_to_limit(B8, 101.5, Side.LOWER).verdict is Verdict.ALREADY_OUT


@pytest.mark.parametrize("text", ["0:5.5 1:5.4 2:5.3", "0:5.5 0:5.4 3:5.3 3:5.2", ""])
def test_that_too_few_readings_give_no_line(text):
    assert time_to_limit(readings(text), 4.8, Side.LOWER).verdict is Verdict.TOO_FEW


def test_that_readings_on_one_line_meet_the_limit_on_it():
    exact = tuple(Reading(float(month), 6.0 - 0.125 * month) for month in range(5))
    assert time_to_limit(exact, 5.0, Side.LOWER).months == pytest.approx(8.0)


@given(
    st.lists(st.floats(-0.05, 0.05), min_size=7, max_size=7),
    st.floats(0.02, 0.3),
    st.floats(3.0, 5.0),
)
def test_that_the_bound_is_the_limit_at_the_time_told(scatter, fall, limit):
    lot = tuple(
        Reading(month, 5.5 - fall * month + off)
        for month, off in zip((0, 1, 2, 3, 6, 9, 12), scatter, strict=True)
    )
    found = time_to_limit(lot, limit, Side.LOWER)
    if found.verdict is Verdict.MEETS:
        assert found.trend is not None
        assert found.months is not None
        assert found.trend.bound(found.months, Side.LOWER) == pytest.approx(limit, abs=1e-6)


@pytest.mark.parametrize(
    ("energy", "celsius", "factor"),
    [(50, 37, 2.182), (50, 50, 4.761), (83.144, 37, 3.661), (83.144, 40, 4.986), (100, 45, 12.628)],
)
def test_that_warmth_speeds_a_reaction_as_arrhenius_says(energy, celsius, factor):
    # exp[(Ea / R)(1 / T1 - 1 / T2)] from 25 °C; 83.144 kJ/mol is the default of ICH Q1A.
    assert arrhenius_factor(energy, 25, celsius) == pytest.approx(factor, abs=6e-4)


@pytest.mark.parametrize(
    ("q10", "celsius", "factor"), [(2, 40, 2.828), (3, 45, 9.0), (4, 37, 5.278)]
)
def test_that_a_factor_per_ten_degrees_runs_as_its_table(q10, celsius, factor):
    assert q10_factor(q10, 25, celsius) == pytest.approx(factor, abs=6e-4)


@pytest.mark.parametrize(
    ("weeks", "stands", "cool", "q10"),
    [(8, 52, 25, 2.55), (8, 52, 23, 2.34), (12, 130, 23, 2.95)],
)
def test_that_rules_of_thumb_take_different_factors_for_granted(weeks, stands, cool, q10):
    # Trade rules at 45 °C: 8 weeks for a year, 12 weeks for 30 months.
    assert implied_q10(weeks, stands, 45, cool) == pytest.approx(q10, abs=0.006)


def test_that_warm_weeks_stand_for_a_span_and_never_for_one_number():
    # 12 weeks at 40 °C: 33.9 weeks with a factor of 2 per 10 °C, 62.4 with 3.
    low, high = stands_for(12, q10_factor(2, 25, 40), q10_factor(3, 25, 40))
    assert (round(low, 1), round(high, 1)) == (33.9, 62.4)
