from __future__ import annotations

from decimal import Decimal

import pytest

from workbench.formula.ingredient import Ingredient
from workbench.formula.pasted_lines import Entry
from workbench.formula.phase_sorting import sorted_entries, usual_kind

NAMES = {"water": "Water phase", "oil": "Oil phase", "cool-down": "Cool-down"}


def item(key: str, solubility: str, *functions: str, bears: str = "") -> Ingredient:
    warmest = Decimal(bears) if bears else None
    return Ingredient(
        key, key, key, functions=functions, solubility=solubility, max_process_temp_c=warmest
    )


# Common practice, from memory.
@pytest.mark.parametrize(
    ("one", "kind"),
    [
        (item("water", "water", "water"), "water"),
        (item("gum", "water", "thickener-gum", bears="90"), "water"),
        (item("oil", "oil", "emollient-oil", bears="80"), "oil"),
        (item("emulsifier", "dispersible", "emulsifier-oil-in-water"), "oil"),
        (item("scent", "oil", "fragrance"), "cool-down"),
        (item("preservative", "both", "preservative", bears="85"), "cool-down"),
        (item("acid", "water", "ph-adjuster-acid"), "cool-down"),
        (item("frail", "water", "vitamin", bears="45"), "cool-down"),
        (item("vitamin", "water", "vitamin", bears="60"), "water"),
    ],
)
def test_that_a_material_goes_into_its_usual_phase(one, kind):
    assert usual_kind(one) == kind


def test_that_lines_are_parted_by_kind_and_keep_their_order_in_each():
    known = {
        "scent": item("scent", "oil", "fragrance"),
        "oil": item("oil", "oil"),
        "water": item("water", "water"),
        "gum": item("gum", "water"),
    }
    keys = ("scent", "oil", "unknown", "water", "gum")
    made = sorted_entries([Entry(key, Decimal(1)) for key in keys], known.get, NAMES)
    assert [(one.ingredient, one.phase) for one in made] == [
        ("water", "Water phase"),
        ("gum", "Water phase"),
        ("oil", "Oil phase"),
        ("unknown", "Oil phase"),
        ("scent", "Cool-down"),
    ]
