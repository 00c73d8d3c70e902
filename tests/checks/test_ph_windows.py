"""pH windows: who has one, where they meet, which two disagree and which swap mends it."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest

from tests.builders import make_formula
from workbench import paths
from workbench.checks.carried import carried
from workbench.checks.compatibility_mixture import mixture_of
from workbench.checks.finding import Severity
from workbench.checks.ph_findings import check_ph_windows
from workbench.checks.ph_overlap import ph_windows
from workbench.checks.ph_values import PhEstimate
from workbench.checks.ph_windows import LIMIT, PhWindow
from workbench.formula.absent import Absent
from workbench.formula.scope import scope_of
from workbench.formula.totals import totals
from workbench.storage.reference.shipped import Shipped
from workbench.words.catalogue import load_words
from workbench.words.findings import detail, title

SHIPPED = Shipped(paths.resources() / "reference")
RULES = SHIPPED.rules
NONE = Absent("absent-ph")
WORDS = load_words(paths.resources() / "words")


def target(low: str, high: str) -> tuple[Decimal, Decimal]:
    return Decimal(low), Decimal(high)


def make(*lines, **changes):
    scope = {"area": "face", "product_type": "serum", **changes}
    return make_formula(("water*", "0"), *lines, **scope)


def windows(formula):
    scope = scope_of(formula, date(2026, 11, 25))
    items = carried(formula, SHIPPED.shelf, totals(formula))
    mixture = mixture_of(formula, items, scope, RULES.compatibility)
    return ph_windows(formula, mixture, RULES)


def found(formula, estimate=NONE):
    return check_ph_windows(windows(formula), estimate, SHIPPED.shelf)


def estimate(low: float, middle: float, high: float, *, before: bool = False) -> PhEstimate:
    return PhEstimate(low, middle, high, 0.1, "fair", before_adjusting=before)


def test_that_windows_stand_in_the_order_of_the_ladder():
    formula = make(
        ("xanthan_gum", "0.3"), ("niacinamide", "4"), ("sodium_benzoate", "0.4"),
        ("citric_acid", "0.2"), target_ph=target("5", "5.5"),
    )  # fmt: skip
    assert [row.kind for row in windows(formula).rows] == [
        "target", "preservative", "active", "thickener", "product",
    ]  # fmt: skip


def test_that_what_sets_the_ph_has_no_window():
    formula = make(("citric_acid", "0.2"), ("sodium_hydroxide_10+", "0.5"), ("lactic_acid_80", "1"))
    assert {row.kind for row in windows(formula).rows} <= {"product"}


def test_that_without_water_there_is_no_ph():
    assert windows(make_formula(("almond_oil", "99"), ("tocopheryl_acetate", "1"))).rows == ()


def test_that_one_ingredient_on_two_lines_is_one_window():
    rows = windows(make(("niacinamide", "2"), ("niacinamide", "2"))).rows
    [row] = [row for row in rows if row.name == "niacinamide"]
    assert row.lines == (2, 3)


def test_that_the_overlap_is_the_highest_floor_to_the_lowest_ceiling():
    # ingredients.csv: niacinamide 5-7, panthenol 4-7, benzoate 3-5 (as cited there).
    formula = make(("niacinamide", "4"), ("panthenol_d", "1"), ("phenoxyethanol_ehg", "1"))
    assert windows(formula).overlap == target("5", "7")


def test_that_two_that_disagree_are_named_with_the_swap_that_mends_it():
    # Free vitamin C wants pH 2.5-3.5, niacinamide 5-7 (reviews of vitamin C formulation).
    formula = make(("ascorbic_acid", "10"), ("niacinamide", "4"))
    seen = windows(formula)
    assert seen.overlap is None
    assert {row.name for row in seen.disagree} == {"ascorbic_acid", "niacinamide"}
    assert seen.remedy.from_key == "ascorbic_acid"
    assert seen.remedy.line == 2
    [said] = [one for one in found(formula) if one.code == "ph-windows-apart"]
    assert said.severity is Severity.CAUTION
    assert "would let them meet" in detail(said, SHIPPED.shelf, WORDS)
    mended = make((seen.remedy.to_key, "5"), ("niacinamide", "4"))
    assert windows(mended).overlap is not None


def test_that_no_swap_is_offered_that_would_not_mend_it():
    seen = windows(make(("potassium_cocoate", "30"), ("niacinamide", "2")))
    assert seen.disagree is not None
    assert seen.remedy is None


@pytest.mark.parametrize(
    ("ends", "severity"),
    [
        (("7.5", "8"), Severity.CAUTION),
        (("6.5", "7.5"), Severity.NOTE),
        (("5", "7"), None),
    ],
)
def test_that_a_target_outside_an_active_is_told_by_how_much_is_outside(ends, severity):
    said = [
        one.severity
        for one in found(make(("niacinamide", "4"), target_ph=target(*ends)))
        if one.code == "ph-outside-window"
    ]
    assert said == ([severity] if severity is not None else [])


def test_that_a_target_outside_a_preservative_is_a_caution_once():
    formula = make(("sodium_benzoate", "0.4"), target_ph=target("4.8", "5.5"))
    [one] = [one for one in found(formula) if one.code == "ph-outside-preservative"]
    assert (one.severity, one.limit) == (Severity.CAUTION, Decimal(5))


def test_that_what_is_usual_for_a_product_is_a_note():
    [one] = found(make(("glycerin", "3"), target_ph=target("7.2", "7.6")))
    assert (one.code, one.severity) == ("ph-outside-usual", Severity.NOTE)


def test_that_an_acid_peel_is_held_to_the_usual_ph_of_its_kind_and_not_of_skin():
    assert found(make(("glycolic_acid_70", "6"), target_ph=target("4", "4.5"))) == ()
    [one] = found(make(("glycolic_acid_70", "6"), target_ph=target("3.8", "4")))
    assert dict(one.values)["ingredient"] == "exfoliating-leave-on"


def test_that_an_estimate_outside_is_a_caution_only_as_a_whole():
    formula = make(("niacinamide", "4"))
    assert found(formula, estimate(5.2, 6, 6.8)) == ()
    [note] = found(formula, estimate(4, 4.8, 5.6))
    assert (note.code, note.severity) == ("ph-estimate-outside", Severity.NOTE)
    [caution] = found(formula, estimate(3, 3.5, 4))
    assert (caution.code, caution.severity) == ("ph-estimate-outside", Severity.CAUTION)
    assert found(formula, estimate(3, 3.5, 4, before=True)) == ()


def test_that_with_a_target_the_estimate_is_held_against_it_alone():
    formula = make(("niacinamide", "4"), target_ph=target("5.5", "6"))
    [one] = found(formula, estimate(6.5, 6.8, 7.2))
    assert one.values_of("kind") == "target"


def test_that_windows_of_limits_join_the_others():
    formula = make(("niacinamide", "4"))
    scope = scope_of(formula, date(2026, 11, 25))
    items = carried(formula, SHIPPED.shelf, totals(formula))
    mixture = mixture_of(formula, items, scope, RULES.compatibility)
    ceiling = PhWindow(LIMIT, "sodium_hydroxide", None, Decimal("6.5"))
    seen = ph_windows(formula, mixture, RULES, (ceiling,))
    assert seen.rows[-1] is ceiling
    assert seen.overlap == (Decimal(5), Decimal("6.5"))


def test_that_every_finding_can_be_said():
    cases = (
        found(make(("ascorbic_acid", "10"), ("niacinamide", "4"))),
        found(make(("potassium_cocoate", "30"), target_ph=target("5", "6"))),
        found(make(("niacinamide", "4")), estimate(3, 3.5, 4)),
        found(make(("carbomer", "0.3"), target_ph=target("4", "4.5"))),
    )
    for one in (one for case in cases for one in case):
        said = f"{title(one, SHIPPED.shelf, WORDS)} {detail(one, SHIPPED.shelf, WORDS)}"
        assert "{" not in said
        assert "  " not in said
