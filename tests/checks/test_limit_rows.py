"""Every row of law by generated products, and which kinds of row can become a stop."""

from __future__ import annotations

import time
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from itertools import product

import pytest

from tests.builders import make_formula, make_scope, make_shelf
from tests.checks.limits_asked import limits_of, seen_in
from workbench import paths
from workbench.checks.finding import Finding, Severity
from workbench.checks.limit_matching import judge
from workbench.checks.limit_survey import surveyed
from workbench.checks.limits import check_limits, legal_maxima
from workbench.checks.opened import opened
from workbench.checks.rules import Atom, Authority, LimitRow, Rules
from workbench.formula.scope import Scope
from workbench.formula.totals import totals
from workbench.storage.reference.limits import load_rules, read_limit_rows

FOLDER = paths.resources() / "reference"
RULES = load_rules(FOLDER)
ROWS = read_limit_rows(FOLDER)
PLACED = date(2026, 11, 25)
MARKETS = {"EU": "EU", "UK": "UK", "US-guidance": "US", "CIR": "US"}
PURPOSES = {"ph-adjuster": "buffer"}
USUAL = {
    "exposure": ("leave-on", "rinse-off"),
    "area": ("face", "body", "hand", "hair", "eye"),
    "users": ("adult", "infant-0"),
    "form": ("usual", "spray", "aerosol"),
    "product_class": ("cream", "lotion", "cleanser", "other"),
}


@dataclass(frozen=True)
class Case:
    row: LimitRow
    substance: str
    factor: Decimal
    role: str
    atom: Atom


def role_for(row: LimitRow) -> str:
    roles = row.main.allowed.get("ingredient_role", frozenset({"other"}))
    return "other" if "not-preservative" in roles else min(roles)


def products_for(row: LimitRow) -> list[Atom]:
    choices = [sorted(row.main.allowed.get(field, ())) or usual for field, usual in USUAL.items()]
    return [Atom(*values) for values in product(*choices)]


def case_of(row: LimitRow) -> Case | None:
    """Find a product without claims in which the row wins, and the strictest thing it covers."""
    role = role_for(row)
    for substance, factor in row.factors.items():
        if factor is None or substance in row.possible:
            continue
        rows = tuple(
            other
            for other in RULES.limits_by_substance[substance]
            if other.jurisdiction == row.jurisdiction
        )
        for atom in products_for(row):
            if row.index in {won.index for won in judge(rows, substance, role, atom, PLACED).law}:
                return Case(row, substance, factor, role, atom)
    return None


CASES = [
    case
    for row in ROWS
    if row.authority is Authority.LAW and row.maximum and (case := case_of(row)) is not None
]
STRICT = [case for case in CASES if case.row.is_strict]
PLAIN = [case for case in CASES if not case.row.is_strict]


def scope_of(case: Case) -> Scope:
    atom = case.atom
    return make_scope(
        markets=(MARKETS[case.row.jurisdiction],),
        exposure=atom.exposure,
        area=atom.area,
        users=atom.users,
        form=atom.form,
        product_type=atom.product_class,
        on=PLACED,
    )


def over_in(case: Case, content: Decimal) -> list[Finding]:
    purpose = PURPOSES.get(case.role, case.role)
    percent = str(content / case.factor)
    formula = make_formula(("water*", "0"), (case.substance, percent, purpose))
    shelf = make_shelf(case.substance)
    findings = limits_of(formula, shelf, scope_of(case), RULES)
    return [
        finding
        for finding in findings
        if finding.code == "limit-over" and finding.limit == case.row.maximum
    ]


def test_that_nearly_every_row_of_law_with_a_figure_is_tried():
    with_figure = [row for row in ROWS if row.authority is Authority.LAW and row.maximum]
    left_out = [row for row in with_figure if row.index not in {case.row.index for case in CASES}]
    # Rows that only a claim brings in, and those whose factor the supplier must give.
    assert all("claim" in row.main.allowed or None in row.factors.values() for row in left_out), (
        left_out
    )
    assert len(CASES) >= 200


