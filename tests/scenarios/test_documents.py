"""Documents come back as they went, and follow their schema."""

from __future__ import annotations

import json
from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from tests.builders import make_formula, make_shelf
from workbench import paths
from workbench.formula.document import document_data, formula_data, formula_from_data
from workbench.formula.document_whole import read_document
from workbench.formula.edits import added, moved_by, removed, with_percent
from workbench.formula.formula import Formula, Phase, Plan, Step
from workbench.formula.totals import totals
from workbench.formula.versions import same_design

SCHEMA = json.loads(
    (paths.resources() / "schema" / "formula-1.schema.json").read_text(encoding="utf-8")
)
PERCENTS = st.decimals(0, 100, places=4, allow_nan=False)
NAMES = st.text(
    st.characters(blacklist_categories=("Cc", "Cs", "Zs", "Zl", "Zp")), min_size=1, max_size=30
)


@st.composite
def formulas(draw: st.DrawFn) -> Formula:
    """Draw whole formulas."""
    made = make_formula(
        ("water*", "0"), *((key, str(draw(PERCENTS))) for key in ("glycerin", "cct", "stock"))
    )
    phase = Phase(
        id=2, name=draw(NAMES), kind="oil", steps=(Step(draw(NAMES), target_c=Decimal(75)),)
    )
    return Formula(
        name=draw(NAMES),
        phases=(*made.phases, phase),
        product_type="lotion",
        markets=("EU", "UK"),
        target_ph=(Decimal("5.0"), Decimal("5.6")),
        plan=Plan(batch_mass=draw(st.decimals("0.01", 5000, places=2)), units=3),
    )


@given(formulas())
def test_that_a_formula_comes_back_from_its_plain_data(formula: Formula) -> None:
    assert same_design(formula_from_data(formula_data(formula)), formula)


@given(formulas())
def test_that_a_document_follows_the_schema_and_brings_its_stocks(formula: Formula) -> None:
    stock = make_formula(("water*", "0"), ("glycerin", "10"), product_type="stock")
    shelf = make_shelf("glycerin", "cct", stocks={"stock": stock})
    data = json.loads(json.dumps(document_data(formula, shelf)))
    Draft202012Validator(SCHEMA).validate(data)
    read = read_document(data, {}, {})
    assert same_design(read.formula, formula)
    assert same_design(read.stocks["stock"], stock)


@given(st.lists(st.tuples(st.integers(0, 3), st.integers(2, 6), PERCENTS), max_size=25))
def test_that_any_edits_with_a_rest_line_keep_100(
    edits: list[tuple[int, int, Decimal]],
) -> None:
    formula = make_formula(("water*", "0"), ("glycerin", "5"), ("cct", "10"), ("shea_butter", "3"))
    for kind, line, percent in edits:
        if kind == 0:
            formula = added(formula, "glycerin", percent, 1)
        elif any(item.id == line for item in formula.lines()):
            if kind == 1:
                formula = with_percent(formula, line, percent)
            elif kind == 2:
                formula = moved_by(formula, line, -1)
            else:
                formula = removed(formula, frozenset({line}))
        assert totals(formula).percent == Decimal(100)
        assert sum(totals(formula).percents.values()) == Decimal(100)
