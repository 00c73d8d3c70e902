"""How much of each adjuster leads to the wanted pH, what does not fit, and the curve there."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal
from typing import TYPE_CHECKING

from workbench.checks.ph import ChemistrySituation
from workbench.checks.ph_situation import KG, base_masses, materials_of, water_in
from workbench.checks.ph_values import DOWN, PER_100_G, UP, AdjusterDose, Reason, told
from workbench.chemistry.facts import ChemistryFacts, Gift, KnownAdjuster, Spread
from workbench.chemistry.mixture import STATED, Portion, portions_of
from workbench.formula.absent import Absent
from workbench.formula.formula import Formula
from workbench.formula.shelf import Shelf

if TYPE_CHECKING:
    from workbench.chemistry.dosing import Dosable, DoseRange


def adjuster_doses(
    formula: Formula,
    situation: ChemistrySituation | Absent,
    shelf: Shelf,
    batch_g: Decimal | None = None,
) -> tuple[AdjusterDose, ...] | Absent:
    """Return the dose of every adjuster on the shelf that moves the pH towards the target.

    Parameters
    ----------
    formula : Formula
        With its target pH.
    situation : ChemistrySituation or Absent
        The water of the formula without its to-pH lines.
    shelf : Shelf
        Where the adjusters stand.
    batch_g : Decimal or None
        Mass of product [g]; doses are for 100 g without one.

    Returns
    -------
    tuple of AdjusterDose or Absent
        Empty where the estimate lies in the target already. A dose takes the place of rest-line
        ingredient; without a rest line it comes on top.
    """
    if isinstance(situation, Absent):
        return situation
    if formula.target_ph is None:
        return Absent("absent-adjusters-no-target")
    low, high = (float(end) for end in formula.target_ph)
    estimate = situation.interval.estimate
    if low <= estimate <= high:
        return ()
    is_up = estimate < low
    doses = _doses(situation, shelf, (low + high) / 2.0, is_up=is_up)
    per_g = PER_100_G if batch_g is None or batch_g <= 0 else float(batch_g)
    held_back = [
        key for key in situation.situation.reserved if any(dose.key == key for _, dose in doses)
    ]
    made = [_dose(known, found, situation, per_g) for known, found in doses]
    to_ph = (low + high) / 2.0
    ordered = sorted(made, key=lambda dose: (dose.ingredient not in held_back, not dose.fits))
    return tuple(replace(dose, to_ph=to_ph) for dose in ordered)


def dose_to(
    situation: ChemistrySituation, shelf: Shelf, adjuster: str, ph: float
) -> DoseRange | None:
    """Return the dose of one adjuster to a pH, for one kilogram of product [g]."""
    from workbench.chemistry.dosing import dose_ranges

    dosable = dosable_of(adjuster, situation, shelf)
    if dosable is None:
        return None
    return dose_ranges(situation.work_at(ph), (dosable,), ph)[0]


def dosable_of(key: str, situation: ChemistrySituation, shelf: Shelf) -> Dosable | None:
    """Return an adjuster as it is weighed into this formula; None where it brings nothing."""
    from workbench.chemistry.dosing import Dosable

    materials = materials_of(base_masses({key: 1.0}, shelf), shelf)
    portions = [
        portion
        for material in materials
        for portion in portions_of(material, situation.facts)
        if portion.kind == STATED
    ]
    if not portions:
        return None
    state = situation.situation
    taken = state.rest_water if state.rest_g else 0.0
    return Dosable(
        key,
        Gift(
            tuple(entry for portion in portions for entry in portion.gift.acids),
            tuple(entry for portion in portions for entry in portion.gift.ions),
        ),
        _acts(portions),
        (water_in(materials) - taken) / KG,
    )


def is_adjuster(key: str, facts: ChemistryFacts) -> bool:
    """Tell whether a material is known as one that moves a pH."""
    return any(known.ingredient == key for known in facts.adjusters)


def _doses(
    situation: ChemistrySituation, shelf: Shelf, ph: float, *, is_up: bool
) -> list[tuple[KnownAdjuster, DoseRange]]:
    from workbench.chemistry.dosing import dose_ranges

    offered = list(_offered(situation, shelf, is_up=is_up))
    ranges = dose_ranges(situation.work_at(ph), tuple(one for _, one in offered), ph)
    return [(known, found) for (known, _), found in zip(offered, ranges, strict=True)]


def _offered(
    situation: ChemistrySituation, shelf: Shelf, *, is_up: bool
) -> Iterator[tuple[KnownAdjuster, Dosable]]:
    for known in _adjusters_of(situation, shelf, is_up=is_up):
        dosable = dosable_of(known.ingredient, situation, shelf)
        if dosable is not None:
            yield known, dosable


def _adjusters_of(
    situation: ChemistrySituation, shelf: Shelf, *, is_up: bool
) -> Iterator[KnownAdjuster]:
    """Yield the listed adjusters of a side, the maker's copies of them, and what is held back."""
    listed = {one.ingredient: one for one in situation.facts.adjusters}
    for known in listed.values():
        if known.is_base is is_up and shelf.knows(known.ingredient):
            yield known
    for key, item in shelf.ingredients.items():
        original = listed.get(item.based_on)
        if key not in listed and original is not None and original.is_base is is_up:
            yield replace(original, ingredient=key)
    for key in situation.situation.reserved:
        item_of = shelf.ingredients.get(key)
        is_copy = item_of is not None and item_of.based_on in listed
        if key not in listed and not is_copy and shelf.knows(key):
            yield KnownAdjuster(key, is_base=is_up)


