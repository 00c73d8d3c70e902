from __future__ import annotations

import csv
import re
import shutil
from functools import cache
from pathlib import Path

import pytest

from workbench import paths
from workbench.checks.ph_values import Reason
from workbench.chemistry.facts import POWDER, SOLUTION, ChemistryFacts
from workbench.chemistry.formula_mass import molar_mass
from workbench.chemistry.mixture import mean_charge
from workbench.errors import WorkbenchError
from workbench.storage.reference.chemistry import load_chemistry
from workbench.storage.reference.tables import (
    load_atomic_weights,
    load_ingredients,
    load_substances,
)
from workbench.words.catalogue import load_words

REFERENCE = Path(__file__).resolve().parents[2] / "resources" / "reference"
NOTED = ("adjusters.csv", "solute_ranges.csv", "acid_ranges.csv")


@cache
def facts() -> ChemistryFacts:
    return load_chemistry(REFERENCE)


@cache
def rows(table: str) -> tuple[dict[str, str], ...]:
    with (REFERENCE / table).open(encoding="utf-8", newline="") as file:
        return tuple(csv.DictReader(file))


def test_that_every_acid_of_the_tables_is_loaded():
    listed = {row["key"] for row in (*rows("acids_bases.csv"), *rows("acids_bases_proposed.csv"))}
    assert set(facts().acids) == listed
    assert set(facts().ranges) == listed


def test_that_every_acid_a_substance_gives_has_a_range():
    given = {acid.key for gift in facts().gifts.values() for acid, _ in gift.acids}
    assert given <= set(facts().ranges)
    assert all(facts().ranges[key].pka_shift > 0 for key in given)


def test_that_every_modelled_substance_gives_something():
    modelled = {
        row["substance_key"]
        for row in rows("acid_links.csv")
        if row["model"] in {"both", "proposed"} and row["species_kind"] != "neutral"
    }
    assert set(facts().gifts) == modelled
    assert all(gift.acids or gift.ions for gift in facts().gifts.values())


def test_that_moles_in_a_gram_follow_from_the_formula():
    weights, substances = load_atomic_weights(REFERENCE), load_substances(REFERENCE)
    checked = 0
    for row in rows("acid_links.csv"):
        substance = substances[row["substance_key"]]
        if row["per"] != "mole" or not substance.formula or not row["mmol_per_g"]:
            continue
        mass = float(molar_mass(substance.formula, weights))
        # The tables were made with unabridged weights, which differ by less than 1 in 10 000.
        assert float(row["mmol_per_g"]) == pytest.approx(
            1000.0 * float(row["moles"]) / mass, rel=1.5e-4
        ), row["substance_key"]
        checked += 1
    assert checked > 250


def test_that_a_salt_is_neutral_as_weighed():
    # Protons of the acids in place, the charges of a salt and of what it holds cancel; what is
    # left is the hydroxide or hydrogen ion a lye or mineral acid implies.
    implied = {"sodium_hydroxide", "potassium_hydroxide", "magnesium_hydroxide"}
    for key in ("sodium_benzoate", "potassium_sorbate", "sodium_lactate", "zinc_pca"):
        gift = facts().gifts[key]
        ions = sum(charge * amount for charge, amount in gift.ions)
        acid, amount = gift.acids[0]
        assert ions == pytest.approx(-amount * mean_charge(acid, 12.0), rel=1e-4)
    for key in implied:
        assert facts().gifts[key].ions
        assert not facts().gifts[key].acids


def test_that_gluconolactone_counts_as_the_acid_it_turns_into():
    gift = facts().gifts["gluconolactone"]
    assert [acid.key for acid, _ in gift.acids] == ["gluconic"]


def test_that_ranges_speak_of_ingredients_that_exist():
    known = set(load_ingredients(REFERENCE))
    assert set(facts().reach) - {POWDER, SOLUTION} <= known
    assert set(facts().unknown) <= known
    assert set(facts().unmodelled) <= known | set(load_substances(REFERENCE))
    adjusters = {adjuster.ingredient for adjuster in facts().adjusters}
    assert adjusters <= known


