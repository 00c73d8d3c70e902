"""The card: what it says, what it never says, and that its document comes back."""

from __future__ import annotations

import io
import json
import random
import re
import subprocess
import sys
from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal

import pytest
from pypdf import PdfReader

from tests.builders import make_formula, make_ingredient, make_scope, make_shelf
from tests.documents.labels import MM, SHIPPED, STUDIO, WORDS
from workbench.checks.assess import assess
from workbench.checks.assessment import Assessment
from workbench.documents.card_content import CardContent, CardOrder, card_content
from workbench.documents.card_pdf import card_pdf
from workbench.documents.card_png import pages_png
from workbench.documents.card_text import card_markdown, card_text, document_of
from workbench.documents.fonts import printable
from workbench.documents.sheet import Upright
from workbench.formula.document import document_data
from workbench.formula.document_whole import read_document
from workbench.formula.formula import Formula, Phase, Plan, Step
from workbench.formula.scale import column_grams
from workbench.formula.shelf import Price, Shelf, shelf_of
from workbench.formula.weighability import Balance

WITH_GRAMS = CardOrder(has_grams=True)
NASTY = [
    "<b>bold</b> & co", "a\x07b\nc", "%(x)s \\n )(", "```\n# no heading", "| cell | [l](x)",
    "\u202egnirts", "long " * 1000, "W" * 5000, "שלום", "🌿 leaf",
]  # fmt: skip


def cream() -> Formula:
    """Return a cream of two phases with steps and a target pH."""
    formula = make_formula(
        ("water*", "0"), ("glycerin", "5"), ("citric_acid+", "0.2"), name="Harbour cream"
    )
    water = replace(formula.phases[0], name="Water phase", kind="water", steps=(Step("Mix"),))
    oil = make_formula(("cct", "10"), ("cetyl_alcohol", "3")).phases[0]
    lines = tuple(replace(line, id=line.id + 10) for line in oil.lines)
    melt = Step("Melt", Decimal(75), Decimal(20), "slow", Decimal(40))
    phases = (water, Phase(2, "Oil phase", "oil", (melt,), lines))
    target = (Decimal("5.0"), Decimal("5.6"))
    return replace(formula, phases=phases, target_ph=target, plan=Plan(batch_mass=Decimal(500)))


def assessed(formula: Formula, shelf: Shelf = SHIPPED.shelf) -> Assessment:
    return assess(formula, shelf, make_scope(), SHIPPED.rules)


def content_of(
    formula: Formula, shelf: Shelf = SHIPPED.shelf, order: CardOrder = WITH_GRAMS
) -> CardContent:
    return card_content(order, formula, shelf, assessed(formula, shelf), (STUDIO, WORDS))


def whole(paper: Upright, content: CardContent) -> str:
    pages = PdfReader(io.BytesIO(card_pdf(content, paper, WORDS))).pages
    return "\f".join(page.extract_text() for page in pages)


def test_that_a_card_gives_percent_grams_method_and_ph() -> None:
    order = CardOrder("version 3", True, "10 % in water", ("two beakers",), "Keeps its pH.")
    content = content_of(cream(), order=order)
    assert content.phases[0].rows[0].percent == "81.80"
    assert content.phases[0].rows[0].grams == "409.00"
    assert content.phases[1].steps == ("Melt, 75 °C, hold 20 min, slow, add below 40 °C",)
    assert content.ph == "5 to 5.6, measured: 10 % in water"
    assert content.total_grams == "500.00"


def test_that_grams_are_left_out_unless_asked_for() -> None:
    content = content_of(cream(), order=CardOrder())
    assert content.batch == content.total_grams == ""
    assert {row.grams for phase in content.phases for row in phase.rows} == {""}


