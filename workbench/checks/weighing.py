"""Lines that no balance of the studio weighs well, and two ways out."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal

from workbench.checks.assessment import AssessedLine
from workbench.checks.finding import Finding, Severity, Value
from workbench.checks.rules import Rules
from workbench.formula.weighability import dilution, smallest_batch

FOLDS = ("dilution_fold_small", "dilution_fold_large")


def check_weighing(lines: Iterable[AssessedLine], rules: Rules) -> tuple[Finding, ...]:
    """Find lines below the least mass their balance weighs within the allowed error."""
    findings: list[Finding] = []
    for line in lines:
        weighed = line.weighability
        if weighed is None or weighed.is_well_weighed or line.percent <= 0:
            continue
        folds = tuple(int(rules.figures[key]) for key in FOLDS)
        fold = dilution(weighed.mass_g, weighed.least_g, folds)
        values: list[tuple[str, Value]] = [
            ("ingredient", line.ingredient),
            ("mass", weighed.mass_g.normalize()),
            ("error", weighed.error_percent.quantize(Decimal("0.1"))),
            ("balance", weighed.balance.name),
            ("least", weighed.least_g),
            (
                "batch",
                smallest_batch(
                    line.percent, weighed.least_g, rules.figures["friendly_batch_step_g"]
                ),
            ),
            ("can-dilute", "yes" if fold else "no"),
            ("strength", Decimal(100) / fold if fold else Decimal(0)),
            ("diluted", weighed.mass_g * fold if fold else Decimal(0)),
            (
                "diluted-error",
                (weighed.error_percent / fold).quantize(Decimal("0.01")) if fold else Decimal(0),
            ),
        ]
        findings.append(
            Finding(
                "weigh-coarse",
                Severity.CAUTION,
                values=tuple(values),
                lines=(line.line,),
                value=weighed.mass_g,
                limit=weighed.least_g,
                basis="gram",
                source="least weighable = readability / allowed error; USP 1176 as taught",
                confidence="memory",
            )
        )
    return tuple(findings)
