"""Fragrance allergens: contents, thresholds, lists, dates, and scents nobody has told of."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest

from tests.builders import make_formula, make_ingredient, make_scope, make_shelf
from workbench import paths
from workbench.checks.allergens import (
    allergen_contents,
    allergens_over,
    check_allergens,
    duty_of,
    over_threshold,
    threshold_of,
)
from workbench.checks.carried import carried
from workbench.checks.declaration import declarations
from workbench.checks.finding import Finding, Severity
from workbench.checks.label_values import Allergen, Duty, Grounds
from workbench.formula.composition import composition
from workbench.formula.facts import ingredient_facts, ingredient_from_facts
from workbench.formula.formula import Formula
from workbench.formula.ingredient import Constituent, Ingredient
from workbench.formula.shelf import Shelf, shelf_of
from workbench.formula.substance import Substance
from workbench.formula.supply import CERTIFICATE, Supply, certified
from workbench.formula.totals import totals
from workbench.storage.reference.shipped import Shipped

SHIPPED = Shipped(paths.resources() / "reference")
LABELLING = SHIPPED.rules.labelling
TODAY = date(2026, 11, 25)


def perfume(*inside: tuple[str, str], source: str = CERTIFICATE, **changes: object) -> Ingredient:
    told = tuple(Constituent(key, Decimal(fraction), source) for key, fraction in inside)
    return make_ingredient(
        "perfume", {"parfum": "1"}, functions=("fragrance",), constituents=told, **changes
    )


def shelf_with(*items: Ingredient) -> Shelf:
    own = {item.key: item for item in items}
    return shelf_of({**SHIPPED.ingredients, **own}, {}, SHIPPED.substances)


def over(
    *lines: tuple[str, ...], shelf: Shelf | None = None, market: str = "EU", **scope: object
) -> dict[str, Allergen]:
    formula = make_formula(("water*", "0"), *lines)
    shelf = shelf or SHIPPED.shelf
    contents = allergen_contents(carried(formula, shelf, totals(formula)), LABELLING)
    asked = make_scope(**scope)
    found = allergens_over(over_threshold(contents, asked), LABELLING.markets[market], asked)
    return {each.label: each for each in found}


def required(*lines: tuple[str, ...], **changes: object) -> set[str]:
    return {label for label, each in over(*lines, **changes).items() if each.duty is Duty.REQUIRED}


# checks-regulatory C14: fragrance 0.3 % with 2 % limonene is 0.006 %; Annex III entry 88 and
# Reg. (EU) 2023/1545: above 0.001 % in leave-on, above 0.01 % in rinse-off.
@pytest.mark.parametrize(("exposure", "is_named"), [("leave-on", True), ("rinse-off", False)])
def test_that_limonene_of_a_fragrance_is_named_by_exposure(exposure: str, is_named: bool) -> None:
    shelf = shelf_with(perfume(("limonene", "0.02")))
    found = required(("perfume", "0.3"), shelf=shelf, exposure=exposure)
    assert found == ({"Limonene"} if is_named else set())


# checks-regulatory C15: lavender oil 0.5 % with 35 % linalool: 0.175 % linalool and the oil
# itself; entries 84 and 360.
@pytest.mark.parametrize("exposure", ["leave-on", "rinse-off"])
def test_that_lavender_is_named_twice(exposure: str) -> None:
    lavender = make_ingredient(
        "lavender",
        {"lavandula_angustifolia_oil": "1"},
        functions=("essential-oil",),
        constituents=(
            Constituent("lavandula_oil_extract", Decimal(1)),
            Constituent("linalool", Decimal("0.35")),
        ),
    )
    found = over(("lavender", "0.5"), shelf=shelf_with(lavender), exposure=exposure)
    assert found["Linalool"].percent == Decimal("0.175")
    assert found["Lavandula Oil/Extract"].percent == Decimal("0.5")


# "Exceeds" is strictly greater: at the threshold the name is not asked for.
@pytest.mark.parametrize(
    ("exposure", "fraction", "is_named"),
    [
        ("leave-on", "0.00099", False),
        ("leave-on", "0.001", False),
        ("leave-on", "0.00101", True),
        ("rinse-off", "0.0099", False),
        ("rinse-off", "0.01", False),
        ("rinse-off", "0.0101", True),
    ],
)
def test_that_a_name_is_asked_for_only_above_the_threshold(
    exposure: str, fraction: str, is_named: bool
) -> None:
    shelf = shelf_with(perfume(("geraniol", fraction)))
    assert bool(required(("perfume", "1"), shelf=shelf, exposure=exposure)) is is_named


# Every allergen of the list: just under and exactly at pass, just over is named.
@pytest.mark.parametrize("exposure", ["leave-on", "rinse-off"])
@pytest.mark.parametrize("rule", LABELLING.allergens, ids=lambda rule: rule.label)
def test_that_every_allergen_is_named_just_over_its_threshold(rule, exposure: str) -> None:
    threshold = threshold_of(rule, exposure)
    named = {}
    for factor in ("0.99", "1", "1.01"):
        shelf = shelf_with(perfume((rule.substances[0], str(threshold * Decimal(factor)))))
        named[factor] = rule.label in over(("perfume", "1"), shelf=shelf, exposure=exposure)
    assert named == {"0.99": False, "1": False, "1.01": True}


# Reg. (EU) 2023/1545: 24 live names of the first list and 56 added make 80; new products from
# 2026-07-31, all stock from 2028-07-31. Great Britain keeps the first list.
@pytest.mark.parametrize(
    ("market", "on", "names"),
    [
        ("EU", date(2026, 7, 30), 24),
        ("EU", date(2026, 7, 31), 80),
        ("EU", TODAY, 80),
        ("UK", TODAY, 24),
        ("US", TODAY, 0),
    ],
)
def test_that_the_list_of_the_day_binds(market: str, on: date, names: int) -> None:
    label, scope = LABELLING.markets[market], make_scope(on=on)
    duties = [duty_of(rule, label, scope) for rule in LABELLING.allergens]
    assert duties.count(Duty.REQUIRED) == names


def test_that_an_added_name_is_coming_before_its_day_and_optional_elsewhere() -> None:
    shelf = shelf_with(perfume(("vanillin", "0.1")))
    line = ("perfume", "1")
    early = over(line, shelf=shelf, on=date(2026, 7, 30))["Vanillin"]
    assert (early.duty, early.due) == (Duty.COMING, date(2026, 7, 31))
    assert over(line, shelf=shelf)["Vanillin"].duty is Duty.REQUIRED
    assert over(line, shelf=shelf)["Vanillin"].stock_until == date(2028, 7, 31)
    assert over(line, shelf=shelf, market="UK")["Vanillin"].duty is Duty.OPTIONAL
    assert over(line, shelf=shelf, market="US")["Vanillin"].duty is Duty.OPTIONAL


def test_that_a_name_sources_disagree_on_is_never_required() -> None:
    shelf = shelf_with(perfume(("methyl_coumarin_6", "0.1")))
    doubtful = [rule for rule in LABELLING.allergens if rule.is_doubtful]
    assert [rule.label for rule in doubtful] == ["6-Methyl Coumarin"]
    assert not required(("perfume", "1"), shelf=shelf)


# The two prohibited ones are refused by the limits; they are no label names any more.
def test_that_what_is_prohibited_is_no_label_name() -> None:
    labels = {rule.label for rule in LABELLING.allergens}
    assert len(labels) == 81
    assert not {label for label in labels if label.startswith("(")}


def test_that_contents_add_up_over_oils_and_substances() -> None:
    pure = make_ingredient("linalool_neat", {"linalool": "1"}, functions=("fragrance",))
    shelf = shelf_with(perfume(("linalool", "0.10")), pure)
    found = over(("perfume", "0.5"), ("linalool_neat", "0.02"), shelf=shelf)["Linalool"]
    assert found.percent == Decimal("0.07")
    assert found.lines == (2, 3)


def test_that_isomers_count_under_their_one_name() -> None:
    rule = next(rule for rule in LABELLING.allergens if rule.label == "Rose Ketones")
    assert len(rule.substances) > 1
    shelf = shelf_with(perfume(*((key, "0.001") for key in rule.substances)))
    found = over(("perfume", "1"), shelf=shelf)["Rose Ketones"]
    assert found.percent == Decimal("0.001") * len(rule.substances)


def test_that_a_certificate_takes_the_place_of_typical_contents() -> None:
    typical = Constituent("linalool", Decimal("0.3"), "typical")
    told = Constituent("linalool", Decimal("0.01"), CERTIFICATE)
    base = perfume()
    mixed = make_ingredient(
        "perfume", {"parfum": "1"}, functions=base.functions, constituents=(typical, told)
    )
    found = over(("perfume", "1"), shelf=shelf_with(mixed))["Linalool"]
    assert found.percent == Decimal("0.01")
    assert found.grounds is Grounds.CERTIFICATE


def test_that_typical_contents_are_marked_typical() -> None:
    assert over(("eo_lavender", "0.5"))["Linalool"].grounds is Grounds.TYPICAL
    assert over(("eo_lavender", "0.5"))["Lavandula Oil/Extract"].grounds is Grounds.SUBSTANCE


def test_that_what_is_told_twice_counts_once() -> None:
    # the oil stands in its own composition and again among its constituents
    assert over(("eo_lavender", "0.5"))["Lavandula Oil/Extract"].percent == Decimal("0.5")
    assert over(("menthol", "0.2"))["Menthol"].percent == Decimal("0.2")


def test_that_an_allergen_counts_whatever_it_is_there_for() -> None:
    assert "Benzyl Alcohol" in required(("benzyl_alcohol_dha", "1", "preservative"))


def test_that_oils_inside_a_stock_count_at_their_share() -> None:
    stock = make_formula(("castor_oil*", "0"), ("eo_lavender", "10"), product_type="stock")
    shelf = shelf_of(SHIPPED.ingredients, {"scent": stock}, SHIPPED.substances)
    found = over(("scent", "5"), shelf=shelf)
    assert found["Lavandula Oil/Extract"].percent == Decimal("0.5")


def names_of(formula: Formula, shelf: Shelf, market: str, **scope: object) -> tuple[str, ...]:
    (found,) = declarations(
        composition(formula, shelf),
        shelf,
        make_scope(markets=(market,), **scope),
        LABELLING,
        carried(formula, shelf, totals(formula)),
    )
    return found.names


def test_that_allergens_close_the_list_after_the_scent() -> None:
    shelf = shelf_with(perfume(("limonene", "0.02"), ("linalool", "0.05")))
    formula = make_formula(("water*", "0"), ("perfume", "0.3"), ("panthenol_d", "0.1"))
    assert names_of(formula, shelf, "EU") == (
        "Aqua", "Parfum", "Panthenol", "Linalool", "Limonene",
    )  # fmt: skip
    assert names_of(formula, shelf, "US") == ("Water", "Fragrance", "Panthenol")


def test_that_an_allergen_listed_as_itself_is_not_listed_twice() -> None:
    formula = make_formula(("water*", "0"), ("benzyl_alcohol", "0.8", "preservative"))
    names = names_of(formula, SHIPPED.shelf, "EU")
    assert names == ("Aqua", "Benzyl Alcohol")


def unknown(
    *lines: tuple[str, ...], shelf: Shelf | None = None, **scope: object
) -> tuple[Finding, ...]:
    formula = make_formula(("water*", "0"), *lines)
    shelf = shelf or SHIPPED.shelf
    materials = carried(formula, shelf, totals(formula))
    return check_allergens(materials, shelf, make_scope(**scope), LABELLING)


def test_that_a_fragrance_without_a_certificate_is_never_taken_as_free_of_allergens() -> None:
    (found,) = unknown(("fragrance_compound", "0.4"))
    assert (found.code, found.severity, found.lines) == (
        "allergens-unknown", Severity.CAUTION, (2,),
    )  # fmt: skip


def test_that_a_certificate_answers_the_question() -> None:
    shelf = shelf_with(perfume(("limonene", "0.000001")))
    assert not unknown(("perfume", "0.4"), shelf=shelf)


def test_that_a_certificate_that_lists_nothing_answers_the_question_too() -> None:
    scent = SHIPPED.ingredients["fragrance_compound"]
    typed = certified(scent, Supply(scent.key, allergens=()))
    assert unknown((scent.key, "0.4"), shelf=shelf_with(certified(scent, Supply(scent.key))))
    assert not unknown((scent.key, "0.4"), shelf=shelf_with(typed))
    assert ingredient_from_facts(ingredient_facts(typed)) == typed


@pytest.mark.parametrize(
    "scope",
    [{"markets": ("US",)}, {"product_type": "stock"}],
    ids=["no list binds", "a stock has no label"],
)
def test_that_nothing_is_asked_where_no_label_needs_it(scope: dict[str, object]) -> None:
    assert not unknown(("fragrance_compound", "0.4"), **scope)


def test_that_a_trace_of_scent_that_cannot_reach_the_threshold_is_let_be() -> None:
    assert not unknown(("fragrance_compound", "0.01"), exposure="rinse-off")
    assert unknown(("fragrance_compound", "0.0101"), exposure="rinse-off")


def test_that_an_own_oil_of_unknown_contents_is_asked_for() -> None:
    oil = make_ingredient("own_oil", {"own_oil": "1"}, functions=("essential-oil",))
    shelf = make_shelf(oil, substances={"own_oil": Substance("own_oil", "X Oil", kind="extract")})
    assert unknown(("own_oil", "0.2"), shelf=shelf)


def test_that_no_shipped_oil_is_unknown() -> None:
    oils = [key for key, item in SHIPPED.ingredients.items() if item.purpose == "essential-oil"]
    assert len(oils) > 20
    assert not [key for key in oils if unknown((key, "1"))]
