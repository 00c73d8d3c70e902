"""Check a formula against the limits of law and advice of its markets."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from decimal import ROUND_DOWN, Decimal

from workbench.checks.finding import Finding, Remedy, SetPercent, Severity, Value, Working
from workbench.checks.limit_matching import atoms_of, is_law, jurisdictions_of
from workbench.checks.limit_remarks import Part, Remark, parts_of, remarks_of, settled
from workbench.checks.limit_sums import Survey, allowance, pots_of, survey
from workbench.checks.rules import LimitRow, Rules, Verdict
from workbench.checks.workings import limit_workings
from workbench.formula.compare import significant
from workbench.formula.composition import Composition
from workbench.formula.formula import Formula
from workbench.formula.scope import Scope
from workbench.formula.shelf import Shelf
from workbench.formula.totals import totals

PARTLY_COVERED = frozenset({"US"})
_STEPS = (Decimal("0.01"), Decimal("0.0001"))
_NAMES_SHOWN = 3
_REMEDIED = ("limit-over", "limit-over-advice", "limit-future")


def check_limits(
    formula: Formula, composition: Composition, shelf: Shelf, scope: Scope, rules: Rules
) -> tuple[Finding, ...]:
    """Return what a formula exceeds, or what the tables cannot settle, for each market.

    Notes
    -----
    Only law in force on the day of the scope gives a stop. A substance without any rule gives
    nothing, which is no permission.
    """
    remarks: list[Remark] = []
    for jurisdiction, found in _surveys(composition, scope, rules):
        remarks.extend(remarks_of(found, jurisdiction))
    contents = _Contents(formula, composition, shelf)
    findings = [_finding(remark, contents, scope.on) for remark in settled(remarks)]
    findings.extend(
        Finding("market-not-covered", Severity.NOTE, values=(("market", market),))
        for market in scope.markets
        if market in PARTLY_COVERED
    )
    return tuple(findings)


def legal_maxima(
    formula: Formula, composition: Composition, scope: Scope, rules: Rules
) -> Mapping[int, Decimal]:
    """Return the highest percent the law allows of each line it limits [% w/w as supplied].

    Notes
    -----
    All other lines are taken as they stand; 0 where a line may not be in the product at all.
    Four significant figures, as limits are compared. Lines without a legal limit are absent.
    """
    percents = totals(formula).percents
    maxima: dict[int, Decimal] = {}
    for _, found in _surveys(composition, scope, rules):
        for held in found.law:
            for line in {line for line, _, _ in held.amounts}:
                allowed = allowance(held, line, percents[line])
                maxima[line] = min(allowed, maxima.get(line, allowed))
        for spoken in found.spoken:
            if spoken.verdict is Verdict.BANNED:
                maxima.update({line: Decimal(0) for line, _ in parts_of(spoken)})
    return maxima


def _surveys(composition: Composition, scope: Scope, rules: Rules) -> Iterable[tuple[str, Survey]]:
    pots = pots_of(composition, rules)
    for jurisdiction in jurisdictions_of(scope.markets):
        for atom in atoms_of(scope):
            yield jurisdiction, survey(pots, atom, jurisdiction, scope, rules)


@dataclass(frozen=True, slots=True)
class _Contents:
    formula: Formula
    composition: Composition
    shelf: Shelf


def _finding(remark: Remark, contents: _Contents, on: date) -> Finding:
    held, row = remark.held, remark.row
    places = {line for line, _ in remark.parts}
    lines = tuple(line.id for line in contents.formula.lines() if line.id in places)
    value = held.value if held else _percent_of(remark.parts, contents.composition)
    return Finding(
        code=remark.code,
        severity=remark.severity,
        values=_values(remark, significant(value), contents.shelf, on),
        lines=lines,
        value=significant(value),
        limit=remark.limit,
        basis=row.basis,
        source=remark.source,
        confidence=remark.confidence,
        remedies=_remedies(remark, lines, contents.formula),
        workings=_workings(remark, contents),
    )


def _workings(remark: Remark, contents: _Contents) -> tuple[Working, ...]:
    if remark.held is None:
        return ()
    percents = totals(contents.formula).percents
    lines = {line.id: (line.ingredient, percents[line.id]) for line in contents.formula.lines()}
    return limit_workings(remark.held, lines, contents.composition, contents.shelf)


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
    )


def _names(remark: Remark, shelf: Shelf) -> Value:
    substances = dict.fromkeys(substance for _, substance in sorted(remark.parts))
    if len(substances) > _NAMES_SHOWN:
        return (remark.row.name,)
    return tuple(shelf.inci(substance) for substance in substances)


def _is_on_basis(row: LimitRow) -> bool:
    return row.basis.startswith("as ") and not row.basis.startswith("as itself")


def _percent_of(parts: frozenset[Part], composition: Composition) -> Decimal:
    shares = composition.shares
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
