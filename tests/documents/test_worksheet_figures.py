"""The figures of the worksheet: whole, large, and those of the batch that was ordered."""

from __future__ import annotations

import io
from dataclasses import replace
from decimal import Decimal
from itertools import chain

import pytest
from pypdf import PdfReader

from tests.builders import make_formula, make_ingredient, make_scope, make_shelf
from workbench import paths
from workbench.bench.batch import BatchOrder
from workbench.checks.assess import assess
from workbench.documents.sheet import Paper
from workbench.documents.worksheet import worksheet_pdf
from workbench.documents.worksheet_content import (
    Print,
    StudioBlock,
    WorksheetContent,
    worksheet_content,
)
from workbench.formula.formula import Formula, Phase, Plan, Step
from workbench.formula.shelf import Shelf
from workbench.formula.weighability import Balance
from workbench.storage.reference.shipped import Shipped
from workbench.words.catalogue import load_words

SHIPPED = Shipped(paths.resources() / "reference")
WORDS = load_words(paths.resources() / "words")
PRINT = Print(StudioBlock("Pebblewick", ""), WORDS, SHIPPED.rules.accept_bands)
PAPERS = [Paper.A4, Paper.LETTER]


def content_of(formula: Formula, shelf: Shelf, batch: str) -> WorksheetContent:
    planned = replace(formula, plan=Plan(batch_mass=Decimal(batch)))
    assessment = assess(planned, shelf, make_scope(), SHIPPED.rules)
    order = BatchOrder("B-1", "version 2", Decimal(batch), None)
    return worksheet_content(order, planned, shelf, assessment, PRINT)


def drawn(content: WorksheetContent, paper: Paper = Paper.A4) -> list[list[tuple[str, float]]]:
    """Return every text and its size, page by page."""
    pages: list[list[tuple[str, float]]] = []
    for page in PdfReader(io.BytesIO(worksheet_pdf(content, paper, WORDS))).pages:
        seen: list[tuple[str, float]] = []
        page.extract_text(
            visitor_text=lambda text, _c, _p, _f, size, s=seen: s.append((text, size))
        )
        pages.append([(text.strip(), size) for text, size in seen if text.strip()])
    return pages


def all_of(content: WorksheetContent, paper: Paper = Paper.A4) -> list[tuple[str, float]]:
    return list(chain.from_iterable(drawn(content, paper)))


def balanced(readability: str) -> Shelf:
    return make_shelf("oil", balances=(Balance("b", Decimal(readability), Decimal(1_000_000)),))


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize(("batch", "step"), [("5000", "0.001"), ("20000", "0.01"), ("5000", "1")])
def test_that_a_target_is_whole_and_at_least_16_points_high(
    paper: Paper, batch: str, step: str
) -> None:
    # Common practice: target grams 16 to 18 pt, read at 60 to 80 cm.
    content = content_of(make_formula(("water*", "0"), ("oil", "30")), balanced(step), batch)
    texts = all_of(content, paper)
    for row in content.phases[0].rows:
        sizes = [size for text, size in texts if row.target in text.split()]
        assert max(sizes) >= 16


@pytest.mark.parametrize("batch", ["250000", "9999999"])
def test_that_no_figure_is_ever_cut(batch: str) -> None:
    content = content_of(make_formula(("water*", "0"), ("oil", "30")), balanced("0.001"), batch)
    words = " ".join(text for text, _ in all_of(content)).split()
    for row in content.phases[0].rows:
        assert row.target in words
        assert row.vessel in words
        assert row.band.removeprefix("± ") in words
    assert content.total in words


def test_that_the_head_gives_the_batch_that_was_ordered_even_if_the_lines_fall_short() -> None:
    content = content_of(make_formula(("water", "90")), balanced("0.01"), "100")
    assert (content.batch, content.total) == ("100.00", "90.00")


