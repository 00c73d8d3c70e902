"""What rows of law and advice ask of the pH of a product."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal

from workbench.checks.finding import Severity
from workbench.checks.limit_matching import is_law
from workbench.checks.limit_remarks import Remark, parts_of
from workbench.checks.limit_sums import Spoken, Survey
from workbench.checks.limit_survey import Surveyed
from workbench.checks.ph_values import PhEstimate
from workbench.checks.ph_windows import LIMIT, PhWindow
from workbench.checks.rules import LimitRow
from workbench.formula.absent import Absent
from workbench.formula.formula import Formula
from workbench.formula.scope import Scope

BROKEN, PERHAPS, UNKNOWN = "limit-ph", "limit-ph-perhaps", "limit-ph-unknown"
PH_CODES = (BROKEN, PERHAPS, UNKNOWN)
_PLACE = Decimal("0.1")


@dataclass(frozen=True, slots=True)
class KnownPh:
    """Hold the pH a product is taken to have, and whether that is an estimate."""

    low: Decimal
    high: Decimal
    is_estimate: bool = False


def known_ph(formula: Formula, estimate: PhEstimate | Absent | None) -> KnownPh | None:
    """Return the pH to hold limits against: the estimate, else the target, else None.

    Notes
    -----
    An estimate before adjusting is not that of the product, so then the target is taken.
    """
    if isinstance(estimate, PhEstimate) and not estimate.before_adjusting:
        low, high = (Decimal(str(end)).quantize(_PLACE) for end in (estimate.low, estimate.high))
        return KnownPh(low, high, is_estimate=True)
    return None if formula.target_ph is None else KnownPh(*formula.target_ph)


def ph_remarks(
    found: Survey, jurisdiction: str, ph: KnownPh | None, scope: Scope
) -> Iterable[Remark]:
    """Yield what the pH breaks, may break, or could not be held against.

    Notes
    -----
    Only a target wholly outside a law in force is a stop; an estimate is no measurement.
    """
    for asked in found.asking_ph:
        if ph is None:
            yield _remark(asked, UNKNOWN, Severity.NOTE, jurisdiction)
        elif _breaks(asked.row, ph.low) and _breaks(asked.row, ph.high):
            is_stop = is_law(asked.row, scope.on) and not ph.is_estimate
            severity = Severity.STOP if is_stop else Severity.CAUTION
            yield _remark(asked, BROKEN, severity, jurisdiction)
        elif _breaks(asked.row, ph.low) or _breaks(asked.row, ph.high):
            yield _remark(asked, PERHAPS, Severity.NOTE, jurisdiction)


def limit_windows(seen: Surveyed) -> tuple[PhWindow, ...]:
    """Return the pH windows that law and advice put on what a formula holds, one by one."""
    found: dict[tuple[object, ...], PhWindow] = {}
    for asked in (asked for _, survey in seen.sure for asked in survey.asking_ph):
        row = asked.row
        place = (row.substance, row.ph_min, row.ph_max)
        known = found.get(place)
        lines = {line for line, _ in parts_of(asked)} | set(known.lines if known else ())
        found[place] = PhWindow(
            kind=LIMIT,
            name=row.substance,
            low=row.ph_min,
            high=row.ph_max,
            source=known.source if known else row.source,
            confidence=known.confidence if known else row.confidence,
            lines=tuple(sorted(lines)),
        )
    return tuple(found.values())


def _breaks(row: LimitRow, ph: Decimal) -> bool:
    if row.ph_min is not None and ph < row.ph_min:
        return True
    if row.ph_max is None:
        return False
    return ph >= row.ph_max if row.ph_max_strict else ph > row.ph_max


def _remark(asked: Spoken, code: str, severity: Severity, jurisdiction: str) -> Remark:
    return Remark(
        code=code,
        severity=severity,
        row=asked.row,
        jurisdictions=(jurisdiction,),
        parts=parts_of(asked),
        source=asked.row.source,
        confidence=asked.row.confidence,
    )
