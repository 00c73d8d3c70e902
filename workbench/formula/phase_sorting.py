"""Which kind of phase a material usually goes into, for lines that come without phases."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from decimal import Decimal

from workbench.formula.ingredient import Ingredient
from workbench.formula.pasted_lines import Entry

WATER, OIL, COOL_DOWN = "water", "oil", "cool-down"
_ORDER = (WATER, OIL, COOL_DOWN)
_ADDED_LATE = frozenset(
    {"preservative", "fragrance", "essential-oil", "ph-adjuster-acid", "ph-adjuster-base"}
)
_MELTED = frozenset({"emulsifier-oil-in-water", "emulsifier-water-in-oil", "co-emulsifier"})
_COOL_C = Decimal(45)


def usual_kind(item: Ingredient) -> str:
    """Return the kind of phase a material usually goes into: water, oil or cool-down.

    Parameters
    ----------
    item : Ingredient
        With its functions, solubility and the warmest it may be worked [degrees C].

    Returns
    -------
    str
        cool-down for scent, preservatives, what adjusts the pH and what bears at most
        45 degrees C; oil for what dissolves in oil and for emulsifiers, which are melted with
        it; else water. Common practice, for the maker to change.
    """
    functions = frozenset(item.functions)
    bears = item.max_process_temp_c
    if functions & _ADDED_LATE or (bears is not None and bears <= _COOL_C):
        return COOL_DOWN
    return OIL if item.solubility == "oil" or functions & _MELTED else WATER


def sorted_entries(
    entries: Sequence[Entry],
    item_of: Callable[[str], Ingredient | None],
    names: Mapping[str, str],
) -> tuple[Entry, ...]:
    """Return entries by kind of phase, each kind in the order it had; `names` calls the phases.

    What nothing is known of stays with the entry before it.
    """
    kinds = kinds_of(entries, item_of)
    return tuple(
        replace(entry, phase=names[kind])
        for kind in _ORDER
        for entry, own in zip(entries, kinds, strict=True)
        if own == kind
    )


def kinds_of(
    entries: Sequence[Entry], item_of: Callable[[str], Ingredient | None]
) -> tuple[str, ...]:
    """Return the usual kind of phase of each entry."""
    kinds: list[str] = []
    for entry in entries:
        item = item_of(entry.ingredient)
        before = kinds[-1] if kinds else WATER
        kinds.append(before if item is None else usual_kind(item))
    return tuple(kinds)
