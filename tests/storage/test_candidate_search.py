from __future__ import annotations

import shutil
import sqlite3
import time
from contextlib import closing
from dataclasses import replace
from decimal import Decimal

import pytest

from workbench.errors import WorkbenchError
from workbench.storage.opening import open_studio


def keys(candidates):
    return [each.key for each in candidates]


def codes(candidate):
    return {each.code for each in candidate.why}


# Everything a candidate is found by, once more under an id that is `first` further on.
CLONES = (
    "INSERT INTO ingredients (id, key, name, facts, is_own, counter)"
    " SELECT 100000 + {first} + entry.id, 'clone_' || ({first} + entry.id),"
    " 'Clone ' || ({first} + entry.id), json_set(facts, '$.key', 'clone_' || ({first} + entry.id)),"
    " 1, 1 FROM search_entries AS entry JOIN ingredients USING (key) WHERE entry.{chosen}",
    "INSERT INTO search_entries (id, key, is_stock, name, inci, folded_name)"
    " SELECT {first} + id, 'clone_' || ({first} + id), 0, 'Clone ' || ({first} + id), inci,"
    " 'clone ' || ({first} + id) FROM search_entries WHERE {chosen}",
    "INSERT INTO search_text (rowid, words)"
    " SELECT {first} + rowid, words FROM search_text WHERE row{chosen}",
    "INSERT INTO search_tails (kind, tail, entry_id)"
    " SELECT kind, tail, {first} + entry_id FROM search_tails WHERE entry_{chosen}",
)


def processor_seconds(studio, key):
    """Look for candidates once; a machine busy with something else takes none of this time."""
    start = time.process_time()
    assert studio.candidates(key)
    return time.process_time() - start


def with_clones(path, count):
    """Fill a studio with its ingredients under other names, as rows: quicker than as values."""
    with closing(sqlite3.connect(path)) as connection:
        (shipped,) = connection.execute("SELECT max(id) FROM search_entries").fetchone()
        for first in range(shipped, shipped + count, shipped):
            chosen = f"id <= {min(shipped, shipped + count - first)}"
            for statement in CLONES:
                connection.execute(statement.format(first=first, chosen=chosen))
        connection.commit()


def test_that_the_table_leads_and_its_ratio_is_offered(studio):
    found = studio.candidates("panthenol_d")
    assert found[0].key == "panthenol_75"
    assert "why-in-table" in codes(found[0])


def test_that_what_is_on_hand_is_told_and_comes_first_among_its_like(studio):
    studio.supplies.set_on_hand("sclerotium_gum", on_hand=True)
    found = studio.candidates("xanthan_gum")
    assert found[0].key == "sclerotium_gum"
    assert found[0].on_hand
    assert not found[1].on_hand


def test_that_a_material_of_ones_own_is_a_candidate(studio):
    gum = studio.ingredients.get(["xanthan_gum"])["xanthan_gum"]
    studio.ingredients.add_own(replace(gum, key="my_gum", name="My gum", is_own=True))
    assert "my_gum" in keys(studio.candidates("xanthan_gum"))


def test_that_a_stock_made_for_the_powder_comes_first_with_its_strength(studio, make_formula):
    stock = make_formula(("water", "rest"), ("xanthan_gum", "1"), product_type="stock")
    key = studio.formulas.create("Gum stock", stock)
    found = studio.candidates("xanthan_gum")[0]
    assert (found.key, found.is_stock) == (key, True)
    assert (found.ratio.kind, found.ratio.factor) == ("active", 100)


def test_that_a_stock_is_no_candidate_for_its_water(studio, make_formula):
    stock = make_formula(("water", "rest"), ("xanthan_gum", "1"), product_type="stock")
    key = studio.formulas.create("Gum stock", stock)
    assert key not in keys(studio.candidates("water"))


def test_that_a_stock_itself_can_be_swapped_for_what_does_its_job(studio, make_formula):
    stock = make_formula(("water", "rest"), ("xanthan_gum", "1"), product_type="stock")
    key = studio.formulas.create("Gum stock", stock)
    assert "sclerotium_gum" in keys(studio.candidates(key, purpose="thickener-gum"))


def test_that_the_ph_of_the_formula_is_held_against_each(studio):
    found = studio.candidates("phenoxyethanol_ehg", ph=(Decimal("6.7"), Decimal(7)))
    apart = {each.key for each in found if "differs-ph-apart" in {x.code for x in each.differs}}
    assert "benzyl_alcohol_dha" in apart
    assert "phenoxyethanol_caprylyl_glycol" not in apart


def test_that_no_such_ingredient_is_a_sentence(studio):
    with pytest.raises(WorkbenchError):
        studio.candidates("nowhere")


def test_that_the_shelf_can_hold_what_could_come(studio, gel):
    assert "panthenol_75" not in studio.shelf_for(gel).ingredients
    assert "panthenol_75" in studio.shelf_for(gel, frozenset({"panthenol_75"})).ingredients


@pytest.mark.speed
def test_that_candidates_of_fifty_thousand_ingredients_take_no_more_than_100_ms(
    new_studio_file, tmp_path
):
    path = shutil.copy(new_studio_file, tmp_path / "large.studio")
    with_clones(path, 50_000)
    studio = open_studio(path)
    assert len(studio.ingredients.names()) > 50_000
    took = {
        key: min(processor_seconds(studio, key) for _ in range(4))
        for key in ("xanthan_gum", "phenoxyethanol_ehg", "almond_oil", "water", "panthenol_d")
    }
    studio.close()
    assert max(took.values()) <= 0.1, took
