"""The pH windows of a formula: what each asks for, where they overlap, what would mend it."""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal

from workbench.checks.compatibility_values import Condition

TARGET = "target"
PRESERVATIVE = "preservative"
ACTIVE = "active"
THICKENER = "thickener"
PRODUCT = "product"
LIMIT = "limit"


@dataclass(frozen=True, slots=True)
class PhWindow:
    """Hold the pH one part of a formula asks for.

    Parameters
    ----------
    kind : str
        target, preservative, active, thickener, product or limit.
    name : str
        Ingredient key; the kind of product for `product`, the substance key for `limit`,
        empty for `target`.
    low, high : Decimal or None
        The window [pH], its ends included; None where that side is open.
    source, confidence : str
        On whose authority, and how far that text was confirmed.
    lines : tuple of int
        Lines concerned; empty for `target` and `product`.
    """

    kind: str
    name: str
    low: Decimal | None
    high: Decimal | None
    source: str = ""
    confidence: str = ""
    lines: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class SwapRemedy:
    """Hold a swap that would let all windows meet.

    The line and the key of what goes, key and name of what comes, and the factor of mass [-].
    """

    line: int
    from_key: str
    to_key: str
    to_name: str
    factor: Decimal
    note: str = ""
    source: str = ""
    confidence: str = ""


@dataclass(frozen=True, slots=True)
class PhWindows:
    """Hold every window of a formula and what follows from them together.

    Parameters
    ----------
    rows : tuple of PhWindow
        In the order target, preservative, active, thickener, product, limit.
    overlap : (Decimal or None, Decimal or None) or None
        Where all meet [pH]; a None end is open on that side; None as a whole when they do not
        meet, or when there is no window (then `rows` is empty).
    disagree : (PhWindow, PhWindow) or None
        The two that are furthest apart when there is no overlap.
    remedy : SwapRemedy or None
        The swap that would mend it, if one is known.
    """

    rows: tuple[PhWindow, ...] = ()
    overlap: tuple[Decimal | None, Decimal | None] | None = None
    disagree: tuple[PhWindow, PhWindow] | None = None
    remedy: SwapRemedy | None = None


@dataclass(frozen=True, slots=True)
class ProductPh:
    """Hold the pH a kind of product usually has, and when a formula is of that kind."""

    key: str
    when: Condition = field(compare=False)
    low: Decimal
    high: Decimal
    source: str
    confidence: str


@dataclass(frozen=True, slots=True)
class PhSwap:
    """Hold a swap and the pH window of what comes in; None where that side is open."""

    from_key: str
    to_key: str
    to_name: str
    factor: Decimal
    low: Decimal | None
    high: Decimal | None
    note: str
    source: str
    confidence: str
