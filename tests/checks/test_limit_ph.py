"""What law and advice ask of the pH of a product, held against an estimate or a target."""

from __future__ import annotations

from decimal import Decimal

import pytest

from tests.builders import make_formula, make_scope, make_shelf
from tests.checks.limits_asked import limits_of, seen_in
from workbench import paths
from workbench.checks.finding import Severity
from workbench.checks.limit_ph import limit_windows
from workbench.checks.ph_values import PhEstimate
from workbench.checks.ph_windows import LIMIT
from workbench.formula.absent import Absent
from workbench.storage.reference.limits import load_rules
from workbench.words.catalogue import load_words

RULES = load_rules(paths.resources() / "reference")
CAUSTIC = ("sodium_hydroxide", "0.2", "ph-adjuster-base")
UNKNOWN = Absent("absent-ph")
PEEL = ("glycolic_acid", "3", "exfoliant-aha")


def found(*lines, ph=None, estimate=UNKNOWN, **scope):
    ends = None if ph is None else (Decimal(ph[0]), Decimal(ph[1]))
    formula = make_formula(("water*", "0"), *lines, target_ph=ends)
    shelf = make_shelf(*(line[0] for line in lines))
    return limits_of(formula, shelf, make_scope(**scope), RULES, estimate)


def estimate(low: float, high: float, *, before: bool = False) -> PhEstimate:
    return PhEstimate(low, (low + high) / 2, high, 0.1, "fair", before_adjusting=before)


# Annex III entry 15a (Reg. (EU) 2016/622): as a pH adjuster for other uses, pH below 11.
@pytest.mark.parametrize(
    ("ph", "code", "severity"),
    [
        (("10", "10.9"), None, None),
        (("10", "11"), "limit-ph-perhaps", Severity.NOTE),
        (("11", "11"), "limit-ph", Severity.STOP),
        (("11.5", "12"), "limit-ph", Severity.STOP),
        (None, "limit-ph-unknown", Severity.NOTE),
    ],
)
def test_that_a_strict_ceiling_of_law_is_held_against_the_target(ph, code, severity):
    said = [(one.code, one.severity) for one in found(CAUSTIC, ph=ph)]
    assert said == ([(code, severity)] if code else [])


def test_that_an_estimate_is_taken_before_the_target_and_is_never_a_stop():
    [one] = found(CAUSTIC, ph=("5", "6"), estimate=estimate(11.5, 12.5))
    assert (one.code, one.severity) == ("limit-ph", Severity.CAUTION)
    assert found(CAUSTIC, ph=("11.5", "12"), estimate=estimate(7, 8)) == ()


def test_that_an_estimate_before_adjusting_says_nothing_of_the_product():
    assert found(CAUSTIC, ph=("5", "6"), estimate=estimate(11.5, 12.5, before=True)) == ()


def test_that_the_same_demand_in_two_markets_is_one_finding():
    [one] = found(CAUSTIC, markets=("EU", "UK"))
    assert one.values_of("authority") == ("EU", "UK")


def test_that_advice_on_ph_is_a_caution_and_says_so():
    # SCCNFP/0370/00: glycolic acid up to 4 % at pH 3.8 or higher (figures from memory).
    assert found(PEEL, ph=("3.8", "4")) == ()
    [one] = found(PEEL, ph=("3.2", "3.5"))
    assert (one.code, one.severity) == ("limit-ph", Severity.CAUTION)
    assert one.values_of("kind") == "advice"


def test_that_a_trace_of_acid_that_sets_the_ph_is_no_peel():
    # Advice of pH 5 with lactic acid is about leave-on exfoliants.
    assert found(("lactic_acid", "0.2", "ph-adjuster-acid"), ph=("4.5", "4.8")) == ()


def test_that_the_windows_of_law_and_advice_are_told_once_for_all_markets():
    formula = make_formula(("water*", "0"), CAUSTIC, PEEL)
    shelf = make_shelf("sodium_hydroxide", "glycolic_acid")
    windows = limit_windows(seen_in(formula, shelf, make_scope(markets=("EU", "UK")), RULES))
    spans = {(row.name, row.low, row.high): row.lines for row in windows}
    assert spans == {
        ("sodium_hydroxide", None, Decimal(11)): (2,),
        ("glycolic_acid", Decimal("3.8"), None): (3,),
    }
    assert all(row.kind == LIMIT and row.source for row in windows)


def test_that_every_finding_can_be_said():
    words = load_words(paths.resources() / "words")
    cases = (
        found(CAUSTIC), found(CAUSTIC, ph=("10", "12")), found(CAUSTIC, ph=("12", "12")),
        found(PEEL, ph=("3", "3")), found(CAUSTIC, estimate=estimate(12, 13)),
    )  # fmt: skip
    for one in (one for case in cases for one in case):
        said = words.say(one.code, **dict(one.values))
        said += words.say(f"{one.code}-detail", **dict(one.values))
        assert "  " not in said
