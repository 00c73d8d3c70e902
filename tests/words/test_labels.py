"""Every code of labels, warnings, microbial risk and what was checked has its sentence."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from tests.builders import make_formula, make_scope
from workbench import paths
from workbench.checks.carried import carried
from workbench.checks.checked import CAUTIONS, GAPS, Done, checked
from workbench.checks.label_rules import RISK_KEYS
from workbench.checks.label_values import (
    LabelNote,
    LabelWarning,
    MicroRisk,
    RiskPoint,
    WarningKind,
)
from workbench.checks.labelled import Labelled, label_facts, labelled
from workbench.checks.micro_risk import CRITERION_MET, NEEDED, NOT_JUDGED
from workbench.checks.rules import Authority
from workbench.formula.composition import composition
from workbench.formula.totals import totals
from workbench.storage.reference.shipped import Shipped
from workbench.words.catalogue import load_words
from workbench.words.labels import (
    LabelWords,
    checked_title,
    kind_texts,
    limit_text,
    looked_text,
    required,
)

SHIPPED = Shipped(paths.resources() / "reference")
WORDS = load_words(paths.resources() / "words")
FORMULA = make_formula(
    ("water*", "0"), ("glycerin", "4"), ("eo_lavender", "0.5"), ("citric_acid+", "0.3")
)
SAY = LabelWords(WORDS, FORMULA, SHIPPED.shelf)


def label(**scope: object) -> Labelled:
    facts = label_facts(FORMULA, SHIPPED.shelf, carried(FORMULA, SHIPPED.shelf, totals(FORMULA)))
    parts = composition(FORMULA, SHIPPED.shelf)
    return labelled(parts, SHIPPED.shelf, make_scope(**scope), SHIPPED.rules, facts)


def test_that_every_usual_warning_has_words_and_a_reason() -> None:
    for rule in SHIPPED.rules.labelling.warnings:
        warning = LabelWarning(rule.key, WarningKind(rule.kind), markets=("EU",), lines=(2,))
        assert SAY.warning(warning)
        assert "Vegetable glycerin" in SAY.warning_reason(warning)
        assert SAY.warning_kind(warning)


def test_that_prescribed_words_stay_as_they_are() -> None:
    text = "Contains Vitamin A. Consider your daily intake before use"
    warning = LabelWarning("retinol", WarningKind.PRESCRIBED, text=text, markets=("EU", "UK"))
    assert SAY.warning(warning) == text
    assert SAY.warning_kind(warning) == "Prescribed words, not to be changed (EU, UK)"


@pytest.mark.parametrize("factor", RISK_KEYS)
@pytest.mark.parametrize("direction", ["meets", "unsettled", "raises", "lowers"])
def test_that_every_factor_of_risk_can_be_told(factor: str, direction: str) -> None:
    point = RiskPoint(
        factor, direction, Decimal("0.70"), Decimal("0.74"), Decimal("0.75"), lines=(2,),
        is_estimate=True,
    )  # fmt: skip
    assert SAY.risk_point(point)
    assert SAY.risk_point(replace(point, low=None, high=None, limit=None))


def test_that_a_span_is_told_as_a_span_and_an_estimate_as_one() -> None:
    point = RiskPoint("water-activity-low", "unsettled", Decimal("0.70"), Decimal("0.76"),
                      Decimal("0.75"), is_estimate=True)  # fmt: skip
    assert "0.7 to 0.76 (estimate)" in SAY.risk_point(point)


@pytest.mark.parametrize("verdict", [NEEDED, CRITERION_MET, NOT_JUDGED])
def test_that_no_verdict_calls_a_product_safe(verdict: str) -> None:
    said = SAY.verdict(MicroRisk(verdict)).lower()
    assert "safe" not in said
    assert "compliant" not in said


def test_that_every_note_of_a_list_can_be_told() -> None:
    ids = (
        "declaration-not-whole", "declaration-held-back", "declaration-as-added",
        "declaration-crystal-water", "declaration-scents-unknown", "declaration-typical",
        "declaration-old-stock", "declaration-coming", "declaration-offered",
        "declaration-no-list", "declaration-nano",
    )  # fmt: skip
    declaration = replace(
        label().declarations[0],
        notes=tuple(LabelNote(each, lines=(2,), names=("Linalool",)) for each in ids),
    )
    assert len(set(SAY.notes(declaration))) == len(ids)


@pytest.mark.parametrize(("market", "said"), [("EU", "below 1 %"), ("US", "at most 1 %")])
def test_that_the_free_part_is_told_in_the_words_of_the_market(market: str, said: str) -> None:
    declaration = label(markets=(market,)).declarations[0]
    assert said in SAY.place_of_free(declaration)


def test_that_the_list_without_a_free_part_says_so() -> None:
    declaration = label().declarations[0]
    first = replace(declaration, entries=declaration.entries[:1])
    assert SAY.place_of_free(first) == WORDS.say("declaration-none-free")
    assert SAY.place_of_free(replace(declaration, entries=())) == WORDS.say("declaration-empty")


def test_that_an_allergen_is_told_with_its_figures_and_grounds() -> None:
    allergens = required(label().declarations[0].allergens)
    said = [SAY.allergen(each) for each in allergens]
    assert "Linalool 0.17 % (over 0.001 %, typical content)" in said
    assert "Lavandula Oil/Extract 0.5 % (over 0.001 %, as put in)" in said


def test_that_the_page_of_what_was_checked_can_be_told() -> None:
    scope = make_scope(markets=("EU", "UK", "US"))
    parts = composition(FORMULA, SHIPPED.shelf)
    done = Done(label(markets=scope.markets))
    page = checked(parts, SHIPPED.shelf, scope, SHIPPED.rules, done)
    assert "2026-11-25" in checked_title(page, WORDS)
    assert all(looked_text(looked, WORDS) for looked in page.looked)
    assert len(kind_texts(page, WORDS)) == len(Authority)
    assert all(limit_text(look, SHIPPED.rules, WORDS) for look in page.limits)
    for message in (*CAUTIONS, *GAPS, "caution-beyond"):
        assert WORDS.say(message)


def test_that_every_limit_row_can_be_named_and_its_outcome_told() -> None:
    for outcome in (
        "held", "of-product", "other-market", "outside-program", "other-scope", "not-yet",
    ):  # fmt: skip
        assert WORDS.say(f"checked-outcome-{outcome}")
