"""What a pH estimate, an adjuster dose and a titration curve are made of."""

from __future__ import annotations

import math
from dataclasses import dataclass
from decimal import Decimal

GOOD, FAIR, ROUGH = "good", "fair", "rough"
UP, DOWN = "up", "down"
PER_100_G = 100.0


@dataclass(frozen=True, slots=True)
class Reason:
    """Hold one thing that explains a figure: message id, and the values its sentence needs.

    A value that starts as a key of the shelf or of a substance is replaced by its name where
    the sentence is made; several keys stand in one text, separated by spaces.
    """

    id: str
    values: tuple[tuple[str, str | Decimal | float], ...] = ()


def told(value: float) -> Decimal:
    """Return a number to two figures, as a reason tells it; whole where it is ten or more.

    Examples
    --------
    >>> told(0.04567), told(3.456), told(5234.1), told(0.0)
    (Decimal('0.046'), Decimal('3.5'), Decimal('5234'), Decimal('0'))
    """
    if not value:
        return Decimal(0)
    places = max(0, 1 - math.floor(math.log10(abs(value))))
    return Decimal(f"{value:.{places}f}")


@dataclass(frozen=True, slots=True)
class PhEstimate:
    """Hold where the pH will land at 25 °C, as an interval.

    Parameters
    ----------
    low, estimate, high : float
        Interval and middle [pH].
    ionic_strength : float
        At the estimate [mol/kg water].
    confidence : str
        good, fair or rough.
    reasons : tuple of Reason
        What the width comes from and what was left out, the weightiest first.
    before_adjusting : bool
        Whether the formula has a to-pH line, which the estimate leaves out.
    """

    low: float
    estimate: float
    high: float
    ionic_strength: float
    confidence: str
    reasons: tuple[Reason, ...] = ()
    before_adjusting: bool = False


@dataclass(frozen=True, slots=True)
class AdjusterDose:
    """Hold how much of one adjuster moves the formula to a pH.

    Parameters
    ----------
    ingredient : str
        Key of the adjuster on the shelf.
    low, estimate, high : float or None
        Mass as supplied [g in `per_g` of product]; None where that end cannot be reached.
    per_g : float
        Mass of product the dose is for [g]: the batch, or 100 without one.
    to_ph : float
        Where the dose leads [pH].
    fits : bool
        Whether the estimate can be added: it reaches the pH within what may be replaced.
    direction : str
        up or down.
    reason : Reason or None
        Why it does not fit, or what to mind where it does.
    """

    ingredient: str
    low: float | None
    estimate: float | None
    high: float | None
    per_g: float
    to_ph: float
    fits: bool
    direction: str
    reason: Reason | None = None


@dataclass(frozen=True, slots=True)
class TitrationPoint:
    """Hold one reading of a titration curve: grams added to `per_g`, and the pH [-]."""

    mass_g: float
    low: float
    estimate: float
    high: float


@dataclass(frozen=True, slots=True)
class Titration:
    """Hold the curve of one adjuster in a formula, from nothing added on.

    `per_g` is the mass of product before the addition [g]; `target` the wanted window [pH].
    """

    ingredient: str
    per_g: float
    points: tuple[TitrationPoint, ...]
    target: tuple[float, float] | None = None
