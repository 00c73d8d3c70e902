from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from tests.builders import Entry, make_formula
from tests.checks.chemistry_shelf import rules, shelf
from workbench.checks.adjusters import adjuster_doses, dosable_of, dose_to, is_adjuster
from workbench.checks.ph import chemistry_situation, ph_estimate
from workbench.checks.ph_values import AdjusterDose, PhEstimate
from workbench.formula.absent import Absent
from workbench.formula.formula import Formula
from workbench.formula.shelf import Shelf, shelf_of


def aimed(*entries: Entry, low: str = "4.4", high: str = "4.6") -> Formula:
    return make_formula(("water*", "0"), *entries, target_ph=(Decimal(low), Decimal(high)))


def doses_of(
    formula: Formula, batch_g: Decimal | None = None, on: Shelf | None = None
) -> dict[str, AdjusterDose]:
    found = adjuster_doses(
        formula,
        chemistry_situation(formula, on or shelf(), rules()),
        on or shelf(),
        batch_g,
    )
    assert not isinstance(found, Absent)
    return {dose.ingredient: dose for dose in found}


def ph_with(formula: Formula, key: str, percent: float) -> float:
    lines = [(line.ingredient, str(line.percent)) for line in formula.lines() if not line.is_rest]
    again = make_formula(("water*", "0"), *lines, (key, f"{percent:.9f}"))
    found = ph_estimate(chemistry_situation(again, shelf(), rules()))
    assert isinstance(found, PhEstimate)
    return found.estimate


def test_that_a_sour_formula_is_offered_bases_and_a_flat_one_acids():
    facts = rules().chemistry
    up, down = doses_of(aimed(("lactic_acid_80", "2"))), doses_of(aimed(("sodium_benzoate", "0.5")))
    assert set(up) == {
        known.ingredient
        for known in facts.adjusters
        if known.is_base and shelf().knows(known.ingredient)
    }
    assert {dose.direction for dose in up.values()} == {"up"}
    assert {dose.direction for dose in down.values()} == {"down"}
    assert "citric_acid_50" in down


@pytest.mark.parametrize("batch", ["100", "250", "1000"])
def test_that_the_dose_is_for_the_batch(batch):
    formula = aimed(("lactic_acid_80", "2"))
    one, many = doses_of(formula), doses_of(formula, Decimal(batch))
    for key, dose in many.items():
        plain = one[key].estimate
        assert dose.per_g == float(batch)
        assert plain is not None
        assert dose.estimate == pytest.approx(plain * float(batch) / 100.0)


@pytest.mark.parametrize(
    ("entries", "key"),
    [
        ([("lactic_acid_80", "2"), ("sodium_benzoate", "0.5")], "sodium_hydroxide_10"),
        ([("lactic_acid_80", "2"), ("sodium_benzoate", "0.5")], "arginine_10"),
        ([("lactic_acid_80", "2")], "arginine"),
        ([("glycolic_acid_70", "5"), ("niacinamide", "2")], "triethanolamine_99"),
        ([("citric_acid", "1"), ("aloe_juice", "10")], "potassium_hydroxide"),
        ([("sodium_benzoate", "0.5")], "citric_acid_50"),
        ([("sodium_benzoate", "0.5")], "lactic_acid_80"),
    ],
)
def test_that_a_dose_leads_to_the_middle_of_the_target(entries, key):
    # A line of it in the formula, in the place of rest-line water, gives the pH aimed at.
    formula = aimed(*entries)
    dose = doses_of(formula)[key]
    assert dose.estimate is not None
    assert dose.to_ph == 4.5
    assert ph_with(formula, key, dose.estimate) == pytest.approx(4.5, abs=0.005)


def test_that_a_dose_is_a_range_around_its_estimate():
    dose = doses_of(aimed(("lactic_acid_80", "2")))["sodium_hydroxide_10"]
    assert dose.low is not None
    assert dose.estimate is not None
    assert dose.high is not None
    assert dose.low < dose.estimate < dose.high
    assert dose.high < 1.5 * dose.low


def test_that_ten_per_cent_arginine_cannot_neutralise_a_strong_fruit_acid():
    doses = doses_of(aimed(("glycolic_acid_70", "14"), low="3.9", high="4.1"))
    weak, strong = doses["arginine_10"], doses["sodium_hydroxide_10"]
    assert not weak.fits
    assert weak.reason is not None
    assert weak.reason.id == "dose-reason-no-room"
    assert strong.fits


def test_that_a_base_is_not_offered_beyond_what_it_can_reach():
    # Triethanolamine is a weak base: pKa 7.76 (acids_bases.csv).
    dose = doses_of(aimed(("lactic_acid_80", "2"), low="11.4", high="11.6"))["triethanolamine_99"]
    assert not dose.fits
    assert dose.estimate is None
    assert dose.reason is not None
    assert dose.reason.id == "dose-reason-out-of-reach"


