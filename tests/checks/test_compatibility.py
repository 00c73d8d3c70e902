"""How a rule of the trade is judged: pH ranges, stocks, lines, remedies, own rules."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from tests.builders import make_formula, make_ingredient, make_scope, make_shelf
from workbench.checks.carried import carried
from workbench.checks.compatibility import check_compatibility
from workbench.checks.compatibility_index import compatibility_of, with_rules
from workbench.checks.compatibility_language import read_condition
from workbench.checks.compatibility_mixture import mixture_of
from workbench.checks.compatibility_values import Addition, CompatibilityRule, Example
from workbench.checks.finding import Severity
from workbench.checks.ph_values import PhEstimate
from workbench.formula.formula import Line, Phase, Step
from workbench.formula.totals import totals

NOTHING = Example({})
SALT = make_ingredient("salt", functions=("electrolyte",), tags=("iron-source",))
GEL = make_ingredient("gel", functions=("thickener-polymer",), incompatibilities=("iron",))


def make_rule(text: str, **changes) -> CompatibilityRule:
    values = {
        "key": "gel-and-salt", "topic": "charge", "severity": Severity.CAUTION, "message": "Thin.",
        "why": "Ions.", "source": "bench", "confidence": "memory", "fires": NOTHING,
        "quiet": NOTHING,
    }  # fmt: skip
    return CompatibilityRule(text=text, when=read_condition(text, {}), **{**values, **changes})


def items_of(formula, shelf):
    return carried(formula, shelf, totals(formula))


def found(formula, *rules, items=(SALT, GEL), estimate=None, stocks=None, **scope):
    known = compatibility_of(rules)
    shelf = make_shelf(*items, stocks=stocks)
    mixture = mixture_of(formula, items_of(formula, shelf), make_scope(**scope), known, estimate)
    return check_compatibility(formula, mixture, known)


def estimate(low: float, high: float, *, before: bool = False) -> PhEstimate:
    return PhEstimate(low, (low + high) / 2, high, 0.1, "fair", before_adjusting=before)


ACID = make_rule("has [function thickener-polymer] and ph < 5")
BOTH = make_rule("has [function thickener-polymer] and has [function electrolyte]")


def test_that_lines_of_both_sides_are_marked():
    [one] = found(make_formula(("water*", "0"), ("gel", "1"), ("salt", "2")), BOTH)
    assert one.lines == (2, 3)


def test_that_a_line_of_nothing_is_not_there():
    assert found(make_formula(("water*", "0"), ("gel", "1"), ("salt", "0")), BOTH) == ()


def test_that_an_ingredient_counts_through_a_stock():
    stock = make_formula(("water", "90"), ("gel", "10"), product_type="stock")
    formula = make_formula(("water*", "0"), ("gel_stock", "10"), ("salt", "2"))
    [one] = found(formula, BOTH, stocks={"gel_stock": stock})
    assert one.lines == (2, 3)
    level = make_rule("total [function thickener-polymer] >= 1")
    assert found(formula, level, stocks={"gel_stock": stock})
    more = make_rule("total [function thickener-polymer] > 1")
    assert found(formula, more, stocks={"gel_stock": stock}) == ()


def test_that_nothing_is_said_of_a_stock_alone():
    formula = make_formula(("gel", "50"), ("salt", "50"))
    assert found(formula, BOTH, product_type="stock") == ()


@pytest.mark.parametrize(
    ("target", "severity"),
    [
        (("3", "4"), Severity.CAUTION),
        (("4.9", "4.9"), Severity.CAUTION),
        (("4.5", "5.5"), Severity.NOTE),
        (("5", "6"), None),
    ],
)
def test_that_only_a_whole_range_is_certain(target, severity):
    ends = (Decimal(target[0]), Decimal(target[1]))
    said = found(make_formula(("water*", "0"), ("gel", "1"), target_ph=ends), ACID)
    assert [one.severity for one in said] == ([severity] if severity is not None else [])


def test_that_a_note_is_silent_where_only_part_of_the_range_agrees():
    quiet = make_rule(ACID.text, severity=Severity.NOTE)
    ends = (Decimal("4.5"), Decimal("5.5"))
    assert found(make_formula(("water*", "0"), ("gel", "1"), target_ph=ends), quiet) == ()


def test_that_an_estimate_is_taken_where_there_is_no_target():
    formula = make_formula(("water*", "0"), ("gel", "1"))
    assert found(formula, ACID) == ()
    assert found(formula, ACID, estimate=estimate(3, 4))
    assert found(formula, ACID, estimate=estimate(3, 4, before=True)) == ()


def test_that_a_remedy_needs_a_line_that_takes_the_rest():
    rule = make_rule(BOTH.text, remedy=Addition("edta", Decimal("0.1")))
    [one] = found(make_formula(("water*", "0"), ("gel", "1"), ("salt", "2")), rule)
    mended = one.remedies[0].action.applied(make_formula(("water*", "0"), ("gel", "1")))
    assert [line.ingredient for line in mended.lines()] == ["water", "gel", "edta"]
    [one] = found(make_formula(("water", "97"), ("gel", "1"), ("salt", "2")), rule)
    assert one.remedies == ()


def test_that_heat_is_that_of_the_phase_it_stands_in():
    enzyme = make_ingredient("enzyme", is_heat_sensitive=True, max_process_temp_c=Decimal(40))
    rule = make_rule("too-hot [is heat-sensitive]")
    hot = Phase(1, "A", steps=(Step("", target_c=Decimal(75)),), lines=(Line(1, "water", None),))
    cool = Phase(2, "B", steps=(Step("", target_c=Decimal(40)),))
    line = (Line(2, "enzyme", Decimal(1)),)
    base = make_formula(("water*", "0"))
    inside = replace(base, phases=(replace(hot, lines=(*hot.lines, *line)), cool))
    after = replace(base, phases=(hot, replace(cool, lines=line)))
    assert found(inside, rule, items=(enzyme,))
    assert found(after, rule, items=(enzyme,)) == ()


def test_that_the_makers_rules_come_after_the_shipped_ones():
    own = make_rule("has [function electrolyte]", key="mine", is_own=True)
    known = with_rules(compatibility_of((BOTH,)), (own,))
    assert [rule.key for rule in known.rules] == ["gel-and-salt", "mine"]
    formula = make_formula(("water*", "0"), ("salt", "2"))
    shelf = make_shelf(SALT, GEL)
    mixture = mixture_of(formula, items_of(formula, shelf), make_scope(), known)
    [one] = check_compatibility(formula, mixture, known)
    assert one.values_of("whose") == "own"


def test_that_a_copy_of_an_ingredient_is_meant_too():
    rule = make_rule("has [key gel]")
    copy = make_ingredient("my_gel", based_on="gel")
    assert found(make_formula(("water*", "0"), ("my_gel", "1")), rule, items=(copy,))
