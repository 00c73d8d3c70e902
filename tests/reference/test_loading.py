from __future__ import annotations

import time
from datetime import date
from decimal import Decimal
from functools import cache
from pathlib import Path

import pytest

from workbench.storage.reference.rows import amount, items
from workbench.storage.reference.tables import (
    load_atomic_weights,
    load_ingredients,
    load_names,
    load_reference_set,
    load_substances,
)

REFERENCE = Path(__file__).resolve().parents[2] / "resources" / "reference"


@cache
def substances():
    return load_substances(REFERENCE)


@cache
def ingredients():
    return load_ingredients(REFERENCE)


def test_that_the_whole_tables_are_loaded():
    assert len(substances()) == 740
    assert len(ingredients()) == 406
    assert len(load_names(REFERENCE)) == 1039
    assert len(load_atomic_weights(REFERENCE)) == 40


def test_that_the_set_is_known_by_its_id_and_day():
    loaded = load_reference_set(REFERENCE)
    assert (loaded.id, loaded.date) == ("2026-11", date(2026, 11, 25))
    assert loaded.title


@pytest.mark.parametrize("key", ["glycerin", "xanthan_gum", "water"])
def test_that_values_carry_the_key_they_are_found_by(key):
    assert ingredients()[key].key == key
    assert substances()[key].key == key


def test_that_unknown_is_none_and_never_nothing():
    assert amount("") is None
    assert amount("0") == 0
    assert items("") == ()
    assert ingredients()["aloe_powder_200x"].density is None
    assert ingredients()["glycerin"].hlb is None
    assert substances()["xanthan_gum"].molar_mass is None


@pytest.mark.parametrize("key", sorted(ingredients()))
def test_that_every_ingredient_is_made_of_known_substances_and_whole(key):
    made_of = ingredients()[key].composition
    assert {part.substance for part in made_of} <= set(substances())
    assert sum(part.fraction for part in made_of) == 1
    assert all(part.water <= part.fraction for part in made_of)


# Crystal water by formula: 18.015 / 210.139; 2 x 18.015 / 372.24; 7 x 18.015 / 246.47.
@pytest.mark.parametrize(
    ("key", "substance", "water"),
    [
        ("citric_acid_monohydrate", "citric_acid_monohydrate", "0.0857"),
        ("disodium_edta", "disodium_edta_dihydrate", "0.0968"),
        ("magnesium_sulfate", "magnesium_sulfate_heptahydrate", "0.5117"),
    ],
)
def test_that_a_hydrate_stays_one_substance_and_brings_its_water(key, substance, water):
    (part,) = ingredients()[key].composition
    assert (part.substance, part.fraction) == (substance, 1)
    assert part.water == pytest.approx(Decimal(water), abs=Decimal("0.001"))
    said = ingredients()[key].water_percent
    assert said == pytest.approx(100 * Decimal(water), abs=Decimal("0.2"))


def test_that_a_salt_counts_as_its_acid():
    assert substances()["sodium_benzoate"].counts_as == "benzoic_acid"
    assert substances()["benzoic_acid"].counts_as == ""


def test_that_names_lead_to_the_dry_substance_that_owns_them():
    names = load_names(REFERENCE)
    assert names["eau"] == names["aqua"] == names["water"] == "water"
    assert names["citric acid"] == "citric_acid"
    assert names["citric acid monohydrate"] == "citric_acid_monohydrate"


def test_that_a_carried_preservative_is_there_as_a_preservative():
    parts = {part.substance: part for part in ingredients()["hyaluronate_stock_1"].composition}
    assert parts["phenoxyethanol"].purpose == "preservative"
    assert parts["sodium_hyaluronate"].purpose == ""


def test_that_the_parts_of_a_preservative_take_the_purpose_of_their_line():
    assert {part.purpose for part in ingredients()["phenoxyethanol_ehg"].composition} == {""}


def test_that_a_colour_and_what_no_label_names_are_marked():
    assert substances()["ci_77491"].is_colourant
    assert not substances()["glycerin"].is_colourant
    assert not substances()["surfactant_byproducts"].is_declared
    assert substances()["glycerin"].is_declared


def test_that_loaded_tables_cannot_be_changed():
    with pytest.raises(TypeError):
        substances()["water"] = None


@pytest.mark.speed
def test_that_the_tables_are_loaded_quickly():
    took = []
    for _ in range(3):
        started = time.process_time()
        load_substances(REFERENCE)
        load_names(REFERENCE)
        load_ingredients(REFERENCE)
        took.append(time.process_time() - started)
    assert min(took) <= 0.150