def test_that_more_powder_than_dissolves_does_not_fit():
    dose = doses_of(aimed(("glycolic_acid_70", "14"), low="3.9", high="4.1"))["arginine"]
    assert not dose.fits
    assert dose.reason is not None
    assert dose.reason.id == "dose-reason-does-not-dissolve"


def test_that_the_held_back_adjuster_comes_first_and_says_when_it_is_too_little():
    formula = aimed(("lactic_acid_80", "2"), ("arginine_10+", "1"))
    doses = doses_of(formula)
    first = next(iter(doses.values()))
    assert first.ingredient == "arginine_10"
    assert first.reason is not None
    assert first.reason.id == "dose-reason-more-than-held-back"
    enough = doses_of(aimed(("lactic_acid_80", "2"), ("arginine_10+", "40")))
    assert enough["arginine_10"].reason is None


def test_that_what_is_held_back_does_not_count_as_added():
    held = doses_of(aimed(("lactic_acid_80", "2"), ("sodium_hydroxide_10+", "3")))
    plain = doses_of(aimed(("lactic_acid_80", "2")))
    for key, dose in plain.items():
        assert held[key].estimate == pytest.approx(dose.estimate)


def test_that_nothing_is_offered_where_the_estimate_lies_in_the_target():
    assert doses_of(aimed(("lactic_acid_80", "2"), low="2", high="3")) == {}


def test_that_without_a_target_there_is_no_dose():
    formula = make_formula(("water*", "0"), ("lactic_acid_80", "2"))
    situation = chemistry_situation(formula, shelf(), rules())
    assert adjuster_doses(formula, situation, shelf()) == Absent("absent-adjusters-no-target")


def test_that_without_a_ph_there_is_no_dose():
    formula = make_formula(("sunflower_oil", "100"), target_ph=(Decimal(4), Decimal(5)))
    situation = chemistry_situation(formula, shelf(), rules())
    assert adjuster_doses(formula, situation, shelf()) == Absent("absent-ph-no-water")


def test_that_only_adjusters_of_the_shelf_are_offered():
    few = {
        key: item
        for key, item in shelf().ingredients.items()
        if key in {"water", "lactic_acid_80", "arginine_10"}
    }
    on = shelf_of(few, {}, shelf().substances)
    assert set(doses_of(aimed(("lactic_acid_80", "2")), on=on)) == {"arginine_10"}


def test_that_a_stock_of_the_maker_can_be_the_adjuster():
    lye = make_formula(("water*", "0"), ("sodium_hydroxide", "5"), product_type="stock")
    on = shelf_of(shelf().ingredients, {"lye_5": lye}, shelf().substances)
    situation = chemistry_situation(aimed(("lactic_acid_80", "2")), on, rules())
    assert not isinstance(situation, Absent)
    half, whole = (dose_to(situation, on, key, 4.5) for key in ("lye_5", "sodium_hydroxide_10"))
    assert half is not None
    assert whole is not None
    assert half.estimate == pytest.approx(2 * (whole.estimate or 0.0), rel=1e-6)


def test_that_a_dose_without_a_rest_line_comes_on_top():
    formula = make_formula(("water", "98"), ("lactic_acid_80", "2"))
    situation = chemistry_situation(formula, shelf(), rules())
    assert not isinstance(situation, Absent)
    dosable = dosable_of("sodium_hydroxide_10", situation, shelf())
    assert dosable is not None
    assert dosable.more_water == pytest.approx(0.9e-3)


def test_that_oil_is_no_adjuster():
    situation = chemistry_situation(aimed(("lactic_acid_80", "2")), shelf(), rules())
    assert not isinstance(situation, Absent)
    assert dosable_of("sunflower_oil", situation, shelf()) is None
    assert not is_adjuster("sunflower_oil", rules().chemistry)
    assert is_adjuster("arginine_10", rules().chemistry)


def test_that_a_copy_of_a_listed_adjuster_is_offered_under_its_own_name():
    own = replace(
        shelf().ingredients["sodium_hydroxide_10"],
        key="our_lye",
        is_own=True,
        based_on="sodium_hydroxide_10",
    )
    on = shelf_of({**shelf().ingredients, "our_lye": own}, {}, shelf().substances)
    doses = doses_of(aimed(("lactic_acid_80", "2")), on=on)
    assert doses["our_lye"].estimate == pytest.approx(doses["sodium_hydroxide_10"].estimate)
    assert doses["our_lye"].low == pytest.approx(doses["sodium_hydroxide_10"].low)


def test_that_what_a_to_ph_line_holds_back_is_offered_whatever_it_is():
    lye = make_formula(("water*", "0"), ("sodium_hydroxide", "5"), product_type="stock")
    on = shelf_of(shelf().ingredients, {"lye_5": lye}, shelf().substances)
    doses = doses_of(aimed(("lactic_acid_80", "2"), ("lye_5+", "9")), on=on)
    assert next(iter(doses)) == "lye_5"
    assert doses["lye_5"].fits
