"""Acid preservatives that are hardly active at the pH of the product."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal

from workbench.checks.finding import Finding, Severity, Value, Working
from workbench.checks.preservative_values import Basis, PhBasis, PreservativeShare
from workbench.formula.compare import falls_below
from workbench.formula.shelf import Shelf

_ACID = Decimal("0.0001")
_LEVEL = Decimal("0.0001")
_SHARE = Decimal("0.1")
_PH = Decimal("0.01")


def check_preservative_levels(
    shares: Iterable[PreservativeShare], shelf: Shelf
) -> tuple[Finding, ...]:
    """Find acids of which less is undissociated than is usually wanted.

    Notes
    -----
    A caution only where no other preservative is there and even the best end of the range is
    too little; else a note. A level that is reached shows nothing but itself. What keeps a raw
    material, and only comes along with it, is not asked to keep the product.
    """
    shares = tuple(share for share in shares if share.is_put_in)
    weak = tuple(share for share in shares if _is_weak(share, "estimate"))
    is_alone = len(weak) == len(shares)
    return tuple(
        _finding(
            share,
            shelf,
            Severity.CAUTION if is_alone and _is_weak(share, "high") else Severity.NOTE,
        )
        for share in weak
    )


def _is_weak(share: PreservativeShare, end: str) -> bool:
    free, wanted = share.undissociated_percent, share.wanted
    if free is None or wanted is None or wanted.basis is not Basis.UNDISSOCIATED:
        return False
    return falls_below(Decimal(str(getattr(free, end))), wanted.level)


def _finding(share: PreservativeShare, shelf: Shelf, severity: Severity) -> Finding:
    free, wanted = share.undissociated_percent, share.wanted
    assert free is not None
    assert wanted is not None
    highest = share.ph_for_wanted
    values: tuple[tuple[str, Value], ...] = (
        ("substance", shelf.inci(share.substance)),
        ("active", _rounded(free.estimate, _LEVEL)),
        ("low", _rounded(free.low, _LEVEL)),
        ("high", _rounded(free.high, _LEVEL)),
        ("wanted", wanted.level),
        ("ph-basis", "target" if share.ph_basis is PhBasis.TARGET else "estimate"),
        ("can", "no" if highest is None else "yes"),
        ("ph", "" if highest is None else _rounded(highest, _PH)),
    )
    return Finding(
        "preservative-weak",
        severity,
        values=values,
        lines=share.lines,
        value=_rounded(free.estimate, _LEVEL),
        limit=wanted.level,
        basis="undissociated",
        source=wanted.source,
        confidence=wanted.confidence,
        workings=_workings(share, shelf),
    )


def _workings(share: PreservativeShare, shelf: Shelf) -> tuple[Working, ...]:
    found: list[Working] = []
    acid, part = share.as_acid_percent, share.undissociated_share
    if acid is not None and share.carriers != (share.substance,):
        salts = tuple(shelf.inci(carrier) for carrier in share.carriers)
        named: tuple[tuple[str, Value], ...] = (
            ("salts", salts),
            ("percent", share.percent.normalize()),
            ("acid", acid.quantize(_ACID)),
        )
        found.append(Working("preservative-working-acid", named))
    if part is not None:
        span: tuple[tuple[str, Value], ...] = (
            ("low", _rounded(part.low, _SHARE)),
            ("share", _rounded(part.estimate, _SHARE)),
            ("high", _rounded(part.high, _SHARE)),
        )
        found.append(Working("preservative-working-share", span))
    return tuple(found)


def _rounded(value: float, step: Decimal) -> Decimal:
    return Decimal(str(value)).quantize(step)
