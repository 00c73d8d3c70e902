"""What the limits say of small formulas, against figures worked out outside the program."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from decimal import Decimal

import pytest

from tests.builders import make_formula, make_ingredient, make_scope, make_shelf
from tests.checks.limits_asked import limits_of, seen_in
from workbench import paths
from workbench.checks.finding import Finding, SetPercent, Severity
from workbench.checks.limits import legal_maxima
from workbench.formula.formula import Formula
from workbench.formula.scope import Scope
from workbench.formula.shelf import Shelf
from workbench.formula.totals import totals
from workbench.storage.reference.limits import load_rules
from workbench.words.catalogue import load_words

RULES = load_rules(paths.resources() / "reference")
RINSE = {"exposure": "rinse-off", "product_type": "body-wash", "area": "body"}
BODY = {"product_type": "lotion", "area": "body"}


def shelf_for(formula: Formula) -> Shelf:
    return make_shelf(*{line.ingredient for line in formula.lines()} - {"water"})


def found_in(formula: Formula, shelf: Shelf | None = None, **scope: object) -> tuple[Finding, ...]:
    shelf = shelf or shelf_for(formula)
    return limits_of(formula, shelf, make_scope(**scope), RULES)


def found(*lines: tuple[str, ...], **scope: object) -> tuple[Finding, ...]:
    return found_in(make_formula(("water*", "0"), *lines), **scope)


def codes(*lines: tuple[str, ...], **scope: object) -> list[str]:
    return [finding.code for finding in found(*lines, **scope)]


def maxima(*lines: tuple[str, ...], **scope: object) -> Mapping[int, Decimal]:
    formula = make_formula(("water*", "0"), *lines)
    seen = seen_in(formula, shelf_for(formula), make_scope(**scope), RULES)
    return legal_maxima(totals(formula), seen)


# checks-regulatory: the ceiling of each as supplied, by molar masses from the standard atomic
# weights and the entry named. Just under and exactly at pass; just over is flagged.
CEILINGS = (
    # C01: Reg. (EC) 1223/2009 Annex V entry 4: 0.6 x 150.218 / 112.128
    pytest.param("potassium_sorbate", "0.80", "0.8038", "0.81", "0.6", {}, id="C01"),
    # C02: Annex V entry 1, leave-on: 0.5 x 144.105 / 122.123
    pytest.param("sodium_benzoate", "0.58", "0.59", "0.60", "0.5", {}, id="C02"),
    # C03: Annex V entry 1, rinse-off: 2.5 x 144.105 / 122.123
    pytest.param("sodium_benzoate", "2.94", "2.95", "2.96", "2.5", RINSE, id="C03"),
    # C05: Annex V entry 13: 0.6 x 190.130 / 168.148
    pytest.param("sodium_dehydroacetate", "0.67", "0.6784", "0.68", "0.6", {}, id="C05"),
    # C06: Annex V entry 12: 0.4 x 152.149 / 138.122
    pytest.param("methylparaben", "0.44", "0.4406", "0.45", "0.4", {}, id="C06"),
    # C08: Annex V entry 12a: 0.14 x 180.203 / 138.122
    pytest.param("propylparaben", "0.18", "0.1826", "0.19", "0.14", {}, id="C08"),
    # C11: Annex III entry 376 (Reg. 2024/996): 0.3 x 524.874 / 286.459
    pytest.param("retinyl_palmitate", "0.54", "0.5497", "0.56", "0.3", {}, id="C11"),
    # C12: the same, body lotion: 0.05 x 328.496 / 286.459
    pytest.param("retinyl_acetate", "0.057", "0.05734", "0.058", "0.05", BODY, id="C12"),
    # C13: Annex III entry 24: 1.0 x 321.594 / 65.38
    pytest.param("zinc_pca", "4.91", "4.918", "4.93", "1.0", {}, id="C13"),
    # C17: Annex III entry 15a: 5 x 56.105 / 39.997 is the ceiling of a cuticle remover, which
    # only a claim brings in; the factor itself is checked in the test of the table.
    # Annex V entry 29, and the note to scenario S2: 1.215 % is over 1.0 %
    pytest.param("phenoxyethanol", "0.90", "1.00", "1.215", "1.0", {}, id="S2"),
)


@pytest.mark.parametrize(("substance", "under", "at", "above", "limit", "scope"), CEILINGS)
def test_that_a_ceiling_is_met_and_not_passed(substance, under, at, above, limit, scope):
    for percent in (under, at):
        assert "limit-over" not in codes((substance, percent), **scope)
    [over] = [
        finding for finding in found((substance, above), **scope) if finding.code == "limit-over"
    ]
    assert over.severity is Severity.STOP
    assert over.limit == Decimal(limit)
    assert over.lines == (2,)


def test_that_the_content_is_told_on_the_basis_of_the_law():
    # C02: 0.60 % sodium benzoate is 0.5085 % as acid.
    [over] = found(("sodium_benzoate", "0.60"))
    assert over.value == Decimal("0.5085")
    assert over.basis == "as benzoic acid"


def test_that_half_a_percent_of_sorbate_passes():
    # C04: 0.5 % potassium sorbate is 0.373 % as acid, 62.2 % of the ceiling.
    assert codes(("potassium_sorbate", "0.5")) == []


def test_that_a_mixture_of_parabens_within_all_three_ceilings_passes():
    # C07: 0.2723 + 0.1150 = 0.3873 % as acid: 0.4, 0.14 and 0.8 all hold.
    assert codes(("methylparaben", "0.30"), ("propylparaben", "0.15")) == []


def test_that_propylparaben_is_refused_on_the_nappy_area():
    # C07, last clause: Annex V entry 12a.
    findings = found(
        ("methylparaben", "0.30"),
        ("propylparaben", "0.15"),
        area="nappy",
        users="under-3",
    )
    banned = [finding for finding in findings if finding.code == "limit-banned"]
    assert [finding.lines for finding in banned] == [(3,)]


def test_that_parabens_are_summed_over_their_entries():
    # Annex V entry 12: 0.8 % as acid for any mixture; each of these stays within its own 0.4 %.
    lines = [("methylparaben", "0.42"), ("ethylparaben", "0.45"), ("propylparaben", "0.15")]
    [over] = found(*lines)
    # 0.42 x 0.90781 + 0.45 x 0.83118 + 0.15 x 0.76648 = 0.8703
    assert over.value == Decimal("0.8703")
    assert over.limit == Decimal("0.8")
    assert over.lines == (2, 3, 4)
    assert over.remedies == ()


def mci_mi_solution(percent: str) -> tuple[Formula, Shelf]:
    # C09: a commercial solution of 1.5 % active matter, three parts to one.
    solution = make_ingredient(
        "solution",
        {
            "methylchloroisothiazolinone": "0.01125",
            "methylisothiazolinone": "0.00375",
            "aqua": "0.985",
        },
    )
    return make_formula(("water*", "0"), ("solution", percent)), make_shelf(solution)


@pytest.mark.parametrize(("percent", "expected"), [("0.09", 0), ("0.10", 0), ("0.11", 1)])
def test_that_a_preservative_solution_counts_by_its_active_matter(percent, expected):
    formula, shelf = mci_mi_solution(percent)
    stops = [f for f in found_in(formula, shelf, **RINSE) if f.code == "limit-over"]
    assert len(stops) == expected


def test_that_any_of_it_is_refused_in_a_leave_on_product():
    formula, shelf = mci_mi_solution("0.001")
    [banned] = found_in(formula, shelf, markets=("EU", "UK"))
    assert (banned.code, banned.severity) == ("limit-banned", Severity.STOP)
    assert banned.lines == (2,)
    assert banned.remedies == ()


def test_that_preservative_from_a_stock_is_summed_with_the_line_of_its_own():
    # Scenario S2: 1.00 % blend beside 35 % of a gum stock with 1 % blend, each 90 %
    # phenoxyethanol: 1.35 % blend, 1.215 % phenoxyethanol.
    blend = make_ingredient("blend", {"phenoxyethanol": "0.9", "ethylhexylglycerin": "0.1"})
    stock = make_formula(("water*", "0"), ("xanthan_gum", "1.00"), ("blend", "1.00"))
    shelf = make_shelf("xanthan_gum", blend, stocks={"gum_stock": stock})
    doubled = make_formula(("water*", "0"), ("gum_stock", "35"), ("blend", "1.00"))
    [over] = found_in(doubled, shelf)
    assert (over.value, over.limit, over.lines) == (Decimal("1.215"), Decimal("1.0"), (2, 3))
    topped_up = make_formula(("water*", "0"), ("gum_stock", "35"), ("blend", "0.65"))
    assert found_in(topped_up, shelf) == ()


def test_that_one_limit_in_two_markets_is_one_finding():
    [over] = found(("phenoxyethanol", "1.2"), markets=("EU", "UK"))
    assert over.values_of("authority") == ("EU", "UK")
    assert "SI 2019/696" in over.source


def test_that_limits_that_differ_between_markets_stay_apart():
    # Reg. (EU) 2024/996 limits vitamin A in the EU; no limit in Great Britain is on file.
    [over] = found(("retinol", "0.4"), markets=("EU", "UK"))
    assert over.values_of("authority") == ("EU",)


def test_that_the_remedy_is_the_most_the_law_allows():
    [over] = found(("sodium_benzoate", "0.60"))
    [remedy] = over.remedies
    assert remedy.action == SetPercent(line=2, percent=Decimal("0.59"))
    assert dict(remedy.values) == {
        "ingredient": "sodium_benzoate",
        "percent": Decimal("0.59"),
    }


def test_that_the_remedy_clears_the_finding_it_belongs_to():
    formula = make_formula(("water*", "0"), ("ipbc", "0.5"), ("potassium_sorbate", "1.3"))
    for finding in found_in(formula):
        [remedy] = finding.remedies
        after = found_in(remedy.action.applied(formula))
        assert finding.key not in {other.key for other in after}


def test_that_a_trace_gets_a_finer_step():
    # Annex V entry 57: 0.0015 % in a rinse-off product.
    [over] = found(("methylisothiazolinone", "0.01"), **RINSE)
    assert over.remedies[0].action == SetPercent(line=2, percent=Decimal("0.0015"))


@pytest.mark.parametrize("line", [("phenoxyethanol!", "1.2"), ("phenoxyethanol*", "0")])
def test_that_a_line_that_cannot_be_set_gets_no_remedy(line):
    entries = (("water", "98.8"), line)
    [over] = found_in(make_formula(*entries))
    assert over.remedies == ()


def test_that_a_limit_that_must_not_be_reached_is_over_at_its_figure():
    # REACH Annex XVII entry 70: D5 in wash-off products in a concentration of 0.1 % or more.
    assert codes(("cyclopentasiloxane_d5", "0.0999"), **RINSE) == []
    [over] = found(("cyclopentasiloxane_d5", "0.1"), **RINSE)
    assert over.severity is Severity.STOP
    assert over.remedies[0].action == SetPercent(line=2, percent=Decimal("0.09"))


def test_that_advice_is_a_caution_and_says_whose():
    # SCCS opinion on tea tree oil: 0.1 % in face cream; not an annex limit.
    [advice] = found(("melaleuca_alternifolia_leaf_oil", "0.5"))
    assert (advice.code, advice.severity) == ("limit-over-advice", Severity.CAUTION)
    assert "SCCS" in advice.basis


def test_that_a_limit_to_come_is_a_note_until_its_day():
    lines = ("citral", "0.05")
    scope = {"product_type": "deodorant", "area": "body"}
    [note] = found(lines, on=date(2026, 12, 31), **scope)
    assert (note.code, note.severity) == ("limit-future", Severity.NOTE)
    assert note.values_of("from") == "2027-01-01"
    [over] = found(lines, on=date(2027, 1, 1), **scope)
    assert (over.code, over.severity) == ("limit-over", Severity.STOP)


def test_that_an_unclear_coverage_is_never_more_than_a_note():
    # Whether the aluminium of a clay counts as an aluminium compound is not settled.
    spray = {"product_type": "deodorant", "area": "body", "form": "aerosol"}
    notes = found(("kaolin", "30"), on=date(2035, 1, 1), **spray)
    assert ("limit-over-possible", Severity.NOTE) in [(each.code, each.severity) for each in notes]
    assert all(note.severity is Severity.NOTE for note in notes)


def test_that_a_dissolved_or_swollen_polymer_is_no_microplastic():
    # Reg. (EU) 2023/2055: solid particles; not what dissolves, nor what swells for good in use.
    for polymer in ("carbomer", "pvp", "polyquaternium_7"):
        assert found((polymer, "0.3"), on=date(2035, 1, 1)) == ()


def test_that_titanium_dioxide_is_refused_where_dust_or_aerosol_reaches_the_lungs():
    # Reg. (EU) 2021/850, Annex III 321: powder and propellant spray; a pump mist is not settled.
    for form in ("aerosol", "powder"):
        [stop] = found(("titanium_dioxide", "5"), form=form)
        assert (stop.code, stop.severity) == ("limit-banned", Severity.STOP)
    [note] = found(("titanium_dioxide", "5"), form="spray")
    assert (note.code, note.severity) == ("limit-check", Severity.NOTE)
    assert found(("titanium_dioxide", "5")) == ()


def test_that_what_the_table_does_not_say_is_a_note_to_check():
    # Annex III entry 286 speaks of hair and face only.
    [note] = found(("cetrimonium_chloride", "0.3"), markets=("EU", "UK"), **BODY)
    assert (note.code, note.values_of("reason")) == ("limit-check", "not-listed")
    assert note.severity is Severity.NOTE


def test_that_a_doubtful_reading_is_said_even_within_its_limit():
    # Annex V entry 13: "not in aerosol dispensers (sprays)"; whether a pump is meant is open.
    [note] = found(("sodium_dehydroacetate", "0.5"), product_type="toner", form="spray")
    assert (note.code, note.values_of("reason")) == ("limit-check", "unsettled")


def test_that_a_substance_without_any_rule_says_nothing():
    assert codes(("glycerin", "60"), ("niacinamide", "10"), markets=("EU", "UK")) == []


def test_that_a_market_with_few_rules_is_named():
    [note] = found(("glycerin", "5"), markets=("EU", "US"))
    assert (note.code, note.values) == ("market-not-covered", (("market", "US"),))


def test_that_salicylic_acid_is_judged_by_what_it_is_there_for():
    # Annex V entry 3: 0.5 % as a preservative; Annex III entry 98: 2.0 % for other purposes.
    assert codes(("salicylic_acid", "1.0", "exfoliant-bha")) == []
    [over] = found(("salicylic_acid", "1.0", "preservative"))
    assert over.limit == Decimal("0.5")


def test_that_the_two_uses_of_salicylic_acid_are_summed():
    lines = [("salicylic_acid", "1.8", "exfoliant-bha"), ("salicylic_acid", "0.4", "preservative")]
    [over] = found(*lines)
    assert (over.value, over.limit, over.lines) == (Decimal("2.200"), Decimal("2.0"), (2, 3))


def test_that_a_group_is_held_to_the_highest_ceiling_that_applies():
    # Annex V entry 1 allows 2.5 % as acid in a rinse-off product, entry 1a 0.5 % of its own:
    # 1.5 % sodium benzoate is 1.27 % as acid, and the other stays within 0.5 %.
    assert codes(("sodium_benzoate", "1.5"), ("potassium_benzoate", "0.3"), **RINSE) == []
    [over] = found(("sodium_benzoate", "2.9"), ("potassium_benzoate", "0.3"), **RINSE)
    assert (over.limit, over.lines) == (Decimal("2.5"), (2, 3))


def test_that_another_entry_that_allows_it_answers_for_one_that_is_silent():
    # Annex III entry 65 names benzalkonium in rinse-off hair products only; Annex V entry 54
    # takes it to 0.1 % elsewhere: in a face cream the second speaks, and nothing is open.
    assert codes(("benzalkonium_chloride", "0.05")) == []


def test_that_the_legal_maximum_of_a_line_is_on_its_own_basis():
    # C02 and C06; glycerin has none.
    lines = (("sodium_benzoate", "0.3"), ("methylparaben", "0.1"), ("glycerin", "5"))
    assert maxima(*lines) == {2: Decimal("0.5900"), 3: Decimal("0.4406")}


def test_that_the_legal_maximum_leaves_room_for_the_other_lines():
    # 0.8 - 0.4 x 0.90781 - 0.4 x 0.83118 = 0.10440 % as acid; over 0.76648: 0.1362 %.
    lines = (("methylparaben", "0.4"), ("ethylparaben", "0.4"), ("propylparaben", "0.1"))
    assert maxima(*lines)[4] == Decimal("0.1362")


def test_that_the_legal_maximum_of_what_is_refused_is_nil():
    assert maxima(("methylisothiazolinone", "0.01")) == {2: Decimal(0)}


def test_that_every_finding_can_be_said():
    words = load_words(paths.resources() / "words")
    cases = (
        found(("sodium_benzoate", "0.60"), ("phenoxyethanol", "2"), markets=("EU", "UK", "US")),
        found(("methylisothiazolinone", "0.01"), ("triclosan", "0.1"), ("carbomer", "1")),
        found(("citral", "0.05"), product_type="deodorant"),
        found(("cetrimonium_chloride", "0.3"), **BODY),
        found(("titanium_dioxide", "5"), form="spray"),
        found(("cyclopentasiloxane_d5", "1"), ("melaleuca_alternifolia_leaf_oil", "1"), **RINSE),
        found(("glycolic_acid", "8"), markets=("EU", "US")),
    )
    for finding in (finding for case in cases for finding in case):
        title = words.say(finding.code, **dict(finding.values))
        detail = words.say(f"{finding.code}-detail", **dict(finding.values))
        assert title
        assert "  " not in detail
        for remedy in finding.remedies:
            assert words.say(remedy.code, **dict(remedy.values))


def test_that_the_sentence_holds_the_figures_and_the_authority():
    words = load_words(paths.resources() / "words")
    [over] = found(("sodium_benzoate", "0.60"), markets=("EU", "UK"))
    assert words.say("limit-over-detail", **dict(over.values)) == (
        "The formula holds 0.5085 % as benzoic acid. The law allows at most 0.5 % on that basis. "
        "Products meant: leave-on (EU and UK)."
    )


def scope_without_markets() -> Scope:
    return make_scope(markets=())


def test_that_no_market_means_no_limits():
    formula = make_formula(("water*", "0"), ("phenoxyethanol", "5"))
    shelf = shelf_for(formula)
    assert limits_of(formula, shelf, scope_without_markets(), RULES) == ()
