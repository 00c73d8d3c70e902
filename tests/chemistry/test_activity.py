from __future__ import annotations

import pytest

from tests.chemistry.acids import IDEAL
from workbench.chemistry.activity import DAVIES


# Davies equation, A 0.5092 and b 0.3, worked by hand; C. W. Davies, Ion Association, 1962.
@pytest.mark.parametrize(("ionic", "gamma"), [(0.01, 0.9021), (0.1, 0.7815), (0.5, 0.7336)])
def test_that_the_activity_of_a_single_charge_is_that_of_davies(ionic, gamma):
    assert 10 ** DAVIES.log_gamma(1, ionic) == pytest.approx(gamma, abs=5e-5)


def test_that_the_sign_of_a_charge_does_not_matter():
    assert DAVIES.log_gamma(-1, 0.2) == DAVIES.log_gamma(1, 0.2)


@pytest.mark.parametrize("charge", [2, 3, 4])
def test_that_the_logarithm_grows_with_the_square_of_the_charge(charge):
    assert DAVIES.log_gamma(charge, 0.1) == pytest.approx(charge**2 * DAVIES.log_gamma(1, 0.1))


# PHREEQC manual (Parkhurst & Appelo 2013): log10 gamma of an uncharged species is 0.1 I.
def test_that_salt_drives_uncharged_species_out():
    assert DAVIES.log_gamma(0, 0.5) == pytest.approx(0.05)


def test_that_nothing_interacts_without_ions():
    assert [DAVIES.log_gamma(charge, 0.0) for charge in (0, 1, 2)] == [0.0, 0.0, 0.0]


def test_that_the_ideal_model_corrects_nothing():
    assert [IDEAL.log_gamma(charge, 0.7) for charge in (0, 1, 3)] == [0.0, 0.0, 0.0]
