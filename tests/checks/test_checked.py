"""The page of what was checked: tables, kinds, rows, gaps and standing cautions."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal

from tests.builders import make_formula, make_scope, make_shelf
from workbench import paths
from workbench.checks.assess import assess
from workbench.checks.carried import carried
from workbench.checks.checked import CAUTIONS, GAPS, HELD, OF_PRODUCT, Done, checked, limit_looks
from workbench.checks.checked_values import COVERS_NOTHING, NONE_WRITTEN, NOT_APPLICABLE, Checked
from workbench.checks.compatibility import with_own_rules
from workbench.checks.compatibility_language import read_condition
from workbench.checks.labelled import label_facts, labelled
from workbench.checks.rules import LimitRow
from workbench.formula.composition import composition
from workbench.formula.totals import totals
from workbench.storage.reference.shipped import Shipped

SHIPPED = Shipped(paths.resources() / "reference")
RULES = SHIPPED.rules
LOTION = (
    ("water*", "0"),
    ("glycerin", "4"),
    ("salicylic_acid", "0.5"),
    ("phenoxyethanol_ehg", "0.9"),
)


def page(*lines: tuple[str, ...], **scope: object) -> Checked:
    formula = make_formula(*lines)
    parts = composition(formula, SHIPPED.shelf)
    asked = make_scope(**scope)
    facts = label_facts(formula, SHIPPED.shelf, carried(formula, SHIPPED.shelf, totals(formula)))
    label = labelled(parts, SHIPPED.shelf, asked, RULES, facts)
    return checked(parts, SHIPPED.shelf, asked, RULES, Done(label))


def test_that_every_row_of_every_kind_is_counted() -> None:
    rows = {kind: rows for kind, rows, _, _ in page(*LOTION).kinds}
    assert rows == Counter(row.authority.value for row in RULES.limits)
    assert sum(rows.values()) == len(RULES.limits)


# Each row that is no maximum of law is reached from a formula that holds what it counts.
def test_that_every_other_row_can_be_reached() -> None:
    reached: set[int] = set()
    for substance in RULES.limits_by_substance:
        if substance not in SHIPPED.substances:
            continue
        reached |= {row.index for row in RULES.limits_by_substance[substance]}
    reached |= {look.index for look in page(*LOTION, markets=("US",)).limits_with(OF_PRODUCT)}
    assert reached == {row.index for row in RULES.limits}


def test_that_rows_naming_a_substance_say_what_became_of_them() -> None:
    found = page(*LOTION)
    named = {
        row.index
        for key in ("salicylic_acid", "phenoxyethanol", "glycerin", "ethylhexylglycerin")
        for row in RULES.limits_by_substance.get(key, ())
    }
    assert named == {look.index for look in found.limits}
    assert {look.outcome for look in found.limits} >= {HELD, "other-market", "other-scope"}


def test_that_a_row_is_held_only_in_its_market() -> None:
    eu, us = page(*LOTION), page(*LOTION, markets=("US",))
    assert {RULES.limits[look.index].jurisdiction for look in eu.limits_with(HELD)} == {"EU"}
    bodies = {RULES.limits[look.index].jurisdiction for look in us.limits_with(HELD)}
    assert bodies <= {"US-guidance", "CIR"}


def test_that_law_of_a_later_day_is_held_from_that_day_on() -> None:
    turned = 0
    for row in RULES.limits:
        if row.effective_from is None or row.jurisdiction != "EU":
            continue
        key = next(iter(row.factors))
        before = outcome_of(row, key, row.effective_from - timedelta(days=1))
        on = outcome_of(row, key, row.effective_from)
        assert before != HELD or row.authority.value == "law"
        turned += (before, on) == ("not-yet", HELD)
    assert turned


def outcome_of(row: LimitRow, key: str, on: date) -> str:
    shelf = make_shelf(key)
    formula = make_formula(("water*", "0"), (key, "1"))
    looks = limit_looks(composition(formula, shelf), make_scope(on=on), RULES)
    return next(look.outcome for look in looks if look.index == row.index)


def test_that_a_market_without_an_allergen_list_is_said_so() -> None:
    states = {
        (looked.topic, looked.market): looked.state
        for looked in page(*LOTION, markets=("EU", "US")).looked
    }
    assert states["allergens", "US"] == COVERS_NOTHING
    assert states["allergens", "EU"] == "applied"


def test_that_limits_on_products_do_not_apply_to_a_stock() -> None:
    found = page(*LOTION, product_type="stock")
    assert not found.limits
    assert all(
        looked.state in (NOT_APPLICABLE, COVERS_NOTHING)
        or looked.topic in ("warnings-usual", "compatibility")
        for looked in found.looked
    )


def test_that_what_no_rule_names_is_listed() -> None:
    found = page(*LOTION, ("moonstone", "1"))
    assert "water" in found.without_rule
    assert "salicylic_acid" not in found.without_rule
    assert found.unknown_lines == (5,)


def test_that_the_standing_cautions_and_the_gaps_are_always_there() -> None:
    found = page(*LOTION)
    assert found.cautions == CAUTIONS
    assert found.gaps == GAPS
    for needed in ("caution-assessor", "caution-law", "caution-challenge", "caution-patch"):
        assert needed in found.cautions


def test_that_a_day_after_the_tables_is_warned_of() -> None:
    later = page(*LOTION, on=date(2030, 1, 1))
    assert later.is_beyond_tables
    assert "caution-beyond" in later.cautions
    assert not page(*LOTION).is_beyond_tables


def test_that_the_page_lists_every_table_that_was_used() -> None:
    formula = make_formula(
        *LOTION, ("sodium_benzoate", "0.4"), ("lactic_acid_80", "1"),
        target_ph=(Decimal("5.0"), Decimal("5.4")), product_type="lotion",
    )  # fmt: skip
    own = read_condition("has [key glycerin] >= 3", {})
    mine = replace(RULES.compatibility.rules[0], key="mine", when=own, is_own=True)
    rules = with_own_rules(RULES, (mine,))
    done = assess(formula, SHIPPED.shelf, make_scope(product_type="lotion"), rules)
    looked = {each.topic: each for each in done.checked.looked}
    assert {
        "limits", "declaration", "allergens", "warnings-prescribed", "warnings-usual",
        "micro-risk", "use-levels", "compatibility", "own-rules", "ph-windows", "ph-usual",
        "preservation", "preservative-levels", "acids-bases", "adjusters",
    } == set(looked)  # fmt: skip
    assert looked["compatibility"].rows == len(RULES.compatibility.rules)
    assert (looked["own-rules"].rows, looked["own-rules"].used) == (1, 1)
    assert looked["ph-windows"].rows == sum(row.kind != "target" for row in done.ph_windows.rows)
    assert looked["acids-bases"].used >= 3
    assert looked["preservation"].rows == len(RULES.preservation.forms)
    plain = assess(formula, SHIPPED.shelf, make_scope(), RULES)
    assert {each.topic: each.state for each in plain.checked.looked}["own-rules"] == NONE_WRITTEN
