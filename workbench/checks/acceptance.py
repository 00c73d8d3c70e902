"""Which findings the maker has accepted, and which of those are open again."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from workbench.checks.finding import Finding, Severity
from workbench.formula.acceptance import Acceptance
from workbench.formula.formula import Formula


def may_be_accepted(found: Finding) -> bool:
    """Tell whether a reason is enough to put a finding aside; a stop stays in view."""
    return found.severity is not Severity.STOP


def acceptance_of(found: Finding, reason: str) -> Acceptance:
    """Return the word that accepts a finding as it stands."""
    return Acceptance(found.code, found.about, _value(found), reason)


def with_acceptances(findings: Iterable[Finding], formula: Formula) -> list[Finding]:
    """Return the findings with what they are about, and the reason where one is accepted.

    Notes
    -----
    An acceptance holds for the figure it was given for: 6 % accepted is not 8 % accepted.
    """
    ingredients = {line.id: line.ingredient for line in formula.lines()}
    given = {(*one.subject, one.value): one.reason for one in formula.accepted}
    return [_marked(found, ingredients, given) for found in findings]


def _marked(
    found: Finding,
    ingredients: dict[int, str],
    given: dict[tuple[str, tuple[str, ...], str], str],
) -> Finding:
    keys = {ingredients[line] for line in found.lines if line in ingredients}
    named = (found.values_of(name) for name in ("substance", "rule"))
    keys.update(key for key in named if isinstance(key, str) and key)
    about = tuple(sorted(keys))
    reason = given.get((found.code, about, _value(found)), "") if may_be_accepted(found) else ""
    return replace(found, about=about, accepted=reason)


def _value(found: Finding) -> str:
    return "" if found.value is None else str(found.value.normalize())
