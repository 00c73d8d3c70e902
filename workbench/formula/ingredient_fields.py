"""The facts of an ingredient: which belong together, and how far each was confirmed."""

from __future__ import annotations

from dataclasses import replace

from workbench.formula.ingredient import Ingredient
from workbench.formula.ingredient_change import changed_fields

# Which facts stand together on the page of an ingredient, in the order they are read.
GROUPS: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("identity", ("inci", "cas", "ec_numbers", "functions", "origin", "form")),
    ("use", ("use", "use_basis", "use_note", "ph", "dermal_max", "spectrum")),
    (
        "nature",
        (
            "solubility",
            "charge",
            "active_percent",
            "water_percent",
            "density",
            "hlb",
            "required_hlb",
            "log_p",
        ),
    ),
    (
        "handling",
        (
            "max_process_temp_c",
            "melts_at_c",
            "is_heat_sensitive",
            "is_electrolyte_sensitive",
            "is_phototoxic",
            "shelf_life_months",
            "incompatibilities",
            "tags",
        ),
    ),
)
# Facts of two values that are read as one: from, to.
SPANS = {"use": ("use_min", "use_max"), "ph": ("ph_min", "ph_max")}
# What `verified_fields` calls a fact, where it is not the name of the field.
_COLUMNS = {
    "name": "common_name",
    "ec_numbers": "ec_number",
    "charge": "ionic_charge",
    "use_min": "use_min_percent",
    "use_max": "use_max_percent",
    "density": "density_g_ml",
    "required_hlb": "required_hlb_ow",
    "dermal_max": "dermal_max_percent",
    "is_heat_sensitive": "heat_sensitive",
    "is_electrolyte_sensitive": "electrolyte_sensitive",
    "is_phototoxic": "phototoxic",
    "constituents": "allergens",
}
READ, MEMORY, OWN = "read", "memory", "own"


def confidence_of(item: Ingredient, field: str, original: Ingredient | None = None) -> str:
    """Return how far a fact was confirmed: read in its source, from memory, or the maker's own.

    A fact of two values counts as read when both are. A copy keeps what was known of the facts
    it did not change.
    """
    names = SPANS.get(field, (field,))
    if item.is_own and (original is None or changed_fields(original, item) & set(names)):
        return OWN
    columns = {_COLUMNS.get(name, name) for name in names if getattr(item, name) is not None}
    return READ if columns and columns <= set(item.verified_fields) else MEMORY


def copied(item: Ingredient, key: str, name: str) -> Ingredient:
    """Return a copy that is the maker's own and knows what it was copied from."""
    return replace(item, key=key, name=name, is_own=True, based_on=item.key)


def restated(item: Ingredient, original: Ingredient | None) -> Ingredient:
    """Return an own ingredient without the word "read" on any fact that is not its original's."""
    if original is None:
        return replace(item, is_own=True, verified_fields=(), confidence=MEMORY)
    changed = {_COLUMNS.get(name, name) for name in changed_fields(original, item)}
    kept = tuple(name for name in original.verified_fields if name not in changed)
    return replace(item, is_own=True, verified_fields=kept)
