"""The meter check: slope, offset, third buffer, age."""

from __future__ import annotations

import math

import pytest

from workbench import paths
from workbench.bench.meter import (
    AGED,
    NO_THIRD,
    OFFSET,
    SLOPE_HIGH,
    SLOPE_LOW,
    SLOPE_POOR,
    STALE,
    THIRD,
    TOO_CLOSE,
    UNCHECKED,
    BufferReading,
    MeterCheck,
    MeterStatus,
    check_meter,
    nernst_slope,
)
from workbench.storage.reference.bench_figures import load_meter_facts

FACTS = load_meter_facts(paths.resources() / "reference")


def check(seven_mv: float, four_mv: float, **more: object) -> MeterCheck:
    set_in = (BufferReading("7", 25.0, mv=seven_mv), BufferReading("4", 25.0, mv=four_mv))
    third = BufferReading("10", 25.0, ph=10.05)
    return MeterCheck(**{"set_in": set_in, "third": third, **more})  # type: ignore[arg-type]


def codes(found: MeterCheck) -> list[str]:
    return [remark.code for remark in check_meter(found, FACTS).remarks]


# 59.16 mV per pH at 25 °C, 58.56 at 22, 56.2 at 10: R T ln 10 / F with CODATA 2018.
@pytest.mark.parametrize(("celsius", "mv"), [(25.0, 59.16), (22.0, 58.56), (10.0, 56.18)])
def test_that_a_perfect_electrode_follows_nernst(celsius, mv):
    constants = 8.314462618 * (celsius + 273.15) * math.log(10.0) / 96485.33212 * 1000.0
    assert nernst_slope(celsius, FACTS) == pytest.approx(constants, abs=0.001)
    assert nernst_slope(celsius, FACTS) == pytest.approx(mv, abs=0.006)


def test_that_minus_15_and_160_mv_pass_at_98_6_percent():
    # The worked example of an electrode worksheet for laboratory teaching.
    verdict = check_meter(check(-15.0, 160.0), FACTS)
    assert verdict.status is MeterStatus.PASSED
    assert verdict.slope_percent == pytest.approx(98.6, abs=0.05)
    assert verdict.offset_mv == pytest.approx(-15.0)


def test_that_plus_15_and_160_mv_fail_at_81_7_percent():
    # The same worksheet.
    verdict = check_meter(check(15.0, 160.0), FACTS)
    assert verdict.status is MeterStatus.REFUSED
    assert verdict.slope_percent == pytest.approx(81.7, abs=0.05)
    assert codes(check(15.0, 160.0)) == [SLOPE_LOW]


@pytest.mark.parametrize(
    ("percent", "code"),
    [(84.9, SLOPE_LOW), (85.0, SLOPE_POOR), (91.9, SLOPE_POOR), (105.1, SLOPE_HIGH)],
)
def test_that_a_slope_is_held_to_85_to_105_percent(percent, code):
    four = percent / 100.0 * 3.0 * nernst_slope(25.0, FACTS) + 1e-9
    assert codes(check(0.0, four)) == [code]


def test_that_a_slope_of_105_percent_still_passes():
    four = 1.05 * 3.0 * nernst_slope(25.0, FACTS) - 1e-9
    assert codes(check(0.0, four)) == []


@pytest.mark.parametrize(("mv", "found"), [(30.0, []), (30.1, [OFFSET]), (-30.1, [OFFSET])])
def test_that_an_offset_is_held_to_30_mv(mv, found):
    assert codes(check(mv, mv + 177.0)) == found


@pytest.mark.parametrize(("shown", "found"), [(10.11, []), (10.12, [THIRD]), (9.90, [THIRD])])
def test_that_a_third_buffer_is_held_to_a_tenth(shown, found):
    # Buffer 10 is 10.01 at 25 °C (table of an instrument maker).
    third = BufferReading("10", 25.0, ph=shown)
    assert codes(check(-1.0, 175.0, third=third)) == found


def test_that_buffers_are_taken_at_their_temperature():
    # The same table: 7.02 at 20 °C, 9.97 at 30 °C.
    assert FACTS.ph_of("7", 20.0) == 7.02
    assert FACTS.ph_of("10", 27.5) == pytest.approx(9.99)
    warm = MeterCheck(
        (BufferReading("7", 10.0, mv=0.0), BufferReading("4", 10.0, mv=168.0)),
        BufferReading("10", 10.0, ph=10.06),
    )
    verdict = check_meter(warm, FACTS)
    assert verdict.slope_percent == pytest.approx(100 * 168.0 / (3.02 * 56.1815), abs=0.01)
    assert verdict.status is MeterStatus.CAUTION


@pytest.mark.parametrize(("hours", "found"), [(12, []), (13, [AGED]), (169, [STALE])])
def test_that_a_check_grows_old(hours, found):
    assert codes(check(-1.0, 175.0, age_hours=hours)) == found


def test_that_what_was_not_checked_is_said():
    assert codes(MeterCheck()) == [UNCHECKED, NO_THIRD]
    close = (BufferReading("7", 25.0, mv=0.0), BufferReading("7", 25.0, mv=1.0))
    assert codes(MeterCheck(close)) == [TOO_CLOSE, NO_THIRD]


def test_that_the_slope_a_meter_shows_itself_is_taken():
    third = BufferReading("10", 25.0, ph=10.0)
    shown = MeterCheck(third=third, slope_percent=97.0, offset_mv=4.0)
    assert check_meter(shown, FACTS).status is MeterStatus.PASSED
