"""What a label says: fields by kind, what is missing, the list and the words of the law."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from tests.builders import make_formula, make_scope
from tests.documents.labels import MAKING, SHIPPED, content_of, order, thirty_names, toner
from workbench.bench.label_wants import GIFT, KINDS, OWN, SALE_EU, SALE_UK, SALE_US
from workbench.checks.assess import assess
from workbench.checks.label_values import WarningKind
from workbench.documents.label_content import label_content

MARKET = {SALE_EU: "EU", SALE_UK: "UK", SALE_US: "US", GIFT: "EU", OWN: "EU"}
EMPTY = {
    "function": "", "use": "", "who": "", "net": None, "batch": "", "made_on": None,
    "lasts_months": None, "opened_months": None,
}  # fmt: skip


@pytest.mark.parametrize("kind", KINDS)
def test_that_the_list_is_that_of_the_assessment(kind):
    for formula in (toner(), make_formula(("water*", "0"), ("citric_acid", "0.4"))):
        scope = make_scope(markets=("EU", "UK", "US"), product_type="toner")
        assessment = assess(formula, SHIPPED.shelf, scope, SHIPPED.rules)
        content = label_content(order(kind=kind), formula, SHIPPED.shelf, assessment, MAKING)
        declaration = assessment.label.declaration(MARKET[kind])
        assert content.names == declaration.names
        assert content.heading == declaration.heading
        if kind != OWN:
            assert content.shown == declaration.names


def test_that_the_us_list_names_water_and_fragrance_the_us_way():
    assert content_of(kind=SALE_US).names[0] == "Water"


def test_that_own_use_gets_a_short_list():
    formula, shelf = thirty_names()
    content = content_of(formula, shelf, kind=OWN)
    assert len(content.names) == 30
    assert len(content.shown) == 6
    assert content.shown[-1] == "25 more"


@pytest.mark.parametrize(
    ("kind", "expected"),
    [
        (OWN, {"batch", "made", "durability", "ph"}),
        (GIFT, {"function", "batch", "made", "durability", "use"}),
        (SALE_EU, {"function", "batch", "durability", "net"}),
        (SALE_UK, {"function", "batch", "durability", "net"}),
        (SALE_US, {"function", "batch", "net"}),
    ],
)
def test_that_what_a_kind_asks_for_and_lacks_is_named(kind, expected):
    # Fields by kind: Reg. (EC) 1223/2009 Art. 19(1), 21 CFR 701, and common practice.
    missing = content_of(kind=kind, **EMPTY).missing
    assert {field.field for field in missing} == expected
    assert all(field.why and field.remedy for field in missing)


def test_that_nothing_is_missing_where_all_is_said():
    assert content_of().missing == ()


def test_that_a_market_the_formula_is_not_judged_for_is_a_missing_list():
    assessment = assess(toner(), SHIPPED.shelf, make_scope(markets=("EU",)), SHIPPED.rules)
    content = label_content(order(kind=SALE_US), toner(), SHIPPED.shelf, assessment, MAKING)
    assert [field.field for field in content.missing] == ["ingredients"]


def test_that_a_line_of_unknown_contents_is_a_missing_list():
    content = content_of(make_formula(("water*", "0"), ("mystery", "3")))
    assert [field.field for field in content.missing] == ["ingredients"]
    assert "mystery" in content.missing[0].remedy


def test_that_thirty_months_decide_between_a_date_and_the_open_jar():
    # Reg. (EC) 1223/2009 Art. 19(1)(c)
    dated, open_jar = content_of(lasts_months=30), content_of(lasts_months=31)
    assert any("Best used before the end of" in text for text in dated.dates)
    assert dated.opened == ""
    assert not any("Best used before" in text for text in open_jar.dates)
    assert open_jar.opened == "6M"
    lacking = content_of(lasts_months=31, opened_months=None).missing
    assert [field.field for field in lacking] == ["durability"]


def test_that_prescribed_words_are_unchanged():
    # Words an authority recommends for alpha hydroxy acids (FDA guidance of 2005).
    formula = make_formula(("water*", "0"), ("glycolic_acid_70", "8"), ("urea", "2"))
    assessment = assess(
        formula, SHIPPED.shelf, make_scope(markets=("EU", "UK", "US")), SHIPPED.rules
    )
    law = [
        each.text
        for each in assessment.label.warnings
        if each.kind in (WarningKind.PRESCRIBED, WarningKind.RECOMMENDED) and "US" in each.markets
    ]
    content = label_content(order(kind=SALE_US), formula, SHIPPED.shelf, assessment, MAKING)
    assert law
    assert all(" ".join(text.split()) in content.cautions for text in law)


def test_that_only_usual_words_can_be_left_out():
    formula = make_formula(("water*", "0"), ("glycolic_acid_70", "8"))
    usual = content_of(formula).cautions
    assert any("sensitive to the sun" in text for text in usual)
    fewer = content_of(formula, left_out=frozenset({"sun-acid", "aha_any"}))
    assert len(fewer.cautions) == len(usual) - 1
    us = content_of(formula, kind=SALE_US, left_out=frozenset({"aha_any"}))
    assert us.cautions == content_of(formula, kind=SALE_US).cautions


def test_that_bench_cautions_stay_off_the_label():
    formula = make_formula(("water*", "0"), ("sodium_hydroxide_10", "1"))
    assert not any("Goggles" in text for text in content_of(formula).cautions)


def test_that_what_was_not_made_is_marked():
    content = content_of(batch="")
    assert content.batch == "As designed, not yet made"
    assert "As designed" not in content_of().batch


def test_that_us_net_content_has_both_units_rounded_down():
    # 50 ml / 29.5735 = 1.69 fl oz; 50 g / 28.3495 = 1.763 oz
    assert content_of(kind=SALE_US).net == "1.69 fl oz (50 ml)"
    assert content_of(kind=SALE_US, net_unit="g").net == "Net wt 1.76 oz (50 g)"


def test_that_poor_contrast_is_told():
    # WCAG 2: #777777 on white is 4.48 to 1
    content = content_of(ink="#777777")
    assert content.contrast == pytest.approx(4.48, abs=0.005)
    assert any("4.5 to 1" in note for note in content.notes)


def test_that_a_sign_the_font_lacks_is_named_before_printing():
    content = content_of(replace(toner(), name="Fog 霧"))
    assert [field.field for field in content.missing] == ["glyph"]
    assert "霧" in content.missing[0].why


@pytest.mark.parametrize("kind", KINDS)
def test_that_no_label_calls_a_product_safe(kind):
    content = content_of(kind=kind, net=Decimal(50))
    said = " ".join((*content.cautions, *content.notes)).lower()
    assert "is safe" not in said
    assert "complian" not in said
