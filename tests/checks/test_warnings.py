"""Warnings of good practice: what calls for each, and what leaves it out."""

from __future__ import annotations

import pytest

from tests.builders import make_formula, make_ingredient, make_scope
from workbench import paths
from workbench.checks.carried import carried
from workbench.checks.label_values import LabelWarning, WarningKind
from workbench.checks.warnings import Handled, merged_words, usual_warnings, without_doubles
from workbench.formula.composition import composition
from workbench.formula.formula import Formula
from workbench.formula.shelf import Shelf, shelf_of
from workbench.formula.totals import totals
from workbench.storage.reference.shipped import Shipped

SHIPPED = Shipped(paths.resources() / "reference")


def called_in(formula: Formula, shelf: Shelf, **scope: object) -> dict[str, LabelWarning]:
    found = usual_warnings(
        composition(formula, shelf),
        shelf,
        make_scope(**scope),
        SHIPPED.rules,
        Handled(
            carried(formula, shelf, totals(formula)),
            frozenset(line.id for line in formula.lines() if line.ingredient in shelf.stocks),
        ),
    )
    return {warning.key: warning for warning in found}


def called(*lines: tuple[str, ...], **scope: object) -> dict[str, LabelWarning]:
    return called_in(make_formula(("water*", "0"), *lines), SHIPPED.shelf, **scope)


CALLED = (
    ("sun-acid", ("glycolic_acid_70", "8"), {}),
    ("sun-salicylic", ("salicylic_acid", "1.5"), {}),
    ("sun-retinoid", ("retinol_10", "2"), {}),
    ("retinoid-pregnancy", ("retinol_10", "2"), {}),
    ("phototoxic-oil", ("eo_bergamot", "0.5"), {}),
    ("phototoxic-oil-within", ("eo_bergamot", "0.3"), {}),
    ("formaldehyde-donor", ("imidazolidinyl_urea", "0.3"), {}),
    ("salicylic-children", ("salicylic_acid", "0.5"), {}),
    ("strong-scent-children", ("eo_eucalyptus", "0.5"), {}),
    ("food-allergen", ("almond_oil", "5"), {}),
    ("bee-product", ("honey", "2"), {}),
    ("exfoliant-skin", ("mandelic_acid", "5"), {}),
    ("scrub-skin", ("sucrose", "50"), {"product_type": "scrub"}),
    ("eyes-surfactant", ("decyl_glucoside_50", "20"), {"exposure": "rinse-off"}),
    ("slippery", ("castor_oil", "20"), {"product_type": "bath"}),
    ("spray-breath", ("glycerin", "1"), {"form": "spray"}),
    ("flammable-product", ("ethanol", "40"), {}),
    ("sunscreen-none", ("zinc_oxide", "5"), {}),
    ("bench-caustic", ("sodium_hydroxide_10", "0.5"), {}),
    ("bench-acid", ("lactic_acid_80", "0.3"), {}),
    ("bench-dust", ("xanthan_gum", "0.3"), {}),
    ("bench-flammable", ("ethanol", "10"), {}),
    ("bench-isothiazolinone", ("mci_mi", "0.05"), {"exposure": "rinse-off"}),
)


@pytest.mark.parametrize(("key", "line", "scope"), CALLED)
def test_that_each_warning_is_called_for_by_its_cause(
    key: str, line: tuple[str, str], scope: dict[str, object]
) -> None:
    found = called(line, **scope)
    assert key in found
    assert key not in called(("glycerin", "1"), **({} if key == "spray-breath" else scope))


def test_that_every_row_of_the_table_is_tried_here() -> None:
    tried = {key for key, _, _ in CALLED} | {"wet-hands"}
    assert {rule.key for rule in SHIPPED.rules.labelling.warnings} == tried


@pytest.mark.parametrize(
    ("key", "line", "scope"),
    [
        ("sun-acid", ("lactic_acid_80", "0.3"), {}),
        ("sun-salicylic", ("salicylic_acid", "1.5"), {"exposure": "rinse-off"}),
        ("phototoxic-oil", ("eo_bergamot", "0.5"), {"exposure": "rinse-off"}),
        ("phototoxic-oil", ("eo_bergamot_fcf", "2"), {}),
        ("flammable-product", ("ethanol", "20"), {}),
        ("salicylic-children", ("salicylic_acid", "0.5"), {"users": "under-3"}),
        ("scrub-skin", ("sucrose", "5"), {"product_type": "scrub"}),
    ],
    ids=["acid that sets the pH", "rinsed off", "rinsed off too", "no furanocoumarins",
         "exactly at", "no adults", "sugar at the limit"],
)  # fmt: skip
def test_that_a_warning_stays_away_where_it_is_not_called_for(
    key: str, line: tuple[str, str], scope: dict[str, object]
) -> None:
    assert key not in called(line, **scope)


