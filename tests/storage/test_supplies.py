from __future__ import annotations

import sqlite3
from contextlib import closing
from dataclasses import replace
from decimal import Decimal

import pytest

from tests.storage.conftest import NOON
from workbench.errors import WorkbenchError
from workbench.formula.shelf import Price
from workbench.formula.supply import Allergen, Supply
from workbench.storage.check import check_studio

PACK = Supply(
    "glycerin",
    on_hand=True,
    supplier="Quince Lane Supplies",
    order_code="QL-204",
    pack_g=Decimal(250),
    pack_price=Decimal("4.50"),
    freight=Decimal("0.75"),
    currency="EUR",
)


def test_that_a_supply_is_kept_whole(studio):
    listed = (Allergen("linalool", Decimal("0.012")), Allergen("limonene", Decimal("0.003")))
    saved = studio.supplies.save(replace(PACK, allergens=listed))
    assert saved == replace(PACK, allergens=listed, counter=1)
    assert studio.supplies.get("glycerin") == saved
    assert studio.supplies.all() == {"glycerin": saved}


def test_that_the_date_and_lot_of_a_certificate_are_kept_with_its_list(studio):
    listed = (Allergen("linalool", Decimal("0.012")),)
    paper = replace(PACK, allergens=listed, certificate_date="2026-10-01", certificate_lot="QL-77")
    assert studio.supplies.save(paper) == replace(paper, counter=1)
    assert not check_studio(studio.path).problems


def test_that_a_list_without_date_and_lot_is_still_read(studio):
    listed = (Allergen("linalool", Decimal("0.012")),)
    studio.supplies.save(replace(PACK, allergens=listed))
    with closing(sqlite3.connect(studio.path)) as connection:
        (held,) = connection.execute("SELECT allergens FROM supplies").fetchone()
    assert held.startswith("[")
    kept = studio.supplies.get("glycerin")
    assert (kept.certificate_date, kept.certificate_lot) == ("", "")


def test_that_an_ingredient_never_entered_has_an_empty_supply(studio):
    assert studio.supplies.get("water") == Supply("water")
    assert studio.supplies.get("water").price is None


def test_that_a_kilogram_costs_the_pack_and_its_freight():
    # (4.50 + 0.75) for 250 g are 21.00 for a kilogram
    assert PACK.price == Price(Decimal("21.00"), "EUR")
    assert replace(PACK, freight=None).price == Price(Decimal("18.00"), "EUR")


@pytest.mark.parametrize("gap", [{"pack_g": None}, {"pack_price": None}, {"pack_g": Decimal(0)}])
def test_that_a_price_with_a_gap_is_not_known(gap):
    assert replace(PACK, **gap).price is None


def test_that_the_shelf_of_a_formula_has_the_price_of_the_pack(studio, gel):
    studio.supplies.save(PACK)
    assert studio.shelf_for(gel).prices == {"glycerin": Price(Decimal("21.00"), "EUR")}
    assert studio.settings.prices() == {"glycerin": Price(Decimal("21.00"), "EUR")}


def test_that_a_price_of_a_kilogram_leaves_supplier_and_code(studio):
    studio.supplies.save(PACK)
    studio.settings.set_price("glycerin", Price(Decimal("19.90"), "EUR"))
    changed = studio.supplies.get("glycerin")
    assert (changed.supplier, changed.order_code) == ("Quince Lane Supplies", "QL-204")
    assert (changed.pack_g, changed.pack_price, changed.freight) == (
        Decimal(1000),
        Decimal("19.90"),
        Decimal(0),
    )
    studio.settings.set_price("glycerin", None)
    assert studio.supplies.get("glycerin").price is None
    assert studio.supplies.get("glycerin").on_hand


def test_that_a_supply_changed_elsewhere_is_not_written_over(studio):
    first = studio.supplies.save(PACK)
    studio.supplies.save(replace(first, supplier="Another"))
    with pytest.raises(WorkbenchError, match="changed in another window"):
        studio.supplies.save(replace(first, order_code="QL-205"))
    with pytest.raises(WorkbenchError, match="changed in another window"):
        studio.supplies.save(PACK)
    assert studio.supplies.get("glycerin").supplier == "Another"


def test_that_on_hand_is_set_alone(studio):
    studio.supplies.save(PACK)
    assert not studio.supplies.set_on_hand("glycerin", on_hand=False).on_hand
    assert studio.supplies.get("glycerin").pack_price == Decimal("4.50")
    studio.supplies.set_on_hand("water", on_hand=True)
    assert studio.supplies.on_hand() == {"water"}


def test_that_a_certificate_replaces_the_typical_constituents(studio, make_formula):
    formula = make_formula(("water", "rest"), ("eo_lavender", "0.5"))
    typical = studio.shelf_for(formula).ingredients["eo_lavender"].constituents
    assert len(typical) > 1
    listed = (Allergen("linalool", Decimal("0.31")),)
    studio.supplies.save(Supply("eo_lavender", allergens=listed))
    (inside,) = studio.shelf_for(formula).ingredients["eo_lavender"].constituents
    assert (inside.substance, inside.fraction) == ("linalool", Decimal("0.31"))
    assert (inside.source, inside.confidence) == ("certificate", "read")


def test_that_a_certificate_that_lists_nothing_differs_from_none(studio, make_formula):
    formula = make_formula(("eo_lavender", "rest"))
    studio.supplies.save(Supply("eo_lavender", allergens=()))
    assert studio.shelf_for(formula).ingredients["eo_lavender"].constituents == ()
    studio.supplies.save(Supply("eo_lavender", allergens=None, counter=1))
    assert studio.shelf_for(formula).ingredients["eo_lavender"].constituents


def test_that_a_substance_of_the_composition_is_not_counted_twice(studio, make_formula):
    formula = make_formula(("water", "rest"), ("benzyl_alcohol_dha", "1"))
    whole = studio.ingredients.get(["benzyl_alcohol_dha"])["benzyl_alcohol_dha"]
    assert "benzyl_alcohol" in {part.substance for part in whole.composition}
    listed = (Allergen("benzyl_alcohol", Decimal("0.9")),)
    studio.supplies.save(Supply("benzyl_alcohol_dha", allergens=listed))
    assert studio.shelf_for(formula).ingredients["benzyl_alcohol_dha"].constituents == ()


def test_that_a_version_keeps_the_certificate_it_was_made_with(studio, make_formula):
    formula = make_formula(("water", "rest"), ("eo_lavender", "0.5"))
    key = studio.formulas.create("Mist", formula)
    studio.supplies.save(Supply("eo_lavender", allergens=(Allergen("linalool", Decimal("0.31")),)))
    studio.versions.make_version(key, "First", NOON, studio.shelf_for(formula))
    studio.supplies.save(
        Supply("eo_lavender", allergens=(Allergen("linalool", Decimal("0.4")),), counter=1)
    )
    (inside,) = studio.versions.get(key, 1).shelf.ingredients["eo_lavender"].constituents
    assert inside.fraction == Decimal("0.31")


def test_that_a_damaged_certificate_is_refused_by_name(studio, studio_path):
    studio.supplies.save(replace(PACK, allergens=()))
    with closing(sqlite3.connect(studio_path)) as connection, connection:
        connection.execute("UPDATE supplies SET allergens = '[{'")
    with pytest.raises(WorkbenchError, match="'glycerin'"):
        studio.supplies.get("glycerin")
    assert ["'glycerin'" in problem for problem in check_studio(studio_path).problems] == [True]
