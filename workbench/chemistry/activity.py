"""Activity coefficients: how far ions in salty water are from behaving alone."""

from __future__ import annotations

import math
from dataclasses import dataclass

# The Davies equation is read to about 0.5 mol/kg and drifts above it; past this it is refused.
MOST_IONIC_STRENGTH = 2.0


@dataclass(frozen=True, slots=True)
class Activity:
    """Hold the constants of an activity model at 25 °C.

    Attributes
    ----------
    debye_hueckel : float
        Slope A of the Davies equation [(kg/mol)^0.5].
    linear : float
        Coefficient of its linear term [kg/mol].
    neutral : float
        log10 gamma of an uncharged species per ionic strength [kg/mol].
    water : float
        Fall of the activity of water per molality of everything dissolved [kg/mol].
    pkw : float
        Ion product of water, ionic strength 0 [-].
    driest : float
        Least activity of water the linear law is followed to [-].

    Notes
    -----
    log10 gamma = -A z² (√I / (1 + √I) - b I): C. W. Davies, Ion Association, 1962, with b = 0.3.
    Slope of uncharged species 0.1 and of water 0.017 (Garrels & Christ): the PHREEQC manual,
    Parkhurst & Appelo, USGS Techniques and Methods 6-A43, 2013. Slope A 0.5092 on the molal scale
    at 25 °C (from memory); pKw 13.995, Marshall & Franck, J. Phys. Chem. Ref. Data 10 (1981) 295
    (from memory).
    """

    debye_hueckel: float
    linear: float
    neutral: float
    water: float
    pkw: float
    driest: float = 0.1

    def log_gamma(self, charge: int, ionic_strength: float) -> float:
        """Return log10 of an activity coefficient.

        Parameters
        ----------
        charge : int
            Charge of the species [-].
        ionic_strength : float
            [mol/kg].

        Returns
        -------
        float
            [-].

        Examples
        --------
        >>> round(10 ** DAVIES.log_gamma(1, 0.1), 4)
        0.7815
        """
        if charge == 0:
            return self.neutral * ionic_strength
        return -(charge**2) * self.slope(ionic_strength)

    def slope(self, ionic_strength: float) -> float:
        """Return -log10 gamma of an ion of charge one at an ionic strength [mol/kg]."""
        root = math.sqrt(ionic_strength)
        return self.debye_hueckel * (root / (1.0 + root) - self.linear * ionic_strength)


DAVIES = Activity(debye_hueckel=0.5092, linear=0.3, neutral=0.1, water=0.017, pkw=13.995)
