"""The pH of many products in many states, and how it follows what is not known of them.

Loading this module loads numpy: import it where it is used.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from workbench.bench.ph_family import CHARGES, Family, Products, charges_at
from workbench.bench.ph_log import Composed
from workbench.chemistry.acid_base import LN10
from workbench.chemistry.acid_base_arrays import Floats
from workbench.chemistry.acid_base_many import solve_many
from workbench.chemistry.activity import DAVIES, MOST_IONIC_STRENGTH

# Ionic strength at which the ions of water itself are counted.
_ORDINARY = 0.1
_LEAST_IONIC = 1e-4


@dataclass(frozen=True, slots=True, eq=False)
class Response:
    """Hold how much lower products should stand (n, states) [pH], its slopes, ionic strengths.

    Attributes
    ----------
    off : array (n, states)
        Reading less what the product reads [pH].
    slopes : array (n, states, size)
        How what is read rises with each number.
    ionic : array (n, states)
        Ionic strength at what was read [mol/kg].
    """

    off: Floats
    slopes: Floats
    ionic: Floats


def true_ph(family: Family, numbers: Floats, states: Sequence[Composed]) -> Floats:
    """Return the true pH of each product in each state, shape (n, states)."""
    products = family.products(numbers)
    rows = np.concatenate([family.beside(products, state) for state in states])
    ph, _ = _solved(family, rows)
    return np.asarray(ph.reshape(len(states), -1).T + products.model[:, None])


def response(
    family: Family, numbers: Floats, states: Sequence[Composed], read: Floats, ionic: Floats
) -> Response:
    """Return how far products are from readings, and how that follows their numbers.

    Parameters
    ----------
    family : Family
        What the products are of.
    numbers : array (n, size)
        The products.
    states : sequence of Composed
        When each reading was made.
    read : array (n, states)
        What each product is to read [-].
    ionic : array (n, states)
        A guess of the ionic strength [mol/kg]; the next one comes with the answer.

    Notes
    -----
    The charge left over at the pH read, over the buffer capacity there, is what the pH is off.
    The charge is nearly linear in the amounts where the pH is anything but, so products far from
    their readings find there too; at the readings both are the same. Nothing is solved here.
    """
    products = family.products(numbers)
    shift = family.meter(numbers) + products.model
    found = [
        _looked(family, products, state, read[:, at] - shift, ionic[:, at])
        for at, state in enumerate(states)
    ]
    off, slopes, after = zip(*found, strict=True)
    return Response(np.stack(off, axis=1), np.stack(slopes, axis=1), np.stack(after, axis=1))


def _looked(
    family: Family, products: Products, state: Composed, ph: Floats, ionic: Floats
) -> tuple[Floats, Floats, Floats]:
    rows = family.beside(products, state)
    count = len(family.acids)
    means, variances = charges_at(family.acids, ph, ionic)
    slope = DAVIES.slope(_ORDINARY)
    hydrogen, hydroxide = 10.0 ** (slope - ph), 10.0 ** (slope + ph - DAVIES.pkw)
    charge = (rows[:, :count] * means).sum(axis=1) + rows[:, -2] - rows[:, -1]
    charge = charge + hydrogen - hydroxide
    buffer = LN10 * ((rows[:, :count] * variances).sum(axis=1) + hydrogen + hydroxide)
    squares = (rows[:, :count] * (variances + means**2)).sum(axis=1)
    after = 0.5 * (squares + rows[:, -2] + rows[:, -1] + hydrogen + hydroxide)
    after = np.clip(after, _LEAST_IONIC, MOST_IONIC_STRENGTH)
    ones = np.ones((len(rows), 1))
    off = -charge / buffer
    # What is added brings charge, and makes the charge left over count for less.
    means = means + LN10 * variances * off[:, None]
    per_mole = np.concatenate((means, ones, -ones), axis=1) / buffer[:, None]
    slopes = _by_number(family, products, per_mole / family.water(state), state)
    return off, slopes, after


def _solved(family: Family, rows: Floats) -> tuple[Floats, Floats]:
    count = len(family.acids)
    return solve_many(family.acids, rows[:, :count], CHARGES, rows[:, count:])


def _by_number(family: Family, products: Products, per_mole: Floats, state: Composed) -> Floats:
    """Return how the pH in a state rises with each number, shape (n, size)."""
    columns = (products.growth @ per_mole[:, :, None])[:, :, 0]
    free = products.by_free * per_mole[:, -2]
    model = np.full(len(free), family.figures["model"] * family.scale)
    meter = np.full(len(free), family.meter_scale)
    per_kg = products.strengths * family.per_kg(state) * family.strength_growth
    strengths = per_kg * (per_mole @ family.more.T)
    flat = np.stack((free, model, meter), axis=1)
    return np.asarray(np.concatenate((columns, flat, strengths), axis=1))
