"""Printed figures of the trade, through the whole way from percent to pH and dose.

Percent is g in 100 g of product, water fills up. The figures are PHREEQC's with its stock
database and the constants of acids_bases.csv (Parkhurst & Appelo, USGS TM 6-A43), which agrees
with an independent Davies calculation within 0.005.
"""

from __future__ import annotations

from decimal import Decimal

import pytest

from tests.builders import Entry, make_formula
from tests.checks.chemistry_shelf import rules, shelf
from workbench.checks.adjusters import dose_to
from workbench.checks.ph import ChemistrySituation, chemistry_situation
from workbench.chemistry.acid_base import solve
from workbench.chemistry.facts import Gift
from workbench.chemistry.mixture import typical_solution
from workbench.formula.absent import Absent

# Grams of sodium hydroxide that neutralise half of the acid: half its moles times 39.9971.
HALF_LACTIC_NAOH = "0.2220"  # of 1 g, 90.0781 g/mol
HALF_GLYCOLIC_NAOH = "1.3148"  # of 5 g, 76.0515 g/mol
HALF_CITRIC_NAOH = "0.6245"  # of 2 g, 192.1238 g/mol, three equivalents


def worked_out(*entries: Entry) -> ChemistrySituation:
    found = chemistry_situation(make_formula(("water*", "0"), *entries), shelf(), rules())
    assert not isinstance(found, Absent)
    return found


def dose(found: ChemistrySituation, adjuster: str, ph: float) -> float:
    """Return the typical dose in 100 g of product [g]."""
    answer = dose_to(found, shelf(), adjuster, ph)
    assert answer is not None
    assert answer.estimate is not None
    return answer.estimate / 10.0


@pytest.mark.parametrize(
    ("entries", "ph"),
    [
        ([("pure_lactic_acid", "1")], 2.413),
        ([("pure_lactic_acid", "1"), ("pure_sodium_hydroxide", HALF_LACTIC_NAOH)], 3.768),
        ([("pure_glycolic_acid", "5"), ("pure_sodium_hydroxide", HALF_GLYCOLIC_NAOH)], 3.661),
        ([("pure_citric_acid", "2"), ("pure_sodium_hydroxide", HALF_CITRIC_NAOH)], 4.374),
        ([("pure_lactic_acid", "2"), ("pure_arginine", "2.5")], 4.006),
        ([("pure_citric_acid", "0.1"), ("pure_sodium_benzoate", "0.5")], 4.632),
        (
            [
                ("pure_citric_acid", "0.25"),
                ("pure_sodium_benzoate", "0.5"),
                ("pure_potassium_sorbate", "0.2"),
            ],
            4.453,
        ),
        (
            [
                ("pure_lactic_acid", "5"),
                ("pure_sodium_benzoate", "0.6"),
                ("pure_potassium_sorbate", "0.6"),
                ("pure_arginine", "6"),
            ],
            4.082,
        ),
    ],
)
def test_that_what_is_dissolved_has_the_printed_ph(entries, ph):
    found = worked_out(*entries)
    assert solve(typical_solution(found.situation.mixture)).ph == pytest.approx(ph, abs=0.005)
    assert found.interval.low < ph < found.interval.high
    # More benzoic and sorbic acid than water dissolves is estimated as partly undissolved.
    assert found.undissolved or found.interval.estimate == pytest.approx(ph, abs=0.005)


@pytest.mark.parametrize(
    ("entries", "acid", "share"),
    [
        ([("pure_citric_acid", "0.1"), ("pure_sodium_benzoate", "0.5")], "benzoic", 23.5),
        (
            [
                ("pure_citric_acid", "0.25"),
                ("pure_sodium_benzoate", "0.5"),
                ("pure_potassium_sorbate", "0.2"),
            ],
            "benzoic",
            31.1,
        ),
        (
            [
                ("pure_citric_acid", "0.25"),
                ("pure_sodium_benzoate", "0.5"),
                ("pure_potassium_sorbate", "0.2"),
            ],
            "sorbic",
            62.0,
        ),
    ],
)
def test_that_the_undissociated_share_is_the_printed_one(entries, acid, share):
    found = worked_out(*entries)
    uncharged = dict(found.interval.undissociated)[acid]
    whole = sum(amount for one, amount in found.work.slopes.solution.totals if one.key == acid)
    assert 100 * uncharged / whole == pytest.approx(share, abs=0.3)


