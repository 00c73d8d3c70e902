"""The one pure call behind every panel, document and command."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from decimal import Decimal

from workbench.checks.acceptance import with_acceptances
from workbench.checks.assessment import AssessedLine, Assessment
from workbench.checks.basics import check_known, check_listed, check_total, check_use_levels
from workbench.checks.figures import figures_of
from workbench.checks.finding import Finding, Severity, in_order
from workbench.checks.limits import check_limits, legal_maxima
from workbench.checks.ph_windows import PhWindows
from workbench.checks.preservation import check_preservative_ph, check_preserved
from workbench.checks.rules import Rules
from workbench.checks.weighing import check_weighing
from workbench.formula.absent import Absent
from workbench.formula.compare import falls_below
from workbench.formula.composition import Composition, composition
from workbench.formula.cost import Cost, cost
from workbench.formula.formula import Formula
from workbench.formula.scale import batch_mass, column_grams, exact_grams
from workbench.formula.scope import Scope
from workbench.formula.shelf import Shelf
from workbench.formula.totals import WHOLE, Totals, totals
from workbench.formula.weighability import weighed

NO_PH = Absent("absent-ph")


def assess(formula: Formula, shelf: Shelf, scope: Scope, rules: Rules) -> Assessment:
    """Compute everything about a formula: totals, grams, composition, findings, figures.

    Notes
    -----
    Pure and quick enough to run on every change. A stock is no finished product, so limits
    that law puts on products are not held against it.
    """
    sums = totals(formula)
    parts = composition(formula, shelf)
    batch = batch_mass(formula.plan)
    priced = _priced(formula, shelf, batch)
    at_maximum = _at_maximum(formula, sums, parts, scope, rules)
    weighing = _weighing(formula, shelf, batch, rules, at_maximum)
    lines = _lines(formula, shelf, sums, weighing, priced, rules)
    is_product = formula.product_type != "stock"
    found = with_acceptances(
        [
            *check_total(formula, sums),
            *check_known(formula, shelf),
            *check_listed(parts, shelf),
            *check_use_levels(formula, shelf, sums),
            *(check_limits(formula, parts, shelf, scope, rules) if is_product else ()),
            *check_preserved(formula, parts, shelf, rules),
            *check_preservative_ph(formula, shelf),
            *check_weighing(lines, rules),
        ],
        formula,
    )
    findings = in_order(found)
    return Assessment(
        totals=sums,
        batch_g=batch,
        lines=_marked(lines, findings),
        composition=parts,
        findings=findings,
        figures=figures_of(formula, sums, parts, shelf, rules, priced),
        cost=priced,
        ph=NO_PH,
        ph_windows=PhWindows(),
        adjusters=NO_PH,
        preservatives=Absent("absent-preservatives"),
    )


@dataclass(frozen=True, slots=True)
class _Weighing:
    exact: Mapping[int, Decimal]
    column: Mapping[int, Decimal]


def column_step(shelf: Shelf, rules: Rules) -> Decimal:
    """Return the readability a column of grams is printed to [g]: the finest balance's."""
    steps = [balance.readability for balance in shelf.balances]
    return min(steps, default=rules.figures["column_step_g"])


def _priced(formula: Formula, shelf: Shelf, batch: Decimal | None) -> Cost | Absent:
    if batch is None:
        return Absent("absent-no-batch")
    return cost(formula, shelf, batch) or Absent("absent-no-price")


def _at_maximum(
    formula: Formula, sums: Totals, parts: Composition, scope: Scope, rules: Rules
) -> frozenset[int]:
    if formula.product_type == "stock":
        return frozenset()
    maxima = legal_maxima(formula, parts, scope, rules)
    return frozenset(
        line for line, most in maxima.items() if not falls_below(sums.percents[line], most)
    )


def _weighing(
    formula: Formula,
    shelf: Shelf,
    batch: Decimal | None,
    rules: Rules,
    at_maximum: frozenset[int],
) -> _Weighing | None:
    if batch is None or batch <= 0:
        return None
    return _Weighing(
        exact_grams(formula, batch),
        column_grams(formula, batch, column_step(shelf, rules), at_maximum),
    )


def _lines(
    formula: Formula,
    shelf: Shelf,
    sums: Totals,
    weighing: _Weighing | None,
    priced: Cost | Absent,
    rules: Rules,
) -> tuple[AssessedLine, ...]:
    costs = {} if isinstance(priced, Absent) else priced.lines
    assessed: list[AssessedLine] = []
    for phase in formula.phases:
        for line in phase.lines:
            percent = sums.percents[line.id]
            mass = weighing.exact[line.id] if weighing else None
            assessed.append(
                AssessedLine(
                    line=line.id,
                    ingredient=line.ingredient,
                    phase=phase.id,
                    percent=percent,
                    pure_percent=percent * shelf.strength(line.ingredient) / WHOLE,
                    mass_g=mass,
                    column_g=weighing.column[line.id] if weighing else None,
                    cost=costs.get(line.id),
                    weighability=None
                    if mass is None
                    else weighed(mass, shelf.balances, rules.weighing),
                    severity=None,
                )
            )
    return tuple(assessed)


def _marked(
    lines: tuple[AssessedLine, ...], findings: tuple[Finding, ...]
) -> tuple[AssessedLine, ...]:
    worst: dict[int, Severity] = {}
    for found in findings:
        for line in () if found.accepted else found.lines:
            worst[line] = min(worst.get(line, found.severity), found.severity)
    return tuple(
        replace(line, severity=worst[line.line]) if line.line in worst else line for line in lines
    )
