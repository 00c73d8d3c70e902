"""What is inside oils and blends counts: a certificate as law, a typical figure as a caution."""

from __future__ import annotations

from decimal import Decimal

from tests.builders import make_formula, make_ingredient, make_scope, make_shelf
from tests.checks.limits_asked import limits_of
from workbench import paths
from workbench.checks.finding import Severity
from workbench.formula.ingredient import Constituent
from workbench.formula.supply import Allergen, Supply, certified
from workbench.storage.reference.shipped import Shipped
from workbench.words.catalogue import load_words

SHIPPED = Shipped(paths.resources() / "reference")
RULES = SHIPPED.rules
TYPICAL = Constituent("methyl_eugenol", Decimal("0.02"), "trade knowledge", "memory")
ROSE = make_ingredient("rose", functions=("essential-oil", "fragrance"), constituents=(TYPICAL,))


def found(percent: str, item=ROSE, **changes):
    formula = make_formula(("almond*", "0"), (item.key, percent), **changes.pop("formula", {}))
    shelf = make_shelf(item, "almond", stocks=changes.pop("stocks", None))
    return limits_of(formula, shelf, make_scope(**changes), RULES)


# Annex III, methyl eugenol: 0.0002 % in leave-on, 0.001 % in rinse-off (natural content).
def test_that_a_typical_content_over_a_limit_is_a_caution_that_names_the_oil():
    [one] = found("0.02", markets=("EU", "UK"))
    assert (one.code, one.severity) == ("limit-typical", Severity.CAUTION)
    assert one.values_of("carriers") == ("Rose",)
    assert one.values_of("authority") == ("EU", "UK")
    assert one.value == Decimal("0.0004000")
    assert one.confidence == "memory"
    assert one.lines == (2,)


def test_that_a_typical_content_up_to_the_limit_is_quiet():
    assert found("0.01") == ()
    assert found("0.04", exposure="rinse-off", product_type="cleanser") == ()


def test_that_a_certificate_beats_what_is_typical():
    low = certified(ROSE, Supply("rose", allergens=(Allergen("methyl_eugenol", Decimal("0.001")),)))
    assert found("0.02", low) == ()
    high = certified(ROSE, Supply("rose", allergens=(Allergen("methyl_eugenol", Decimal("0.05")),)))
    [one] = found("0.02", high)
    assert (one.code, one.severity) == ("limit-over", Severity.STOP)


def test_that_a_certificate_can_bring_what_the_law_refuses():
    # Annex II: butylphenyl methylpropional is prohibited since Reg. (EU) 2021/1902.
    blend = make_ingredient("blend", functions=("fragrance",))
    listed = (Allergen("butylphenyl_methylpropional", Decimal("0.1")),)
    [one] = found("0.5", certified(blend, Supply("blend", allergens=listed)))
    assert (one.code, one.severity) == ("limit-banned", Severity.STOP)


def test_that_an_oil_inside_a_stock_counts():
    stock = make_formula(("almond", "90"), ("rose", "10"), product_type="stock")
    formula = make_formula(("almond*", "0"), ("scent", "0.2"))
    shelf = make_shelf(ROSE, "almond", stocks={"scent": stock})
    [one] = limits_of(formula, shelf, make_scope(), RULES)
    assert one.code == "limit-typical"


def test_that_what_is_weighed_in_and_over_alone_is_said_once():
    pure = make_ingredient("methyl_eugenol", functions=("fragrance",))
    formula = make_formula(("almond*", "0"), ("methyl_eugenol", "0.01"), ("rose", "0.1"))
    shelf = make_shelf(ROSE, pure, "almond")
    said = limits_of(formula, shelf, make_scope(), RULES)
    assert [one.code for one in said] == ["limit-over"]


def test_that_ordinary_lavender_is_quiet():
    lavender = SHIPPED.ingredients["eo_lavender"]
    formula = make_formula(("almond*", "0"), ("eo_lavender", "0.5"))
    made = make_shelf(lavender, "almond")
    assert limits_of(formula, made, make_scope(markets=("EU", "UK")), RULES) == ()


def test_that_the_finding_can_be_said():
    words = load_words(paths.resources() / "words")
    [one] = found("0.02", markets=("EU", "UK"))
    assert words.say(one.code, **dict(one.values)).startswith("Probably over a limit, inside Rose")
    said = words.say("limit-typical-detail", **dict(one.values))
    assert "ask the supplier" in said
    assert "  " not in said
