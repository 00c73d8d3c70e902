"""What to do next with the pH of a batch.

Loading this module loads numpy: import it where it is used.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from workbench.bench.ph_belief import Belief
from workbench.bench.ph_dose import after, dose_towards
from workbench.bench.ph_log import (
    BeakerState,
    Method,
    PhAdjuster,
    PhLog,
    PhReading,
    state_after,
)
from workbench.bench.ph_reading import believed, span_of
from workbench.bench.ph_values import (
    Advice,
    Dose,
    Limits,
    PhReason,
    PhSpan,
    PhStatus,
    Prior,
    Reread,
    Window,
)

STRIP, TEMPERATURE, NO_PRIOR = "ph-strip-too-coarse", "ph-off-temperature", "ph-no-design"
PASSED, OTHER_WAY, NO_WAY_BACK = "ph-passed-window", "ph-other-direction", "ph-no-adjuster-back"
OUT_OF_REACH, CAPPED, NEAR_EDGE = "ph-out-of-reach", "ph-part-of-dose", "ph-near-edge"
WEAKER, UNBUFFERED, OVER_RESERVE = "ph-weaker-solution", "ph-unbuffered", "ph-over-reserve"
_STRIP_OF_WINDOW = 0.5
_MOST_ALTERNATIVES = 2
_NEARLY = 0.9


def advise(
    prior: Prior,
    log: PhLog,
    window: Window,
    adjusters: tuple[PhAdjuster, ...],
    limits: Limits,
    seed: int = 0,
) -> Advice:
    """Return what to do next with the pH of a batch.

    Parameters
    ----------
    prior : Prior
        What is known of the product before any reading.
    log : PhLog
        Readings and additions so far.
    window : Window
        Where the pH is to be.
    adjusters : tuple of PhAdjuster
        The wanted one first; then every other of the log or at hand.
    limits : Limits
        What can be weighed, and what was held back.
    seed : int
        Which cloud of samples; the same seed gives the same advice.

    Returns
    -------
    Advice
        `PhStatus.READ_FIRST` without a reading or with an addition that was not read yet.
    """
    figures = prior.figures
    wait = figures["wait_cream"] if prior.is_thick else figures["wait_thin"]
    last = log.entries[-1] if log.entries else None
    if not isinstance(last, PhReading):
        return Advice(PhStatus.READ_FIRST, None, wait_min=wait if log.additions else 0.0)
    belief, contradictions = believed(prior, log, adjusters, seed)
    state = state_after(log)
    stands = span_of(belief, state.composed)
    case = _Case(belief, state, window, limits, stands, last)
    remarks = (*contradictions, *_remarks(prior, case))
    if window.low <= last.ph <= window.high:
        return _inside(case, remarks, rereads_after(prior, log, adjusters))
    found = _outside(case, log, adjusters, remarks)
    return replace(found, wait_min=wait)


def rereads_after(
    prior: Prior, log: PhLog, adjusters: tuple[PhAdjuster, ...]
) -> tuple[Reread, ...]:
    """Return when to read the pH again, counted from the last addition [h]."""
    figures = prior.figures
    used = {addition.adjuster for addition in log.additions}
    is_slow = prior.is_slow or any(one.is_slow for one in adjusters if one.key in used)
    found = [
        Reread(figures["reread_first"], "ph-reread-next-day"),
        Reread(figures["reread_second"], "ph-reread-three-days"),
    ]
    if is_slow:
        found.append(Reread(figures["reread_slow"], "ph-reread-slow-acid"))
    return tuple(found)


@dataclass(frozen=True, slots=True, eq=False)
class _Case:
    """Hold what every part of one answer rests on; a working form that is not kept."""

    belief: Belief
    state: BeakerState
    window: Window
    limits: Limits
    stands: PhSpan
    last: PhReading

    @property
    def figures(self) -> Mapping[str, float]:
        return self.belief.family.figures

    def dose(self, adjuster: PhAdjuster) -> Dose | None:
        return dose_towards(self.belief, self.state, adjuster, self.window, self.limits)


def _remarks(prior: Prior, case: _Case) -> Iterator[PhReason]:
    figures, reading = prior.figures, case.last
    if prior.mixture is None:
        yield PhReason(NO_PRIOR)
    width = case.window.high - case.window.low
    if reading.method is Method.STRIP and figures["noise_strip"] > _STRIP_OF_WINDOW * width / 2:
        yield PhReason(STRIP, (("width", width),))
    if abs(reading.temperature_c - figures["temperature"]) > figures["temperature_span"]:
        yield PhReason(TEMPERATURE, (("temperature", reading.temperature_c),))


def _inside(case: _Case, remarks: tuple[PhReason, ...], rereads: tuple[Reread, ...]) -> Advice:
    ph = case.belief.ph(case.state.composed)
    sure = case.belief.chance((ph >= case.window.low) & (ph <= case.window.high))
    status = PhStatus.DONE
    if sure < case.figures["sure_share"]:
        remarks = (*remarks, PhReason(NEAR_EDGE, (("chance", sure),)))
        if case.last.method is Method.STRIP:
            status = PhStatus.READ_AGAIN
    return Advice(status, case.stands, reasons=remarks, rereads=rereads)


def _outside(
    case: _Case, log: PhLog, adjusters: tuple[PhAdjuster, ...], remarks: tuple[PhReason, ...]
) -> Advice:
    is_up = case.last.ph < case.window.low
    fitting = [one for one in adjusters if one.is_base is is_up]
    remarks = (*remarks, *_turned(log, adjusters, is_up=is_up))
    if not fitting:
        reason = PhReason(NO_WAY_BACK, (("direction", "up" if is_up else "down"),))
        return Advice(PhStatus.STUCK, case.stands, reasons=(*remarks, reason))
    doses = [case.dose(one) for one in fitting[: 1 + _MOST_ALTERNATIVES]]
    first, others = doses[0], tuple(one for one in doses[1:] if one is not None)
    if first is None:
        # So near the far edge that no dose is prudent: the readings disagree with each other.
        return Advice(PhStatus.READ_AGAIN, case.stands, reasons=(*remarks, PhReason(NEAR_EDGE)))
    if first.total_g is None and first.reach < case.figures["least_reach"]:
        reason = PhReason(OUT_OF_REACH, (("adjuster", first.adjuster),))
        return Advice(PhStatus.STUCK, case.stands, reasons=(*remarks, reason), alternatives=others)
    reasons = (*remarks, *_dose_reasons(case, fitting[0], first))
    return Advice(PhStatus.ADD, case.stands, first, reasons=reasons, alternatives=others)


def _turned(log: PhLog, adjusters: tuple[PhAdjuster, ...], *, is_up: bool) -> Iterator[PhReason]:
    """Yield that the pH went past the window, or that the wanted adjuster moves it away."""
    side = {one.key: one.is_base for one in adjusters}
    if log.additions and side[log.additions[-1].adjuster] is not is_up:
        yield PhReason(PASSED, (("adjuster", log.additions[-1].adjuster),))
    elif adjusters and adjusters[0].is_base is not is_up:
        yield PhReason(OTHER_WAY, (("adjuster", adjusters[0].key),))


def _dose_reasons(case: _Case, adjuster: PhAdjuster, dose: Dose) -> Iterator[PhReason]:
    if dose.total_g is None:
        yield PhReason(OUT_OF_REACH, (("adjuster", dose.adjuster),))
    elif dose.stated_g < _NEARLY * dose.total_g:
        yield PhReason(CAPPED, (("passing", dose.passing), ("total", dose.total_g)))
    if dose.weaker is not None:
        values = (
            ("fold", float(dose.weaker.fold)),
            ("stock", dose.weaker.stock_g),
            ("water", dose.weaker.water_g),
            ("least", case.limits.least_g),
        )
        yield PhReason(WEAKER, values)
        moved = _moved(case, adjuster)
        if moved >= case.figures["unbuffered"]:
            yield PhReason(UNBUFFERED, (("least", case.limits.least_g), ("moves", moved)))
    reserve = case.limits.reserve_g
    used = case.state.used_g + dose.mass_g
    if reserve is not None and used > reserve:
        yield PhReason(OVER_RESERVE, (("reserve", reserve), ("used", used)))


def _moved(case: _Case, adjuster: PhAdjuster) -> float:
    """Return how far the least weighable mass moves the pH [-]."""
    state = case.state
    there = span_of(case.belief, after(state, adjuster.key, case.limits.least_g))
    return abs(there.estimate - case.stands.estimate)
