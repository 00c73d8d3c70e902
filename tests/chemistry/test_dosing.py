from __future__ import annotations

import random

import numpy as np
import pytest

from workbench.chemistry.acid_base import solve
from workbench.chemistry.dosing import (
    Dosable,
    curve_ranges,
    dose_ranges,
    ph_after,
    ph_range_after,
)
from workbench.chemistry.facts import EXACT, AcidRange, Gift, Spread
from workbench.chemistry.interval import Bounds, Work, ph_interval
from workbench.chemistry.mixture import Mixture, Portion
from workbench.chemistry.system import AcidBase, StrongIon, dissolved
from workbench.chemistry.titration import dose

LACTIC = AcidBase("lactic", (3.86,), 0)
CITRIC = AcidBase("citric", (3.128, 4.761, 6.396), 0)
ARGININE = AcidBase("arginine", (1.823, 8.991, 13.8), 2)
SHIFT = 0.04
RANGES = {acid.key: AcidRange(SHIFT) for acid in (LACTIC, CITRIC, ARGININE)}
BOUNDS = Bounds(0.03, 0.0, 2.0)
LYE = Dosable("lye", Gift(ions=((1, 0.0025),)), Spread(0.95, 1.0, 1.02))
BASE = Dosable("arginine", Gift(((ARGININE, 0.00574),)), EXACT, -0.001)
ACID = Dosable("citric", Gift(((CITRIC, 0.0052),)), EXACT, -0.001)


def sour(half: float = 0.1, amount: float = 0.15, water_kg: float = 0.8) -> Mixture:
    spread = Spread(1.0 - half, 1.0, 1.0 + half)
    portions = (
        Portion("lactic", Gift(((LACTIC, amount),)), spread),
        Portion("citric", Gift(((CITRIC, 0.02),)), spread),
    )
    return Mixture(portions, water_kg, RANGES)


@pytest.mark.parametrize("adjuster", [LYE, BASE], ids=lambda one: one.key)
@pytest.mark.parametrize("ph", [3.5, 4.5, 6.0])
def test_that_the_estimate_is_the_dose_of_the_typical_mixture(adjuster, ph):
    work = Work(sour(), BOUNDS)
    found = dose_ranges(work, (adjuster,), ph)[0]
    alone = dose(work.slopes.solution, adjuster.adjuster, ph)
    assert alone is not None
    assert found.estimate == pytest.approx(alone * 0.8, rel=1e-6)


def test_that_a_dose_leads_to_its_ph():
    work = Work(sour(), BOUNDS)
    for found, adjuster in zip(dose_ranges(work, (LYE, BASE), 4.5), (LYE, BASE), strict=True):
        assert found.estimate is not None
        assert ph_after(work, adjuster, found.estimate) == pytest.approx(4.5, abs=0.005)


def test_that_an_adjuster_of_the_wrong_side_has_no_dose():
    found = dose_ranges(Work(sour(), BOUNDS), (ACID,), 4.5)[0]
    assert (found.low, found.estimate, found.high) == (None, None, None)


def test_that_no_adjuster_gives_no_dose():
    assert dose_ranges(Work(sour(), BOUNDS), (), 4.5) == ()


def test_that_a_sample_beyond_the_target_needs_nothing():
    work = Work(sour(half=0.9), BOUNDS)
    estimate = ph_interval(work).estimate
    found = dose_ranges(work, (LYE,), estimate + 0.05)[0]
    assert found.low == 0.0


def test_that_a_less_sure_adjuster_has_the_wider_dose():
    work = Work(sour(half=0.01), BOUNDS)
    sure, unsure = dose_ranges(
        work,
        (
            Dosable("sure", LYE.gift, EXACT),
            Dosable("unsure", LYE.gift, Spread(0.7, 1.0, 1.3)),
        ),
        4.5,
    )
    assert sure.low is not None
    assert sure.high is not None
    assert unsure.low is not None
    assert unsure.high is not None
    assert unsure.low < sure.low < sure.high < unsure.high


def test_that_the_range_holds_the_dose_that_is_really_needed():
    chance = random.Random(7)
    held = 0
    for _ in range(200):
        mixture = sour(half=chance.uniform(0.1, 0.3), amount=10 ** chance.uniform(-2.0, -0.6))
        found = dose_ranges(Work(mixture, BOUNDS), (LYE,), 4.6)[0]
        shifts = {key: chance.uniform(-SHIFT, SHIFT) for key in ("lactic", "citric")}
        totals = []
        for part in mixture.portions:
            acid, amount = part.gift.acids[0]
            real = AcidBase(acid.key, tuple(pka + shifts[acid.key] for pka in acid.pkas), 0)
            factor = chance.uniform(part.spread.low, part.spread.high)
            totals.append((real, amount * factor))
        real_lye = Dosable("lye", LYE.gift, EXACT)
        aim = 4.6 + chance.uniform(-BOUNDS.error, BOUNDS.error)
        needed = dose(dissolved(totals, [], 0.0, 0.8), real_lye.adjuster, aim)
        assert needed is not None
        strength = chance.uniform(0.95, 1.0) if chance.random() < 0.5 else chance.uniform(1.0, 1.02)
        assert found.low is not None
        assert found.high is not None
        held += found.low <= needed * 0.8 / strength <= found.high
    assert 0.90 <= held / 200 <= 0.985


def test_that_the_curve_runs_from_nothing_to_the_last_dose():
    work = Work(sour(), BOUNDS)
    points = curve_ranges(work, LYE, 60.0)
    assert points[0][0] == 0.0
    assert points[0][2] == pytest.approx(ph_interval(work).estimate)
    assert points[-1][0] == pytest.approx(60.0)
    assert all(low <= middle <= high for _, low, middle, high in points)
    assert list(np.diff([point[0] for point in points]) > 0) == [True] * (len(points) - 1)


def test_that_a_point_of_the_curve_is_what_a_single_dose_gives():
    work = Work(sour(), BOUNDS)
    grams, *values = curve_ranges(work, LYE, 60.0)[10]
    assert ph_range_after(work, LYE, grams) == pytest.approx(tuple(values))


def test_that_a_dose_no_water_is_left_for_has_no_ph():
    assert ph_after(Work(sour(), BOUNDS), BASE, 900.0) is None
    assert ph_range_after(Work(sour(), BOUNDS), BASE, 900.0) is None


def test_that_a_known_solution_is_reached():
    # Half neutralised lactic acid stands at its pKa less the activity of the ion: 3.768 at 1 %.
    lactic = Mixture((Portion("l", Gift(((LACTIC, 0.111),)), EXACT),), 0.988, {})
    found = dose_ranges(Work(lactic, Bounds(0.0, 0.0, 2.0)), (LYE,), 3.768)[0]
    assert found.estimate == pytest.approx(0.111 / 2 / 0.0025, rel=0.01)
    half = dissolved([(LACTIC, 0.111)], [StrongIon(1, 0.0555)], 0.0, 0.988)
    assert solve(half).ph == pytest.approx(3.768, abs=0.005)
