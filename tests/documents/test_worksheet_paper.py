"""The worksheet on paper: what is read first, what is never cut, how pages turn."""

from __future__ import annotations

import io
import re
import time
from dataclasses import replace
from decimal import Decimal

import pytest
from pypdf import PdfReader

from tests.builders import make_formula, make_ingredient, make_scope, make_shelf
from workbench import paths
from workbench.bench.batch import BatchOrder
from workbench.checks.assess import assess
from workbench.documents.sheet import Paper
from workbench.documents.worksheet import worksheet_pdf
from workbench.documents.worksheet_content import Print, StudioBlock, worksheet_content
from workbench.formula.formula import Formula, Phase, Plan, Step
from workbench.formula.shelf import Shelf
from workbench.storage.reference.shipped import Shipped
from workbench.words.catalogue import load_words

SHIPPED = Shipped(paths.resources() / "reference")
WORDS = load_words(paths.resources() / "words")
PRINT = Print(StudioBlock("Pebblewick", ""), WORDS, SHIPPED.rules.accept_bands)
CAUSTIC = make_ingredient("lye", name="Lye flakes", tags=("strong-base", "corrosive"))
PAPERS = [Paper.A4, Paper.LETTER]


def reader_of(formula: Formula, shelf: Shelf, paper: Paper = Paper.A4) -> PdfReader:
    planned = replace(formula, plan=Plan(batch_mass=Decimal(500)))
    assessment = assess(planned, shelf, make_scope(), SHIPPED.rules)
    order = BatchOrder("B-1", "version 2", Decimal(500), None)
    content = worksheet_content(order, planned, shelf, assessment, PRINT)
    return PdfReader(io.BytesIO(worksheet_pdf(content, paper, WORDS)))


def texts_of(formula: Formula, shelf: Shelf, paper: Paper = Paper.A4) -> list[str]:
    pages = reader_of(formula, shelf, paper).pages
    return [" ".join(page.extract_text().split()) for page in pages]


def sized_phases(*sizes: int) -> tuple[Formula, Shelf]:
    keys = [f"oil_{number}" for number in range(sum(sizes))]
    lines = make_formula(*((key, str(Decimal(100) / 100)) for key in keys)).phases[0].lines
    phases, at = [], 0
    for place, size in enumerate(sizes, start=1):
        phases.append(Phase(id=place, name=f"part {place}", lines=lines[at : at + size]))
        at += size
    return Formula(name="Phases", phases=tuple(phases)), make_shelf(*keys)


def test_that_cautions_and_open_findings_are_read_before_the_first_line_is_weighed() -> None:
    formula = make_formula(("water", "80"), ("lye", "1"))
    text = texts_of(formula, make_shelf(CAUSTIC))[0]
    assert "Strong alkali, burns skin and eyes: Lye flakes" in text
    assert text.index("Strong alkali") < text.index("1 of 2")
    assert text.index("Total is 81 %") < text.index("1 of 2")


def test_that_a_strong_alkali_is_not_named_as_corrosive_once_more() -> None:
    text = " ".join(texts_of(make_formula(("water*", "0"), ("lye", "1")), make_shelf(CAUSTIC)))
    assert "Corrosive as supplied" not in text


def test_that_a_name_of_two_lines_is_printed_whole() -> None:
    name = "Fractionated coconut oil of caprylic and capric triglyceride"
    item = make_ingredient("oil", name=name)
    assert name in texts_of(make_formula(("oil", "100")), make_shelf(item), Paper.LETTER)[0]


@pytest.mark.parametrize("paper", PAPERS)
def test_that_every_sign_and_line_is_black(paper: Paper) -> None:
    formula = make_formula(("water*", "0"), ("lye", "1"))
    for page in reader_of(formula, make_shelf(CAUSTIC), paper).pages:
        drawn = page.get_contents()
        assert drawn is not None
        orders = re.sub(rb"\((?:\\.|[^\\)])*\)", b"()", drawn.get_data(), flags=re.DOTALL)
        inks = re.findall(rb"(?<=\s)([\d. ]+) (?:g|G|rg|RG|k|K)\s", orders)
        assert all(float(part) == 0 for ink in inks for part in ink.split())


@pytest.mark.parametrize("paper", PAPERS)
def test_that_nothing_is_drawn_smaller_than_8_points_or_outside_12_mm(paper: Paper) -> None:
    # Common practice: 12 mm for a clip or a punch, 8 pt for what is read near.
    formula, shelf = sized_phases(4, 9, 30)
    seen: list[tuple[float, float, float]] = []

    def note(_text: str, _cm: object, place: list[float], _font: object, size: float) -> None:
        if _text.strip():
            seen.append((place[4], place[5], size))

    page_size = paper.value
    for page in reader_of(formula, shelf, paper).pages:
        page.extract_text(visitor_text=note)
    margin = 12 * 72 / 25.4 - 0.01
    assert min(size for _, _, size in seen) >= 8
    assert min(x for x, _, _ in seen) >= margin
    assert all(margin <= y <= page_size[1] - margin for _, y, _ in seen)


def test_that_a_phase_that_fits_a_page_is_not_split_without_need() -> None:
    # Whole phases take pages 2, 3 and 4; splitting could not do with fewer.
    text = " ".join(texts_of(*sized_phases(13, 13)))
    assert "continued" not in text


def test_that_a_phase_longer_than_a_page_goes_on_under_its_own_heading() -> None:
    pages = texts_of(*sized_phases(40))
    on = [page for page in pages if re.search(r"\d+ of 40", page)]
    assert len(on) > 2
    assert all("Phase A: part 1, continued" in page for page in on[1:])


def test_that_the_sum_of_the_batch_stands_below_a_line() -> None:
    for size in range(8, 34):
        pages = texts_of(*sized_phases(size))
        page = next(page for page in pages if "Batch together" in page)
        assert "spare" in page, size


def test_that_a_step_of_five_thousand_characters_is_printed_to_its_end() -> None:
    step = Step("stir " * 1000 + "stop")
    formula = make_formula(("water", "100"))
    phase = replace(formula.phases[0], steps=(step,))
    pages = texts_of(replace(formula, phases=(phase,)), make_shelf())
    assert " ".join(pages).count("stir") == 1000
    assert "stir stop" in " ".join(pages)


def test_that_sixty_lines_are_drawn_in_three_tenths_of_a_second() -> None:
    formula, shelf = sized_phases(20, 20, 20)
    texts_of(formula, shelf)
    planned = replace(formula, plan=Plan(batch_mass=Decimal(500)))
    assessment = assess(planned, shelf, make_scope(), SHIPPED.rules)
    order = BatchOrder("B-1", "version 2", Decimal(500), None)
    times: list[float] = []
    for _ in range(3):
        begun = time.perf_counter()
        worksheet_pdf(worksheet_content(order, planned, shelf, assessment, PRINT), Paper.A4, WORDS)
        times.append(time.perf_counter() - begun)
    print(f"worksheet of 60 lines: {min(times) * 1000:.0f} ms")  # noqa: T201
    assert min(times) < 0.3


def test_that_an_unknown_ingredient_is_not_called_a_stock() -> None:
    formula = make_formula(("water*", "0"), ("mystery", "5"))
    assert "stock" not in texts_of(formula, make_shelf())[0].replace("ingredient or stock", "")
