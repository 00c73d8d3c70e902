"""A shelf of pure acids, bases and salts beside the shipped one, for checks of the chemistry."""

from __future__ import annotations

from functools import cache

from tests.builders import make_ingredient
from workbench import paths
from workbench.checks.rules import Rules
from workbench.formula.ingredient import Ingredient
from workbench.formula.shelf import Shelf, shelf_of
from workbench.storage.reference.shipped import Shipped

PURE = (
    "lactic_acid",
    "glycolic_acid",
    "citric_acid",
    "sodium_benzoate",
    "potassium_sorbate",
    "sodium_hydroxide",
    "arginine",
    "tromethamine",
)


@cache
def shipped() -> Shipped:
    return Shipped(paths.resources() / "reference")


def rules() -> Rules:
    return shipped().rules


@cache
def shelf() -> Shelf:
    """Return the shipped shelf with `pure_x` for some substances, exactly as strong as named."""
    pure = {f"pure_{key}": _pure(key) for key in PURE}
    return shelf_of({**shipped().ingredients, **pure}, {}, shipped().substances)


def _pure(substance: str) -> Ingredient:
    return make_ingredient(f"pure_{substance}", {substance: "1"})
