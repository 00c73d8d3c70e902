"""The command `card`: a formula for sharing, with its document beside it."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from workbench.cli.asked_formula import asked_formula
from workbench.cli.studio_block import asked_studio_block
from workbench.documents.card_content import CardOrder, card_content
from workbench.documents.card_pdf import card_pdf
from workbench.documents.card_png import pages_png
from workbench.documents.card_text import card_markdown, card_text
from workbench.documents.sheet import Upright
from workbench.errors import WorkbenchError
from workbench.formula.document import document_data
from workbench.storage.formula_document import write_document
from workbench.storage.text_file import write_bytes_file, write_text_file

PDF, PNG, MARKDOWN, TEXT = ".pdf", ".png", ".md", ".txt"


def run(asked: argparse.Namespace) -> int:
    """Write the card in the form its file name asks for, and the document beside it."""
    form = asked.out.suffix.lower()
    found = asked_formula(asked.file, asked.studio)
    words = found.words
    if form not in (PDF, PNG, MARKDOWN, TEXT):
        raise WorkbenchError(
            words.say("card-form", file=asked.out.name), words.say("card-form-remedy")
        )
    equipment = tuple(part.strip() for part in asked.equipment.split(",") if part.strip())
    order = CardOrder("", asked.grams, asked.ph_method, equipment, asked.notes)
    block = asked_studio_block(asked.studio)
    assessment = found.assessed(found.scope())
    content = card_content(order, found.formula, found.shelf, assessment, (block, words))
    written = [asked.out]
    if form == MARKDOWN:
        data = document_data(found.formula, found.shelf)
        write_text_file(asked.out, card_markdown(content, data, words))
    elif form == TEXT:
        write_text_file(asked.out, card_text(content, words))
    else:
        pdf = card_pdf(content, Upright[asked.paper], words)
        written = _bytes(asked.out, pdf)
    beside = asked.out.with_name(f"{asked.out.stem}.formula.json")
    if beside.resolve() != asked.file.resolve():
        write_document(beside, found.formula, found.shelf)
        written.append(beside)
    sys.stdout.write("\n".join(map(str, written)) + "\n")
    return 0


def _bytes(out: Path, pdf: bytes) -> list[Path]:
    if out.suffix.lower() == PDF:
        write_bytes_file(out, pdf)
        return [out]
    written = []
    for number, picture in enumerate(pages_png(pdf), start=1):
        file = out if number == 1 else out.with_name(f"{out.stem}-{number}{out.suffix}")
        write_bytes_file(file, picture)
        written.append(file)
    return written