def test_that_adjusters_are_the_ones_the_shelf_calls_so():
    shelf = load_ingredients(REFERENCE)
    for adjuster in facts().adjusters:
        if adjuster.ingredient in shelf:
            wanted = "ph-adjuster-base" if adjuster.is_base else "ph-adjuster-acid"
            assert wanted in shelf[adjuster.ingredient].functions, adjuster


def test_that_every_note_has_its_sentence():
    words = load_words(paths.resources() / "words")
    notes = {row["note_id"] for table in NOTED for row in rows(table)} - {""}
    assert len(notes) > 8
    for note in sorted(notes):
        assert words.has(note), note
        assert Reason(note).id == note


def test_that_lactic_acid_is_as_strong_as_the_purity_rules_allow():
    # Directive 2008/84/EC, E 270: 76 to 84 %; about 88 % of that is free right after dilution.
    spread = facts().reach["lactic_acid_80"]
    assert spread.low == pytest.approx(0.76 / 0.80 * 0.88, abs=0.01)
    assert spread.high == pytest.approx(0.84 / 0.80, abs=0.01)


def test_that_honey_holds_no_more_acid_than_the_law_on_honey_allows():
    # Council Directive 2001/110/EC, annex II: free acid at most 50 meq/kg.
    assert facts().unknown["honey"].amount.high == pytest.approx(50e-6)


def test_that_an_unknown_acid_comes_with_what_gives_the_material_its_own_ph():
    unknown = facts().unknown["aloe_juice"]
    assert unknown.stand_in is not None
    assert unknown.ions_per_mole == pytest.approx(-mean_charge(unknown.stand_in, 4.2))


@pytest.mark.parametrize(
    ("table", "before", "after", "reason"),
    [
        ("unknown_acids.csv", "acid,malic,4,12,30", "acid,malic,14,12,30", "rise"),
        ("unknown_acids.csv", "acid,malic,4,12,30", "acid,mallic,4,12,30", "mallic"),
        ("unknown_acids.csv", "acid,malic,4,12,30", "fruit,malic,4,12,30", "kind"),
        ("solute_ranges.csv", "0.84,0.94,1.05", "0.84,nought,1.05", "nought"),
        ("acid_ranges.csv", "benzoic,0.01", "benzoic,0", "not above zero"),
        ("acid_ranges.csv", "benzoic,0.01", "benzoik,0.01", "benzoik"),
        ("acid_ranges.csv", "default-read,", "lactobionic,", "default-read"),
        ("adjusters.csv", "arginine_10,up", "arginine_10,sideways", "sideways"),
        ("unmodelled.csv", "kaolin,clay", ",clay", "empty"),
        ("chemistry_figures.csv", "good_width,0.3", "good_width,-0.3", "not above zero"),
        ("acids_bases.csv", "0,3.86,", "0,3.b6,", "3.b6"),
        ("acid_links.csv", "benzoic,1,mole,144.1035,6.93946", "benzoic,1,mole,144.1035,", "float"),
    ],
)
def test_that_a_malformed_row_is_refused_by_file_line_and_reason(
    table, before, after, reason, tmp_path
):
    folder = tmp_path / "reference"
    shutil.copytree(REFERENCE, folder)
    text = (folder / table).read_text(encoding="utf-8")
    assert before in text
    (folder / table).write_text(text.replace(before, after, 1), encoding="utf-8")
    with pytest.raises(WorkbenchError) as refused:
        load_chemistry(folder)
    assert refused.value.remedy
    assert table in refused.value.detail
    assert reason in refused.value.detail
    if reason != "default-read":
        line = text[: text.index(before)].count("\n") + 1
        assert re.search(rf"line {line}\b", refused.value.detail)