@pytest.mark.parametrize("case", PLAIN, ids=lambda case: f"{case.row.index}-{case.row.substance}")
def test_that_a_row_allows_its_maximum_and_no_more(case):
    maximum = case.row.maximum
    assert over_in(case, maximum * Decimal("0.999")) == []
    assert over_in(case, maximum) == []
    [over] = over_in(case, maximum * Decimal("1.001"))
    assert over.severity is Severity.STOP


@pytest.mark.parametrize("case", STRICT, ids=lambda case: f"{case.row.index}-{case.row.substance}")
def test_that_a_row_that_must_stay_below_refuses_its_maximum(case):
    assert over_in(case, case.row.maximum * Decimal("0.999")) == []
    assert len(over_in(case, case.row.maximum)) == 1


def only(row: LimitRow) -> Rules:
    return replace(RULES, limits_by_substance=dict.fromkeys(row.factors, (row,)), judged={})


def is_law_by_the_table(row: LimitRow) -> bool:
    is_due = row.effective_from is not None and row.effective_from <= PLACED
    kinds = (Authority.LAW, Authority.LAW_BY_CLAIM)
    return row.authority in kinds or (row.authority is Authority.FUTURE_LAW and is_due)


def test_that_only_law_in_force_can_stop():
    # Every row alone, half the product its substance, in products it means and products it does
    # not: only the status column of the table may decide.
    stopped: set[Authority] = set()
    for row in ROWS:
        for finding in everything_said_of(row):
            if finding.severity is Severity.STOP:
                assert is_law_by_the_table(row), row.index
                stopped.add(row.authority)
    assert stopped == {Authority.LAW}


def everything_said_of(row: LimitRow) -> list[Finding]:
    rules = only(row)
    found: list[Finding] = []
    for substance in list(row.factors)[:3]:
        formula = make_formula(("water*", "0"), (substance, "50", PURPOSES.get(role_for(row), "")))
        shelf = make_shelf(substance)
        for exposure, form, users in product(
            ("leave-on", "rinse-off"), ("usual", "aerosol"), ("adult", "under-3")
        ):
            scope = make_scope(
                markets=("EU", "UK", "US"), exposure=exposure, form=form, users=users, on=PLACED
            )
            found.extend(limits_of(formula, shelf, scope, rules))
    return found


def test_that_unclear_coverage_never_stops():
    for row in ROWS:
        for substance in row.possible:
            formula = make_formula(("water*", "0"), (substance, "50"))
            shelf = make_shelf(substance)
            scope = make_scope(on=date(2040, 1, 1), product_type="deodorant", form="aerosol")
            found = limits_of(formula, shelf, scope, only(row))
            assert all(finding.severity is Severity.NOTE for finding in found), row.index


def test_that_the_legal_maximum_is_not_over_and_a_step_more_is():
    for case in CASES[:60]:
        purpose = PURPOSES.get(case.role, case.role)
        formula = make_formula(("water*", "0"), (case.substance, "0.001", purpose))
        shelf = make_shelf(case.substance)
        most = legal_maxima(totals(formula), seen_in(formula, shelf, scope_of(case), RULES))[2]
        assert stops_at(case, most) == 0, case.row.index
        assert stops_at(case, most * Decimal("1.002")) > 0, case.row.index


def stops_at(case: Case, percent: Decimal) -> int:
    purpose = PURPOSES.get(case.role, case.role)
    formula = make_formula(("water*", "0"), (case.substance, str(percent), purpose))
    shelf = make_shelf(case.substance)
    findings = limits_of(formula, shelf, scope_of(case), RULES)
    return sum(finding.severity is Severity.STOP for finding in findings)


@pytest.mark.speed
def test_that_sixty_lines_take_less_than_three_milliseconds():
    substances = sorted(RULES.limits_by_substance)[:59]
    lines = [(substance, "0.5") for substance in substances]
    formula = make_formula(("water*", "0"), *lines)
    shelf = make_shelf(*substances)
    scope = make_scope(markets=("EU", "UK"))
    known = opened(formula, shelf)
    times = []
    for _ in range(15):
        started = time.perf_counter()
        check_limits(known, scope, surveyed(known.parts, known.items, scope, RULES))
        times.append(time.perf_counter() - started)
    assert min(times) <= 0.003
