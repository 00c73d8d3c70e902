"""The words that rows ask for: prescribed or recommended, for which markets, when."""

from __future__ import annotations

from tests.builders import make_formula, make_ingredient, make_scope, make_shelf
from tests.checks.limits_asked import seen_in
from workbench import paths
from workbench.checks.label_values import WarningKind
from workbench.checks.limit_warnings import required_warnings
from workbench.storage.reference.limits import load_rules

RULES = load_rules(paths.resources() / "reference")


def asked(*lines, **scope):
    formula = make_formula(("water*", "0"), *lines)
    shelf = make_shelf(*(line[0] for line in lines))
    asked = make_scope(**scope)
    return required_warnings(seen_in(formula, shelf, asked, RULES), asked)


def test_that_words_of_law_are_prescribed_and_name_their_markets():
    # Annex III entry 376, Reg. (EU) 2024/996; no GB text was found.
    [warning] = asked(("retinol", "0.1"), markets=("EU", "UK"))
    assert warning.text == "Contains Vitamin A. Consider your daily intake before use"
    assert warning.kind is WarningKind.PRESCRIBED
    assert warning.markets == ("EU",)
    assert warning.lines == (2,)


def test_that_one_text_of_two_markets_is_one_warning():
    warnings = asked(("salicylic_acid", "1"), markets=("EU", "UK"))
    [warning] = [each for each in warnings if "children under 3" in each.text]
    assert warning.markets == ("EU", "UK")
    assert warning.text == "Not to be used for children under 3 years of age"
    assert warning.condition.startswith("only for products which might be used")


def test_that_several_statements_of_a_row_are_several_warnings():
    texts = {each.text for each in asked(("hydrogen_peroxide", "2"), area="body")}
    assert {"Contains hydrogen peroxide", "Avoid contact with eyes"} <= texts


def test_that_guidance_is_recommended():
    warnings = asked(("glycolic_acid", "4"), markets=("US",))
    [warning] = [each for each in warnings if each.text.startswith("Sunburn Alert")]
    assert warning.kind is WarningKind.RECOMMENDED


def test_that_a_formaldehyde_donor_asks_for_its_words_above_a_release():
    # Annex V preamble point 2 (Reg. (EU) 2022/1181): above 0.001 % of formaldehyde released.
    warnings = asked(("dmdm_hydantoin", "0.3", "preservative"))
    conditions = {each.condition for each in warnings if each.text == "releases formaldehyde"}
    assert "if > 0.001 % released" in conditions


def test_that_only_what_is_there_asks_for_words():
    assert asked(("glycerin", "5"), markets=("EU", "UK", "US")) == ()


def test_that_nothing_is_asked_of_a_typical_content_alone():
    oil = make_ingredient("oil", functions=("essential-oil",))
    formula = make_formula(("water*", "0"), ("oil", "1"))
    shelf = make_shelf(oil)
    seen = seen_in(formula, shelf, make_scope(), RULES)
    assert required_warnings(seen, make_scope()) == ()
