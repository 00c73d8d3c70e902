"""One fault is one finding: weak preservatives and their windows, law and trade levels."""

from __future__ import annotations

from decimal import Decimal

from tests.builders import make_formula, make_scope
from workbench import paths
from workbench.checks.assess import assess
from workbench.checks.finding import Finding, Severity
from workbench.checks.said_once import lines_over_in_law, said_once
from workbench.storage.reference.shipped import Shipped
from workbench.words.catalogue import load_words
from workbench.words.findings import named

SHIPPED = Shipped(paths.resources() / "reference")


def codes(*lines: tuple[str, ...], target: tuple[str, str] | None = None) -> list[str]:
    ends = (Decimal(target[0]), Decimal(target[1])) if target else None
    formula = make_formula(("water*", "0"), *lines, target_ph=ends, product_type="toner")
    scope = make_scope(product_type="toner")
    return [one.code for one in assess(formula, SHIPPED.shelf, scope, SHIPPED.rules).findings]


def weak(severity: Severity = Severity.NOTE) -> Finding:
    return Finding("preservative-weak", severity, lines=(2,))


def outside(*lines: int) -> Finding:
    values = (
        ("ingredient", "sodium_benzoate"),
        ("window", "below"),
        ("floor", ""),
        ("ceiling", Decimal("5.0")),
    )
    return Finding("ph-outside-preservative", Severity.CAUTION, values=values, lines=lines)


def test_that_a_preservative_outside_its_window_is_told_by_what_is_left_of_it() -> None:
    said = codes(("sodium_benzoate", "0.4"), target=("5.8", "6.2"))
    assert said.count("preservative-weak") == 1
    assert "ph-outside-preservative" not in said


def test_that_the_window_goes_into_the_workings_and_the_graver_word_stays() -> None:
    [one] = said_once([outside(2), weak()])
    assert (one.code, one.severity) == ("preservative-weak", Severity.CAUTION)
    [working] = one.workings
    text = load_words(paths.resources() / "words").say(
        working.code, **named(working.values, SHIPPED.shelf)
    )
    assert text == "Sodium benzoate is said to work up to pH 5."


def test_that_a_window_of_another_line_keeps_its_finding() -> None:
    assert len(said_once([outside(3), weak()])) == 2
    assert len(said_once([outside(2)])) == 1


def test_that_what_is_over_in_law_is_not_told_as_a_usual_level_too() -> None:
    # Annex V entry 34: 1.0 % benzyl alcohol as a preservative; the blend holds 87 % of it.
    said = codes(("benzyl_alcohol_dha", "1.4", "preservative"))
    assert "limit-over" in said
    assert not [code for code in said if code.startswith("use-over")]


def test_that_only_law_in_force_silences_a_usual_level() -> None:
    law = Finding("limit-over", Severity.STOP, lines=(2,))
    advice = Finding("limit-over-advice", Severity.CAUTION, lines=(3,))
    assert lines_over_in_law([law, advice]) == {2}
