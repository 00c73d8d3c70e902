"""Estimate the water activity of the water phase from what is dissolved in it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import exp

from workbench.checks.label_rules import Solute
from workbench.formula.substance import Substance

WATER_G_MOL = 18.0153


@dataclass(frozen=True, slots=True)
class WaterActivity:
    """Hold the water activity between two values [-], and the substances that were counted."""

    low: float
    high: float
    counted: tuple[str, ...]


def water_activity(
    water_percent: float,
    percents: Mapping[str, float],
    substances: Mapping[str, Substance],
    solutes: Mapping[str, Solute],
) -> WaterActivity:
    """Estimate the water activity at 25 °C [-].

    Parameters
    ----------
    water_percent : float
        Free water [% w/w of the product].
    percents : mapping of str to float
        Substances of the product [% w/w].
    substances, solutes : mapping
        Molar masses [g/mol] and constants by substance.

    Notes
    -----
    Each solute alone in all the water by Norrish, a_w = X_w exp(-K X_s^2), never below its
    saturated solution; the product over the solutes (Ross 1975). The span is that of the
    constants. Everything the table does not hold is taken to lower nothing, so that the true
    value is rather below than above; polymers and oils hardly matter.
    """
    low = high = 1.0
    counted: list[str] = []
    moles_water = water_percent / WATER_G_MOL
    for key, percent in percents.items():
        solute = solutes.get(key)
        known = substances.get(solute.counts_as) if solute is not None else None
        if solute is None or known is None or known.molar_mass is None or percent <= 0:
            continue
        moles = solute.particles * percent / float(known.molar_mass)
        counted.append(key)
        low *= _alone(moles_water, moles, solute.norrish_high, solute.least_activity)
        high *= _alone(moles_water, moles, solute.norrish_low, solute.least_activity)
    return WaterActivity(low, high, tuple(counted))


def _alone(moles_water: float, moles: float, constant: float, least: float) -> float:
    share = moles / (moles_water + moles)
    return min(1.0, max(least, (1.0 - share) * exp(-constant * share * share)))
