"""Ordinary published formulas: no stop, and few findings. Sources stand in the file."""

from __future__ import annotations

import json
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest

from workbench import paths
from workbench.checks.assess import assess
from workbench.checks.finding import Severity
from workbench.formula.formula import Formula, Line, Phase
from workbench.formula.scope import scope_of
from workbench.storage.reference.shipped import Shipped

FILE = Path(__file__).parents[1] / "truth" / "published_formulas.json"
PUBLISHED = json.loads(FILE.read_text(encoding="utf-8"))
SHIPPED = Shipped(paths.resources() / "reference")
MOST = 6


def formula_of(published) -> Formula:
    lines = [
        Line(number, key, Decimal(percent))
        for number, (key, percent) in enumerate(published["lines"].items(), start=1)
    ]
    if sum(line.percent or Decimal(0) for line in lines) < 100:
        lines.append(Line(len(lines) + 1, "water", None))
    return Formula(
        published["name"],
        (Phase(1, "A", lines=tuple(lines)),),
        product_type=published["product_type"],
        exposure=published["exposure"],
        area=published["area"],
        markets=("EU", "UK"),
    )


def test_that_at_least_ten_formulas_are_read_and_each_names_its_source():
    assert len(PUBLISHED) >= 10
    assert all(len(published["source"]) > 40 for published in PUBLISHED)


@pytest.mark.parametrize("published", PUBLISHED, ids=lambda published: published["name"])
def test_that_an_ordinary_formula_has_no_stop_and_few_findings(published):
    formula = formula_of(published)
    scope = scope_of(formula, date(2026, 11, 25))
    found = assess(formula, SHIPPED.shelf, scope, SHIPPED.rules).findings
    assert [one.code for one in found if one.severity is Severity.STOP] == []
    assert len(found) <= MOST, [one.code for one in found]
