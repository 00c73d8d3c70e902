"""The first look at microbial risk: criteria of ISO 29621, what raises it, water activity."""

from __future__ import annotations

from decimal import Decimal

import pytest

from tests.builders import make_formula, make_scope
from workbench import paths
from workbench.checks.carried import carried
from workbench.checks.label_values import MicroRisk
from workbench.checks.micro_risk import (
    CRITERION_MET,
    NEEDED,
    NOT_JUDGED,
    KnownPh,
    known_ph,
    micro_risk,
)
from workbench.checks.ph_values import PhEstimate
from workbench.checks.water_activity import water_activity
from workbench.formula.composition import composition
from workbench.formula.totals import totals
from workbench.storage.reference.shipped import Shipped

SHIPPED = Shipped(paths.resources() / "reference")
LABELLING = SHIPPED.rules.labelling
LOTION = (("water*", "0"), ("glycerin", "4"), ("phenoxyethanol_ehg", "0.9"))


def risk_of(
    *lines: tuple[str, ...], ph: tuple[str, str] | None = None, **scope: object
) -> MicroRisk:
    formula = make_formula(*lines)
    return micro_risk(
        composition(formula, SHIPPED.shelf),
        SHIPPED.shelf,
        make_scope(**scope),
        LABELLING,
        carried(formula, SHIPPED.shelf, totals(formula)),
        KnownPh(Decimal(ph[0]), Decimal(ph[1]), is_estimate=False) if ph else None,
    )


def factors(risk: MicroRisk, direction: str) -> set[str]:
    return {point.factor for point in risk.pointing(direction)}


def test_that_a_product_with_water_needs_a_challenge_test_even_when_preserved() -> None:
    risk = risk_of(*LOTION, ph=("5.0", "5.6"))
    assert risk.verdict == NEEDED
    assert {"water", "ph-open"} <= factors(risk, "raises")
    assert "preservative" in factors(risk, "lowers")


# ISO 29621:2017 as a testing laboratory restates it: pH below 3 or above 10, alcohol above 20 %,
# water activity below 0.75, anhydrous, aluminium chlorohydrate above 25 %.
@pytest.mark.parametrize(
    ("ph", "verdict"),
    [
        (("2.6", "2.9"), CRITERION_MET),
        (("2.9", "3.0"), NEEDED),
        (("2.9", "3.2"), NEEDED),
        (("10.1", "10.6"), CRITERION_MET),
        (("10.0", "10.4"), NEEDED),
        (("9.8", "10.4"), NEEDED),
    ],
)
def test_that_the_whole_span_of_ph_must_meet_the_criterion(
    ph: tuple[str, str], verdict: str
) -> None:
    assert risk_of(*LOTION, ph=ph).verdict == verdict


@pytest.mark.parametrize(("percent", "verdict"), [("21.27", NEEDED), ("21.30", CRITERION_MET)])
def test_that_alcohol_counts_above_twenty_percent(percent: str, verdict: str) -> None:
    # the shipped spirit holds 94 % by mass: 21.277 % of it is 20 % alcohol
    assert risk_of(("water*", "0"), ("ethanol", percent)).verdict == verdict


def test_that_a_balm_without_water_meets_a_criterion_and_minds_wet_hands() -> None:
    risk = risk_of(("castor_oil*", "0"), ("beeswax", "15"), product_type="balm", pack="tin 30 ml")
    assert risk.verdict == CRITERION_MET
    assert factors(risk, "meets") == {"no-water"}
    assert {"wet-hands", "pack-open"} <= factors(risk, "raises")


@pytest.mark.parametrize(
    "scope",
    [{"product_type": "scrub"}, {"product_type": "cleanser", "exposure": "rinse-off"}],
    ids=["scrub", "cleanser without water"],
)
def test_that_water_during_use_undoes_the_criterion(scope: dict[str, object]) -> None:
    risk = risk_of(("castor_oil*", "0"), ("beeswax", "15"), **scope)
    assert risk.verdict == NEEDED
    assert "wet-use" in factors(risk, "raises")


def test_that_a_line_nothing_is_known_of_clears_nothing() -> None:
    assert risk_of(("castor_oil*", "0"), ("moonstone", "1")).verdict == NOT_JUDGED
    assert risk_of(*LOTION, ("moonstone", "1"), ph=("2.5", "2.8")).verdict == NEEDED


