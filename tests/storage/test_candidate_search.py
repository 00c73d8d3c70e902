from __future__ import annotations

import shutil
import time
from dataclasses import replace
from decimal import Decimal

import pytest

from workbench.errors import WorkbenchError
from workbench.storage.ingredients import write_ingredients
from workbench.storage.opening import open_studio
from workbench.storage.reference.shipped import Shipped
from workbench.storage.studio_file import StudioFile


def keys(candidates):
    return [each.key for each in candidates]


def codes(candidate):
    return {each.code for each in candidate.why}


def with_clones(path, count):
    """Fill a studio with shipped ingredients under other names."""
    from tests.storage.conftest import REFERENCE

    items = tuple(Shipped(REFERENCE).ingredients.values())
    file = StudioFile(path)
    with file.writing() as connection:
        write_ingredients(
            connection,
            (
                replace(items[at % len(items)], key=f"clone_{at}", name=f"Clone {at}", is_own=True)
                for at in range(count)
            ),
        )
    file.close()


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
    studio.candidates("glycerin")
    took = []
    for key in ("xanthan_gum", "phenoxyethanol_ehg", "almond_oil", "water", "panthenol_d"):
        start = time.perf_counter()
        assert studio.candidates(key)
        took.append(time.perf_counter() - start)
    studio.close()
    assert sorted(took)[len(took) // 2] <= 0.1, took