def _acts(portions: list[Portion]) -> Spread:
    if len(portions) == 1:
        return portions[0].spread
    # A stock of several: as sure as its least sure part.
    return max(
        (portion.spread for portion in portions), key=lambda spread: spread.high - spread.low
    )


def _dose(
    known: KnownAdjuster, found: DoseRange, situation: ChemistrySituation, per_g: float
) -> AdjusterDose:
    scale = per_g / KG
    obstacle = _obstacle(known, found, situation)
    return AdjusterDose(
        ingredient=found.key,
        low=_scaled(found.low, scale),
        estimate=_scaled(found.estimate, scale),
        high=_scaled(found.high, scale),
        per_g=per_g,
        to_ph=0.0,
        fits=obstacle is None,
        direction=UP if known.is_base else DOWN,
        reason=obstacle or _mind(known, found, situation),
    )


def _obstacle(
    known: KnownAdjuster, found: DoseRange, situation: ChemistrySituation
) -> Reason | None:
    """Return why a dose cannot be added, or None."""
    state = situation.situation
    if found.estimate is None:
        return Reason("dose-reason-out-of-reach", (("ingredient", found.key),))
    if state.rest_g and found.estimate > state.rest_g:
        return Reason(
            "dose-reason-no-room",
            (("ingredient", found.key), ("room", told(state.rest_g * PER_100_G / KG))),
        )
    water_g = state.mixture.water_kg * KG - found.estimate * (
        state.rest_water if state.rest_g else 0.0
    )
    if known.most is not None and found.estimate > known.most * water_g:
        return Reason(
            "dose-reason-does-not-dissolve",
            (("ingredient", found.key), ("most", told(known.most * PER_100_G))),
        )
    return None


def _mind(known: KnownAdjuster, found: DoseRange, situation: ChemistrySituation) -> Reason | None:
    """Return what to mind where a dose fits, or None."""
    reserved = situation.situation.reserved.get(found.key)
    if reserved is not None and found.estimate is not None and found.estimate > reserved:
        return Reason(
            "dose-reason-more-than-held-back",
            (("ingredient", found.key), ("held", told(reserved * PER_100_G / KG))),
        )
    if not known.note:
        return None
    return Reason(known.note, (("ingredient", found.key),))


def _scaled(grams: float | None, scale: float) -> float | None:
    return None if grams is None else grams * scale