def test_that_a_band_is_never_nothing_without_a_balance() -> None:
    rows = content_of(make_formula(("water*", "0"), ("oil", "1")), make_shelf("oil"), "5").phases[0]
    assert {row.band for row in rows.rows} == {"± 0.05", "± 0.01"}


def test_that_a_hazard_names_every_one_of_sixty_ingredients() -> None:
    items = [
        make_ingredient(
            f"p{n}", name=f"Powder {n:02}" + " of a long name" * 3, tags=("respirable-powder",)
        )
        for n in range(60)
    ]
    formula = make_formula(*((item.key, "1") for item in items))
    cautions = " ".join(content_of(formula, make_shelf(*items), "100").cautions)
    assert all(item.name in cautions for item in items)


@pytest.mark.parametrize("text", ["long " * 1000, "W" * 5000, "<b>&amp;</b>\x07\n%s", "\u202e x"])
def test_that_any_text_in_every_field_is_printed_as_text(text: str) -> None:
    item = make_ingredient("oil", name=text, inci=text, cautions=text, tags=("corrosive",))
    formula = make_formula(("water*", "0"), ("oil", "5"), ("lost", "1"))
    phase = replace(
        formula.phases[0],
        name=text,
        steps=(Step(text, speed=text),),
        lines=tuple(replace(line, note=text) for line in formula.phases[0].lines),
    )
    formula = replace(formula, name=text, phases=(phase,), plan=Plan(batch_mass=Decimal(100)))
    shelf = make_shelf(item, balances=(Balance(text, Decimal("0.01"), Decimal(200)),))
    assessment = assess(formula, shelf, make_scope(), SHIPPED.rules)
    order = BatchOrder(text, text, Decimal(100), None)
    made = replace(PRINT, studio=StudioBlock(text, text))
    pages = drawn(worksheet_content(order, formula, shelf, assessment, made))
    for number, page in enumerate(pages, start=1):
        assert page[-1][0].endswith(f"Page {number} of {len(pages)}")


def test_that_the_ph_rows_have_room_for_the_new_ph_and_the_meter() -> None:
    content = content_of(make_formula(("water", "100")), balanced("0.01"), "100")
    text = " ".join(text for text, _ in all_of(content))
    assert "Wait min New pH" in text
    assert "Meter ____" in text


@pytest.mark.parametrize("paper", PAPERS)
def test_that_thirteen_lines_in_four_phases_take_two_pages_of_four(paper: Paper) -> None:
    # Acceptance scenario "Hushlark Hand Cream": 13 lines on at most two landscape pages.
    keys = [f"oil_{number}" for number in range(13)]
    lines = make_formula(*((key, "5") for key in keys)).phases[0].lines
    parts = (lines[:4], lines[4:9], lines[9:12], lines[12:])
    steps = (Step("Heat", target_c=Decimal(75), hold_min=Decimal(20)), Step("Stir"))
    phases = tuple(
        Phase(id=number, name=f"part {number}", lines=part, steps=steps)
        for number, part in enumerate(parts, start=1)
    )
    shelf = make_shelf(*keys, balances=(Balance("b", Decimal("0.01"), Decimal(5000)),))
    pages = drawn(content_of(Formula(name="Cream", phases=phases), shelf, "710"), paper)
    on = [at for at, page in enumerate(pages) if any("of 13" in text for text, _ in page)]
    assert on == [0, 1]
    assert len(pages) <= 4


def test_that_round_grams_keep_the_places_of_the_balance() -> None:
    row = content_of(make_formula(("oil", "100")), balanced("0.01"), "90").phases[0].rows[0]
    assert (row.target, row.band) == ("90.00", "± 2.70")


@pytest.mark.parametrize("paper", PAPERS)
def test_that_the_words_of_the_paper_itself_are_never_cut(paper: Paper) -> None:
    content = content_of(make_formula(("water*", "0"), ("oil", "30")), balanced("0.01"), "500")
    assert [text for text, _ in all_of(content, paper) if "…" in text] == []
