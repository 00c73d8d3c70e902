"""The density of one material as supplied, as a range."""

from __future__ import annotations

from workbench.checks.density_facts import DensityFacts
from workbench.checks.preservative_values import Range
from workbench.formula.ingredient import Ingredient

_CLASSES = (
    ("gum-or-polymer", ("thickener-gum", "thickener-polymer", "protein", "film-former")),
    ("mineral", ("clay", "thickener-mineral", "pearlescent", "uv-filter")),
    ("surfactant-solid", ("surfactant-",)),
    ("fatty-solid", ("emulsifier-", "co-emulsifier", "wax", "thickener-fatty")),
)


def density_of(item: Ingredient, facts: DensityFacts, spread: float = 0.0) -> Range | None:
    """Return the density of an ingredient [g/ml], or None where nothing is known.

    Parameters
    ----------
    item : Ingredient
        As supplied.
    facts : DensityFacts
        The tables.
    spread : float
        How far a typical density may be off, as a share of it [-].

    Notes
    -----
    A quoted range of the substance goes before the typical figure of the ingredient, and that
    before the class of a solid.
    """
    if len(item.composition) == 1:
        quoted = facts.materials.get(item.composition[0].substance)
        if quoted is not None and not item.is_own:
            return quoted
    if item.density is not None:
        value = float(item.density)
        return Range(value * (1 - spread), value, value * (1 + spread))
    return facts.classes.get(solid_class(item))


def solid_class(item: Ingredient) -> str:
    """Return the class a material without a density belongs to, empty where none fits."""
    for name, functions in _CLASSES:
        if any(word.startswith(functions) for word in item.functions):
            return name
    if item.solubility == "oil":
        return "fatty-solid"
    if item.solubility == "insoluble":
        return "mineral" if item.origin == "mineral" else "plant-powder"
    return "dissolved-solid" if item.solubility in ("water", "both", "alcohol") else ""