@pytest.mark.parametrize("step", ["1", "0.1", "0.01", "0.001", "0.0001"])
def test_that_grams_add_up_for_a_thousand_formulas_at_every_readability(step: str) -> None:
    dice = random.Random(11)
    balances = (Balance("b", Decimal(step), Decimal(5000)),)
    keys = [f"k{number}" for number in range(12)]
    shelf = make_shelf(*keys, balances=balances)
    plain = make_formula(("water*", "0"), ("k1", "1"), plan=Plan(batch_mass=Decimal(100)))
    known = assessed(plain, shelf)
    for _ in range(1000):
        chosen = dice.sample(keys, dice.randint(1, 11))
        entries = [(key, str(Decimal(dice.randint(1, 80000)) / 10000)) for key in chosen]
        batch = Decimal(dice.randint(50, 5000))
        formula = make_formula(("water*", "0"), *entries, plan=Plan(batch_mass=batch))
        # Only the column differs from formula to formula; the checks need not run for it.
        grams = column_grams(formula, batch, Decimal(step))
        lines = tuple(
            replace(known.lines[0], line=line.id, column_g=grams[line.id])
            for line in formula.lines()
        )
        totals = replace(known.totals, percent=Decimal(100))
        found = replace(known, lines=lines, batch_g=batch, totals=totals)
        content = card_content(CardOrder(has_grams=True), formula, shelf, found, (STUDIO, WORDS))
        rows = [row for phase in content.phases for row in phase.rows]
        printed = sum(Decimal(row.grams) for row in rows)
        assert printed == batch == Decimal(content.total_grams)


def test_that_what_a_second_maker_lacks_is_named() -> None:
    bare = make_formula(("water*", "0"), ("glycerin", "5"), ("mystery", "1"))
    gaps = " ".join(content_of(bare, order=CardOrder()).gaps)
    for lacking in ("what is in mystery", "the method", "pH wanted", "pH is measured", "equipment"):
        assert lacking in gaps


def test_that_a_melting_phase_without_a_temperature_is_named() -> None:
    formula = cream()
    oil = replace(formula.phases[1], steps=(Step("Melt"),))
    gaps = content_of(replace(formula, phases=(formula.phases[0], oil))).gaps
    assert "a temperature for Oil phase" in gaps


def test_that_a_whole_card_says_that_nothing_was_found_missing() -> None:
    order = CardOrder("", True, "neat at 25 °C", ("beaker",))
    content = content_of(cream(), order=order)
    assert content.gaps == ()
    assert "was found to be missing" in card_text(content, WORDS)


def test_that_prices_and_balances_never_stand_on_a_card() -> None:
    base = SHIPPED.shelf
    prices = {"glycerin": Price(Decimal("98765.43"), "EUR")}
    shelf = shelf_of(
        base.ingredients, {}, base.substances, prices, (Balance("Vault", Decimal("0.01"), 200),)
    )
    content = content_of(cream(), shelf)
    data = document_data(cream(), shelf)
    for text in (
        card_text(content, WORDS),
        card_markdown(content, data, WORDS),
        whole(Upright.A4, content),
    ):
        assert "98765" not in text
        assert "Vault" not in text


@pytest.mark.parametrize("text", ["plain", *NASTY])
def test_that_the_document_of_a_markdown_card_imports_back_identical(text: str) -> None:
    # A document takes no control characters in names, and no spaces at their ends.
    name = printable(text)
    own = make_ingredient("my_oil", {"squalane": "1"}, name=name, is_own=True)
    base = SHIPPED.shelf
    shelf = shelf_of({**base.ingredients, "my_oil": own}, {}, base.substances)
    formula = make_formula(("water*", "0"), ("my_oil", "2"), name=name)
    formula = replace(
        formula,
        phases=(replace(formula.phases[0], name=name, steps=(Step(name),)),),
    )
    markdown = card_markdown(content_of(formula, shelf), document_data(formula, shelf), WORDS)
    data = document_of(markdown)
    assert data is not None
    assert data == json.loads(json.dumps(document_data(formula, shelf)))
    back = read_document(data, SHIPPED.names, SHIPPED.substances)
    assert back.formula == formula
    assert back.ingredients["my_oil"].composition == own.composition


