"""Check a formula against the limits of law and advice of its markets."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from decimal import ROUND_DOWN, Decimal

from workbench.checks.carried import carried
from workbench.checks.constituents import Inside, insides
from workbench.checks.finding import Finding, Remedy, SetPercent, Severity, Value, Working
from workbench.checks.limit_matching import atoms_of, is_law, jurisdictions_of
from workbench.checks.limit_ph import PH_CODES, KnownPh, known_ph, ph_remarks
from workbench.checks.limit_remarks import (
    Part,
    Remark,
    parts_of,
    remarks_of,
    settled,
    typical_remarks,
)
from workbench.checks.limit_sums import Pot, Survey, allowance, pots_of, survey
from workbench.checks.ph_values import PhEstimate
from workbench.checks.rules import LimitRow, Rules, Verdict
from workbench.checks.workings import limit_workings
from workbench.formula.absent import Absent
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
    formula: Formula,
    composition: Composition,
    shelf: Shelf,
    scope: Scope,
    rules: Rules,
    estimate: PhEstimate | Absent | None = None,
) -> tuple[Finding, ...]:
    """Return what a formula exceeds, or what the tables cannot settle, for each market.

    Notes
    -----
    Only law in force on the day of the scope gives a stop. A substance without any rule gives
    nothing, which is no permission. What a certificate lists inside a material counts as if it
    were weighed in; what is only typical of it is a caution at most.
    """
    inside = _inside(formula, shelf)
    ph = known_ph(formula, estimate)
    certified = tuple(each for each in inside if each.is_certified)
    sure = pots_of(composition, rules, certified)
    whole = pots_of(composition, rules, inside) if len(inside) > len(certified) else sure
    remarks: list[Remark] = []
    for jurisdiction, found in _surveys(sure, scope, rules):
        remarks.extend(remarks_of(found, jurisdiction))
        remarks.extend(ph_remarks(found, jurisdiction, ph, scope))
    if whole != sure:
        pairs = zip(_surveys(sure, scope, rules), _surveys(whole, scope, rules), strict=True)
        for (jurisdiction, known), (_, found) in pairs:
            remarks.extend(typical_remarks(known, found, jurisdiction, inside))
    contents = _Contents(formula, composition, shelf, inside, ph)
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
    for _, found in _surveys(pots_of(composition, rules), scope, rules):
        for held in found.law:
            for line in {line for line, _, _ in held.amounts}:
                allowed = allowance(held, line, percents[line])
                maxima[line] = min(allowed, maxima.get(line, allowed))
        for spoken in found.spoken:
            if spoken.verdict is Verdict.BANNED:
                maxima.update({line: Decimal(0) for line, _ in parts_of(spoken)})
    return maxima


def _inside(formula: Formula, shelf: Shelf) -> tuple[Inside, ...]:
    if not any(item.constituents for item in shelf.ingredients.values()):
        return ()
    return insides(carried(formula, shelf, totals(formula)))


def _surveys(pots: tuple[Pot, ...], scope: Scope, rules: Rules) -> Iterable[tuple[str, Survey]]:
    for jurisdiction in jurisdictions_of(scope.markets):
        for atom in atoms_of(scope):
            yield jurisdiction, survey(pots, atom, jurisdiction, scope, rules)


@dataclass(frozen=True, slots=True)
class _Contents:
    formula: Formula
    composition: Composition
    shelf: Shelf
    inside: tuple[Inside, ...]
    ph: KnownPh | None


def _finding(remark: Remark, contents: _Contents, on: date) -> Finding:
    held, row = remark.held, remark.row
    places = {line for line, _ in remark.parts}
    lines = tuple(line.id for line in contents.formula.lines() if line.id in places)
    value = held.value if held else _percent_of(remark.parts, contents)
    return Finding(
        code=remark.code,
        severity=remark.severity,
        values=(
            *_values(remark, significant(value), contents.shelf, on),
            *_ph_values(remark, contents.ph, on),
        ),
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
    shares = (*contents.composition.shares, *(each.share for each in contents.inside))
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
