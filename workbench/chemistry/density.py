"""Densities: tables read between their rows, mixtures, and mass from volume."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from itertools import pairwise


def interpolated(points: Sequence[tuple[float, float]], at: float) -> float | None:
    """Return the value of a table between its rows.

    Parameters
    ----------
    points : sequence of (float, float)
        Place and value, rising by place.
    at : float
        Place asked for, in the unit of the places.

    Returns
    -------
    float or None
        Linear between the two rows around it; None outside the table.
    """
    for (left, low), (right, high) in pairwise(points):
        if left <= at <= right:
            return low + (high - low) * (at - left) / (right - left)
    return None


def volume_in_water(mix_density: float, percent: float, water_density: float) -> float:
    """Return the volume a dissolved substance adds to its water.

    Parameters
    ----------
    mix_density : float
        Of the solution [g/ml].
    percent : float
        Content of the substance [% w/w of the solution], over 0.
    water_density : float
        At the same temperature [g/ml].

    Returns
    -------
    float
        Apparent volume [ml/g]; it has the contraction of the mixture in it.

    Notes
    -----
    (1 / ρ - (1 - w) / ρ_water) / w with w the mass fraction.
    """
    fraction = percent / 100.0
    return (1.0 / mix_density - (1.0 - fraction) / water_density) / fraction


def mixture_density(parts: Sequence[tuple[float, float]]) -> float | None:
    """Return the density of a mixture whose volumes add up.

    Parameters
    ----------
    parts : sequence of (float, float)
        Mass [g] and specific volume [ml/g] of each part.

    Returns
    -------
    float or None
        [g/ml]; None of nothing.
    """
    volume = sum(mass * specific for mass, specific in parts)
    return sum(mass for mass, _ in parts) / volume if volume > 0.0 else None


def mass_of(volume_ml: Decimal, density: Decimal) -> Decimal:
    """Return the mass [g] of a volume [ml] at a density [g/ml]."""
    return volume_ml * density


def volume_of(mass_g: Decimal, density: Decimal) -> Decimal:
    """Return the volume [ml] of a mass [g] at a density [g/ml].

    Raises
    ------
    ValueError
        The density is not over 0.
    """
    if density <= 0:
        raise ValueError(f"a density of {density} g/ml divides nothing")
    return mass_g / density


def weighed_density(
    empty_g: Decimal, filled_g: Decimal, water_filled_g: Decimal, water_density: Decimal
) -> Decimal:
    """Return a density from weighing one bottle empty, filled, and filled with water.

    Parameters
    ----------
    empty_g, filled_g, water_filled_g : Decimal
        The same bottle, filled to the same mark [g].
    water_density : Decimal
        At the temperature of both fillings [g/ml].

    Returns
    -------
    Decimal
        [g/ml].

    Raises
    ------
    ValueError
        A filling weighs no more than the empty bottle.

    Notes
    -----
    ρ = (filled - empty) / (water-filled - empty) · ρ_water. The lift of the air is left out:
    it changes the result by less than 0.0003 g/ml for a product near 1 g/ml.
    """
    if filled_g <= empty_g or water_filled_g <= empty_g:
        raise ValueError("a filled bottle weighs no more than the empty one")
    return (filled_g - empty_g) / (water_filled_g - empty_g) * water_density
