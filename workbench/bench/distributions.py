"""Student's t and Fisher's F, exact, from the incomplete beta function."""

from __future__ import annotations

from math import exp, lgamma, log, log1p, sqrt

_SMALL = 1e-300
_ENOUGH = 1e-15
_STEPS = 500
_HALVINGS = 200
_MIDDLE = 0.5


def beta_share(x: float, a: float, b: float) -> float:
    """Return the regularised incomplete beta function.

    Parameters
    ----------
    x : float
        Between 0 and 1 [-].
    a, b : float
        Over 0 [-].

    Returns
    -------
    float
        Between 0 and 1 [-].

    Notes
    -----
    Continued fraction of NIST DLMF 8.17.22, by Lentz's method; the symmetry of 8.17.4 keeps it
    where it converges fast.
    """
    if x <= 0.0:
        return 0.0
    if x >= 1.0:
        return 1.0
    if x > (a + 1.0) / (a + b + 2.0):
        return 1.0 - beta_share(1.0 - x, b, a)
    front = exp(lgamma(a + b) - lgamma(a) - lgamma(b) + a * log(x) + b * log1p(-x)) / a
    fraction, c, d = 1.0, 1.0, 0.0
    for step in range(1, _STEPS):
        term = _term(step, x, a, b)
        d = 1.0 / _not_zero(1.0 + term * d)
        c = _not_zero(1.0 + term / c)
        fraction *= c * d
        if abs(c * d - 1.0) < _ENOUGH:
            break
    return front / fraction


def t_quantile(probability: float, freedom: float) -> float:
    """Return the value that Student's t stays below with a probability.

    Parameters
    ----------
    probability : float
        At least 0.5 and under 1 [-].
    freedom : float
        Degrees of freedom, over 0 [-].

    Raises
    ------
    ValueError
        The probability or the degrees of freedom are outside that.

    Examples
    --------
    >>> round(t_quantile(0.95, 6), 5)
    1.94318
    """
    if not _MIDDLE <= probability < 1.0 or freedom <= 0.0:
        raise ValueError(f"no quantile of t at {probability} with {freedom} degrees of freedom")
    tail = 2.0 * (1.0 - probability)
    low, high = 0.0, 1.0
    for _ in range(_HALVINGS):
        middle = (low + high) / 2.0
        if beta_share(middle, freedom / 2.0, 0.5) < tail:
            low = middle
        else:
            high = middle
    x = (low + high) / 2.0
    return sqrt(max(freedom * (1.0 - x) / x, 0.0))


def f_tail(value: float, above: float, below: float) -> float:
    """Return the probability that Fisher's F exceeds a value.

    Parameters
    ----------
    value : float
        Ratio of two mean squares, at least 0 [-].
    above, below : float
        Degrees of freedom of the two [-].
    """
    return beta_share(below / (below + above * value), below / 2.0, above / 2.0)


def _term(step: int, x: float, a: float, b: float) -> float:
    half, odd = divmod(step, 2)
    if odd:
        return -(a + half) * (a + b + half) * x / ((a + 2 * half) * (a + 2 * half + 1.0))
    return half * (b - half) * x / ((a + 2 * half - 1.0) * (a + 2 * half))


def _not_zero(value: float) -> float:
    return value if abs(value) > _SMALL else _SMALL
