"""Filling a new studio with the shipped ingredients."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from workbench.formula.ingredient import Ingredient
from workbench.storage.ingredients import write_ingredients
from workbench.storage.reference.tables import (
    load_ingredients,
    load_names,
    load_reference_set,
)

if TYPE_CHECKING:
    from sqlalchemy import Connection

WATER = "water"


def fill_reference(connection: Connection, folder: Path) -> str:
    """Store the shipped ingredients, make them findable, and return the id of the set."""
    items, others = shipped_ingredients(folder)
    write_ingredients(connection, items.values(), others)
    return load_reference_set(folder).id


def shipped_ingredients(
    folder: Path,
) -> tuple[Mapping[str, Ingredient], dict[str, tuple[str, ...]]]:
    """Return the shipped ingredients by key, and by key what each is called too."""
    items = load_ingredients(folder)
    return items, _other_names(items, load_names(folder))


def _other_names(
    items: Mapping[str, Ingredient], substance_of: Mapping[str, str]
) -> dict[str, tuple[str, ...]]:
    """Return by ingredient what its substance is called too, where it is one substance."""
    names: defaultdict[str, list[str]] = defaultdict(list)
    for name, substance in substance_of.items():
        names[substance].append(name)
    found: dict[str, tuple[str, ...]] = {}
    for key, item in items.items():
        inside = {part.substance for part in item.composition}
        solutes = inside - {WATER} or inside
        if len(solutes) == 1:
            found[key] = tuple(names[solutes.pop()])
    return found
