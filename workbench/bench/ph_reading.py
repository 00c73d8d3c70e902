"""From the entries of a log to a belief: noise of readings, and readings that contradict.

Loading this module loads numpy: import it where it is used.
"""

from __future__ import annotations

import math
from collections.abc import Mapping

from workbench.bench.ph_belief import Belief
from workbench.bench.ph_family import Family, blank_family, design_family
from workbench.bench.ph_log import Composed, PhAdjuster, PhLog, PhReading, read_states
from workbench.bench.ph_values import PhReason, PhSpan, Prior
from workbench.chemistry.sampling import MIDDLE

LOW, HIGH = 0.05, 0.95
CONTRADICTS = "ph-reading-contradicts"


def noise_of(reading: PhReading, figures: Mapping[str, float]) -> float:
    """Return the standard deviation of a reading [-]: by method, and by temperature."""
    off = abs(reading.temperature_c - figures["temperature"]) - figures["temperature_span"]
    return math.hypot(
        figures[f"noise_{reading.method.value}"], max(off, 0.0) * figures["noise_per_degree"]
    )


def believed(
    prior: Prior, log: PhLog, adjusters: tuple[PhAdjuster, ...], seed: int = 0
) -> tuple[Belief, tuple[PhReason, ...]]:
    """Return what the readings say of the product, and which of them contradict.

    Parameters
    ----------
    prior : Prior
        What is known before any reading.
    log : PhLog
        With one reading at least.
    adjusters : tuple of PhAdjuster
        Every solution of the log, and what may be added next.
    seed : int
        Which cloud of samples.

    Notes
    -----
    Squares of what had to give at the likeliest product follow the chi-square distribution with
    as many degrees of freedom as there are readings. Beyond one in a thousand (Wilson and
    Hilferty, PNAS 17, 684, 1931) everything is widened by the root of squares per reading, as
    Birge did with constants (Phys. Rev. 40, 207, 1932).
    """
    belief = _fitted(prior, log, adjusters, seed, 1.0)
    count = len(log.readings)
    if belief.misfit <= _most_misfit(count, prior.figures["contradiction"]):
        return belief, ()
    widening = min(math.sqrt(belief.misfit / count), prior.figures["most_widening"])
    worst = max(range(count), key=lambda at: abs(belief.off[at]))
    told = log.readings[worst if abs(belief.off[worst]) > 1.0 else -1]
    reason = PhReason(CONTRADICTS, (("read", told.ph), ("times", widening)))
    return _fitted(prior, log, adjusters, seed, widening), (reason,)


def span_of(belief: Belief, state: Composed) -> PhSpan:
    """Return where the pH lies in a state."""
    ph = belief.ph(state)
    return PhSpan(*(belief.quantile(ph, chance) for chance in (LOW, MIDDLE, HIGH)))


def _fitted(
    prior: Prior, log: PhLog, adjusters: tuple[PhAdjuster, ...], seed: int, widening: float
) -> Belief:
    family = _family(prior, log, adjusters)
    family.scale = widening
    pairs = read_states(log)
    noises = [noise_of(reading, prior.figures) * widening for _, reading in pairs]
    # Whatever contradicts, the last reading is what stands in the beaker now.
    noises[-1] /= widening
    return Belief(
        family,
        [composed for composed, _ in pairs],
        [reading.ph for _, reading in pairs],
        noises,
        seed,
    )


def _family(prior: Prior, log: PhLog, adjusters: tuple[PhAdjuster, ...]) -> Family:
    if prior.mixture is not None:
        return design_family(prior.mixture, adjusters, prior.figures)
    return blank_family(log.readings[0].ph, adjusters, prior.figures)


def _most_misfit(count: int, deviations: float) -> float:
    part = 2.0 / (9.0 * count)
    return count * (1.0 - part + deviations * math.sqrt(part)) ** 3
