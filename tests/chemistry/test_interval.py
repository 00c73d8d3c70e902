"""Whether an interval of pH holds the truth as often as it should, and is not too wide."""

from __future__ import annotations

import random
import sys
from dataclasses import dataclass

import numpy as np
import pytest

from workbench.chemistry.acid_base import solve
from workbench.chemistry.acid_base_many import solve_many
from workbench.chemistry.facts import EXACT, AcidRange, Gift, Spread
from workbench.chemistry.interval import Bounds, Work, ph_interval
from workbench.chemistry.mixture import UNKNOWN, Mixture, Portion, typical_solution
from workbench.chemistry.sampling import SAMPLES, lattice
from workbench.chemistry.system import AcidBase, OutOfRange, StrongIon, dissolved

FORMULAS, DRAWS = 500, 200
# acids_bases.csv
ACIDS = (
    AcidBase("lactic", (3.86,), 0),
    AcidBase("glycolic", (3.831,), 0),
    AcidBase("citric", (3.128, 4.761, 6.396), 0),
    AcidBase("benzoic", (4.202,), 0),
    AcidBase("sorbic", (4.76,), 0),
    AcidBase("succinic", (4.207, 5.636), 0),
    AcidBase("gluconic", (3.9,), 0),
    AcidBase("arginine", (1.823, 8.991, 13.8), 2),
    AcidBase("tea", (7.762,), 1),
)
PLANT_ACIDS = (
    AcidBase("malic", (3.459, 5.097), 0),
    AcidBase("acetic", (4.757,), 0),
)
SHIFT = 0.04
RANGES = {acid.key: AcidRange(SHIFT) for acid in (*ACIDS, *PLANT_ACIDS)}
BOUNDS = Bounds(error=0.03, per_salt=0.0, salty=2.0)


@dataclass(frozen=True)
class Outcome:
    is_covered: bool
    width: float
    true_width: float


def made_up(chance: random.Random) -> Mixture:
    """Make a formula: some acids or bases of doubtful assay, some lye, an extract."""
    portions = []
    for acid in chance.sample(ACIDS, chance.randint(1, 4)):
        half = chance.uniform(0.10, 0.30)
        amount = 10.0 ** chance.uniform(-3.0, -0.7)
        spread = Spread(1.0 - half, 1.0, 1.0 + half)
        portions.append(Portion(acid.key, Gift(((acid, amount),)), spread))
    acidity = sum(amount for part in portions for acid, amount in part.gift.acids if acid.pkas)
    if chance.random() < 0.7:
        lye = acidity * chance.uniform(0.05, 0.9)
        half = chance.uniform(0.10, 0.30)
        spread = Spread(1.0 - half, 1.0, 1.0 + half)
        portions.append(Portion("lye", Gift(ions=((1, lye),)), spread))
    typical = 10.0 ** chance.uniform(-3.5, -2.0)
    unknown = Spread(
        typical / chance.uniform(2.0, 5.0), typical, typical * chance.uniform(1.5, 3.0)
    )
    plant = chance.choice(PLANT_ACIDS)
    portions.append(Portion("extract", Gift(((plant, 1.0),)), unknown, UNKNOWN))
    return Mixture(tuple(portions), chance.uniform(0.4, 0.95), RANGES)


def amounts(mixture: Mixture, draws: np.random.Generator, count: int) -> np.ndarray:
    """Draw what the portions really hold: as likely below what is typical as above."""
    chances = draws.random((count, len(mixture.portions)))
    spreads = [part.spread for part in mixture.portions]
    low, typical, high = (
        np.array([getattr(s, end) for s in spreads]) for end in ("low", "typical", "high")
    )
    below = low + 2 * chances * (typical - low)
    return np.where(chances < 0.5, below, typical + (2 * chances - 1) * (high - typical))


def true_ph(mixture: Mixture, factors: np.ndarray, draws: np.random.Generator) -> float:
    """Solve one real mixture whose constants are not those of the table either."""
    shifts = {acid.key: draws.uniform(-SHIFT, SHIFT) for acid in mixture.acids}
    totals, ions = [], []
    for part, factor in zip(mixture.portions, factors, strict=True):
        for acid, amount in part.gift.acids:
            pkas = tuple(pka + shifts[acid.key] for pka in acid.pkas)
            totals.append((AcidBase(acid.key, pkas, acid.charge), amount * factor))
        ions.extend(StrongIon(charge, amount * factor) for charge, amount in part.gift.ions)
    ph = solve(dissolved(totals, ions, 0.0, mixture.water_kg)).ph
    return ph + draws.uniform(-BOUNDS.error, BOUNDS.error)


