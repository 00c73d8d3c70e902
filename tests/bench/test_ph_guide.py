"""What the guide is told of a designed product, and that every code has its sentence."""

from __future__ import annotations

import pytest

from workbench import paths
from workbench.bench import meter, ph_advice, ph_reading
from workbench.bench.ph_guide import beaker_mixture, bench_adjuster, blank_prior
from workbench.bench.ph_values import PhStatus
from workbench.checks.ph_situation import PhSituation
from workbench.chemistry.facts import EXACT, Gift
from workbench.chemistry.mixture import Mixture, Portion
from workbench.storage.reference.bench_figures import load_guide_figures
from workbench.storage.reference.shipped import Shipped
from workbench.words.catalogue import load_words

REFERENCE = paths.resources() / "reference"
WORDS = load_words(paths.resources() / "words")
SHIPPED = Shipped(REFERENCE)
CODES = sorted(
    value
    for module in (meter, ph_advice, ph_reading)
    for name, value in vars(module).items()
    if name.isupper() and isinstance(value, str)
)


def situation(rest_g: float) -> PhSituation:
    salt = Portion("salt", Gift(ions=((1, 0.1),)), EXACT)
    mixture = Mixture((salt,), 0.8, {})
    return PhSituation(mixture, {}, (), (), 0.0, rest_g, 1.0, {})


def test_that_water_held_back_is_not_in_the_beaker_yet():
    found = beaker_mixture(situation(700.0), 10.0)
    assert found.water_kg == pytest.approx(0.79 / 0.99)
    assert found.portions[0].spread.typical == pytest.approx(1 / 0.99)


def test_that_without_a_rest_line_nothing_is_held_back():
    assert beaker_mixture(situation(0.0), 10.0).water_kg == pytest.approx(0.8)


# 10 % w/w solutions: sodium hydroxide 2.500 mmol/g, citric acid 0.5205, arginine 0.574.
def test_that_ten_percent_lye_brings_two_and_a_half_millimole_per_gram():
    lye = bench_adjuster("sodium_hydroxide_10", SHIPPED.shelf, SHIPPED.rules.chemistry)
    assert lye is not None
    assert lye.is_base
    assert sum(amount for _, amount in lye.gift.ions) == pytest.approx(0.0025, rel=0.002)
    assert lye.water_g == pytest.approx(0.9, abs=0.001)


def test_that_arginine_is_a_base_and_lactic_acid_a_slow_acid():
    facts = SHIPPED.rules.chemistry
    arginine = bench_adjuster("arginine_10", SHIPPED.shelf, facts)
    lactic = bench_adjuster("lactic_acid_80", SHIPPED.shelf, facts)
    assert arginine is not None
    assert lactic is not None
    assert arginine.is_base
    assert sum(amount for _, amount in arginine.gift.acids) == pytest.approx(5.74e-4, rel=0.002)
    assert not lactic.is_base
    assert lactic.is_slow


def test_that_water_is_no_adjuster():
    assert bench_adjuster("water", SHIPPED.shelf, SHIPPED.rules.chemistry) is None


def test_that_a_blank_prior_knows_nothing():
    assert blank_prior(load_guide_figures(REFERENCE)).mixture is None


@pytest.mark.parametrize("code", [*CODES, *(status.value for status in PhStatus)])
def test_that_every_code_has_its_sentence(code):
    assert WORDS.has(code)
