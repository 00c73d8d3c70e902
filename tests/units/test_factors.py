from __future__ import annotations

from decimal import Decimal

import pint
import pytest

from workbench.units import GRAMS, MILLILITRES, Quantity, Unreadable, to_grams, to_millilitres

# NIST Special Publication 811 (2008), appendix B.8: "ounce (avoirdupois)", "pound (avoirdupois)"
# to kilogram; "ounce [U.S. fluid]", "ounce [Canadian and U.K. fluid (Imperial)]" to millilitre,
# all as printed there with seven figures.
NIST_GRAMS = {"oz": "28.34952", "lb": "453.5924"}
NIST_MILLILITRES = {"US fl oz": "29.57353", "imp fl oz": "28.41306"}


def to_seven_figures(value: Decimal) -> Decimal:
    return Decimal(f"{value:.7g}")


@pytest.mark.parametrize(("unit", "grams"), NIST_GRAMS.items())
def test_that_masses_agree_with_the_printed_factors(unit, grams):
    assert to_seven_figures(to_grams(Quantity(Decimal(1), unit))) == Decimal(grams)


@pytest.mark.parametrize(("unit", "millilitres"), NIST_MILLILITRES.items())
def test_that_volumes_agree_with_the_printed_factors(unit, millilitres):
    assert to_seven_figures(to_millilitres(Quantity(Decimal(1), unit))) == Decimal(millilitres)


def test_that_the_pound_holds_sixteen_ounces_exactly():
    # International yard and pound agreement, 1959: 1 lb = 0.45359237 kg.
    assert 16 * GRAMS["oz"] == GRAMS["lb"] == Decimal("453.59237")


def test_that_the_fluid_ounces_are_their_gallons_parts_exactly():
    # US gallon: 231 cubic inches of 2.54 cm, 128 ounces. Imperial gallon: 4.54609 l, 160 ounces.
    assert MILLILITRES["US fl oz"] == 231 * Decimal("2.54") ** 3 / 128
    assert MILLILITRES["imp fl oz"] == Decimal("4546.09") / 160


PINT_NAMES = {
    "mg": "milligram",
    "g": "gram",
    "kg": "kilogram",
    "oz": "ounce",
    "lb": "pound",
    "ml": "milliliter",
    "l": "liter",
    "US fl oz": "fluid_ounce",
    "imp fl oz": "imperial_fluid_ounce",
}


@pytest.fixture(scope="module")
def registry():
    return pint.UnitRegistry()


@pytest.mark.parametrize("unit", [*GRAMS, *MILLILITRES])
def test_that_every_exact_factor_agrees_with_pint(registry, unit):
    ours = GRAMS.get(unit) or MILLILITRES[unit]
    base = "gram" if unit in GRAMS else "milliliter"
    assert float(ours) == pytest.approx(registry(PINT_NAMES[unit]).to(base).magnitude, rel=1e-12)


@pytest.mark.parametrize(
    ("unit", "grams"),
    [
        # NIST SP 811 appendix B.8: grain 6.479 891 E-05 kg, ounce (troy) 3.110 348 E-02 kg,
        # carat (metric) 2.0 E-04 kg, pennyweight 1.555 174 E-03 kg.
        ("grain", "0.06479891"),
        ("troy_ounce", "31.10348"),
        ("carat", "0.2"),
        ("pennyweight", "1.555174"),
        ("\u00b5g", "0.000001"),
        ("microgram", "0.000001"),
    ],
)
def test_that_rare_units_of_mass_come_from_pint(unit, grams):
    assert to_seven_figures(to_grams(Quantity(Decimal(1), unit))) == Decimal(grams)


def test_that_rare_units_of_volume_come_from_pint():
    assert str(to_millilitres(Quantity(Decimal(2), "cl"))) == "20"


@pytest.mark.parametrize("unit", ["ml", "l", "US fl oz", "fl oz", "cl", "%", "second"])
def test_that_what_is_no_mass_never_becomes_grams(unit):
    assert to_grams(Quantity(Decimal(1), unit)) == Unreadable("unit-not-mass")


@pytest.mark.parametrize("unit", ["g", "oz", "lb", "grain", "%", "metre"])
def test_that_what_is_no_volume_never_becomes_millilitres(unit):
    assert to_millilitres(Quantity(Decimal(1), unit)) == Unreadable("unit-not-volume")


@pytest.mark.parametrize(
    ("unit", "reason"),
    [
        (None, "unit-missing"),
        ("bananas", "unit-unknown"),
        ("g*g", "unit-unknown"),
        ("__class__", "unit-unknown"),
        ("gr", "unit-varies"),
        ("fl oz", "unit-varies"),
        ("tsp", "unit-varies"),
        ("Cups", "unit-varies"),
        ("drops", "unit-drops"),
    ],
)
def test_that_a_unit_that_cannot_be_used_names_its_reason(unit, reason):
    assert to_millilitres(Quantity(Decimal(1), unit)) == Unreadable(reason)
