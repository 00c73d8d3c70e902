from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from workbench.errors import WorkbenchError
from workbench.formula.formula import (
    AREAS,
    EXPOSURES,
    FORMS,
    MARKETS,
    PHASE_KINDS,
    PRODUCT_TYPES,
    USERS,
    Formula,
    Line,
    Phase,
    Plan,
    Step,
)
from workbench.formula.versions import same_design
from workbench.storage.stored_formula import formula_of, formula_text

PERCENTS = st.decimals(0, 100, places=4)
AMOUNTS = st.decimals("0.01", 100000, places=2)
TEXTS = st.text(st.characters(exclude_categories=("Cs", "Cc")), max_size=30)
NAMES = TEXTS.map(str.strip).filter(bool)
PH = st.decimals(0, 14, places=2)
KEYS = st.sampled_from(("water", "glycerin", "gum-stock", "not there"))
STEPS = st.builds(
    Step,
    text=NAMES,
    target_c=st.none() | PERCENTS,
    hold_min=st.none() | PERCENTS,
    speed=TEXTS,
    max_add_c=st.none() | PERCENTS,
)


@st.composite
def formulas(draw: st.DrawFn) -> Formula:
    counts = draw(st.lists(st.integers(0, 4), min_size=1, max_size=3))
    rest = draw(st.none() | st.integers(1, max(sum(counts), 1)))
    phases, next_id = [], 1
    for place, count in enumerate(counts, 1):
        lines = []
        for line_id in range(next_id, next_id + count):
            is_rest = line_id == rest
            lines.append(
                Line(
                    id=line_id,
                    ingredient=draw(KEYS),
                    percent=None if is_rest else draw(PERCENTS),
                    locked=not is_rest and draw(st.booleans()),
                    note=draw(TEXTS),
                    purpose=draw(st.sampled_from(("", "preservative"))),
                    to_ph=not is_rest and draw(st.booleans()),
                )
            )
        next_id += count
        steps = tuple(draw(st.lists(STEPS, max_size=2)))
        kind = draw(st.sampled_from(PHASE_KINDS))
        phases.append(Phase(place, draw(NAMES), kind, steps, tuple(lines)))
    return Formula(
        name=draw(NAMES),
        phases=tuple(phases),
        product_type=draw(st.sampled_from(PRODUCT_TYPES)),
        exposure=draw(st.sampled_from(EXPOSURES)),
        area=draw(st.sampled_from(AREAS)),
        users=draw(st.sampled_from(USERS)),
        form=draw(st.sampled_from(FORMS)),
        pack=draw(TEXTS),
        markets=draw(st.sampled_from((MARKETS, ("EU",), ("US", "UK")))),
        target_ph=draw(st.none() | st.tuples(PH, PH).map(sorted).map(tuple)),
        plan=draw(
            st.builds(
                Plan,
                batch_mass=st.none() | AMOUNTS,
                units=st.none() | st.integers(1, 500),
                fill=st.none() | AMOUNTS,
                density=st.none() | AMOUNTS,
                hold_up_percent=st.decimals(0, 90, places=2),
                retains=st.integers(0, 9),
                tests_g=PERCENTS,
            )
        ),
        reference_set=draw(st.sampled_from(("", "2026-10"))),
    )


@given(formulas())
def test_that_a_formula_is_the_same_after_its_way_through_text(formula):
    assert same_design(formula_of(formula_text(formula), formula.name), formula)


def test_that_a_draft_is_the_same_after_its_way_through_the_studio(studio):
    @given(formulas())
    def there_and_back(formula):
        key = studio.formulas.create(formula.name, formula)
        assert same_design(studio.formulas.draft(key)[0], formula)

    there_and_back()


def test_that_a_key_is_made_from_the_name_and_taken_once(studio, gel):
    assert studio.formulas.create("Crème à l'avoine, n° 3", gel) == "creme-a-l-avoine-n-3"
    assert studio.formulas.create("Crème à l'avoine, n° 3", gel) == "creme-a-l-avoine-n-3-2"
    assert studio.formulas.create("水", gel) == "水"
    assert studio.formulas.create("!?", gel) == "formula"
    assert len(studio.formulas.create("long " * 100, gel)) <= 60


def test_that_a_formula_never_takes_the_key_of_an_ingredient(studio, gel):
    assert studio.formulas.create("Water", gel) == "water-2"
    assert studio.ingredients.get(["water"])["water"].inci == "Aqua"


def test_that_the_list_is_by_name_and_says_what_each_formula_is(studio, gel, make_formula):
    stock = make_formula(("water", "rest"), ("xanthan_gum", "1.00"), product_type="stock")
    studio.formulas.create("zinc balm", gel)
    studio.formulas.create("Ångström gel", gel)
    studio.formulas.create("Gum stock", stock)
    entries = studio.formulas.entries()
    assert [entry.name for entry in entries] == ["Ångström gel", "Gum stock", "zinc balm"]
    assert [entry.is_stock for entry in entries] == [False, True, False]
    assert [entry.latest_version for entry in entries] == [None, None, None]
    assert entries[2].edited_at < entries[0].edited_at < entries[1].edited_at


