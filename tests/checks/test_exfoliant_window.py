"""Common practice: a leave-on water product with an exfoliating acid is kept at pH 4 to 5."""

from __future__ import annotations

from decimal import Decimal

import pytest

from tests.builders import Entry, make_formula, make_scope
from tests.checks.chemistry_shelf import rules, shelf
from workbench.checks.assess import assess
from workbench.checks.ph_windows import PRODUCT, PhWindow
from workbench.formula.scope import scope_of


def usual(*entries: Entry, exposure: str = "leave-on") -> dict[str, PhWindow]:
    formula = make_formula(("water*", "0"), *entries, exposure=exposure, area="face")
    scope = scope_of(formula, make_scope().on)
    windows = assess(formula, shelf(), scope, rules()).ph_windows.rows
    return {window.name: window for window in windows if window.kind == PRODUCT}


@pytest.mark.parametrize(
    "entry",
    [
        ("glycolic_acid_70", "7"),
        ("lactic_acid_80", "6"),
        ("mandelic_acid", "5"),
        ("gluconolactone", "5"),
        ("salicylic_acid", "1"),
    ],
)
def test_that_a_leave_on_exfoliant_has_its_window(entry):
    window = usual(entry)["exfoliating-leave-on"]
    assert (window.low, window.high) == (Decimal(4), Decimal(5))
    assert window.confidence == "memory"
    assert "common practice" in window.source.lower()


@pytest.mark.parametrize(
    ("entry", "exposure"),
    [
        (("lactic_acid_80", "0.3"), "leave-on"),  # sets the pH, exfoliates nothing
        (("glycolic_acid_70", "7"), "rinse-off"),
        (("niacinamide", "5"), "leave-on"),
    ],
)
def test_that_others_do_not(entry, exposure):
    assert "exfoliating-leave-on" not in usual(entry, exposure=exposure)
