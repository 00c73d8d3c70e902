from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest

from tests.builders import make_formula
from workbench.checks.acceptance import acceptance_of, may_be_accepted, with_acceptances
from workbench.checks.assess import assess
from workbench.checks.finding import Severity
from workbench.formula.accepting import accepted, reopened
from workbench.formula.document import formula_data, formula_from_data
from workbench.formula.edits import with_percent
from workbench.formula.scope import scope_of
from workbench.paths import resources
from workbench.storage.reference.shipped import Shipped

SHIPPED = Shipped(resources() / "reference")


@pytest.fixture
def formula():
    return make_formula(
        ("water*", ""), ("niacinamide", "6"), ("benzyl_alcohol_dha", "1.4"), product_type="toner"
    )


def assessed(formula):
    return assess(formula, SHIPPED.shelf, scope_of(formula, date(2026, 11, 25)), SHIPPED.rules)


def of_niacinamide(formula):
    found = assessed(formula).findings
    return next(one for one in found if one.code == "use-over" and "niacinamide" in one.about)


def test_that_an_accepted_caution_keeps_its_reason_and_stands_last(formula):
    word = acceptance_of(of_niacinamide(formula), "tried at 6 % on myself")
    after = assessed(accepted(formula, word))
    assert [found.about for found in after.accepted] == [("niacinamide",)]
    assert after.findings[-1].accepted == "tried at 6 % on myself"
    before = assessed(formula)
    assert after.count(Severity.CAUTION) == before.count(Severity.CAUTION) - 1
    assert len(after.findings) == len(before.findings)


def test_that_another_figure_opens_an_accepted_caution_again(formula):
    taken = accepted(formula, acceptance_of(of_niacinamide(formula), "tried"))
    higher = with_percent(taken, taken.phases[0].lines[1].id, Decimal(8))
    assert not of_niacinamide(higher).accepted
    back = with_percent(higher, higher.phases[0].lines[1].id, Decimal("6.0"))
    assert of_niacinamide(back).accepted


def test_that_an_acceptance_can_be_taken_back(formula):
    found = of_niacinamide(formula)
    taken = accepted(formula, acceptance_of(found, "tried"))
    assert reopened(taken, found.code, found.about) == formula


def test_that_a_stop_cannot_be_accepted(formula):
    stop = next(one for one in assessed(formula).findings if one.severity is Severity.STOP)
    assert not may_be_accepted(stop)
    forced = accepted(formula, acceptance_of(stop, "never mind"))
    assert not assessed(forced).accepted


def test_that_a_second_word_on_the_same_finding_replaces_the_first(formula):
    found = of_niacinamide(formula)
    once = accepted(formula, acceptance_of(found, "first"))
    twice = accepted(once, acceptance_of(found, "second"))
    assert [one.reason for one in twice.accepted] == ["second"]


def test_that_acceptances_go_with_the_document(formula):
    taken = accepted(formula, acceptance_of(of_niacinamide(formula), "tried, see note 4"))
    assert formula_from_data(formula_data(taken)).accepted == taken.accepted


def test_that_the_workings_add_up_to_the_figure(formula):
    stop = next(one for one in assessed(formula).findings if one.severity is Severity.STOP)
    *parts, total = stop.workings
    # 87 % benzyl alcohol in the blend as supplied: 1.40 % x 0.87 = 1.218 %
    assert [dict(part.values)["amount"] for part in parts] == [Decimal("1.218")]
    assert dict(total.values)["value"] == stop.value


def test_that_findings_of_no_line_are_about_nothing(formula):
    short = make_formula(("water", "90"), ("glycerin", "5"))
    (found,) = with_acceptances(
        [one for one in assessed(short).findings if one.code == "total-short"], short
    )
    assert found.about == ()
