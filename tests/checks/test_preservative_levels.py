from decimal import Decimal
from functools import cache

import pytest

from tests.builders import make_formula, make_scope
from workbench import paths
from workbench.checks.assess import assess
from workbench.checks.finding import Severity
from workbench.checks.opened import opened
from workbench.checks.ph_values import PhEstimate
from workbench.checks.preservative_levels import check_preservative_levels
from workbench.checks.preservatives import preservative_shares
from workbench.formula.absent import Absent
from workbench.storage.reference.shipped import Shipped
from workbench.words.catalogue import load_words
from workbench.words.findings import detail, title


@cache
def shipped():
    return Shipped(paths.resources() / "reference")


def findings(*entries, ph=None, **changes):
    formula = make_formula(*entries, **changes)
    shelf = shipped().shelf
    known = opened(formula, shelf)
    estimate = ph or Absent("absent-ph")
    shares = preservative_shares(
        formula, known.parts, known.items, shelf.substances, shipped().rules, estimate
    )
    return check_preservative_levels(shares, shelf)


def at(low, estimate, high):
    return PhEstimate(low, estimate, high, 0.03, "good")


def test_that_benzoate_and_sorbate_at_ph_6_are_too_weak():
    # Reported by makers: such a cream left at pH 5.8 to 7 turned mouldy.
    found = findings(
        ("water*", "0"),
        ("sodium_benzoate", "0.3"),
        ("potassium_sorbate", "0.3"),
        ph=at(5.9, 6.0, 6.1),
    )
    assert [finding.severity for finding in found] == [Severity.CAUTION] * 2
    assert [finding.lines for finding in found] == [(2,), (3,)]
    assert {finding.code for finding in found} == {"preservative-weak"}


def test_that_the_same_at_ph_4_is_nothing_to_look_at():
    assert (
        findings(
            ("water*", "0"),
            ("sodium_benzoate", "0.3"),
            ("potassium_sorbate", "0.3"),
            ph=at(3.9, 4.0, 4.1),
        )
        == ()
    )


def test_that_a_range_that_still_reaches_the_level_is_only_a_note():
    (found,) = findings(("water*", "0"), ("sodium_benzoate", "0.5"), ph=at(4.8, 5.2, 5.4))
    assert found.severity is Severity.NOTE


def test_that_beside_another_preservative_it_is_only_a_note():
    (found,) = findings(
        ("water*", "0"), ("sodium_benzoate", "0.3"), ("phenoxyethanol", "0.9"), ph=at(5.9, 6.0, 6.1)
    )
    assert found.severity is Severity.NOTE


def test_that_what_keeps_a_raw_material_is_not_asked_to_keep_the_product():
    assert "sodium_benzoate" in {part.substance for part in shipped().shelf.parts("capb_30")}
    lines = (("water*", "0"), ("capb_30", "30"), ("phenoxyethanol", "0.9"))
    assert findings(*lines, ph=at(5.9, 6.0, 6.1)) == ()


def test_that_the_target_window_is_judged_where_no_ph_is_estimated():
    window = (Decimal("5.8"), Decimal("6.5"))
    (found,) = findings(("water*", "0"), ("potassium_sorbate", "0.3"), target_ph=window)
    assert dict(found.values)["ph-basis"] == "target"
    assert found.severity is Severity.CAUTION


def test_that_without_any_ph_nothing_is_said():
    assert findings(("water*", "0"), ("potassium_sorbate", "0.3")) == ()


@pytest.mark.parametrize("percent", ["0.04", "0.3"])
def test_that_a_finding_reads_as_sentences(percent):
    words = load_words(paths.resources() / "words")
    (found,) = findings(("water*", "0"), ("sodium_benzoate", percent), ph=at(5.9, 6.0, 6.1))
    shelf = shipped().shelf
    assert title(found, shelf, words).startswith("Benzoic Acid: 0.0")
    told = detail(found, shelf, words)
    assert told.endswith("Only a challenge test decides.")
    assert ("at any pH" in told) == (percent == "0.04")
    for working in found.workings:
        assert words.say(working.code, **dict(working.values)).endswith(".")


def test_that_water_kept_only_by_what_comes_with_a_raw_material_is_unpreserved():
    scope = make_scope(exposure="rinse-off", product_type="body-wash")

    def codes(*lines):
        formula = make_formula(("water*", "0"), *lines, product_type="body-wash")
        done = assess(formula, shipped().shelf, scope, shipped().rules)
        return [one.code for one in done.findings]

    assert "water-unpreserved" in codes(("capb_30", "30"))
    assert "water-unpreserved" not in codes(("capb_30", "30"), ("phenoxyethanol_ehg", "0.9"))
