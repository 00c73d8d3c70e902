"""How far a weighing may be off: which band a line falls under, and the least it can be."""

from __future__ import annotations

from decimal import Decimal

import pytest

from tests.builders import make_formula, make_ingredient, make_shelf
from workbench import paths
from workbench.bench.batch import allowed_g, band_key
from workbench.formula.weighability import Balance
from workbench.storage.reference.bands import load_bands

BANDS = load_bands(paths.resources() / "reference")
FINE = Balance("fine", Decimal("0.01"), Decimal(200))
SHELF = make_shelf(
    make_ingredient("keeper", functions=("solvent", "preservative")),
    make_ingredient("sour", functions=("ph-adjuster-acid",)),
    make_ingredient("binder", functions=("chelator",)),
    make_ingredient("capped", functions=("active",), use_max=Decimal(5)),
    make_ingredient("open", functions=("active",)),
    make_ingredient("oil", functions=("emollient-oil",), use_max=Decimal(50)),
)


@pytest.mark.parametrize(
    ("entry", "band"),
    [
        ("keeper", "preservative"),
        ("sour", "acid"),
        ("binder", "chelator"),
        ("capped", "active"),
        ("open", "other"),
        ("oil", "other"),
        ("unknown", "other"),
        ("keeper*", "rest"),
        ("sour+", "to-ph"),
    ],
)
def test_that_a_line_falls_under_the_band_of_what_it_does(entry: str, band: str) -> None:
    line = make_formula((entry, "1")).line(1)
    assert band_key(line, SHELF) == band


def test_that_a_purpose_given_by_the_maker_counts() -> None:
    assert band_key(make_formula(("oil", "1", "preservative")).line(1), SHELF) == "preservative"


@pytest.mark.parametrize(
    ("entry", "target", "allowed"),
    [
        # Common practice, editable: 2 % where little matters much, 1 % for the rest, else 3 %.
        ("keeper", "6.39", "0.1278"),
        ("capped", "10", "0.2"),
        ("keeper*", "491.67", "4.9167"),
        ("oil", "71.00", "2.13"),
    ],
)
def test_that_the_band_is_a_share_of_the_target(entry: str, target: str, allowed: str) -> None:
    line = make_formula((entry, "1")).line(1)
    assert allowed_g(line, Decimal(target), FINE, SHELF, BANDS) == Decimal(allowed)


def test_that_the_band_is_never_narrower_than_a_division_of_the_balance() -> None:
    line = make_formula(("binder", "1")).line(1)
    assert allowed_g(line, Decimal("0.12"), FINE, SHELF, BANDS) == Decimal("0.01")


def test_that_an_adjuster_held_back_has_no_band() -> None:
    line = make_formula(("sour+", "1")).line(1)
    assert allowed_g(line, Decimal(2), FINE, SHELF, BANDS) is None
