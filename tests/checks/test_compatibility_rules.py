"""Every shipped rule of the trade on its own two examples, and all of them together."""

from __future__ import annotations

import time
from collections import Counter
from datetime import date

import pytest

from tests.builders import make_formula
from workbench import paths
from workbench.checks.carried import carried
from workbench.checks.compatibility import check_compatibility
from workbench.checks.compatibility_examples import example_formula, speaks_on
from workbench.checks.compatibility_mixture import mixture_of
from workbench.checks.compatibility_values import CompatibilityRule
from workbench.checks.finding import Severity
from workbench.formula.scope import scope_of
from workbench.formula.totals import totals
from workbench.storage.reference.shipped import Shipped
from workbench.words.catalogue import load_words
from workbench.words.findings import detail, title

SHIPPED = Shipped(paths.resources() / "reference")
KNOWN = SHIPPED.rules.compatibility
WORDS = load_words(paths.resources() / "words")
TODAY = date(2026, 11, 25)
each_rule = pytest.mark.parametrize("rule", KNOWN.rules, ids=lambda rule: rule.key)


def found_in(formula):
    items = carried(formula, SHIPPED.shelf, totals(formula))
    mixture = mixture_of(formula, items, scope_of(formula, TODAY), KNOWN)
    return check_compatibility(formula, mixture, KNOWN)


@each_rule
def test_that_a_rule_speaks_on_the_one_example_and_not_on_the_other(rule: CompatibilityRule):
    assert speaks_on(rule, rule.fires, SHIPPED.ingredients)
    assert not speaks_on(rule, rule.quiet, SHIPPED.ingredients)


@each_rule
def test_that_the_index_wakes_a_rule_where_it_speaks(rule: CompatibilityRule):
    keys = [found.values_of("rule") for found in found_in(example_formula(rule.fires))]
    assert rule.key in keys


@each_rule
def test_that_a_rule_says_what_why_and_on_whose_word(rule: CompatibilityRule):
    [found] = [
        one for one in found_in(example_formula(rule.fires)) if one.values_of("rule") == rule.key
    ]
    assert title(found, SHIPPED.shelf, WORDS) == rule.message
    assert rule.why in detail(found, SHIPPED.shelf, WORDS)
    assert found.source
    assert found.confidence in {"read", "memory"}
    assert found.severity is not Severity.STOP


def test_that_the_rules_are_counted_by_topic():
    assert Counter(rule.topic for rule in KNOWN.rules) == {
        "preservation": 18,
        "charge": 12,
        "oxidation": 15,
        "emulsion": 6,
        "process": 14,
        "skin": 11,
        "surfactants": 6,
    }


@pytest.mark.parametrize(
    ("one", "other"),
    [
        # Pairs that look at the same fault from two sides: one finding for one fault.
        ("no-emulsifier", "partner-alone"),
        ("scent-floats", "no-emulsifier"),
        ("salt-thins-gel", "additive-thins-carbomer"),
        ("cationic-with-anionic", "cationic-with-anionic-gum"),
        ("clay-takes-preservative", "wet-clay"),
        ("cationic-biocide-bound", "cationic-biocide-clay"),
        ("micelles-hold-preservative", "paraben-in-micelles"),
        ("donor-consumed", "ascorbate-reduces"),
        ("iron-and-hydroxamate", "iron-discolours"),
        ("gas-in-pack", "little-gas"),
        ("bacteria-uncovered", "yeast-uncovered"),
        ("yeast-uncovered", "mould-uncovered"),
        ("phototoxic-sum", "essential-oil-over-leave-on"),
        ("not-for-infants", "essential-oil-for-infants"),
    ],
)
def test_that_one_fault_is_one_finding(one, other):
    rules = {rule.key: rule for rule in KNOWN.rules}
    for key in (one, other):
        said = {found.values_of("rule") for found in found_in(example_formula(rules[key].fires))}
        assert not {one, other} <= said


@pytest.mark.speed
def test_that_sixty_lines_take_less_than_one_and_a_half_milliseconds():
    keys = sorted(SHIPPED.ingredients)[::6][:59]
    formula = make_formula(("water*", "0"), *((key, "1") for key in keys))
    found_in(formula)
    times = []
    for _ in range(15):
        started = time.perf_counter()
        found_in(formula)
        times.append(time.perf_counter() - started)
    assert min(times) <= 0.0015
