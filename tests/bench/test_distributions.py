from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from workbench.bench.distributions import beta_share, f_tail, t_quantile


@pytest.mark.parametrize(
    ("probability", "freedom", "value"),
    [
        # Printed tables of Student's t, as in the NIST/SEMATECH e-Handbook 1.3.6.7.2.
        (0.95, 1, 6.314),
        (0.95, 2, 2.920),
        (0.95, 6, 1.943),
        (0.95, 29, 1.699),
        (0.975, 10, 2.228),
        (0.99, 30, 2.457),
        (0.95, 100, 1.660),
        (0.5, 5, 0.0),
    ],
)
def test_that_t_is_that_of_the_printed_tables(probability, freedom, value):
    assert t_quantile(probability, freedom) == pytest.approx(value, abs=0.0006)


@pytest.mark.parametrize(
    ("above", "below", "value"), [(1, 10, 4.965), (2, 25, 3.385), (5, 10, 3.326)]
)
def test_that_f_is_that_of_the_printed_tables(above, below, value):
    # NIST/SEMATECH e-Handbook 1.3.6.7.3: upper 5 % points of F.
    assert f_tail(value, above, below) == pytest.approx(0.05, abs=0.0001)


def test_that_whole_numbers_give_the_binomial_sum():
    # I_x(a, b) for whole a and b: the chance of at least a successes in a + b - 1 trials.
    x = Fraction(3, 10)
    exact = sum(
        Fraction(combination) * x**k * (1 - x) ** (6 - k)
        for k, combination in ((3, 20), (4, 15), (5, 6), (6, 1))
    )
    assert beta_share(0.3, 3, 4) == pytest.approx(float(exact), rel=1e-13)


@given(st.floats(0.0, 1.0), st.floats(0.5, 60.0), st.floats(0.5, 60.0))
def test_that_a_share_and_its_mirror_make_one(x, a, b):
    assert beta_share(x, a, b) + beta_share(1.0 - x, b, a) == pytest.approx(1.0, abs=1e-10)


@given(st.floats(0.5, 0.9999), st.integers(1, 200))
def test_that_a_quantile_is_exceeded_as_often_as_it_should_be(probability, freedom):
    value = t_quantile(probability, freedom)
    tail = 0.5 * beta_share(freedom / (freedom + value**2), freedom / 2, 0.5)
    assert 1.0 - tail == pytest.approx(probability, abs=1e-9)


@given(st.floats(0.5, 0.9999), st.integers(1, 200))
def test_that_scipy_agrees_where_it_is_at_hand(probability, freedom):
    stats = pytest.importorskip("scipy.stats")
    exact = float(stats.t.ppf(probability, freedom))
    assert t_quantile(probability, freedom) == pytest.approx(exact, rel=1e-7, abs=1e-7)


@pytest.mark.parametrize(("probability", "freedom"), [(0.4, 5), (1.0, 5), (0.95, 0)])
def test_that_no_quantile_is_made_up(probability, freedom):
    with pytest.raises(ValueError, match="quantile"):
        t_quantile(probability, freedom)
