"""Each kind of row speaks in its own way, and the rows of each kind are counted."""

from __future__ import annotations

import sys
from collections import Counter
from decimal import Decimal

from tests.builders import make_formula, make_ingredient, make_scope, make_shelf
from tests.checks.limits_asked import limits_of
from tests.checks.test_limit_rows import CASES
from workbench import paths
from workbench.checks.finding import Severity
from workbench.checks.rules import Authority
from workbench.storage.reference.limits import load_rules, read_limit_rows
from workbench.words.catalogue import load_words

FOLDER = paths.resources() / "reference"
RULES = load_rules(FOLDER)
ROWS = read_limit_rows(FOLDER)


def found(*lines, **scope):
    formula = make_formula(("water*", "0"), *lines)
    shelf = make_shelf(*(line[0] for line in lines))
    return limits_of(formula, shelf, make_scope(**scope), RULES)


def test_that_the_rows_of_each_kind_are_counted():
    kinds = Counter(row.authority.value for row in ROWS)
    tried = Counter(case.row.authority.value for case in CASES)
    figures = Counter(row.authority.value for row in ROWS if row.maximum)
    for name, counted in (("rows", kinds), ("with a maximum", figures), ("tried", tried)):
        sys.stdout.write(f"\n{name}: {dict(counted)}")
    assert kinds == {
        "law": 386, "information": 37, "advice": 27, "future": 15, "raw-material": 12,
        "labelling": 9, "law-by-claim": 3,
    }  # fmt: skip
    left_out = figures["law"] - tried["law"]
    # What is left out is brought in by a claim, or its factor is the supplier's to give.
    assert 0 <= left_out <= figures["law"] // 8


def test_that_information_says_nothing():
    said = [row for row in ROWS if row.authority is Authority.INFORMATION]
    named = {
        substance for row in said for substance in row.factors if substance not in row.possible
    }
    quiet = {"niacinamide", "urea", "caprylyl_glycol", "ethylhexylglycerin"}
    assert quiet <= named
    for substance in quiet:
        assert found((substance, "3"), markets=("EU", "UK")) == ()


def test_that_a_demand_on_the_raw_material_is_a_note_to_ask_the_supplier():
    # Annex III entry on hydrolyzed wheat protein: peptides of 3.5 kDa at most, in the material.
    [note] = found(("hydrolyzed_wheat_protein", "1"), markets=("EU", "UK"))
    assert (note.code, note.severity) == ("limit-raw-material", Severity.NOTE)
    assert note.values_of("authority") == ("EU", "UK")
    assert "3.5 kDa" in str(note.values_of("basis"))


def test_that_a_claim_that_would_change_the_law_is_told():
    # 21 CFR 333: salicylic acid 0.5 to 2 % is an acne drug active, with that claim only.
    said = found(("salicylic_acid", "1", "exfoliant-bha"), markets=("US",))
    [note] = [one for one in said if one.code == "limit-by-claim"]
    assert note.severity is Severity.NOTE
    assert found(("salicylic_acid", "1", "exfoliant-bha"), markets=("EU",)) == ()


def test_that_the_new_kinds_can_be_said():
    words = load_words(paths.resources() / "words")
    said = (
        *found(("hydrolyzed_wheat_protein", "1")),
        *found(("salicylic_acid", "1", "exfoliant-bha"), markets=("US",)),
    )
    for one in said:
        text = words.say(one.code, **dict(one.values))
        assert "  " not in text + words.say(f"{one.code}-detail", **dict(one.values))


def test_that_formaldehyde_is_counted_as_what_a_donor_can_release_at_most():
    # checks-regulatory C10: 2 x 30.026 / 188.183 = 0.3191; 0.6 % DMDM hydantoin: 0.1915 %.
    [row] = [
        row for row in ROWS if row.substance == "formaldehyde_released" and row.jurisdiction == "EU"
    ]
    factor = row.factors["dmdm_hydantoin"]
    assert abs(factor * Decimal("0.6") - Decimal("0.1915")) < Decimal("0.0001")
    assert abs(Decimal("0.001") / factor - Decimal("0.00313")) < Decimal("0.00001")


def test_that_advice_on_glycolic_acid_counts_the_acid_of_a_solution():
    # checks-regulatory C16: 4 / 0.70 = 5.714 % of a 70 % solution (SCCNFP advice).
    solution = make_ingredient("gly70", {"glycolic_acid": "0.70", "aqua": "0.30"})
    shelf = make_shelf(solution)

    def said(percent: str) -> list[str]:
        formula = make_formula(("water*", "0"), ("gly70", percent, "exfoliant-aha"))
        return [one.code for one in limits_of(formula, shelf, make_scope(), RULES)]

    assert "limit-over-advice" not in said("5.71")
    assert "limit-over-advice" in said("5.72")


def test_that_potash_is_counted_as_soda_in_a_cuticle_remover():
    # checks-regulatory C17: 5 x 56.105 / 39.997 = 7.014 % KOH (Annex III entry 15a).
    [row] = [
        row
        for row in ROWS
        if row.substance == "potassium_hydroxide"
        and row.jurisdiction == "EU"
        and row.maximum == Decimal(5)
    ]
    assert abs(Decimal(5) / row.factors["potassium_hydroxide"] - Decimal("7.0137")) < Decimal(
        "0.001"
    )
