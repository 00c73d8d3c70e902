"""How much of a preservative is active, and how much of it is left in the water."""

from __future__ import annotations

from collections.abc import Iterable
from math import exp, log, log10

from workbench.chemistry.activity import DAVIES


def conditional_pka(pka: float, ionic_strength: float) -> float:
    """Return the pKa an uncharged acid shows on the pH scale of a meter.

    Parameters
    ----------
    pka : float
        At 25 °C and no ionic strength [-].
    ionic_strength : float
        Of the water phase [mol/kg].

    Returns
    -------
    float
        pKa + log10 of the activity coefficient of the anion [-]: pH counts the activity of the
        hydrogen ion, a content counts the concentration of the acid and of its anion.
    """
    return pka + DAVIES.log_gamma(-1, ionic_strength)


def undissociated_fraction(ph: float, pka: float, ionic_strength: float = 0.0) -> float:
    """Return the share of a monoprotic acid that is not ionised.

    Parameters
    ----------
    ph : float
        Of the water phase [-].
    pka : float
        At 25 °C and no ionic strength [-].
    ionic_strength : float
        Of the water phase [mol/kg]; 0 for the textbook figure.

    Returns
    -------
    float
        Between 0 and 1 [-].

    Notes
    -----
    1 / (1 + 10^(pH - pKa')), Henderson and Hasselbalch.

    Examples
    --------
    >>> round(100 * undissociated_fraction(5.0, 4.202), 2)
    13.74
    """
    return 1.0 / (1.0 + exp(log(10.0) * (ph - conditional_pka(pka, ionic_strength))))


def ph_for_undissociated(
    acid: float, wanted: float, pka: float, ionic_strength: float = 0.0
) -> float | None:
    """Return the highest pH at which a content of acid still holds a wanted undissociated level.

    Parameters
    ----------
    acid, wanted : float
        All of it as acid, and the undissociated part wanted, in one unit.
    pka, ionic_strength : float
        As `undissociated_fraction` takes them.

    Returns
    -------
    float or None
        pH [-]; None where nothing is wanted, or all of the acid is not more than wanted.
    """
    if wanted <= 0.0 or acid <= wanted:
        return None
    return conditional_pka(pka, ionic_strength) + log10(acid / wanted - 1.0)


def mixed_partition(parts: Iterable[tuple[float, float]]) -> float:
    """Return the oil/water partition coefficient of an oil mixture.

    Parameters
    ----------
    parts : iterable of (float, float)
        Volume of each oil in any one unit, and its partition coefficient [-].

    Returns
    -------
    float
        Mean weighted by volume [-]; 0 without any oil.

    Notes
    -----
    Each oil is taken to dissolve what it would on its own. Real mixtures lie between this and
    the geometric mean, which is smaller.
    """
    pairs = tuple(parts)
    volume = sum(oil for oil, _ in pairs)
    return sum(oil * k for oil, k in pairs) / volume if volume > 0.0 else 0.0


def aqueous_concentration(
    overall: float,
    phase_ratio: float,
    partition: float,
    binding: float = 1.0,
    undissociated: float = 1.0,
    solubility: float | None = None,
) -> float:
    """Return what is free in the water of an emulsion: the uncharged form only.

    Parameters
    ----------
    overall : float
        Content per volume of oil and water together [% w/v].
    phase_ratio : float
        Volume of oil over volume of water [-].
    partition : float
        Oil/water partition coefficient of the uncharged form [-].
    binding : float
        Total over free in the water phase, R = 1 + k · surfactant [-]; 1 where none binds.
    undissociated : float
        Share of the acid in the water that is not ionised [-]; 1 for what is no acid.
    solubility : float or None
        Most that water dissolves of the uncharged form [% w/v].

    Returns
    -------
    float
        Concentration in the water phase [% w/v], never over the solubility.

    Notes
    -----
    Cw = C (φ + 1) / (K φ + R): Bean et al., J. Soc. Cosmet. Chem. 16 (1965) 18, and for R
    J. Pharm. Pharmacol. 21 (1969) 173S. An ion enters neither oil nor micelle, so for an acid
    the share that is ionised adds (1 - f) / f to the denominator (Garrett and Woods 1953).
    """
    if undissociated <= 0.0:
        return 0.0
    ionised = (1.0 - undissociated) / undissociated
    free = overall * (phase_ratio + 1.0) / (partition * phase_ratio + binding + ionised)
    return free if solubility is None else min(free, solubility)
