from __future__ import annotations

import itertools
from decimal import Decimal

import pytest

from tests.builders import make_formula
from tests.checks.chemistry_shelf import rules, shelf
from workbench.checks.adjusters import dose_to
from workbench.checks.ph import ChemistrySituation, chemistry_situation, ph_estimate
from workbench.checks.ph_values import PhEstimate, Titration
from workbench.checks.titration import converted, titration_of
from workbench.formula.absent import Absent

SOUR = make_formula(
    ("water*", "0"),
    ("lactic_acid_80", "2"),
    ("sodium_benzoate", "0.5"),
    target_ph=(Decimal("4.4"), Decimal("4.6")),
)


def curve(adjuster: str = "sodium_hydroxide_10", batch_g: Decimal | None = None) -> Titration:
    found = titration_of(SOUR, shelf(), rules(), adjuster, batch_g)
    assert isinstance(found, Titration)
    return found


def situation() -> ChemistrySituation:
    found = chemistry_situation(SOUR, shelf(), rules())
    assert not isinstance(found, Absent)
    return found


def test_that_the_curve_starts_at_the_estimate():
    estimate = ph_estimate(situation())
    assert isinstance(estimate, PhEstimate)
    first = curve().points[0]
    assert first.mass_g == 0.0
    assert first.estimate == pytest.approx(estimate.estimate, abs=1e-6)
    assert (first.low, first.high) == pytest.approx((estimate.low, estimate.high), abs=1e-6)


@pytest.mark.parametrize("adjuster", ["sodium_hydroxide_10", "arginine", "triethanolamine_99"])
def test_that_a_base_only_raises_the_ph(adjuster):
    points = curve(adjuster).points
    assert len(points) > 20
    for before, after in itertools.pairwise(points):
        assert after.mass_g > before.mass_g
        assert after.estimate > before.estimate
        assert after.low <= after.estimate <= after.high


def test_that_the_curve_passes_the_target_at_the_dose():
    dose = dose_to(situation(), shelf(), "sodium_hydroxide_10", 4.5)
    assert dose is not None
    assert dose.estimate is not None
    grams = dose.estimate / 10.0
    points = curve().points
    before = max(point.mass_g for point in points if point.estimate <= 4.5)
    after = min(point.mass_g for point in points if point.estimate >= 4.5)
    assert before <= grams <= after


def test_that_the_curve_is_for_the_batch():
    small, large = curve(), curve(batch_g=Decimal(500))
    assert (small.per_g, large.per_g) == (100.0, 500.0)
    assert large.points[-1].mass_g == pytest.approx(5 * small.points[-1].mass_g)
    assert large.points[-1].estimate == pytest.approx(small.points[-1].estimate)


def test_that_the_window_is_drawn_with_the_curve():
    assert curve().target == (4.4, 4.6)


def test_that_an_acid_lowers_the_ph():
    points = curve("citric_acid_50").points
    assert points[-1].estimate < points[0].estimate


def test_that_what_does_not_move_a_ph_has_no_curve():
    found = titration_of(SOUR, shelf(), rules(), "sunflower_oil")
    assert found == Absent("absent-titration-no-effect")


def test_that_where_there_is_no_ph_there_is_no_curve():
    oil = make_formula(("sunflower_oil", "100"))
    assert titration_of(oil, shelf(), rules(), "arginine") == Absent("absent-ph-no-water")


def test_that_a_converted_dose_leads_to_the_same_ph():
    state = situation()
    lye = dose_to(state, shelf(), "sodium_hydroxide_10", 4.5)
    arginine = dose_to(state, shelf(), "arginine", 4.5)
    assert lye is not None
    assert lye.estimate is not None
    assert arginine is not None
    other = converted(lye.estimate, "sodium_hydroxide_10", "arginine", state, shelf())
    assert other == pytest.approx(arginine.estimate, rel=1e-3)


def test_that_a_dose_without_a_counterpart_is_not_converted():
    # Lye takes the water to where triethanolamine, pKa 7.76, cannot follow.
    state = situation()
    assert converted(80.0, "sodium_hydroxide_10", "triethanolamine_99", state, shelf()) is None
    assert converted(1.0, "sunflower_oil", "arginine", state, shelf()) is None