@pytest.mark.parametrize("paper", list(Upright))
def test_that_a_card_has_the_size_of_its_paper(paper: Upright) -> None:
    # ISO 216 A5 148 x 210, A4 210 x 297; Letter 215.9 x 279.4 mm
    size = {"A5": (148, 210), "A4": (210, 297), "LETTER": (215.9, 279.4)}[paper.name]
    box = PdfReader(io.BytesIO(card_pdf(content_of(cream()), paper, WORDS))).pages[0].mediabox
    assert (float(box.width) / MM, float(box.height) / MM) == pytest.approx(size, abs=0.5)


@pytest.mark.parametrize("paper", [Upright.A5, Upright.A4])
def test_that_the_text_of_a_card_is_as_agreed(
    paper: Upright, golden: Callable[[str, str], None]
) -> None:
    golden(f"card-{paper.name.lower()}", whole(paper, content_of(cream())))


def test_that_markdown_and_plain_text_are_as_agreed(golden: Callable[[str, str], None]) -> None:
    content = content_of(cream())
    golden("card-md", card_markdown(content, document_data(cream(), SHIPPED.shelf), WORDS))
    golden("card-txt", card_text(content, WORDS))


def test_that_plain_text_keeps_to_its_columns() -> None:
    assert max(map(len, card_text(content_of(cream()), WORDS).splitlines())) <= 78


@pytest.mark.parametrize("text", NASTY)
def test_that_the_makers_text_neither_breaks_nor_steers_a_card(text: str) -> None:
    item = make_ingredient("oil", name=text, inci=text, cautions=text)
    formula = make_formula(("water*", "0"), ("oil", "5"), name=text)
    lines = tuple(replace(line, note=text) for line in formula.phases[0].lines)
    phase = replace(formula.phases[0], name=text, steps=(Step(text, speed=text),), lines=lines)
    formula = replace(formula, phases=(phase,), plan=Plan(batch_mass=Decimal(100)))
    order = CardOrder(text, True, text, (text,), text)
    content = content_of(formula, make_shelf(item), order)
    for paper in (Upright.A5, Upright.A4):
        pages = PdfReader(io.BytesIO(card_pdf(content, paper, WORDS))).pages
        for number, page in enumerate(pages, start=1):
            assert f"Page {number} of {len(pages)}" in page.extract_text()
    plain = card_text(content, WORDS)
    assert not re.search("[\x00-\x09\x0b-\x1f\u202e]", plain)
    markdown = card_markdown(content, {}, WORDS)
    assert not re.search("(?<!\\\\)<", markdown)
    headings = [line for line in markdown.splitlines() if line.startswith("#")]
    assert len(headings) <= 7


def test_that_a_sign_the_font_lacks_is_named_on_the_card() -> None:
    text = " ".join(whole(Upright.A4, content_of(replace(cream(), name="Sage 🌿"))).split())
    assert "Sage [U+1F33F]" in text
    assert "The font has no sign for herb; it stands as [U+1F33F]." in text


def test_that_the_same_card_gives_the_same_bytes_in_another_process() -> None:
    code = (
        "import sys; from tests.documents.test_card import *;"
        "sys.stdout.buffer.write(card_pdf(content_of(cream()), Upright.A5, WORDS))"
    )
    other = subprocess.run([sys.executable, "-c", code], capture_output=True, check=True)
    assert other.stdout == card_pdf(content_of(cream()), Upright.A5, WORDS)


def test_that_a_picture_has_the_pixels_of_its_page() -> None:
    pictures = pages_png(card_pdf(content_of(cream()), Upright.A5, WORDS), 150)
    # PNG header: width and height at bytes 16 to 24; 148 x 210 mm at 150 per inch
    wide, high = (int.from_bytes(pictures[0][at : at + 4], "big") for at in (16, 20))
    assert (wide, high) == pytest.approx((874, 1240), abs=3)
    assert pictures == pages_png(card_pdf(content_of(cream()), Upright.A5, WORDS), 150)


def test_that_no_card_calls_a_product_safe() -> None:
    said = card_text(content_of(cream()), WORDS).lower()
    assert "is safe" not in said
    assert "complian" not in said
