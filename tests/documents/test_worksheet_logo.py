from __future__ import annotations

import io
from dataclasses import replace
from decimal import Decimal

from PIL import Image
from pypdf import PdfReader

from tests.builders import make_formula, make_scope, make_shelf
from workbench import paths
from workbench.bench.batch import BatchOrder
from workbench.checks.assess import assess
from workbench.documents.sheet import Paper
from workbench.documents.worksheet import worksheet_pdf
from workbench.documents.worksheet_content import Print, StudioBlock, worksheet_content
from workbench.formula.formula import Plan
from workbench.storage.reference.shipped import Shipped
from workbench.words.catalogue import load_words

SHIPPED = Shipped(paths.resources() / "reference")
WORDS = load_words(paths.resources() / "words")


def picture() -> bytes:
    held = io.BytesIO()
    Image.new("RGBA", (120, 40), (30, 107, 105, 128)).save(held, "PNG")
    return held.getvalue()


def made(logo: bytes) -> bytes:
    formula = replace(make_formula(("water*", "0")), plan=Plan(batch_mass=Decimal(500)))
    shelf = make_shelf("water")
    assessment = assess(formula, shelf, make_scope(), SHIPPED.rules)
    block = StudioBlock("Pebblewick", "3 Tidewater Lane", logo)
    content = worksheet_content(
        BatchOrder("B-1", "version 2", Decimal(500), None),
        formula,
        shelf,
        assessment,
        Print(block, WORDS, SHIPPED.rules.accept_bands),
    )
    return worksheet_pdf(content, Paper.A4, WORDS)


def test_that_the_picture_of_the_studio_stands_on_every_page():
    reader = PdfReader(io.BytesIO(made(picture())))
    assert all(len(page.images) == 1 for page in reader.pages)
    assert "Pebblewick, 3 Tidewater Lane" in reader.pages[0].extract_text()


def test_that_the_same_picture_makes_the_same_bytes():
    assert made(picture()) == made(picture())


def test_that_a_picture_that_cannot_be_read_is_left_out():
    reader = PdfReader(io.BytesIO(made(b"no picture")))
    assert not reader.pages[0].images
    assert "Pebblewick" in reader.pages[0].extract_text()
