"""The engine beside PHREEQC, given the same constants and the same activity coefficients.

`phreeqc_engine` says how: every acid under a name of its own, carbonate, phosphate and borate too,
and Davies for H+ and OH-. What is compared is the solving and the bookkeeping of charges; the
database's own ion pairs are left out on purpose.
"""

from __future__ import annotations

import pytest

from tests.benchmark.chemistry import speeds
from tests.chemistry.mixtures import compared_acids, compared_mixtures
from tests.chemistry.phreeqc_engine import Phreeqc
from workbench.chemistry.acid_base import solve
from workbench.chemistry.acid_base_arrays import gathered
from workbench.chemistry.acid_base_many import solved

MIXTURES = compared_mixtures()
MOST_OFF = 0.01


@pytest.fixture(scope="module")
def phreeqc():
    return Phreeqc(compared_acids())


def test_that_at_least_120_mixtures_are_compared_over_the_whole_range():
    ph = [solve(mixture).ph for _, mixture in MIXTURES]
    ionic = [solve(mixture).ionic_strength for _, mixture in MIXTURES]
    assert len(MIXTURES) >= 120
    assert (min(ph) < 2.3, max(ph) > 10.7, max(ionic) > 0.8) == (True, True, True)
    held = {acid.key for _, mixture in MIXTURES for acid, _ in mixture.totals}
    assert held >= {"carbonic", "phosphoric", "boric", "citric", "edta", "arginine"}


def test_that_every_ph_is_that_of_phreeqc(phreeqc):
    off = {
        name: (found, outside)
        for name, mixture in MIXTURES
        for found, outside in [(solve(mixture).ph, phreeqc.ph(mixture))]
        if abs(found - outside) > MOST_OFF
    }
    assert off == {}


def test_that_the_array_form_answers_as_phreeqc_does(phreeqc):
    ph, _ = solved(gathered([mixture for _, mixture in MIXTURES]))
    outside = [phreeqc.ph(mixture) for _, mixture in MIXTURES]
    assert ph.tolist() == pytest.approx(outside, abs=MOST_OFF)


def test_that_ionic_strengths_are_those_of_phreeqc(phreeqc):
    for _, mixture in MIXTURES[::5]:
        _, ionic, _ = phreeqc.state(mixture)
        assert solve(mixture).ionic_strength == pytest.approx(ionic, rel=0.01, abs=1e-5)


def test_that_shares_are_those_of_phreeqc(phreeqc):
    for _, mixture in MIXTURES[::5]:
        _, _, species = phreeqc.state(mixture)
        answer = solve(mixture)
        for (acid, amount), shares in zip(mixture.totals, answer.shares, strict=True):
            outside = [species.get(name, 0.0) / amount for name in phreeqc.species(acid)]
            assert shares == pytest.approx(outside, abs=0.01)


@pytest.mark.speed
def test_that_the_engine_is_faster_than_phreeqc_in_process():
    found = speeds()
    assert found.most_off <= MOST_OFF
    assert found.single_times >= 2
    assert found.array_times >= 20
