"""What is known of each line: percents, grams, cost, how it can be weighed, what marks it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from decimal import Decimal

from workbench.checks.assessment import AssessedLine
from workbench.checks.finding import Finding, Severity
from workbench.checks.rules import Rules
from workbench.formula.absent import Absent
from workbench.formula.compare import falls_below
from workbench.formula.cost import Cost
from workbench.formula.formula import Formula
from workbench.formula.scale import column_grams, exact_grams
from workbench.formula.shelf import Shelf
from workbench.formula.totals import WHOLE, Totals
from workbench.formula.weighability import weighed


@dataclass(frozen=True, slots=True)
class Weighing:
    """Hold the grams of every line by its id [g]: exact, and as a column prints them."""

    exact: Mapping[int, Decimal]
    column: Mapping[int, Decimal]


def column_step(shelf: Shelf, rules: Rules) -> Decimal:
    """Return the readability a column of grams is printed to [g]: the finest balance's."""
    steps = [balance.readability for balance in shelf.balances]
    return min(steps, default=rules.figures["column_step_g"])


def weighing_of(
    formula: Formula, batch: Decimal | None, step: Decimal, at_maximum: frozenset[int]
) -> Weighing | None:
    """Return the grams of a batch [g], lines at a legal maximum rounded down; None without one."""
    if batch is None or batch <= 0:
        return None
    return Weighing(exact_grams(formula, batch), column_grams(formula, batch, step, at_maximum))


def lines_at_maximum(sums: Totals, maxima: Mapping[int, Decimal]) -> frozenset[int]:
    """Return the lines whose percent is not below what the law allows of them."""
    return frozenset(
        line for line, most in maxima.items() if not falls_below(sums.percents[line], most)
    )


def assessed_lines(
    formula: Formula,
    shelf: Shelf,
    sums: Totals,
    weighing: Weighing | None,
    priced: Cost | Absent,
    rules: Rules,
) -> tuple[AssessedLine, ...]:
    """Return what is known of every line, in the order of the sheet; nothing is marked yet."""
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


def marked(
    lines: tuple[AssessedLine, ...], findings: tuple[Finding, ...]
) -> tuple[AssessedLine, ...]:
    """Return the lines with the gravest open finding that concerns each."""
    worst: dict[int, Severity] = {}
    for found in findings:
        for line in () if found.accepted else found.lines:
            worst[line] = min(worst.get(line, found.severity), found.severity)
    return tuple(
        replace(line, severity=worst[line.line]) if line.line in worst else line for line in lines
    )
