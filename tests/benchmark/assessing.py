"""The whole assessment of 60 lines, chemistry included, over forty different edits."""

from __future__ import annotations

import time
from dataclasses import replace
from datetime import date
from decimal import Decimal

from tests.benchmark.editing import sixty_lines
from tests.benchmark.timing import Spread, spread
from workbench import paths
from workbench.checks.assess import assess
from workbench.formula.edits import with_percent
from workbench.formula.scope import scope_of
from workbench.storage.reference.shipped import Shipped

EDITS, ROUNDS = 40, 9


def assess_times() -> Spread:
    """Return the spread over the edits, of each its quickest round: what the work itself takes."""
    shipped = Shipped(paths.resources() / "reference")
    target = (Decimal("5.0"), Decimal("5.6"))
    formula = replace(sixty_lines(), target_ph=target, product_type="lotion")
    scope = scope_of(formula, date(2026, 11, 25))
    lines = [line.id for line in formula.lines() if line.percent is not None]
    edited = [
        with_percent(formula, lines[turn % len(lines)], Decimal(100 + turn % 7) / 100)
        for turn in range(EDITS)
    ]
    assess(formula, shipped.shelf, scope, shipped.rules)
    quickest = [float("inf")] * EDITS
    for _ in range(ROUNDS):
        for turn, each in enumerate(edited):
            begun = time.perf_counter()
            assess(each, shipped.shelf, scope, shipped.rules)
            quickest[turn] = min(quickest[turn], time.perf_counter() - begun)
    return spread(quickest)
