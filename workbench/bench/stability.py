"""When a slowly changing figure meets its limit, and what a warm shelf stands for."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum
from math import exp, log, sqrt

from workbench.bench.distributions import f_tail, t_quantile

GAS_CONSTANT = 8.314462
"""J/(mol K): CODATA 2018, exact to the digits given."""
ZERO_CELSIUS = 273.15
CONFIDENCE = 0.95
POOLING = 0.25
"""Significance at which lots are told apart: ICH Q1E, B.2.2.1."""
LEAST_READINGS = 4
LEAST_TIMES = 3
_A_FEW = 2
_MOST_TIMES_TESTED = 2.0
_MOST_MONTHS_BEYOND = 12.0


class Side(Enum):
    """Say from where a limit is met: a figure falls to a lower one or rises to an upper one."""

    LOWER = "lower"
    UPPER = "upper"


class Verdict(Enum):
    """Say what a trend comes to."""

    MEETS = "trend-meets"
    NO_TREND = "trend-none"
    ALREADY_OUT = "trend-already-out"
    TOO_FEW = "trend-too-few"


@dataclass(frozen=True, slots=True)
class Reading:
    """Hold one value of a figure after some months, all at one temperature."""

    months: float
    value: float


@dataclass(frozen=True, slots=True)
class Trend:
    """Hold a straight line through readings.

    `intercept` and `slope` per month in the unit of the figure; `deviation` of single readings
    from the line, in the same unit; `readings`, their `mean_months` and `spread` (sum of squared
    distances from the mean time [months²]); `last_months` of the observation.
    """

    intercept: float
    slope: float
    deviation: float
    readings: int
    mean_months: float
    spread: float
    last_months: float

    @property
    def reach(self) -> float:
        """Return how many deviations the one-sided 95 % bound takes in [-]."""
        return t_quantile(CONFIDENCE, self.readings - 2)

    def at(self, months: float) -> float:
        """Return the line at a time [months]."""
        return self.intercept + self.slope * months

    def bound(self, months: float, side: Side) -> float:
        """Return the one-sided 95 % bound of the mean at a time [months]."""
        error = sqrt(1 / self.readings + (months - self.mean_months) ** 2 / self.spread)
        width = self.reach * self.deviation * error
        return self.at(months) - width if side is Side.LOWER else self.at(months) + width


@dataclass(frozen=True, slots=True)
class Outlook:
    """Hold when the bound of a trend meets a limit.

    `months` as computed; `stated_months` no more than may be said from the time observed: twice
    it, and not over twelve months beyond (ICH Q1E). Both None unless the verdict is MEETS.
    """

    verdict: Verdict
    months: float | None = None
    stated_months: float | None = None
    trend: Trend | None = None

    @property
    def is_cut(self) -> bool:
        """Tell whether less is stated than computed."""
        return self.months is not None and self.stated_months != self.months


@dataclass(frozen=True, slots=True)
class Pooling:
    """Hold how far lots differ: chance of such slopes, and of such starts, in one lot [-]."""

    slopes: float
    starts: float

    @property
    def is_allowed(self) -> bool:
        """Tell whether the lots may be taken as one."""
        return min(self.slopes, self.starts) > POOLING


def linear_trend(readings: Sequence[Reading], noise: float = 0.0) -> Trend | None:
    """Return the straight line through readings, or None of too few.

    Parameters
    ----------
    readings : sequence of Reading
        At least four, at three different times.
    noise : float
        Deviation the instrument alone gives [unit of the figure]: readings that lie closer to
        their line are not taken to be surer than that.

    Notes
    -----
    Least squares: b = Sxy / Sxx, a = mean y - b mean t, s² = SSE / (n - 2).
    """
    times = {reading.months for reading in readings}
    if len(readings) < LEAST_READINGS or len(times) < LEAST_TIMES:
        return None
    count = len(readings)
    mean_months = sum(reading.months for reading in readings) / count
    mean = sum(reading.value for reading in readings) / count
    spread = sum((reading.months - mean_months) ** 2 for reading in readings)
    slope = (
        sum((reading.months - mean_months) * (reading.value - mean) for reading in readings)
        / spread
    )
    intercept = mean - slope * mean_months
    squares = sum((reading.value - intercept - slope * reading.months) ** 2 for reading in readings)
    return Trend(
        intercept=intercept,
        slope=slope,
        deviation=max(sqrt(squares / (count - 2)), noise),
        readings=count,
        mean_months=mean_months,
        spread=spread,
        last_months=max(times),
    )


def time_to_limit(
    readings: Sequence[Reading], limit: float, side: Side, noise: float = 0.0
) -> Outlook:
    """Return when the one-sided 95 % bound of the mean meets a limit.

    Parameters
    ----------
    readings : sequence of Reading
        Of one lot, or of lots that may be taken as one; one temperature.
    limit : float
        In the unit of the figure.
    side : Side
        From where it is met.
    noise : float
        As `linear_trend` takes it.

    Notes
    -----
    ICH Q1E. A slope of the harmless sign, or one that chance explains at the 5 % level, is no
    trend towards the limit: no time follows from it.
    """
    trend = linear_trend(readings, noise)
    if trend is None:
        return Outlook(Verdict.TOO_FEW)
    sign = 1.0 if side is Side.LOWER else -1.0
    if sign * (trend.bound(0.0, side) - limit) < 0.0:
        return Outlook(Verdict.ALREADY_OUT, trend=trend)
    if sign * trend.slope >= 0.0:
        return Outlook(Verdict.NO_TREND, trend=trend)
    months = _crossing(trend, limit, sign)
    if months is None:
        return Outlook(Verdict.NO_TREND, trend=trend)
    last = trend.last_months
    most = min(_MOST_TIMES_TESTED * last, last + _MOST_MONTHS_BEYOND)
    return Outlook(Verdict.MEETS, months, min(months, most), trend)


def pooling(lots: Sequence[Sequence[Reading]]) -> Pooling | None:
    """Return how far lots differ, or None where that cannot be told.

    Notes
    -----
    Analysis of covariance as in ICH Q1E, B.2.2.1: first whether slopes differ beside the scatter
    of separate lines, then whether starts differ beside that of parallel lines.
    """
    if len(lots) < _A_FEW or any(len({r.months for r in lot}) < _A_FEW for lot in lots):
        return None
    count, groups = sum(len(lot) for lot in lots), len(lots)
    separate = sum(_residue([lot]) for lot in lots)
    parallel = _residue(lots)
    common = _residue([[reading for lot in lots for reading in lot]])
    own, shared = count - 2 * groups, count - groups - 1
    if own < 1 or separate <= 0.0:
        return None
    slopes = (parallel - separate) / (groups - 1) / (separate / own)
    starts = (common - parallel) / (groups - 1) / (parallel / shared)
    return Pooling(
        f_tail(max(slopes, 0.0), groups - 1, own), f_tail(max(starts, 0.0), groups - 1, shared)
    )


def arrhenius_factor(energy_kj_mol: float, from_c: float, to_c: float) -> float:
    """Return how much faster a reaction runs at another temperature.

    Parameters
    ----------
    energy_kj_mol : float
        Activation energy [kJ/mol].
    from_c, to_c : float
        Temperatures [°C].

    Returns
    -------
    float
        Rate at the second over rate at the first [-].

    Notes
    -----
    exp[(Ea / R)(1 / T1 - 1 / T2)]. One reaction with one mechanism: no emulsion, no microbe.

    Examples
    --------
    >>> round(arrhenius_factor(83.144, 25, 40), 3)
    4.986
    """
    cool, warm = from_c + ZERO_CELSIUS, to_c + ZERO_CELSIUS
    return exp(1000.0 * energy_kj_mol / GAS_CONSTANT * (1.0 / cool - 1.0 / warm))


def q10_factor(q10: float, from_c: float, to_c: float) -> float:
    """Return how much faster a reaction runs by its factor per ten degrees [-]."""
    return float(q10 ** ((to_c - from_c) / 10.0))


def implied_q10(warm_time: float, cool_time: float, warm_c: float, cool_c: float) -> float:
    """Return the factor per ten degrees that a rule of thumb takes for granted.

    Parameters
    ----------
    warm_time, cool_time : float
        What is said to stand for what, in one unit.
    warm_c, cool_c : float
        Their temperatures [°C], different.

    Examples
    --------
    >>> round(implied_q10(8, 52, 45, 25), 2)
    2.55
    """
    return exp(log(cool_time / warm_time) * 10.0 / (warm_c - cool_c))


def stands_for(months: float, factor_low: float, factor_high: float) -> tuple[float, float]:
    """Return the span of cool months that warm months stand for, least and most."""
    return months * factor_low, months * factor_high


def _crossing(trend: Trend, limit: float, sign: float) -> float | None:
    """Return where the bound meets the limit [months]: the root of a quadratic."""
    reach = trend.reach * trend.deviation
    height = sign * (trend.at(trend.mean_months) - limit)
    slope = sign * trend.slope
    square = slope**2 - reach**2 / trend.spread
    if square <= 0.0:
        return None
    rest = height**2 - reach**2 / trend.readings
    root = sqrt(max((height * slope) ** 2 - square * rest, 0.0))
    found = ((-height * slope + end * root) / square for end in (1.0, -1.0))
    # Squaring brings in a second root, where the opposite bound would meet the limit.
    return next(
        trend.mean_months + u for u in sorted(found) if height + slope * u >= -1e-12 * abs(height)
    )


def _residue(lots: Sequence[Sequence[Reading]]) -> float:
    """Return the squared scatter about lines of one slope, each with a start of its own."""
    sxx = sxy = syy = 0.0
    for lot in lots:
        mean_t = sum(reading.months for reading in lot) / len(lot)
        mean_y = sum(reading.value for reading in lot) / len(lot)
        sxx += sum((reading.months - mean_t) ** 2 for reading in lot)
        sxy += sum((reading.months - mean_t) * (reading.value - mean_y) for reading in lot)
        syy += sum((reading.value - mean_y) ** 2 for reading in lot)
    return max(syy - sxy**2 / sxx, 0.0)