def true_width(mixture: Mixture, draws: np.random.Generator) -> float:
    """Return the width that the spread of the contents alone gives, nineteen times in twenty."""
    acids, charges = mixture.acids, mixture.charges
    units = np.zeros((len(mixture.portions), len(acids)))
    strong = np.zeros((len(mixture.portions), len(charges)))
    for row, part in enumerate(mixture.portions):
        for acid, amount in part.gift.acids:
            units[row, acids.index(acid)] += amount / mixture.water_kg
        for charge, amount in part.gift.ions:
            strong[row, charges.index(charge)] += amount / mixture.water_kg
    factors = amounts(mixture, draws, DRAWS)
    ph, _ = solve_many(acids, factors @ units, charges, factors @ strong)
    low, high = np.nanquantile(ph, (0.025, 0.975))
    return float(high - low)


@pytest.fixture(scope="module")
def outcomes() -> list[Outcome]:
    chance, draws = random.Random(20261125), np.random.default_rng(20261125)
    found: list[Outcome] = []
    while len(found) < FORMULAS:
        mixture = made_up(chance)
        try:
            interval = ph_interval(Work(mixture, BOUNDS))
            ph = true_ph(mixture, amounts(mixture, draws, 1)[0], draws)
        except OutOfRange:
            continue
        found.append(
            Outcome(
                interval.low <= ph <= interval.high,
                interval.high - interval.low,
                true_width(mixture, draws),
            )
        )
    return found


def test_that_the_interval_holds_the_truth_about_nineteen_times_in_twenty(outcomes, capsys):
    covered = sum(outcome.is_covered for outcome in outcomes) / len(outcomes)
    with capsys.disabled():
        sys.stdout.write(f"\ncoverage {100 * covered:.1f} % of {len(outcomes)}\n")
    assert 0.90 <= covered <= 0.97


def test_that_the_interval_is_not_much_wider_than_the_contents_make_it(outcomes, capsys):
    width = sum(outcome.width for outcome in outcomes) / len(outcomes)
    wanted = sum(outcome.true_width for outcome in outcomes) / len(outcomes)
    with capsys.disabled():
        sys.stdout.write(f"\nmean width {width:.3f}, of the true spread {wanted:.3f}\n")
    assert width <= 1.5 * wanted


def lactic(spread: Spread = EXACT, amount: float = 0.1) -> Mixture:
    return Mixture((Portion("lactic", Gift(((ACIDS[0], amount),)), spread),), 1.0, {})


def test_that_what_is_exactly_known_has_no_width():
    found = ph_interval(Work(lactic(), Bounds(0.0, 0.0, 2.0)))
    assert found.high - found.low == pytest.approx(0.0, abs=1e-9)
    assert found.low <= found.estimate <= found.high


def test_that_the_estimate_is_that_of_the_typical_mixture():
    found = ph_interval(Work(lactic(Spread(0.5, 0.9, 1.0)), BOUNDS))
    assert found.estimate == solve(typical_solution(lactic(Spread(0.9, 0.9, 0.9)))).ph


def test_that_a_wider_spread_gives_a_wider_interval():
    narrow = ph_interval(Work(lactic(Spread(0.9, 1.0, 1.1)), BOUNDS))
    wide = ph_interval(Work(lactic(Spread(0.7, 1.0, 1.3)), BOUNDS))
    assert wide.low < narrow.low < narrow.high < wide.high


def test_that_the_same_mixture_gives_the_same_interval():
    assert ph_interval(Work(lactic(Spread(0.8, 1.0, 1.2)), BOUNDS)) == ph_interval(
        Work(lactic(Spread(0.8, 1.0, 1.2)), BOUNDS)
    )


def test_that_salt_beyond_the_range_of_the_model_widens_the_interval():
    bounds = Bounds(0.03, 0.15, 0.5)
    assert bounds.half_width(0.4) == 0.03
    assert bounds.half_width(1.5) == pytest.approx(0.18)


def test_that_the_weightiest_source_comes_first():
    mixture = Mixture(
        (
            Portion("sure", Gift(((ACIDS[0], 0.1),)), Spread(0.99, 1.0, 1.01)),
            Portion("doubtful", Gift(((ACIDS[3], 0.1),)), Spread(0.5, 1.0, 1.5)),
        ),
        1.0,
        {},
    )
    sources = ph_interval(Work(mixture, BOUNDS)).sources
    assert sources[0].key == "doubtful"
    assert sources[0].half_width > sources[-1].half_width


@pytest.mark.parametrize("columns", [1, 3, 12, 40])
def test_that_the_samples_fill_every_axis_evenly_and_follow_no_other(columns):
    points = lattice(columns)
    even = (np.arange(SAMPLES) + 0.5) / SAMPLES
    assert np.allclose(np.sort(points, axis=0), even[:, None])
    if columns > 1:
        alike = np.corrcoef(points.T) - np.eye(columns)
        assert np.abs(alike).max() < 0.15