# Tisserand and Young, 2nd ed., as excerpted: leave-on maxima 0.4 % bergamot, 2 % lemon, 0.7 %
# lime. 0.2/0.4 + 1/2 uses them up exactly; a little more is over.
def test_that_phototoxic_oils_count_together() -> None:
    at = called(("eo_bergamot", "0.2"), ("eo_lemon", "1"))
    over = called(("eo_bergamot", "0.2"), ("eo_lemon", "1.02"))
    assert "phototoxic-oil-within" in at
    assert "phototoxic-oil" not in at
    assert over["phototoxic-oil"].lines == (2, 3)
    assert "phototoxic-oil-within" not in over


def test_that_a_phototoxic_oil_of_unknown_maximum_is_taken_as_over() -> None:
    oil = make_ingredient("own_lime", {"citrus_aurantifolia_peel_oil": "1"}, is_phototoxic=True)
    shelf = shelf_of({**SHIPPED.ingredients, "own_lime": oil}, {}, SHIPPED.substances)
    formula = make_formula(("water*", "0"), ("own_lime", "0.01"))
    assert "phototoxic-oil" in called_in(formula, shelf)


def test_that_dry_hands_are_asked_for_only_without_water() -> None:
    balm = make_formula(("castor_oil*", "0"), ("beeswax", "15"))
    assert "wet-hands" in called_in(balm, SHIPPED.shelf, product_type="balm")
    assert "wet-hands" not in called(("beeswax", "15"), product_type="balm")


def test_that_a_stock_has_bench_warnings_only() -> None:
    found = called(("citric_acid", "10"), ("almond_oil", "1"), product_type="stock")
    assert {warning.kind for warning in found.values()} == {WarningKind.BENCH}
    assert "bench-acid" in found


def test_that_what_was_handled_in_a_stock_is_not_handled_again() -> None:
    stock = make_formula(("water*", "0"), ("xanthan_gum", "1"), product_type="stock")
    shelf = shelf_of(SHIPPED.ingredients, {"gum": stock}, SHIPPED.substances)
    assert "bench-dust" not in called_in(make_formula(("water*", "0"), ("gum", "30")), shelf)


def test_that_usual_words_give_way_to_prescribed_ones_market_by_market() -> None:
    usual = called(("salicylic_acid", "0.5"), markets=("EU", "US"))
    prescribed = LabelWarning(
        "salicylic_acid",
        WarningKind.PRESCRIBED,
        text="Not to be used for children under 3 years of age",
        markets=("EU",),
        lines=(2,),
        substances=("salicylic_acid",),
    )
    left = {
        each.key: each for each in without_doubles(usual.values(), (prescribed,), SHIPPED.rules)
    }
    assert left["salicylic-children"].markets == ("US",)
    assert not any(each.markets == () for each in left.values())


def test_that_bench_warnings_give_way_to_nothing() -> None:
    bench = called(("sodium_hydroxide_10", "0.5"))["bench-caustic"]
    prescribed = LabelWarning(
        "x", WarningKind.PRESCRIBED, markets=("EU",), lines=(2,), substances=bench.substances
    )
    assert without_doubles((bench,), (prescribed,), SHIPPED.rules) == (bench,)


# Reg. (EU) 2024/996 prescribes words on the daily intake of vitamin A, none on the sun.
def test_that_words_to_another_end_leave_the_usual_ones_standing() -> None:
    sun = called(("retinol_10", "2"))["sun-retinoid"]
    prescribed = LabelWarning(
        "retinol",
        WarningKind.PRESCRIBED,
        text="Contains Vitamin A. Consider your daily intake before use",
        markets=("EU",),
        lines=sun.lines,
        substances=sun.substances,
    )
    assert without_doubles((sun,), (prescribed,), SHIPPED.rules) == (sun,)


def test_that_one_prescribed_text_is_printed_once_with_all_its_sources() -> None:
    first = LabelWarning(
        "a", WarningKind.PRESCRIBED, text="releases formaldehyde", condition="if over 0.001 %",
        markets=("EU",), lines=(2,), source="Annex V entry 27", confidence="read",
    )  # fmt: skip
    second = LabelWarning(
        "b", WarningKind.PRESCRIBED, text="releases formaldehyde", markets=("UK",), lines=(3,),
        source="Annex V preamble", confidence="memory",
    )  # fmt: skip
    (merged,) = merged_words((first, second))
    assert merged.markets == ("EU", "UK")
    assert merged.lines == (2, 3)
    assert merged.condition == "if over 0.001 %"
    assert merged.source == "Annex V entry 27 | Annex V preamble"
    assert merged.confidence == "memory"
