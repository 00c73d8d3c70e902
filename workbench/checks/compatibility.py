"""Check a formula against the rules of the trade."""

from __future__ import annotations

from dataclasses import replace

from workbench.checks.compatibility_index import with_rules
from workbench.checks.compatibility_mixture import Mixture
from workbench.checks.compatibility_truth import Truth, concerned, holds
from workbench.checks.compatibility_values import Compatibility, CompatibilityRule
from workbench.checks.finding import AddLine, Finding, Remedy, Severity
from workbench.checks.rules import Rules
from workbench.formula.formula import Formula


def check_compatibility(
    formula: Formula, mixture: Mixture, known: Compatibility
) -> tuple[Finding, ...]:
    """Find what the rules of the trade say of a formula.

    Notes
    -----
    Where a rule holds over part of the pH range only, a caution becomes a note and a note is
    not made. A stock is judged in what it is used for, so nothing is said of one alone.
    """
    if mixture.product["product"] == "stock":
        return ()
    findings: list[Finding] = []
    for rule, needs in zip(known.rules, known.needs, strict=True):
        if needs is not None and needs.isdisjoint(mixture.meant):
            continue
        truth = holds(rule.when, mixture)
        if truth is Truth.YES or (truth is Truth.PERHAPS and rule.severity is Severity.CAUTION):
            findings.append(_finding(rule, truth, formula, mixture))
    return tuple(findings)


def with_own_rules(rules: Rules, own: tuple[CompatibilityRule, ...]) -> Rules:
    """Return the rules with these of the maker after the shipped ones, and no others of theirs."""
    known = rules.compatibility
    shipped = tuple(rule for rule in known.rules if not rule.is_own)
    if not own and len(shipped) == len(known.rules):
        return rules
    return replace(rules, compatibility=with_rules(replace(known, rules=shipped), own))


def _finding(rule: CompatibilityRule, truth: Truth, formula: Formula, mixture: Mixture) -> Finding:
    places = concerned(rule.when, mixture)
    lines = tuple(line.id for line in formula.lines() if line.id in places)
    return Finding(
        code="compatibility",
        severity=rule.severity if truth is Truth.YES else Severity.NOTE,
        values=(
            ("rule", rule.key),
            ("message", rule.message),
            ("why", rule.why),
            ("sure", "yes" if truth is Truth.YES else "perhaps"),
            ("whose", "own" if rule.is_own else "shipped"),
        ),
        lines=lines,
        basis="rule",
        source=rule.source,
        confidence=rule.confidence,
        remedies=_remedies(rule, lines, formula),
    )


def _remedies(
    rule: CompatibilityRule, lines: tuple[int, ...], formula: Formula
) -> tuple[Remedy, ...]:
    # Without a line that takes the rest, an addition would only break the total.
    add = rule.remedy
    if add is None or formula.rest_line is None:
        return ()
    phase = formula.phase_of(lines[0]) if lines else formula.phases[-1]
    values = (("ingredient", add.ingredient), ("percent", add.percent))
    action = AddLine(add.ingredient, add.percent, phase.id)
    return (Remedy("remedy-add-line", values, action),)
