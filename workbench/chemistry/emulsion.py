"""HLB: what the oils want, what emulsifiers give, and how two of them meet it."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal

WHOLE = Decimal(100)


def mean_hlb(parts: Iterable[tuple[Decimal, Decimal]]) -> Decimal | None:
    """Return the HLB of a blend of emulsifiers, or the required HLB of an oil phase.

    Parameters
    ----------
    parts : iterable of (Decimal, Decimal)
        Mass of each part in any one unit, and its HLB or required HLB [-].

    Returns
    -------
    Decimal or None
        Mean weighted by mass [-]; None of nothing.

    Notes
    -----
    W. C. Griffin, J. Soc. Cosmet. Chem. 1 (1949) 311. That required HLB values add up so was
    never shown: Pasquali et al., Int. J. Pharm. 356 (2008) 44.

    Examples
    --------
    >>> mean_hlb([(Decimal(8), Decimal("15.0")), (Decimal(2), Decimal("4.3"))])
    Decimal('12.86')
    """
    pairs = tuple(parts)
    mass = sum((part for part, _ in pairs), Decimal(0))
    if mass <= 0:
        return None
    return sum((part * hlb for part, hlb in pairs), Decimal(0)) / mass


def share_of_first(wanted: Decimal, first: Decimal, second: Decimal) -> Decimal | None:
    """Return how much of the first of two emulsifiers meets a wanted HLB.

    Parameters
    ----------
    wanted, first, second : Decimal
        HLB [-].

    Returns
    -------
    Decimal or None
        Share of the blend [%]; None where the two cannot meet it.

    Notes
    -----
    x = (wanted - second) / (first - second).

    Examples
    --------
    >>> round(share_of_first(Decimal(12), Decimal("15.0"), Decimal("4.3")), 2)
    Decimal('71.96')
    """
    if first == second or not min(first, second) <= wanted <= max(first, second):
        return None
    return WHOLE * (wanted - second) / (first - second)


def as_supplied(active_percent: Decimal, strength_percent: Decimal) -> Decimal:
    """Return how much of a material brings an active content [% w/w of the product].

    Parameters
    ----------
    active_percent : Decimal
        Active matter wanted [% w/w of the product].
    strength_percent : Decimal
        Active matter in the material [% of it].
    """
    return WHOLE * active_percent / strength_percent
