"""What the pH guide is told of a designed product: its chemistry, and the bottles at hand."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from workbench.bench.ph_log import PhAdjuster
from workbench.bench.ph_values import Prior
from workbench.checks.ph_situation import KG, PhSituation, base_masses, materials_of, water_in
from workbench.chemistry.facts import EXACT, ChemistryFacts, Gift, Spread
from workbench.chemistry.mixture import STATED, Mixture, Portion, portions_of
from workbench.formula.shelf import Shelf

# Notes of the table of adjusters that mean: the pH goes on drifting after it.
SLOW_NOTES = frozenset({"ph-reason-oligomers", "ph-reason-opens-slowly"})


def design_prior(
    situation: PhSituation,
    facts: ChemistryFacts,
    figures: Mapping[str, float],
    held_back_g: float = 0.0,
    *,
    is_thick: bool = False,
) -> Prior:
    """Return what the guide is told of a designed product.

    Parameters
    ----------
    situation : PhSituation
        The water of the formula without its to-pH lines.
    facts : ChemistryFacts
        Which materials are slow.
    figures : mapping of str to float
        What the guide takes for granted.
    held_back_g : float
        Rest-line ingredient that is not in the beaker yet, of one kilogram of product [g].
    is_thick : bool
        Whether it takes long to mix.
    """
    slow = {known.ingredient for known in facts.adjusters if known.note in SLOW_NOTES}
    mixture = beaker_mixture(situation, held_back_g)
    is_slow = any(portion.key in slow for portion in mixture.portions)
    return Prior(mixture, figures, is_thick, is_slow)


def blank_prior(figures: Mapping[str, float], *, is_thick: bool = False) -> Prior:
    """Return what the guide is told of a product without a design: nothing."""
    return Prior(None, figures, is_thick)


def beaker_mixture(situation: PhSituation, held_back_g: float) -> Mixture:
    """Return one kilogram of what stands in the beaker while some rest line is held back [g].

    Notes
    -----
    Rest-line ingredient is taken for its water alone.
    """
    mixture = situation.mixture
    held_g = min(held_back_g, situation.rest_g)
    times = KG / (KG - held_g)
    water_kg = (mixture.water_kg - held_g * situation.rest_water / KG) * times
    portions = tuple(_scaled(portion, times) for portion in mixture.portions)
    return replace(mixture, portions=portions, water_kg=water_kg)


def bench_adjuster(key: str, shelf: Shelf, facts: ChemistryFacts) -> PhAdjuster | None:
    """Return a bottle that moves the pH, as it is poured; None where it brings nothing."""
    materials = materials_of(base_masses({key: 1.0}, shelf), shelf)
    portions = [
        portion
        for material in materials
        for portion in portions_of(material, facts)
        if portion.kind == STATED
    ]
    if not portions:
        return None
    gift = Gift(
        tuple(entry for portion in portions for entry in portion.gift.acids),
        tuple(entry for portion in portions for entry in portion.gift.ions),
    )
    item = shelf.ingredients.get(key)
    names = {key, item.based_on if item is not None else ""}
    known = [one for one in facts.adjusters if one.ingredient in names]
    is_base = known[0].is_base if known else _is_base(gift)
    acts = max((one.spread for one in portions), key=lambda spread: spread.high - spread.low)
    is_slow = any(one.note in SLOW_NOTES for one in known)
    return PhAdjuster(key, gift, water_in(materials), is_base, acts, is_slow)


def _is_base(gift: Gift) -> bool:
    """Tell whether a gift brings lye or an amine rather than acid."""
    lye = sum(charge * amount for charge, amount in gift.ions)
    acid = sum(amount for one, amount in gift.acids if one.charge == 0)
    amine = sum(amount for one, amount in gift.acids if one.charge > 0)
    return lye + amine > acid


def _scaled(portion: Portion, times: float) -> Portion:
    spread = portion.spread
    if spread is EXACT and times == 1.0:
        return portion
    scaled = Spread(
        spread.low * times,
        spread.typical * times,
        spread.high * times,
        spread.note,
        spread.confidence,
    )
    return replace(portion, spread=scaled)
