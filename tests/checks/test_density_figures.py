from dataclasses import replace
from decimal import Decimal
from functools import cache

import pytest

from tests.builders import make_formula
from workbench import paths
from workbench.checks.density_figures import density_figures, estimated_density
from workbench.checks.opened import opened
from workbench.formula.absent import Absent
from workbench.formula.formula import Plan
from workbench.formula.shelf import shelf_of
from workbench.storage.reference.shipped import Shipped

HAND_CREAM = (
    ("water*", "0"),
    ("glycerin", "5"),
    ("disodium_edta", "0.2"),
    ("xanthan_gum", "0.25"),
    ("cct", "10"),
    ("shea_butter", "6"),
    ("glyceryl_stearate_se", "4"),
    ("cetyl_alcohol", "2.5"),
    ("panthenol_75", "1"),
    ("tocopherol", "0.2"),
    ("phenoxyethanol_ehg", "0.9"),
    ("fragrance_compound", "0.4"),
    ("lactic_acid_80", "0.3"),
)


@cache
def shipped():
    return Shipped(paths.resources() / "reference")


def density(*entries, stocks=None, **changes):
    shelf = shipped().shelf
    if stocks:
        shelf = shelf_of(shelf.ingredients, stocks, shelf.substances)
    return estimated_density(opened(make_formula(*entries, **changes), shelf), shipped().rules)


@pytest.mark.parametrize(
    ("entries", "measured"),
    [
        ((("water*", "0"),), 0.99821),  # IAPWS-95, 20 °C
        ((("water*", "0"), ("glycerin", "50.25")), 1.1263),  # Lange 5.13: 50 % of pure glycerol
        ((("water*", "0"), ("ethanol", "53.19")), 0.9138),  # alcohol table: 50 % by weight
        ((("water*", "0"), ("sodium_chloride", "10")), 1.0708),  # Laliberte 2009
        ((("sodium_hydroxide_10", "100"),), 1.1086),  # Laliberte 2009, 10 %
        ((("sunflower_oil", "100"),), 0.92),  # Codex-style range 0.918 to 0.923
    ],
)
def test_that_a_simple_product_has_its_measured_density(entries, measured):
    found = density(*entries)
    assert found.density.estimate == pytest.approx(measured, abs=0.002)
    assert found.density.low < measured < found.density.high


def test_that_a_cream_without_air_lies_where_lotions_lie():
    # density table: a lotion without air weighs 0.97 to 1.01 g/ml.
    found = density(*HAND_CREAM)
    assert 0.97 < found.density.low < found.density.estimate < found.density.high < 1.01
    assert found.unknown == ()


def test_that_the_range_is_never_a_point():
    found = density(("water*", "0"))
    assert found.density.high - found.density.low > 0.005


def test_that_a_stock_weighs_what_is_in_it():
    stock = make_formula(("water*", "0"), ("glycerin", "20"), product_type="stock")
    opened = density(("water*", "0"), ("half", "50"), stocks={"half": stock})
    assert opened.density == density(("water*", "0"), ("glycerin", "10")).density


def test_that_too_much_of_unknown_density_gives_none():
    assert density(("water*", "0"), ("mystery", "6")) == Absent("absent-density-unknown")
    found = density(("water*", "0"), ("mystery", "5"))
    assert found.unknown == ("mystery",)
    assert found.unknown_percent == 5
    assert found.density.high - found.density.low > 0.03


def test_that_a_formula_that_does_not_add_up_has_no_density():
    assert density(("water", "50")) == Absent("absent-density-total")


def test_that_the_figure_carries_its_range():
    (figure,) = density_figures(opened(make_formula(*HAND_CREAM), shipped().shelf), shipped().rules)
    values = dict(figure.values)
    assert figure.key == "density"
    assert values["low"] < figure.value < values["high"]


def test_that_a_fill_without_a_weighed_density_gets_a_mass_with_its_range():
    # 100 ml of half glycerol weigh 112.6 g: Lange 5.13.
    formula = make_formula(("water*", "0"), ("glycerin", "50.25"))
    planned = replace(formula, plan=Plan(units=1, fill=Decimal(100)))
    _, mass = density_figures(opened(planned, shipped().shelf), shipped().rules)
    assert (mass.key, mass.value, mass.unit) == ("fill-mass", Decimal("112.6"), "gram")
    assert dict(mass.values)["low"] < mass.value < dict(mass.values)["high"]


def test_that_a_weighed_density_is_not_doubted():
    formula = make_formula(*HAND_CREAM)
    plan = Plan(units=12, fill=Decimal(50), density=Decimal("0.97"))
    found = density_figures(opened(replace(formula, plan=plan), shipped().shelf), shipped().rules)
    assert [figure.key for figure in found] == ["density"]


def test_that_what_is_missing_is_said_and_not_zero():
    formula = make_formula(("water*", "0"), ("mystery", "40"))
    (figure,) = density_figures(opened(formula, shipped().shelf), shipped().rules)
    assert figure.value == Absent("absent-density-unknown")
