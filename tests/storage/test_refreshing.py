from __future__ import annotations

import json
import shutil
import sqlite3
from contextlib import closing
from dataclasses import replace
from decimal import Decimal

import pytest

from tests.storage.conftest import NOON
from workbench import paths
from workbench.formula.ingredient import Ingredient
from workbench.storage.inspection import Verdict
from workbench.storage.opening import open_studio

REFERENCE = paths.resources() / "reference"


@pytest.fixture
def later_tables(tmp_path):
    """The shipped tables of a later set: glycerin is used higher, and is called differently."""
    folder = tmp_path / "reference"
    shutil.copytree(REFERENCE, folder)
    facts = json.loads((folder / "set.json").read_text())
    (folder / "set.json").write_text(json.dumps(facts | {"id": "2999-01"}))
    table = folder / "ingredients.csv"
    text = table.read_text(encoding="utf-8")
    table.write_text(text.replace("Vegetable glycerin", "Quillmallow glycerin"), encoding="utf-8")
    return folder


def test_that_a_later_set_refreshes_the_shipped_ingredients(studio_path, later_tables):
    with open_studio(studio_path, reference_folder=later_tables) as studio:
        assert studio.found.verdict is Verdict.CURRENT
        assert "2999-01" in studio.found.news
        assert "one changed" in studio.found.news
        assert studio.reference_set == "2999-01"
        assert studio.ingredients.get(["glycerin"])["glycerin"].name.startswith("Quillmallow")
        assert [hit.key for hit in studio.search("quillmallow")] == ["glycerin"]
        assert studio.search("vegetable glycerin") == ()
    with open_studio(studio_path, reference_folder=later_tables) as again:
        assert again.found.news == ""


def test_that_own_ingredients_stay_as_they_are(studio_path, later_tables):
    with open_studio(studio_path) as studio:
        mine = Ingredient(key="mine", name="Mine", inci="", use_max=Decimal(3), is_own=True)
        studio.ingredients.add_own(mine)
    with open_studio(studio_path, reference_folder=later_tables) as studio:
        assert studio.ingredients.entry("mine") == (mine, 1)
        assert studio.search("mine")[0].key == "mine"


def test_that_an_ingredient_the_studio_lacked_is_added(studio_path, later_tables):
    with closing(sqlite3.connect(studio_path)) as connection, connection:
        connection.execute("DELETE FROM ingredients WHERE key = 'xanthan_gum'")
        (entry,) = connection.execute(
            "SELECT id FROM search_entries WHERE key = 'xanthan_gum'"
        ).fetchone()
        connection.execute("DELETE FROM search_tails WHERE entry_id = ?", (entry,))
        connection.execute("DELETE FROM search_text WHERE rowid = ?", (entry,))
        connection.execute("DELETE FROM search_entries WHERE id = ?", (entry,))
    with open_studio(studio_path, reference_folder=later_tables) as studio:
        assert "one is new" in studio.found.news
        assert studio.search("xanthan")[0].key == "xanthan_gum"


def test_that_a_key_of_the_makers_own_is_left_to_the_maker(studio_path, later_tables):
    with closing(sqlite3.connect(studio_path)) as connection, connection:
        connection.execute("UPDATE ingredients SET is_own = 1 WHERE key = 'glycerin'")
    with open_studio(studio_path, reference_folder=later_tables) as studio:
        assert studio.ingredients.get(["glycerin"])["glycerin"].name.startswith("Vegetable")


def test_that_drafts_and_versions_keep_their_values(studio_path, later_tables, gel):
    with open_studio(studio_path) as studio:
        key = studio.formulas.create("Gel", gel)
        studio.versions.make_version(key, "First", NOON, studio.shelf_for(gel))
    with open_studio(studio_path, reference_folder=later_tables) as studio:
        assert studio.formulas.draft(key)[0] == replace(gel, name="Gel")
        frozen = studio.versions.get(key, 1).shelf.ingredients["glycerin"]
        assert frozen.name.startswith("Vegetable")


def test_that_an_earlier_set_takes_nothing_back(studio_path, later_tables):
    open_studio(studio_path, reference_folder=later_tables).close()
    with open_studio(studio_path, reference_folder=REFERENCE) as studio:
        assert studio.reference_set == "2999-01"
        assert studio.found.news == ""


def test_that_a_studio_open_for_reading_is_not_refreshed(studio_path, later_tables):
    with open_studio(studio_path, read_only=True, reference_folder=later_tables) as studio:
        assert studio.found.news == ""
        assert studio.ingredients.get(["glycerin"])["glycerin"].name.startswith("Vegetable")
