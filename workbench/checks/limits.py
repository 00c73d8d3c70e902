"""Check a formula against the limits of law and advice of its markets."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from decimal import ROUND_DOWN, Decimal

from workbench.checks.constituents import Inside
from workbench.checks.finding import Finding, Remedy, SetPercent, Severity, Value, Working
from workbench.checks.limit_matching import is_law
from workbench.checks.limit_ph import PH_CODES, KnownPh, known_ph, ph_remarks
from workbench.checks.limit_remarks import (
    Part,
    Remark,
    parts_of,
    remarks_of,
    settled,
    typical_remarks,
)
from workbench.checks.limit_sums import allowance
from workbench.checks.limit_survey import Surveyed
from workbench.checks.opened import Opened
from workbench.checks.ph_values import PhEstimate
from workbench.checks.rules import LimitRow, Verdict
from workbench.checks.workings import limit_workings
from workbench.formula.absent import Absent
from workbench.formula.compare import significant
from workbench.formula.formula import Formula
from workbench.formula.scope import Scope
from workbench.formula.shelf import Shelf
from workbench.formula.totals import Totals

PARTLY_COVERED = frozenset({"US"})
_STEPS = (Decimal("0.01"), Decimal("0.0001"))
_NAMES_SHOWN = 3
_REMEDIED = ("limit-over", "limit-over-advice", "limit-future")


def check_limits(
    known: Opened,
    scope: Scope,
    seen: Surveyed,
    estimate: PhEstimate | Absent | None = None,
) -> tuple[Finding, ...]:
    """Return what a formula exceeds, or what the tables cannot settle, for each market.

    Notes
    -----
    Only law in force on the day of the scope gives a stop. A substance without any rule gives
    nothing, which is no permission. What a certificate lists inside a material counts as if it
    were weighed in; what is only typical of it is a caution at most.
    """
    ph = known_ph(known.formula, estimate)
    remarks: list[Remark] = []
    for jurisdiction, found in seen.sure:
        remarks.extend(remarks_of(found, jurisdiction))
        remarks.extend(ph_remarks(found, jurisdiction, ph, scope))
    if seen.whole is not seen.sure:
        for (jurisdiction, sure), (_, whole) in zip(seen.sure, seen.whole, strict=True):
            remarks.extend(typical_remarks(sure, whole, jurisdiction, seen.inside))
    contents = _Contents(known, seen.inside, ph)
    findings = [_finding(remark, contents, scope.on) for remark in settled(remarks)]
    findings.extend(
        Finding("market-not-covered", Severity.NOTE, values=(("market", market),))
        for market in scope.markets
        if market in PARTLY_COVERED
    )
    return tuple(findings)


def legal_maxima(sums: Totals, seen: Surveyed) -> Mapping[int, Decimal]:
    """Return the highest percent the law allows of each line it limits [% w/w as supplied].

    Notes
    -----
    All other lines are taken as they stand; 0 where a line may not be in the product at all.
    Four significant figures, as limits are compared. Lines without a legal limit are absent.
    """
    percents = sums.percents
    maxima: dict[int, Decimal] = {}
    for _, found in seen.sure:
        for held in found.law:
            for line in {line for line, _, _ in held.amounts}:
                allowed = allowance(held, line, percents[line])
                maxima[line] = min(allowed, maxima.get(line, allowed))
        for spoken in found.spoken:
            if spoken.verdict is Verdict.BANNED:
                maxima.update({line: Decimal(0) for line, _ in parts_of(spoken)})
    return maxima


@dataclass(frozen=True, slots=True)
class _Contents:
    known: Opened
    inside: tuple[Inside, ...]
    ph: KnownPh | None


def _finding(remark: Remark, contents: _Contents, on: date) -> Finding:
    held, row = remark.held, remark.row
    places = {line for line, _ in remark.parts}
    lines = tuple(line.id for line in contents.known.formula.lines() if line.id in places)
    value = held.value if held else _percent_of(remark.parts, contents)
    return Finding(
        code=remark.code,
        severity=remark.severity,
        values=(
            *_values(remark, significant(value), contents.known.shelf, on),
            *_ph_values(remark, contents.ph, on),
        ),
        lines=lines,
        value=significant(value),
        limit=remark.limit,
        basis=row.basis,
        source=remark.source,
        confidence=remark.confidence,
        remedies=_remedies(remark, lines, contents.known.formula),
        workings=_workings(remark, contents),
    )


def _workings(remark: Remark, contents: _Contents) -> tuple[Working, ...]:
    if remark.held is None:
        return ()
    return limit_workings(remark.held, contents.known)


def _values(
    remark: Remark, value: Decimal, shelf: Shelf, on: date
) -> tuple[tuple[str, Value], ...]:
    row = remark.row
    return (
        ("substance", remark.subject),
        ("name", _names(remark, shelf)),
        ("authority", remark.jurisdictions),
        ("value", value),
        ("limit", "" if remark.limit is None else remark.limit),
        ("bound", "below" if row.is_strict else "up-to"),
        ("basis", row.basis),
        ("counted", "on-basis" if _is_on_basis(row) else "itself"),
        ("scope", row.scope_text),
        ("reason", remark.reason or "stated"),
        ("from", row.effective_from.isoformat() if row.effective_from else ""),
        ("force", "now" if is_law(row, on) else "later"),
        ("confidence", remark.confidence),
        ("text_as_at", row.text_as_at),
        ("carriers", tuple(shelf.name(key) for key in remark.carriers)),
    )


def _ph_values(remark: Remark, ph: KnownPh | None, on: date) -> tuple[tuple[str, Value], ...]:
    if remark.code not in PH_CODES:
        return ()
    row = remark.row
    return (
        ("kind", "law" if is_law(row, on) else "advice"),
        ("known", "estimate" if ph and ph.is_estimate else "target"),
        ("low", ph.low if ph else ""),
        ("high", ph.high if ph else ""),
        ("window", _window(row)),
        ("floor", "" if row.ph_min is None else row.ph_min),
        ("ceiling", "" if row.ph_max is None else row.ph_max),
    )


def _window(row: LimitRow) -> str:
    if row.ph_min is None:
        return "under" if row.ph_max_strict else "below"
    return "above" if row.ph_max is None else "between"


def _names(remark: Remark, shelf: Shelf) -> Value:
    substances = dict.fromkeys(substance for _, substance in sorted(remark.parts))
    if len(substances) > _NAMES_SHOWN:
        return (remark.row.name,)
    return tuple(shelf.inci(substance) for substance in substances)


def _is_on_basis(row: LimitRow) -> bool:
    return row.basis.startswith("as ") and not row.basis.startswith("as itself")


def _percent_of(parts: frozenset[Part], contents: _Contents) -> Decimal:
    shares = (*contents.known.parts.shares, *(each.share for each in contents.inside))
    held = (share.percent for share in shares if (share.line, share.substance) in parts)
    return sum(held, Decimal(0))


def _remedies(remark: Remark, lines: tuple[int, ...], formula: Formula) -> tuple[Remedy, ...]:
    if remark.held is None or len(lines) != 1 or remark.code not in _REMEDIED:
        return ()
    line = formula.line(lines[0])
    if line.locked or line.percent is None:
        return ()
    allowed = allowance(remark.held, line.id, line.percent)
    for step in _STEPS:
        percent = (allowed / step).to_integral_value(ROUND_DOWN) * step
        if percent > 0:
            values = (("ingredient", line.ingredient), ("percent", percent))
            return (Remedy("remedy-set-percent", values, SetPercent(line.id, percent)),)
    return ()
