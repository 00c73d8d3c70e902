"""Whether a pH meter can be believed today: what it reads in its buffers."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import Enum
from itertools import pairwise

PERCENT = 100.0
SLOPE_LOW, SLOPE_POOR, SLOPE_HIGH = "meter-slope-low", "meter-slope-poor", "meter-slope-high"
OFFSET, THIRD, FAR_TEMPERATURE = "meter-offset", "meter-third-buffer", "meter-buffer-temperature"
AGED, STALE, UNCHECKED = "meter-check-aged", "meter-check-stale", "meter-unchecked"
NO_THIRD, TOO_CLOSE = "meter-no-third-buffer", "meter-buffers-too-close"


class MeterStatus(Enum):
    """Say what a meter check comes to."""

    PASSED = "meter-passed"
    CAUTION = "meter-caution"
    REFUSED = "meter-refused"


REFUSALS = frozenset({SLOPE_LOW, SLOPE_HIGH, OFFSET, THIRD, STALE, UNCHECKED, TOO_CLOSE})


@dataclass(frozen=True, slots=True)
class BufferPoint:
    """Hold the pH of one buffer at one temperature [°C]."""

    buffer: str
    temperature_c: float
    ph: float


@dataclass(frozen=True, slots=True)
class MeterFacts:
    """Hold the figures a check rests on, and the buffers at temperatures."""

    figures: Mapping[str, float]
    buffers: tuple[BufferPoint, ...]

    def names(self) -> tuple[str, ...]:
        """Return the buffers known, each once."""
        return tuple(dict.fromkeys(point.buffer for point in self.buffers))

    def ph_of(self, buffer: str, temperature_c: float) -> float:
        """Return the pH of a buffer at a temperature: a line between, the ends beyond."""
        points = sorted(
            (point.temperature_c, point.ph) for point in self.buffers if point.buffer == buffer
        )
        if not points:
            raise KeyError(buffer)
        if temperature_c <= points[0][0]:
            return points[0][1]
        for (low, before), (high, after) in pairwise(points):
            if temperature_c <= high:
                return before + (after - before) * (temperature_c - low) / (high - low)
        return points[-1][1]

    def covers(self, buffer: str, temperature_c: float) -> bool:
        """Tell whether the table of a buffer reaches to a temperature [°C]."""
        known = [one.temperature_c for one in self.buffers if one.buffer == buffer]
        return min(known) <= temperature_c <= max(known)


@dataclass(frozen=True, slots=True)
class BufferReading:
    """Hold what a meter shows in a buffer: millivolts, or a pH once it is set.

    Parameters
    ----------
    buffer : str
        Which buffer: "4", "7", "10".
    temperature_c : float
        Of the buffer [°C].
    mv, ph : float or None
        What is shown [mV], [-].
    """

    buffer: str
    temperature_c: float
    mv: float | None = None
    ph: float | None = None


@dataclass(frozen=True, slots=True)
class MeterCheck:
    """Hold one check of a meter.

    Parameters
    ----------
    set_in : tuple of BufferReading
        The two buffers the meter is set in.
    third : BufferReading or None
        A buffer that is only read.
    slope_percent, offset_mv : float or None
        What the meter itself shows, where it shows no millivolts in the buffers.
    age_hours : float
        How long ago the check was made [h].
    """

    set_in: tuple[BufferReading, ...] = ()
    third: BufferReading | None = None
    slope_percent: float | None = None
    offset_mv: float | None = None
    age_hours: float = 0.0


@dataclass(frozen=True, slots=True)
class MeterRemark:
    """Hold one thing to say of a check: its code, the value found and the limit."""

    code: str
    value: float = 0.0
    limit: float = 0.0


@dataclass(frozen=True, slots=True)
class MeterVerdict:
    """Hold what a check comes to.

    Parameters
    ----------
    status : MeterStatus
    slope_percent, offset_mv, third_off : float or None
        Slope in parts of Nernst's [%], millivolts at pH 7 [mV], third buffer less what it is [-].
    remarks : tuple of MeterRemark
        What refuses first.
    """

    status: MeterStatus
    slope_percent: float | None
    offset_mv: float | None
    third_off: float | None
    remarks: tuple[MeterRemark, ...]


def nernst_slope(temperature_c: float, facts: MeterFacts) -> float:
    """Return the slope of a perfect electrode [mV per pH]: R T ln 10 / F."""
    return facts.figures["mv_per_kelvin"] * (temperature_c + facts.figures["zero_celsius"])


def check_meter(check: MeterCheck, facts: MeterFacts) -> MeterVerdict:
    """Return whether a meter is to be believed, with the reasons.

    Notes
    -----
    Slope [%] = 100 (mV in the sharper buffer - mV in the other) / (pH apart x Nernst slope at the
    temperature of the buffers); offset = mV at pH 7 on the line through both.
    """
    slope, offset = _slope_and_offset(check, facts)
    third = _third_off(check, facts)
    remarks = (
        *_slope_remarks(check, slope, facts),
        *_offset_remarks(offset, facts),
        *_third_remarks(third, facts),
        *_temperature_remarks(check, facts),
        *_age_remarks(check, facts),
    )
    ordered = tuple(sorted(remarks, key=lambda remark: remark.code not in REFUSALS))
    return MeterVerdict(_status(ordered), slope, offset, third, ordered)


def _slope_and_offset(check: MeterCheck, facts: MeterFacts) -> tuple[float | None, float | None]:
    points = sorted(
        (facts.ph_of(one.buffer, one.temperature_c), one.mv, one.temperature_c)
        for one in check.set_in
        if one.mv is not None
    )
    if not points or points[-1][0] - points[0][0] < facts.figures["buffers_apart"]:
        return check.slope_percent, check.offset_mv
    (low, low_mv, low_c), (high, high_mv, high_c) = points[0], points[-1]
    # From what a meter reads, mV falls as the pH rises.
    per_ph = (low_mv - high_mv) / (high - low)
    slope = PERCENT * per_ph / nernst_slope(0.5 * (low_c + high_c), facts)
    near_mv, near = min(
        ((low_mv, low), (high_mv, high)),
        key=lambda point: abs(point[1] - facts.figures["isopotential"]),
    )
    return slope, near_mv + per_ph * (near - facts.figures["isopotential"])


def _third_off(check: MeterCheck, facts: MeterFacts) -> float | None:
    third = check.third
    if third is None or third.ph is None:
        return None
    return third.ph - facts.ph_of(third.buffer, third.temperature_c)


def _slope_remarks(
    check: MeterCheck, slope: float | None, facts: MeterFacts
) -> Iterator[MeterRemark]:
    figures = facts.figures
    if slope is None:
        read = [one for one in check.set_in if one.mv is not None]
        yield MeterRemark(TOO_CLOSE if read else UNCHECKED, len(read), figures["buffers_apart"])
    elif slope < figures["slope_low"]:
        yield MeterRemark(SLOPE_LOW, slope, figures["slope_low"])
    elif slope > figures["slope_high"]:
        yield MeterRemark(SLOPE_HIGH, slope, figures["slope_high"])
    elif slope < figures["slope_good"]:
        yield MeterRemark(SLOPE_POOR, slope, figures["slope_good"])


def _offset_remarks(offset: float | None, facts: MeterFacts) -> Iterator[MeterRemark]:
    if offset is not None and abs(offset) > facts.figures["offset"]:
        yield MeterRemark(OFFSET, offset, facts.figures["offset"])


def _third_remarks(third: float | None, facts: MeterFacts) -> Iterator[MeterRemark]:
    # A reading of 7.10 in buffer 7.00 is within 0.1, whatever binary fractions make of it.
    if third is None:
        yield MeterRemark(NO_THIRD, 0.0, facts.figures["third_buffer"])
    elif round(abs(third), 6) > facts.figures["third_buffer"]:
        yield MeterRemark(THIRD, third, facts.figures["third_buffer"])


def _temperature_remarks(check: MeterCheck, facts: MeterFacts) -> Iterator[MeterRemark]:
    every = (*check.set_in, *(() if check.third is None else (check.third,)))
    beyond = [one for one in every if not facts.covers(one.buffer, one.temperature_c)]
    if beyond:
        yield MeterRemark(FAR_TEMPERATURE, beyond[0].temperature_c)


def _age_remarks(check: MeterCheck, facts: MeterFacts) -> Iterator[MeterRemark]:
    figures = facts.figures
    if check.age_hours > figures["stale_hours"]:
        yield MeterRemark(STALE, check.age_hours, figures["stale_hours"])
    elif check.age_hours > figures["fresh_hours"]:
        yield MeterRemark(AGED, check.age_hours, figures["fresh_hours"])


def _status(remarks: tuple[MeterRemark, ...]) -> MeterStatus:
    if any(remark.code in REFUSALS for remark in remarks):
        return MeterStatus.REFUSED
    return MeterStatus.CAUTION if remarks else MeterStatus.PASSED