def test_that_a_stock_is_not_judged() -> None:
    assert risk_of(*LOTION, product_type="stock") == MicroRisk(NOT_JUDGED)


def test_that_natural_water_and_food_for_microbes_raise_the_risk() -> None:
    risk = risk_of(("water*", "0"), ("hydrosol_rose", "20"), ("oat_extract", "2"))
    points = {point.factor: point for point in risk.pointing("raises")}
    assert points["natural-water"].lines == (2,)
    assert points["nutrients"].lines == (3,)
    assert "natural-water" not in factors(risk_of(*LOTION), "raises")


@pytest.mark.parametrize(
    ("pack", "direction"),
    [
        ("jar 50 ml", "raises"),
        ("Tin, 30 ml", "raises"),
        ("airless bottle 30 ml", "lowers"),
        ("tube 50 ml", "lowers"),
        ("bottle 100 ml", ""),
        ("", ""),
    ],
)
def test_that_the_pack_counts(pack: str, direction: str) -> None:
    risk = risk_of(*LOTION, pack=pack)
    found = {point.direction for point in risk.points if point.factor.startswith("pack")}
    assert found == ({direction} if direction else set())


def test_that_tender_users_and_places_are_named() -> None:
    risk = risk_of(*LOTION, users="under-3", area="eye")
    assert {"users-tender", "area-tender"} <= factors(risk, "raises")


def test_that_every_point_says_on_whose_word() -> None:
    risk = risk_of(*LOTION, ph=("5", "6"), pack="jar", users="under-3")
    assert all(point.source and point.confidence in ("read", "memory") for point in risk.points)


def test_that_the_target_counts_while_adjuster_is_held_back() -> None:
    estimate = PhEstimate(6.9, 7.1, 7.3, 0.1, "fair", before_adjusting=True)
    target = make_formula(("water", "100"), target_ph=(Decimal(5), Decimal(6)))
    assert known_ph(target, estimate) == KnownPh(Decimal(5), Decimal(6), is_estimate=False)
    open_ended = make_formula(("water", "100"))
    assert known_ph(open_ended, estimate) == KnownPh(
        Decimal("6.9"), Decimal("7.3"), is_estimate=True
    )
    assert known_ph(open_ended, None) is None


def activity(water: float, **percents: float) -> tuple[float, float]:
    found = water_activity(water, percents, SHIPPED.substances, LABELLING.solutes)
    return found.low, found.high


# Glycerol in water at 25 °C: 50 % w/w about 0.81, 70 % w/w about 0.64 (from memory of the tables
# of glycerol for constant humidity); sucrose 60 % w/w about 0.89, sodium chloride 10 % w/w about
# 0.93, saturated 0.753 (from memory).
@pytest.mark.parametrize(
    ("water", "percents", "known"),
    [
        (50.0, {"glycerin": 50.0}, 0.81),
        (30.0, {"glycerin": 70.0}, 0.64),
        (40.0, {"sucrose": 60.0}, 0.89),
        (90.0, {"sodium_chloride": 10.0}, 0.93),
        (73.6, {"sodium_chloride": 26.4}, 0.753),
        (100.0, {}, 1.0),
    ],
    ids=["glycerol 50", "glycerol 70", "sucrose 60", "salt 10", "salt saturated", "water"],
)
def test_that_the_span_of_water_activity_holds_the_known_value(
    water: float, percents: dict[str, float], known: float
) -> None:
    low, high = activity(water, **percents)
    assert low - 0.02 <= known <= high + 0.02


def test_that_a_solid_lowers_no_further_than_its_saturated_solution() -> None:
    assert activity(5.0, sucrose=90.0)[0] == pytest.approx(0.84)


def test_that_low_water_activity_counts_only_with_its_whole_span() -> None:
    rich = risk_of(("water", "15"), ("glycerin", "85"))
    assert "water-activity-low" in factors(rich, "meets")
    assert rich.verdict == CRITERION_MET
    middle = risk_of(("water", "42"), ("glycerin", "58"))
    point = next(each for each in middle.points if each.factor == "water-activity-low")
    assert (point.direction, point.is_estimate) == ("unsettled", True)
    assert middle.verdict == NEEDED
    assert "water-activity-low" not in factors(risk_of(*LOTION), "meets")


def test_that_nothing_is_ever_called_safe() -> None:
    assert "safe" not in " ".join((NEEDED, CRITERION_MET, NOT_JUDGED))
