from __future__ import annotations

import csv
import json
import re
from collections import defaultdict
from decimal import Decimal
from functools import cache
from pathlib import Path

import pytest

REFERENCE = Path(__file__).resolve().parents[2] / "resources" / "reference"


@cache
def rows(table: str) -> tuple[dict[str, str], ...]:
    with (REFERENCE / table).open(encoding="utf-8", newline="") as file:
        return tuple(csv.DictReader(file))


@pytest.mark.parametrize("table", ["composition_long.csv", "composition_dry.csv"])
def test_that_the_parts_of_every_ingredient_make_one_exactly(table):
    sums: defaultdict[str, Decimal] = defaultdict(Decimal)
    for row in rows(table):
        sums[row["ingredient_key"]] += Decimal(row["mass_fraction"])
    assert {key: total for key, total in sums.items() if total != 1} == {}


def test_that_the_printed_composition_of_every_blend_makes_one_exactly():
    for row in rows("ingredients.csv"):
        if row["composition"]:
            made_of = json.loads(row["composition"], parse_float=Decimal, parse_int=Decimal)
            assert sum(made_of.values()) == 1, row["key"]


@pytest.mark.parametrize(
    ("table", "column"),
    [
        ("composition_long.csv", "mass_fraction"),
        ("composition_long.csv", "water_fraction"),
        ("composition_dry.csv", "mass_fraction"),
        ("constituents_long.csv", "mass_fraction"),
    ],
)
def test_that_fractions_are_short_decimals_between_nothing_and_one(table, column):
    for row in rows(table):
        assert re.fullmatch(r"\d+(\.\d{1,7})?", row[column]), row
        assert 0 <= Decimal(row[column]) <= 1, row


def test_that_no_part_holds_more_water_than_itself():
    for row in rows("composition_long.csv"):
        assert Decimal(row["water_fraction"]) <= Decimal(row["mass_fraction"]), row


def test_that_water_itself_is_all_water():
    for row in rows("composition_long.csv"):
        if row["substance_key"] == "water":
            assert row["water_fraction"] == row["mass_fraction"], row


def test_that_the_water_of_the_parts_is_the_water_of_the_ingredient():
    water: defaultdict[str, Decimal] = defaultdict(Decimal)
    for row in rows("composition_long.csv"):
        water[row["ingredient_key"]] += 100 * Decimal(row["water_fraction"])
    apart = {
        row["key"]: (water[row["key"]], row["water_percent"])
        for row in rows("ingredients.csv")
        if abs(water[row["key"]] - Decimal(row["water_percent"])) > Decimal("0.55")
    }
    assert apart == {}


def test_that_both_compositions_hold_the_same_water():
    long: defaultdict[str, Decimal] = defaultdict(Decimal)
    dry: defaultdict[str, Decimal] = defaultdict(Decimal)
    for row in rows("composition_long.csv"):
        long[row["ingredient_key"]] += Decimal(row["water_fraction"])
    for row in rows("composition_dry.csv"):
        if row["substance_key"] == "water":
            dry[row["ingredient_key"]] += Decimal(row["mass_fraction"])
    assert {k for k in long if abs(long[k] - dry[k]) > Decimal("0.0001")} == set()


def test_that_water_and_active_matter_fit_into_the_ingredient():
    for row in rows("ingredients.csv"):
        if row["key"] != "water":  # counts as its own active matter
            parts = Decimal(row["water_percent"]) + Decimal(row["active_percent"])
            assert parts <= 100, row["key"]


def test_that_a_printed_composition_holds_the_names_of_the_label():
    for row in rows("ingredients.csv"):
        if row["composition"]:
            label = set(row["inci"].split(" (and) "))
            assert label - set(json.loads(row["composition"])) == set(), row["key"]


def test_that_the_contents_of_an_oil_fit_into_it():
    inside: defaultdict[str, Decimal] = defaultdict(Decimal)
    for row in rows("constituents_long.csv"):
        # A label entry that stands for the oil itself is the oil, not a part of it.
        if row["mass_fraction"] not in {"1", "1.0"}:
            inside[row["ingredient_key"]] += Decimal(row["mass_fraction"])
    assert {key: total for key, total in inside.items() if total > 1} == {}


def test_that_the_contents_of_oils_are_those_their_row_prints():
    printed = {
        (row["key"], name): percent
        for row in rows("ingredients.csv")
        if row["allergens"]
        for name, percent in json.loads(row["allergens"], parse_float=Decimal).items()
    }
    listed = {
        (row["ingredient_key"], row["allergen_label"]): 100 * Decimal(row["mass_fraction"])
        for row in rows("constituents_long.csv")
        if row["confidence"] == "derived"
    }
    assert listed == printed
