"""What oil and micelles leave of one preservative in the water phase."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from workbench.checks.phases import Phases
from workbench.checks.preservative_values import Range, Reason
from workbench.checks.rules import Rules
from workbench.chemistry.preservation import aqueous_concentration, mixed_partition

WHOLE = 100.0


@dataclass(frozen=True, slots=True)
class InWater:
    """Hold a content of the water phase [% w/w of it], and what stands against it.

    `missing` says why there is no figure, or what the figure leaves out; `is_capped` that the
    estimate is held at what water dissolves.
    """

    percent: Range | None = None
    missing: Reason | None = None
    is_capped: bool = False
    solubility: float | None = None


def in_water(
    substance: str, amount: float, free: Range | None, phases: Phases, rules: Rules
) -> InWater:
    """Return how much of a preservative stays free in the water of a product.

    Parameters
    ----------
    substance : str
        Key of what acts.
    amount : float
        All of it, as acid where it is one [% w/w of the product].
    free : Range or None
        Share of the acid that is not ionised [-]; 1 for what is no acid.
    phases : Phases
        Of 100 g of product.
    rules : Rules
        With the tables of preservation.

    Notes
    -----
    The low end takes the most oil and the least free acid, the high end the opposite.
    """
    limit = rules.preservation.solubilities.get(substance)
    solubility = limit.estimate if limit else None
    if free is None:
        return InWater(missing=Reason.NO_PH, solubility=solubility)
    if phases.water_ml <= 0:
        return InWater(missing=Reason.NO_WATER, solubility=solubility)
    oil = partition_of(substance, phases, rules)
    if oil is None:
        return InWater(missing=Reason.NO_OIL_DATA, solubility=solubility)
    binding, is_whole = binding_of(substance, phases, rules)
    overall = WHOLE * amount / (phases.oil_ml + phases.water_ml)
    found = tuple(
        aqueous_concentration(overall, phases.ratio, k, binding, share, most)
        for k, share, most in zip(
            (oil.high, oil.estimate, oil.low),
            (free.low, free.estimate, free.high),
            (limit.low, limit.estimate, limit.high) if limit else (None, None, None),
            strict=True,
        )
    )
    by_mass = phases.water_ml / phases.water_g
    return InWater(
        percent=Range(*(value * by_mass for value in found)),
        missing=None if is_whole else Reason.NO_BINDING_DATA,
        is_capped=solubility is not None and found[1] >= solubility,
        solubility=solubility,
    )


def partition_of(substance: str, phases: Phases, rules: Rules) -> Range | None:
    """Return the oil/water partition coefficient in the oils present [-], or None if unknown.

    Notes
    -----
    Octanol never stands in. Oils of a class without a figure may be a small part of all; they
    then count with the whole span of the classes that have one.
    """
    if phases.oil_ml <= 0:
        return Range(0.0, 0.0, 0.0)
    known = rules.preservation.partitions.get(substance, {})
    volumes = {name: volume for name, volume in phases.oils_ml.items() if name in known}
    unknown = phases.oil_ml - sum(volumes.values())
    allowed = float(rules.figures["oil_class_unknown_percent"]) / WHOLE
    if not volumes or unknown > allowed * phases.oil_ml:
        return None
    estimate = mixed_partition((volume, known[name].estimate) for name, volume in volumes.items())
    span = (min(k.low for k in known.values()), max(k.high for k in known.values()))
    return Range(
        _mixed(volumes, {name: known[name].low for name in volumes}, (unknown, span[0])),
        _mixed(volumes, {name: known[name].estimate for name in volumes}, (unknown, estimate)),
        _mixed(volumes, {name: known[name].high for name in volumes}, (unknown, span[1])),
    )


def _mixed(
    volumes: Mapping[str, float], known: Mapping[str, float], rest: tuple[float, float]
) -> float:
    return mixed_partition([*((volumes[name], known[name]) for name in volumes), rest])


def binding_of(substance: str, phases: Phases, rules: Rules) -> tuple[float, bool]:
    """Return total over free by micelles [-], and whether every surfactant is in it."""
    known = rules.preservation.bindings.get(substance, {})
    held = sum(
        known[name] * WHOLE * mass / phases.water_ml
        for name, mass in phases.surfactants.items()
        if name in known
    )
    return 1.0 + held, all(name in known for name in phases.surfactants)
