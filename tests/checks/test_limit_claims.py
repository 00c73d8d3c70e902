"""Rows of law that a claim brings in, each held just under, at and just over its maximum."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from tests.checks.test_limit_rows import CASES, PLACED, products_for, role_for
from workbench import paths
from workbench.checks.limit_matching import judge, judged
from workbench.checks.limit_sums import Pot, survey
from workbench.checks.rules import Atom, Authority, LimitRow
from workbench.storage.reference.limits import load_rules, read_limit_rows

FOLDER = paths.resources() / "reference"
RULES = load_rules(FOLDER)
TRIED = {case.row.index for case in CASES}
LEFT = [
    row
    for row in read_limit_rows(FOLDER)
    if row.authority is Authority.LAW and row.maximum and row.index not in TRIED
]
CLAIMED = [row for row in LEFT if any(factor is not None for factor in row.factors.values())]


def case_of(row: LimitRow) -> tuple[str, Decimal, Atom]:
    role = role_for(row)
    claims = row.main.allowed.get("claim", frozenset())
    for substance, factor in row.factors.items():
        others = tuple(
            other
            for other in RULES.limits_by_substance[substance]
            if other.jurisdiction == row.jurisdiction
        )
        for product in products_for(row):
            atom = replace(product, claims=claims)
            won = judge(others, substance, role, atom, PLACED).law
            if factor is not None and row.index in {one.index for one in won}:
                return substance, factor, atom
    pytest.fail(f"row {row.index} of {row.substance} never wins")


def is_over(row: LimitRow, content: Decimal) -> bool:
    substance, factor, atom = case_of(row)
    pot = Pot(substance, role_for(row), ((1, content / factor),))
    said = judged(substance, pot.role, atom, PLACED, RULES)
    found = [(pot, each) for each in said if each.jurisdiction == row.jurisdiction]
    held = survey((pot,), found, atom).law
    return any(each.is_over for each in held if each.row.index == row.index and not each.group)


def test_that_every_other_row_with_a_figure_is_the_suppliers_to_convert():
    rest = [row for row in LEFT if row not in CLAIMED]
    assert all(set(row.factors.values()) == {None} for row in rest)
    assert len(TRIED) + len(CLAIMED) + len(rest) == 325


@pytest.mark.parametrize("row", CLAIMED, ids=lambda row: f"{row.index}-{row.substance}")
def test_that_a_row_a_claim_brings_in_allows_its_maximum_and_no_more(row):
    assert not is_over(row, row.maximum * Decimal("0.999"))
    assert not is_over(row, row.maximum)
    assert is_over(row, row.maximum * Decimal("1.001"))
