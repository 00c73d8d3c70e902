"""The limits asked of a formula in one go, for tests of what they say."""

from __future__ import annotations

from workbench.checks.finding import Finding
from workbench.checks.limit_survey import Surveyed, surveyed
from workbench.checks.limits import check_limits
from workbench.checks.opened import opened
from workbench.checks.ph_values import PhEstimate
from workbench.checks.rules import Rules
from workbench.formula.absent import Absent
from workbench.formula.formula import Formula
from workbench.formula.scope import Scope
from workbench.formula.shelf import Shelf


def seen_in(formula: Formula, shelf: Shelf, scope: Scope, rules: Rules) -> Surveyed:
    """Return what the rows say of a formula."""
    known = opened(formula, shelf)
    return surveyed(known.parts, known.items, scope, rules)


def limits_of(
    formula: Formula,
    shelf: Shelf,
    scope: Scope,
    rules: Rules,
    estimate: PhEstimate | Absent | None = None,
) -> tuple[Finding, ...]:
    """Return what the limits say of a formula."""
    known = opened(formula, shelf)
    seen = surveyed(known.parts, known.items, scope, rules)
    return check_limits(known, scope, seen, estimate)
