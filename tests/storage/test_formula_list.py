"""The list of formulas: tags, notes, taking back a deletion, and who uses what."""

from __future__ import annotations

import time
from dataclasses import replace

import pytest

from workbench.errors import WorkbenchError
from workbench.storage.opening import open_studio


def test_that_tags_are_kept_once_and_trimmed(studio, gel):
    key = studio.formulas.create("Gel", gel)
    assert studio.formulas.set_tags(key, (" summer ", "oily  skin", "summer", "")) == (
        "summer",
        "oily skin",
    )
    assert studio.formulas.entries()[0].tags == ("summer", "oily skin")


def test_that_notes_are_kept_and_a_stale_one_is_refused(studio, gel):
    key = studio.formulas.create("Gel", gel)
    assert studio.formulas.notes(key) == ""
    studio.formulas.set_notes(key, "Too thin.", "")
    with open_studio(studio.path) as other:
        other.formulas.set_notes(key, "Too thin; more gum.", "Too thin.")
    with pytest.raises(WorkbenchError, match="changed in another window"):
        studio.formulas.set_notes(key, "Mine", "Too thin.")
    assert studio.formulas.notes(key) == "Too thin; more gum."


def test_that_notes_and_tags_leave_the_draft_and_its_counter(studio, gel):
    key = studio.formulas.create("Gel", gel)
    before = studio.formulas.draft(key)
    studio.formulas.set_notes(key, "Note", "")
    studio.formulas.set_tags(key, ("a",))
    assert studio.formulas.draft(key) == before


def test_that_a_deleted_formula_comes_back_as_it_was(studio, gel):
    key = studio.formulas.create("Gum stock", replace(gel, product_type="stock"))
    studio.formulas.set_tags(key, ("a",))
    studio.formulas.set_notes(key, "Keep cold.", "")
    before = (studio.formulas.draft(key), studio.formulas.entries())
    deleted = studio.formulas.delete(key)
    assert studio.formulas.entries() == ()
    assert not any(hit.key == key for hit in studio.search("gum stock"))
    studio.formulas.bring_back(deleted)
    assert (studio.formulas.draft(key), studio.formulas.entries()) == before
    assert studio.formulas.notes(key) == "Keep cold."
    assert studio.search("gum stock")[0].key == key


def test_that_a_key_given_away_meanwhile_is_not_taken_back(studio, gel):
    key = studio.formulas.create("Gel", gel)
    deleted = studio.formulas.delete(key)
    assert studio.formulas.create("Gel", gel) == key
    with pytest.raises(WorkbenchError, match="cannot come back"):
        studio.formulas.bring_back(deleted)


def test_that_the_list_tells_how_many_use_a_stock(studio, gel):
    key = studio.formulas.create("Gum stock", replace(gel, product_type="stock"))
    first = next(iter(gel.lines()))
    uses = gel.with_line(replace(first, ingredient=key))
    studio.formulas.create("One", uses)
    studio.formulas.create("Two", uses)
    used = {entry.name: entry.used_in for entry in studio.formulas.entries()}
    assert used == {"Gum stock": 2, "One": 0, "Two": 0}


def test_that_formulas_are_found_by_what_they_use(studio, gel):
    key = studio.formulas.create("Gel", gel)
    names = {hit.key: hit.name for hit in studio.search("xanthan", 20)}
    used = next(line.ingredient for line in gel.lines() if line.ingredient in names)
    assert key in studio.formulas.using(names[used][:6])
    assert studio.formulas.using("beeswax") == frozenset()
    assert studio.formulas.using("  ") == frozenset()


# The one formula there is, 4999 times more.
CLONES = (
    "INSERT INTO formulas (key, name, product_type, draft, counter, edited_at, archived)"
    " WITH RECURSIVE count(n) AS (VALUES (1) UNION ALL SELECT n + 1 FROM count WHERE n < 4999)"
    " SELECT 'f-' || n, printf('Formula %04d', n), product_type, draft, 1, edited_at, 0"
    " FROM formulas CROSS JOIN count",
    "INSERT INTO formula_uses (formula_id, ingredient)"
    " SELECT formulas.id, ingredient FROM formula_uses CROSS JOIN formulas WHERE key <> 'f-0'",
)


@pytest.mark.speed
def test_that_a_list_of_5000_formulas_is_read_in_time(studio, gel):
    from workbench.ui.places.desk.entries import ListReader, Wanted

    studio.formulas.create("Formula", gel, key="f-0")
    with studio._file.writing() as connection:
        for statement in CLONES:
            connection.exec_driver_sql(statement)
    reader = ListReader(studio)
    times = []
    for _ in range(9):
        begun = time.process_time()
        shown, _ = reader.read_wanted(Wanted())
        times.append(time.process_time() - begun)
    assert len(shown) == 5000
    assert min(times) < 0.15
