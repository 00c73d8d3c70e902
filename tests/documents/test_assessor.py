"""The sheet for a safety assessor: figures, carry-over, what was checked, and no verdict."""

from __future__ import annotations

import io
import subprocess
import sys
from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal

import pytest
from pypdf import PdfReader

from tests.builders import make_formula, make_scope
from tests.documents.labels import SHIPPED, STUDIO, WORDS
from workbench.checks.assess import assess
from workbench.documents.assessor_content import AssessorContent, AssessorMaking, assessor_content
from workbench.documents.assessor_pdf import assessor_pdf
from workbench.documents.sheet import Paper
from workbench.formula.formula import Formula
from workbench.formula.shelf import Shelf, shelf_of

MAKING = AssessorMaking(STUDIO, "3", SHIPPED.rules, WORDS)
STOCK = make_formula(
    ("water*", "0"), ("xanthan_gum", "1"), ("phenoxyethanol_ehg", "1"), name="Stock"
)


def with_stock() -> tuple[Formula, Shelf]:
    """Return a gel of a gum stock, and its shelf."""
    base = SHIPPED.shelf
    shelf = shelf_of(base.ingredients, {"gum_stock": STOCK}, base.substances)
    formula = make_formula(
        ("water*", "0"),
        ("gum_stock", "35"),
        ("panthenol_75", "1.3333"),
        ("sodium_benzoate", "0.5"),
        ("eo_lavender", "0.1"),
        name="Marsh gel",
        target_ph=(Decimal("4.8"), Decimal("5.2")),
    )
    keys = [key for key in base.ingredients if "panthenol" in key and key != "panthenol_d"]
    lines = tuple(
        replace(line, ingredient=keys[0]) if line.ingredient == "panthenol_75" else line
        for line in formula.phases[0].lines
    )
    return replace(formula, phases=(replace(formula.phases[0], lines=lines),)), shelf


def content_of(formula: Formula, shelf: Shelf) -> AssessorContent:
    scope = make_scope(markets=("EU", "UK"), product_type="gel")
    return assessor_content(formula, shelf, assess(formula, shelf, scope, SHIPPED.rules), MAKING)


def text_of(content: AssessorContent, paper: Paper = Paper.A4) -> str:
    pages = PdfReader(io.BytesIO(assessor_pdf(content, paper, WORDS))).pages
    return "\f".join(page.extract_text() for page in pages)


def test_that_percents_over_all_materials_sum_to_a_hundred() -> None:
    rows = content_of(*with_stock()).substances
    assert sum(row.percent_exact for row in rows) == pytest.approx(
        Decimal(100), abs=Decimal("1e-4")
    )


def test_that_the_stock_is_expanded_and_its_preservative_marked_as_carried_over() -> None:
    rows = {row.inci: row for row in content_of(*with_stock()).substances}
    # 35 % of a stock of 1 %: 0.35 % gum and 0.315 % phenoxyethanol (90 % of 0.35 %)
    assert rows["Xanthan Gum"].percent_exact == Decimal("0.35")
    assert not rows["Xanthan Gum"].is_carried
    assert rows["Phenoxyethanol"].percent_exact == Decimal("0.315")
    assert rows["Phenoxyethanol"].is_carried
    assert rows["Phenoxyethanol"].brought_by == "Stock (carried over)"


def test_that_cas_and_function_stand_beside_the_name() -> None:
    rows = {row.inci: row for row in content_of(*with_stock()).substances}
    # CAS 532-32-1: sodium benzoate
    assert rows["Sodium Benzoate"].cas == "532-32-1"
    assert rows["Sodium Benzoate"].function == "preservative"


def test_that_unknown_contents_are_told_and_in_no_figure() -> None:
    formula = make_formula(("water*", "0"), ("mystery", "3"))
    text = " ".join(text_of(content_of(formula, SHIPPED.shelf)).split())
    assert "Contents not known: mystery" in text


def test_that_ph_preservatives_allergens_and_checks_are_there() -> None:
    text = " ".join(text_of(content_of(*with_stock())).split())
    for needed in (
        "Wanted: pH 4.8 to 5.2",
        "% undissociated",
        "a challenge test (ISO 11930) does",
        "Fragrance allergens over their threshold, EU",
        "Linalool",
        "What was checked",
        "Limit rows held against it",
        "Not looked at",
        "What remains to be done",
    ):
        assert needed in text


def test_that_the_sheet_gives_no_verdict() -> None:
    said = text_of(content_of(*with_stock())).lower()
    assert "is safe" not in said
    assert "complian" not in said
    assert "no safety assessment" in said


@pytest.mark.parametrize("paper", list(Paper))
def test_that_the_text_of_the_sheet_is_as_agreed(
    paper: Paper, golden: Callable[[str, str], None]
) -> None:
    golden(f"assessor-{paper.name.lower()}", text_of(content_of(*with_stock()), paper))


def test_that_every_page_tells_its_number() -> None:
    pages = text_of(content_of(*with_stock())).split("\f")
    for number, text in enumerate(pages, start=1):
        assert f"Page {number} of {len(pages)}" in text


def test_that_the_same_sheet_gives_the_same_bytes_in_another_process() -> None:
    code = (
        "import sys; from tests.documents.test_assessor import *;"
        "sys.stdout.buffer.write(assessor_pdf(content_of(*with_stock()), Paper.A4, WORDS))"
    )
    other = subprocess.run([sys.executable, "-c", code], capture_output=True, check=True)
    assert other.stdout == assessor_pdf(content_of(*with_stock()), Paper.A4, WORDS)


@pytest.mark.parametrize("name", ["<b>x</b> & %(s)", "long " * 1000, "a\x07b\nc", "שלום 🌿"])
def test_that_the_makers_text_is_data(name: str) -> None:
    formula, shelf = with_stock()
    content = content_of(replace(formula, name=name, pack=name), shelf)
    assert text_of(content)
