"""What one call gives for a label: lists, the law's words first, what is missing."""

from __future__ import annotations

import pytest

from tests.builders import make_formula, make_scope
from workbench import paths
from workbench.checks.assess import assess
from workbench.checks.assessment import Assessment
from workbench.checks.label_values import LabelWarning, WarningKind
from workbench.formula.shelf import shelf_of
from workbench.storage.reference.shipped import Shipped

SHIPPED = Shipped(paths.resources() / "reference")


def assessed(*lines: tuple[str, ...], **scope: object) -> Assessment:
    changes = {key: scope[key] for key in ("product_type",) if key in scope}
    formula = make_formula(("water*", "0"), *lines, **changes)
    return assess(formula, SHIPPED.shelf, make_scope(**scope), SHIPPED.rules)


def words(*lines: tuple[str, ...], **scope: object) -> dict[str, LabelWarning]:
    warnings = assessed(*lines, **scope).label.warnings
    return {warning.text: warning for warning in warnings if warning.text}


# checks-regulatory C10: the words are asked for by measured release above 0.001 %; from a formula
# a donor only makes it likely. Annex V preamble point 2 (Reg. (EU) 2022/1181), entry 33.
def test_that_a_donor_brings_the_words_and_when_they_are_needed() -> None:
    found = words(("dmdm_hydantoin_55", "0.5"), exposure="rinse-off")["releases formaldehyde"]
    assert found.kind is WarningKind.PRESCRIBED
    assert "0.001 %" in found.condition


# Annex III entry 98: salicylic acid and children under 3; prescribed in both.
def test_that_salicylic_acid_brings_the_words_on_small_children() -> None:
    text = "Not to be used for children under 3 years of age"
    found = words(("salicylic_acid", "0.5"), markets=("EU", "UK"))[text]
    assert found.markets == ("EU", "UK")


# Annex III entry 376 (Reg. (EU) 2024/996): vitamin A words in the EU; no such limit found in GB.
def test_that_vitamin_a_brings_its_words_in_the_eu_only() -> None:
    text = "Contains Vitamin A. Consider your daily intake before use"
    line = ("retinyl_palmitate", "0.1")
    assert words(line, markets=("EU", "UK"))[text].markets == ("EU",)
    assert text not in words(line, markets=("UK",))


# FDA guidance of 2005 on alpha hydroxy acids: recommended, not prescribed.
def test_that_the_sun_notice_of_an_acid_is_recommended_in_the_us_and_usual_elsewhere() -> None:
    label = assessed(("glycolic_acid_70", "5"), markets=("EU", "US")).label
    recommended = [each for each in label.warnings if each.kind is WarningKind.RECOMMENDED]
    assert [each.markets for each in recommended] == [("US",)]
    assert recommended[0].text.startswith("Sunburn Alert: ")
    usual = next(each for each in label.warnings if each.key == "sun-acid")
    assert usual.markets == ("EU",)


def test_that_the_words_of_the_law_come_first() -> None:
    label = assessed(("salicylic_acid", "1.5"), ("sodium_hydroxide_10", "1")).label
    kinds = [warning.kind for warning in label.warnings]
    assert kinds[0] is WarningKind.PRESCRIBED
    assert kinds.index(WarningKind.BENCH) > kinds.index(WarningKind.USUAL) > 0


def test_that_a_stock_has_a_list_but_no_words_for_a_label() -> None:
    label = assessed(("salicylic_acid", "10"), product_type="stock").label
    assert label.declarations[0].names == ("Aqua", "Salicylic Acid")
    assert {warning.kind for warning in label.warnings} <= {WarningKind.BENCH}


def test_that_what_stands_in_the_way_of_a_label_is_a_finding() -> None:
    assert "allergens-unknown" in {
        found.code for found in assessed(("fragrance_compound", "0.4")).findings
    }


@pytest.mark.parametrize("market", ["EU", "UK", "US"])
def test_that_the_list_of_a_market_can_be_asked_for(market: str) -> None:
    label = assessed(("glycerin", "4"), markets=("EU", "UK", "US")).label
    declaration = label.declaration(market)
    assert declaration is not None
    assert declaration.market == market
    assert assessed(("glycerin", "4")).label.declaration("US") is None


def test_that_the_list_of_what_was_made_follows_what_was_weighed() -> None:
    # trade-notes, fifth scenario: panthenol falls below 1 % in what was made
    designed, made = (assessed(("panthenol_d", each)) for each in ("1.0", "0.985"))
    places = [each.label.declarations[0].first_free for each in (designed, made)]
    assert places == [2, 1]


def test_that_every_shipped_ingredient_can_be_assessed_for_every_market() -> None:
    keys = [key for key in SHIPPED.ingredients if key != "water"]
    shelf = shelf_of(SHIPPED.ingredients, {}, SHIPPED.substances)
    scope = make_scope(markets=("EU", "UK", "US"))
    for start in range(0, len(keys), 40):
        lines = ((key, "0.5") for key in keys[start : start + 40])
        formula = make_formula(("water*", "0"), *lines)
        found = assess(formula, shelf, scope, SHIPPED.rules)
        assert len(found.label.declarations) == 3
        assert found.checked is not None
