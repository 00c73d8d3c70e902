"""The 25 worked examples of the limit tables, and the matching rule they follow.

Source of every expected figure: the worked examples that come with limit_scopes.csv, which read
Reg. (EC) 1223/2009 Annexes II, III and V and the opinions named in limits.csv.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from itertools import product

import pytest

from tests.builders import make_scope
from workbench import paths
from workbench.checks.limit_matching import (
    Fit,
    atoms_of,
    fit,
    is_doubtful,
    judge,
    jurisdictions_of,
    role_of,
)
from workbench.checks.rules import Atom, Authority, Judgement, LimitRow, Verdict
from workbench.storage.reference.limits import read_limit_rows

ROWS = read_limit_rows(paths.resources() / "reference")
PLACED = date(2026, 11, 25)
AGES = ("adult", "child-10-17", "child-6-9", "child-3-5", "toddler-1-2", "infant-0")


@dataclass(frozen=True)
class Outcome:
    """What all products of a case come to together."""

    answer: str
    rows: frozenset[int]
    other_rows: frozenset[int]


def atoms(**changes: str) -> tuple[Atom, ...]:
    usual = {
        "exposure": "leave-on",
        "area": "face",
        "users": "adult",
        "form": "usual",
        "product_class": "cream",
    }
    claims = frozenset(changes.pop("claims", "").split(";")) - {""}
    values = [value.split(";") for value in {**usual, **changes}.values()]
    return tuple(Atom(*one, claims=claims) for one in product(*values))


def outcome(substance: str, role: str, law: str, products: tuple[Atom, ...]) -> Outcome:
    rows = tuple(row for row in ROWS if substance in row.factors and row.jurisdiction == law)
    said = [(judge(rows, substance, role, atom, PLACED), atom) for atom in products]
    winners = [row for judgement, _ in said for row in judgement.law]
    return Outcome(
        answer=answer_of(said, winners, role),
        rows=frozenset(row.index for row in winners),
        other_rows=frozenset(row.index for judgement, _ in said for row in judgement.others),
    )


def answer_of(said: list[tuple[Judgement, Atom]], winners: list[LimitRow], role: str) -> str:
    verdicts = {verdict for judgement, _ in said for verdict, _ in judgement.verdicts}
    if Verdict.BANNED in verdicts or any(row.is_prohibition for row in winners):
        return "banned"
    if Verdict.CHECK in verdicts:
        return "check"
    maxima = [row.maximum for row in winners if row.maximum is not None]
    doubt = any(is_doubtful(row, atom, role) for judged, atom in said for row in judged.law)
    if maxima:
        return f"{min(maxima).normalize():f}" + (" check" if doubt else "")
    return "no figure" if winners else "none"


EXAMPLES = (
    ("1", "salicylic_acid", "other", "EU", atoms(product_class="toner"), "2", {169}),
    (
        "2", "salicylic_acid", "other", "EU",
        atoms(product_class="lotion", area="body"), "0.5", {171},
    ),
    ("3", "salicylic_acid", "preservative", "EU", atoms(), "0.5", {16}),
    (
        "4", "salicylic_acid", "other", "EU",
        atoms(product_class="cleanser", exposure="rinse-off", users=";".join(AGES)),
        "banned", {169},
    ),
    (
        "5", "cetrimonium_chloride", "other", "EU",
        atoms(product_class="conditioner", exposure="rinse-off", area="hair"), "2.5", {292},
    ),
    ("6", "cetrimonium_chloride", "other", "EU", atoms(), "0.5", {296}),
    (
        "7", "cetrimonium_chloride", "other", "EU",
        atoms(product_class="lotion", area="body"), "check", set(),
    ),
    ("8", "retinol", "other", "EU", atoms(product_class="lotion", area="body"), "0.05", {205}),
    ("9", "retinol", "other", "EU", atoms(product_class="serum"), "0.3", {206}),
    ("10", "triethanolamine", "other", "UK", atoms(), "2.5", {283}),
    (
        "11", "triethanolamine", "other", "UK",
        atoms(product_class="body-wash", exposure="rinse-off", area="body"), "no figure", {285},
    ),
    ("12", "benzyl_alcohol", "preservative", "EU", atoms(), "1", {84}),
    ("13", "benzyl_alcohol", "fragrance", "EU", atoms(), "none", set()),
    (
        "14", "dehydroacetic_acid", "other", "EU",
        atoms(product_class="deodorant", form="aerosol", area="body"), "banned", set(),
    ),
    (
        "15", "dehydroacetic_acid", "other", "EU",
        atoms(product_class="toner", form="spray"), "0.6 check", {56},
    ),
    (
        "16", "propylparaben", "other", "EU",
        atoms(area="nappy", users="toddler-1-2;infant-0"), "banned", {46, 54},
    ),
    (
        "17", "sodium_benzoate", "other", "UK",
        atoms(product_class="shampoo", exposure="rinse-off", area="hair"), "2.5", {3},
    ),
    ("18", "sodium_metabisulfite", "other", "EU", atoms(product_class="serum"), "0.2", {36}),
    ("19", "sodium_metabisulfite", "other", "EU", atoms(product_class="self-tan"), "0.45", {406}),
    (
        "20", "hydrogen_peroxide", "other", "EU",
        atoms(product_class="body-wash", exposure="rinse-off", area="hair;body"), "4", {236, 238},
    ),
    (
        "21", "hydrogen_peroxide", "other", "UK",
        atoms(product_class="nail", area="nail", claims="nail-hardening"), "2", {241},
    ),
    ("22", "zinc_pca", "other", "EU", atoms(), "1", {270}),
    ("23", "melaleuca_alternifolia_leaf_oil", "other", "EU", atoms(), "none", set()),
    (
        "24", "citral", "other", "EU",
        atoms(product_class="deodorant", area="body"), "none", set(),
    ),
    ("25", "glycolic_acid", "other", "EU", atoms(product_class="toner"), "none", set()),
)  # fmt: skip


@pytest.mark.parametrize(
    ("substance", "role", "law", "products", "answer", "rows"),
    [pytest.param(*case, id=number) for number, *case in EXAMPLES],
)
def test_that_a_worked_example_comes_out(substance, role, law, products, answer, rows):
    found = outcome(substance, role, law, products)
    assert (found.answer, found.rows) == (answer, rows)


@pytest.mark.parametrize(
    ("substance", "role", "products", "row"),
    [
        pytest.param("benzyl_alcohol", "fragrance", atoms(), 470, id="13-labelling"),
        pytest.param("melaleuca_alternifolia_leaf_oil", "other", atoms(), 350, id="23-advice"),
        pytest.param("citral", "other", atoms(product_class="deodorant"), 316, id="24-future"),
        pytest.param("glycolic_acid", "other", atoms(product_class="toner"), 369, id="25-advice"),
    ],
)
def test_that_what_is_not_law_is_still_found(substance, role, products, row):
    assert row in outcome(substance, role, "EU", products).other_rows


def test_that_a_future_row_becomes_law_on_its_day():
    rows = tuple(row for row in ROWS if row.substance == "citral")
    [atom] = atoms(product_class="deodorant", area="body")
    before = judge(rows, "citral", "other", atom, date(2026, 12, 31))
    after = judge(rows, "citral", "other", atom, date(2027, 1, 1))
    assert [row.index for row in before.others] == [316]
    assert before.law == ()
    assert [row.index for row in after.law] == [316]


def test_that_a_row_of_law_is_never_switched_off_by_its_date():
    [zinc] = [row for row in ROWS if row.index == 270]
    assert zinc.effective_from == date(2027, 1, 1)
    judgement = judge((zinc,), "zinc_pca", "other", atoms()[0], PLACED)
    assert judgement.law == (zinc,)


def test_that_every_row_of_law_can_match_some_product():
    for row in ROWS:
        assert any(
            fit(row, atom, role) is Fit.MATCHES
            for atom, role in product(_products_of(row), _roles_of(row))
        ), row.index


def test_that_specificity_is_what_the_table_states():
    # Recomputed by the loader from the main fields; face cream 19, leave-on face 3, all 0.
    assert {row.index: row.specificity for row in ROWS if row.index in (218, 296, 169)} == {
        218: 19,
        296: 3,
        169: 0,
    }


def test_that_a_product_for_under_threes_is_two_products():
    ages = {atom.users for atom in atoms_of(make_scope(users="under-3"))}
    assert ages == {"toddler-1-2", "infant-0"}


def test_that_a_stock_counts_as_no_named_class():
    assert {atom.product_class for atom in atoms_of(make_scope(product_type="stock"))} == {"other"}


@pytest.mark.parametrize(
    ("purpose", "role"),
    [
        ("preservative", "preservative"),
        ("preservative-booster", "other"),
        ("essential-oil", "fragrance"),
        ("buffer", "ph-adjuster"),
        ("ph-adjuster-base", "ph-adjuster"),
        ("pearlescent", "colourant"),
        ("humectant", "other"),
    ],
)
def test_that_a_purpose_has_its_role(purpose, role):
    assert role_of(purpose) == role


def test_that_expert_opinion_is_asked_only_for_its_own_market():
    assert jurisdictions_of(("EU", "UK")) == ("EU", "UK")
    assert jurisdictions_of(("US",)) == ("US-guidance", "CIR")


def test_that_unclear_coverage_gives_no_law():
    rows = tuple(
        row for row in ROWS if row.substance == "aluminium_compounds" and "kaolin" in row.possible
    )
    for atom in atoms(exposure="leave-on;rinse-off", form="aerosol", product_class="deodorant"):
        judgement = judge(rows, "kaolin", "other", atom, date(2035, 1, 1))
        assert judgement.law == ()
        assert judgement.verdicts == ()
        assert {row.authority for row in judgement.possible} == {Authority.FUTURE_LAW}


def test_that_a_maximum_is_never_negative():
    assert all(row.maximum is None or row.maximum >= Decimal(0) for row in ROWS)


def _products_of(row: LimitRow) -> tuple[Atom, ...]:
    clauses = (row.main, *row.alternatives)
    return tuple(
        atom
        for clause in clauses
        for atom in atoms(
            exposure=_choices(clause.allowed.get("exposure"), "leave-on;rinse-off"),
            area=_choices(clause.allowed.get("area"), "face;hand"),
            users=_choices(clause.allowed.get("users"), "adult;infant-0"),
            form=_choices(clause.allowed.get("form"), "usual;spray"),
            product_class=_choices(clause.allowed.get("product_class"), "cream;other"),
            claims=";".join(sorted(clause.allowed.get("claim", ()))),
        )
    )


def _choices(allowed: frozenset[str] | None, usual: str) -> str:
    return usual if allowed is None else ";".join(sorted(allowed))


def _roles_of(row: LimitRow) -> set[str]:
    roles = {role for c in (row.main, *row.alternatives) for role in _role_words(c.allowed)}
    return {"other" if role == "not-preservative" else role for role in roles} or {"other"}


def _role_words(allowed: object) -> frozenset[str]:
    return allowed.get("ingredient_role", frozenset({"other"}))
