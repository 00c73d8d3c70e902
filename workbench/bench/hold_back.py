"""Water held back for the pH adjuster: what to top up, or what to rescale."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

WHOLE = Decimal(100)


@dataclass(frozen=True, slots=True)
class HoldBack:
    """Hold what an adjuster leaves of its reserve.

    Parameters
    ----------
    reserve_g, used_g : Decimal
        Held back, and taken by adjuster and the water it was thinned with [g].
    top_up_g : Decimal
        Rest-line ingredient still to add; zero where the reserve is used up [g].
    excess_g : Decimal
        Beyond the reserve; the batch is heavier by that [g].
    scale : Decimal
        What every percent is multiplied by where the reserve did not suffice: B / (B + excess).
    """

    reserve_g: Decimal
    used_g: Decimal
    top_up_g: Decimal
    excess_g: Decimal
    scale: Decimal


def hold_back(batch_g: Decimal, reserve_percent: Decimal, used_g: Decimal) -> HoldBack:
    """Return what is left of a reserve after some adjuster.

    Parameters
    ----------
    batch_g : Decimal
        Mass the formula is written for, reserve included [g].
    reserve_percent : Decimal
        Share held back [% w/w].
    used_g : Decimal
        Adjuster as weighed in, its thinning water included [g].

    Notes
    -----
    Top-up = h B / 100 - a; beyond the reserve every line is rescaled by B / (B + excess).

    Examples
    --------
    >>> hold_back(Decimal(825), Decimal(1), Decimal("6.40")).top_up_g
    Decimal('1.85')
    """
    reserve = batch_g * reserve_percent / WHOLE
    left = reserve - used_g
    excess = max(-left, Decimal(0))
    scale = batch_g / (batch_g + excess) if excess else Decimal(1)
    return HoldBack(reserve, used_g, max(left, Decimal(0)), excess, scale)
