from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, timedelta, timezone
from decimal import Decimal

import pytest
from sqlalchemy.exc import IntegrityError

from workbench.errors import WorkbenchError
from workbench.formula.composition import composition
from workbench.formula.shelf import Price, shelf_of
from workbench.formula.weighability import Balance

MADE_AT = datetime(2026, 11, 3, 9, 30, tzinfo=UTC)


@pytest.fixture
def nested(studio, make_formula):
    """A serum on a gum stock on a preservative stock; returns its key."""
    inner = make_formula(("water", "rest"), ("phenoxyethanol", "50.00"), product_type="stock")
    inner_key = studio.formulas.create("Preservative stock", inner)
    outer = make_formula(
        ("water", "rest"), ("xanthan_gum", "1.00"), (inner_key, "2.00"), product_type="stock"
    )
    outer_key = studio.formulas.create("Gum stock", outer)
    serum = make_formula(("water", "rest"), ("niacinamide", "4.00"), (outer_key, "35.00"))
    return studio.formulas.create("Serum", serum)


def made(studio, key, reason="First bench trial"):
    formula, _ = studio.formulas.draft(key)
    return studio.versions.make_version(key, reason, MADE_AT, studio.shelf_for(formula))


def test_that_a_version_is_the_draft_and_its_facts(studio, nested):
    version = made(studio, nested)
    formula, _ = studio.formulas.draft(nested)
    assert studio.versions.get(nested, 1) == version
    assert (version.number, version.reason, version.made_at) == (1, "First bench trial", MADE_AT)
    assert version.formula == formula
    # What could move its pH stands beside it on the shelf; a version keeps what it reaches.
    shelf = studio.shelf_for(formula)
    reached = {"water", "phenoxyethanol", "xanthan_gum", "niacinamide"}
    assert version.shelf == shelf_of(
        {key: shelf.ingredients[key] for key in reached},
        shelf.stocks,
        shelf.substances,
        shelf.prices,
        shelf.balances,
    )
    assert version.reference_set == studio.reference_set


def test_that_versions_count_up_and_leave_the_draft_alone(studio, nested):
    made(studio, nested)
    formula, counter = studio.formulas.draft(nested)
    assert made(studio, nested, "Second").number == 2
    assert studio.versions.numbers(nested) == (1, 2)
    assert [entry.reason for entry in studio.versions.entries(nested)] == [
        "First bench trial",
        "Second",
    ]
    assert studio.formulas.draft(nested) == (formula, counter)
    assert {entry.key: entry.latest_version for entry in studio.formulas.entries()}[nested] == 2


def test_that_a_version_reads_the_same_after_its_stock_has_changed(studio, nested):
    before = made(studio, nested)
    was = composition(before.formula, before.shelf)
    stock, counter = studio.formulas.draft("gum-stock")
    stronger = stock.with_line(replace(stock.line(2), percent=Decimal("9.00")))
    studio.formulas.save_draft("gum-stock", stronger, counter)
    after = studio.versions.get(nested, 1)
    assert composition(after.formula, after.shelf) == was
    draft, _ = studio.formulas.draft(nested)
    assert composition(draft, studio.shelf_for(draft)) != was


def test_that_a_version_keeps_only_what_its_formula_reaches(studio, nested):
    shelf = studio.shelf_for(studio.formulas.draft(nested)[0])
    assert set(shelf.stocks) == {"gum-stock", "preservative-stock"}
    everything = shelf_of(
        {**shelf.ingredients, **studio.ingredients.get(["shea_butter"])},
        shelf.stocks,
        shelf.substances,
    )
    version = studio.versions.make_version(nested, "Tidy", MADE_AT, everything)
    assert set(version.shelf.ingredients) == {
        "water",
        "niacinamide",
        "xanthan_gum",
        "phenoxyethanol",
    }


def test_that_label_names_are_frozen_with_a_version(studio, nested):
    shelf = studio.shelf_for(studio.formulas.draft(nested)[0])
    renamed = replace(shelf.substances["niacinamide"], inci="Niacinamidum")
    other = shelf_of(shelf.ingredients, shelf.stocks, {**shelf.substances, "niacinamide": renamed})
    version = studio.versions.make_version(nested, "Renamed", MADE_AT, other)
    assert version.shelf.substances["niacinamide"] == renamed


def test_that_prices_and_balances_of_a_version_are_of_today(studio, nested):
    made(studio, nested)
    studio.settings.set_price("niacinamide", Price(Decimal("31.5"), "EUR"))
    fine = Balance("fine", Decimal("0.01"), Decimal(500))
    studio.settings.set_balances((fine,))
    shelf = studio.versions.get(nested, 1).shelf
    assert shelf.prices == {"niacinamide": Price(Decimal("31.5"), "EUR")}
    assert shelf.balances == (fine,)


def test_that_a_line_nobody_knows_stays_unknown_in_the_version(studio, make_formula):
    key = studio.formulas.create("Odd", make_formula(("water", "rest"), ("mystery", "1")))
    version = made(studio, key)
    assert composition(version.formula, version.shelf).unknown == (2,)


def test_that_stocks_that_contain_each_other_are_still_frozen(studio, make_formula):
    one = studio.formulas.create("One", make_formula(("two", "10"), product_type="stock"))
    studio.formulas.create("Two", make_formula((one, "10"), product_type="stock"))
    version = made(studio, one)
    assert version.shelf.contents.cycles


def test_that_a_version_needs_a_reason(studio, nested):
    with pytest.raises(WorkbenchError, match="needs a reason"):
        made(studio, nested, "  ")
    assert studio.versions.numbers(nested) == ()


def test_that_a_version_of_a_draft_that_moved_on_is_refused(studio, nested):
    formula, counter = studio.formulas.draft(nested)
    studio.formulas.save_draft(nested, replace(formula, pack="jar"), counter)
    with pytest.raises(WorkbenchError, match="changed in another window"):
        studio.versions.make_version(
            nested, "Late", MADE_AT, studio.shelf_for(formula), counter=counter
        )


def test_that_a_missing_version_is_told(studio, nested):
    with pytest.raises(WorkbenchError, match="no version 7 of 'serum'"):
        studio.versions.get(nested, 7)
    with pytest.raises(WorkbenchError, match="no formula 'nothing'"):
        studio.versions.make_version("nothing", "x", MADE_AT, shelf_of({}, {}, {}))


def test_that_instants_are_kept_as_instants(studio, nested):
    formula, _ = studio.formulas.draft(nested)
    shelf = studio.shelf_for(formula)
    local = MADE_AT.astimezone(timezone(timedelta(hours=-7)))
    assert studio.versions.make_version(nested, "Elsewhere", local, shelf).made_at == MADE_AT


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE versions SET reason = 'better'",
        "UPDATE versions SET number = number",
        "DELETE FROM versions",
        "INSERT OR REPLACE INTO versions SELECT id, formula_id, number, 'better', made_at,"
        " document, facts, reference_set FROM versions",
        "UPDATE OR REPLACE versions SET reason = 'better'",
    ],
)
def test_that_versions_refuse_every_change(studio, nested, statement):
    made(studio, nested)
    refused = pytest.raises(IntegrityError, match="versions are append-only")
    with refused, studio._file.writing() as connection:
        connection.exec_driver_sql(statement)
    assert studio.versions.get(nested, 1).reason == "First bench trial"