def test_that_saving_a_draft_keeps_what_was_saved(studio, gel):
    key = studio.formulas.create("Gel", gel)
    formula, counter = studio.formulas.draft(key)
    changed = formula.with_line(replace(formula.line(2), percent=Decimal("5.00")))
    before = studio.formulas.entries()[0].edited_at
    assert studio.formulas.save_draft(key, changed, counter) == counter + 1
    assert studio.formulas.draft(key) == (changed, counter + 1)
    assert studio.formulas.entries()[0].edited_at > before


def test_that_a_stale_write_is_refused_and_changes_nothing(studio, gel):
    key = studio.formulas.create("Gel", gel)
    formula, counter = studio.formulas.draft(key)
    newer = replace(formula, pack="bottle")
    studio.formulas.save_draft(key, newer, counter)
    with pytest.raises(WorkbenchError, match="'Gel' was changed in another window"):
        studio.formulas.save_draft(key, replace(formula, pack="jar"), counter)
    assert studio.formulas.draft(key) == (newer, counter + 1)


def test_that_saving_what_was_deleted_is_refused(studio, gel):
    key = studio.formulas.create("Gel", gel)
    studio.formulas.delete(key)
    with pytest.raises(WorkbenchError, match="no formula 'gel'"):
        studio.formulas.save_draft(key, gel, 1)
    with pytest.raises(WorkbenchError, match="no formula 'gel'"):
        studio.formulas.draft(key)


def test_that_renaming_keeps_the_key_and_is_an_edit(studio, gel):
    key = studio.formulas.create("Gel", gel)
    counter = studio.formulas.rename(key, "Oat gel")
    draft, stored = studio.formulas.draft(key)
    assert (draft.name, stored) == ("Oat gel", counter)
    assert studio.formulas.entries()[0].name == "Oat gel"
    with pytest.raises(WorkbenchError, match="changed in another window"):
        studio.formulas.save_draft(key, gel, 1)


def test_that_what_uses_an_ingredient_or_stock_follows_the_drafts(studio, gel, make_formula):
    stock = make_formula(("water", "rest"), ("xanthan_gum", "1.00"), product_type="stock")
    stock_key = studio.formulas.create("Gum stock", stock)
    user = make_formula(("water", "rest"), (stock_key, "35.00"))
    key = studio.formulas.create("Serum", user)
    assert [entry.name for entry in studio.formulas.used_in(stock_key)] == ["Serum"]
    studio.formulas.save_draft(key, gel, 1)
    assert studio.formulas.used_in(stock_key) == ()
    assert [entry.key for entry in studio.formulas.used_in("glycerin")] == [key]


def test_that_a_used_stock_cannot_be_deleted(studio, make_formula):
    stock = make_formula(("water", "rest"), ("xanthan_gum", "1.00"), product_type="stock")
    key = studio.formulas.create("Gum stock", stock)
    studio.formulas.create("Serum", make_formula(("water", "rest"), (key, "35.00")))
    with pytest.raises(WorkbenchError, match="'Gum stock' is used in Serum"):
        studio.formulas.delete(key)
    assert key in [entry.key for entry in studio.formulas.entries()]


def test_that_a_formula_with_versions_is_archived_and_never_deleted(studio, gel):
    key = studio.formulas.create("Gel", gel)
    studio.versions.make_version(
        key, "First", studio.formulas.entries()[0].edited_at, studio.shelf_for(gel)
    )
    with pytest.raises(WorkbenchError, match="has versions, which are kept for ever"):
        studio.formulas.delete(key)
    studio.formulas.archive(key)
    assert studio.formulas.entries() == ()
    assert [entry.archived for entry in studio.formulas.entries(archived=True)] == [True]
    studio.formulas.archive(key, archived=False)
    assert [entry.key for entry in studio.formulas.entries()] == [key]


def test_that_an_edit_of_sixty_lines_is_kept_whole(studio, make_formula):
    keys = [key for key, _ in studio.ingredients.names()][:60]
    formula = make_formula(*((key, "1.0000") for key in keys))
    key = studio.formulas.create("Sixty", formula)
    assert studio.formulas.draft(key)[0] == replace(formula, name="Sixty")


def test_that_a_formula_is_found_by_its_name_or_key(studio, gel):
    key = studio.formulas.create("Crème d'avoine", gel)
    assert studio.formulas.find("creme d'AVOINE") == key
    assert studio.formulas.find(key) == key
    with pytest.raises(WorkbenchError, match="no formula called 'Balm'"):
        studio.formulas.find("Balm")
    studio.formulas.create("Creme d'Avoine", gel)
    with pytest.raises(WorkbenchError, match="creme-d-avoine and creme-d-avoine-2"):
        studio.formulas.find("Crème d’avoine")


@pytest.mark.parametrize(
    "change",
    [
        {"name": " "},
        {"name": "bell \a"},
        {"target_ph": (Decimal(6), Decimal(5))},
        {"plan": Plan(batch_mass=Decimal(-1))},
        {"markets": ()},
        {"phases": (Phase(1, ""),)},
        {"phases": (Phase(1, "Oil", lines=(Line(1, "", Decimal(1)),)),)},
        {"phases": (Phase(1, "Oil", lines=(Line(1, "water", Decimal(101)),)),)},
    ],
)
def test_that_what_could_not_be_read_back_is_not_stored(studio, gel, change):
    key = studio.formulas.create("Gel", gel)
    before = studio.formulas.draft(key)
    with pytest.raises(WorkbenchError, match="a value in it makes no sense"):
        studio.formulas.save_draft(key, replace(gel, **change), 1)
    assert studio.formulas.draft(key) == before