@pytest.mark.parametrize(
    ("entries", "adjuster", "ph", "grams"),
    [
        ([("pure_lactic_acid", "1")], "pure_sodium_hydroxide", 4.5, 0.3775),
        ([("pure_lactic_acid", "1")], "sodium_hydroxide_10", 4.5, 3.78),
        ([("pure_lactic_acid", "1")], "pure_arginine", 4.5, 1.638),
        ([("pure_lactic_acid", "1")], "arginine_10", 4.5, 16.4),
        ([("pure_glycolic_acid", "5")], "pure_sodium_hydroxide", 4.0, 1.821),
        ([("pure_glycolic_acid", "5")], "sodium_hydroxide_10", 4.0, 18.2),
        ([("pure_citric_acid", "1")], "pure_sodium_hydroxide", 5.0, 0.4024),
        ([("pure_sodium_benzoate", "0.5")], "pure_citric_acid", 4.5, 0.133),
    ],
)
def test_that_the_dose_is_the_printed_one(entries, adjuster, ph, grams):
    assert dose(worked_out(*entries), adjuster, ph) == pytest.approx(grams, rel=0.005)


def test_that_a_dose_without_activity_correction_is_told_apart():
    # The same sum with all activity coefficients 1 gives 1.567 g, 14 % too little.
    assert dose(worked_out(("pure_glycolic_acid", "5")), "pure_sodium_hydroxide", 4.0) > 1.75


# Molar masses from standard atomic weights: 112.127/150.217 and 192.124/210.139.
@pytest.mark.parametrize(
    ("substance", "acid", "grams"),
    [
        ("potassium_sorbate", "sorbic", 0.5 * 0.7464),
        ("citric_acid_monohydrate", "citric", 1.0 * 0.9143),
    ],
)
def test_that_a_salt_or_hydrate_holds_the_printed_mass_of_acid(substance, acid, grams):
    masses = {"sorbic": 112.1268, "citric": 192.1238}
    weighed = {"potassium_sorbate": 0.5, "citric_acid_monohydrate": 1.0}[substance]
    moles = moles_per_gram(rules().chemistry.gifts[substance], acid)
    assert weighed * moles * masses[acid] == pytest.approx(grams, abs=0.0002)


# 100 g / 39.9971 g/mol and 600 g / 112.0599 g/mol in a kilogram of solution.
@pytest.mark.parametrize(
    ("ingredient", "per_kg"), [("sodium_hydroxide_10", 2.500), ("sodium_lactate_60", 5.354)]
)
def test_that_a_solution_holds_the_printed_moles(ingredient, per_kg):
    facts = rules().chemistry
    sodium = sum(
        float(part.fraction) * amount * 1000.0
        for part in shelf().parts(ingredient)
        for charge, amount in facts.gifts.get(part.substance, Gift()).ions
        if charge == 1
    )
    assert sodium == pytest.approx(per_kg, abs=0.001)


def test_that_ten_per_cent_lye_is_ten_parts_in_ninety_parts_of_water():
    parts = {part.substance: part.fraction for part in shelf().parts("sodium_hydroxide_10")}
    assert parts == {"water": Decimal("0.9"), "sodium_hydroxide": Decimal("0.1")}


def test_that_arginine_takes_more_than_sodium_hydroxide_for_the_same_rise():
    # Common practice; where both are used to the full the factor is 174.20 / 40.00 = 4.36.
    found = worked_out(("pure_lactic_acid", "1"))
    lye, arginine = (dose(found, key, 5.5) for key in ("pure_sodium_hydroxide", "pure_arginine"))
    assert arginine / lye == pytest.approx(174.20 / 40.00, rel=0.005)


def moles_per_gram(gift: Gift, acid: str) -> float:
    return sum(amount for one, amount in gift.acids if one.key == acid)
