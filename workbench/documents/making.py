"""From a formula and its assessment to the bytes of a worksheet."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from workbench import paths
from workbench.bench.batch import BatchOrder
from workbench.checks.assessment import Assessment
from workbench.documents.sheet import Paper
from workbench.documents.worksheet import worksheet_pdf
from workbench.documents.worksheet_content import StudioBlock, worksheet_content
from workbench.formula.formula import Formula
from workbench.formula.shelf import Shelf
from workbench.words.catalogue import Words


def worksheet_bytes(
    formula: Formula,
    shelf: Shelf,
    assessment: Assessment,
    *,
    number: str,
    version: str,
    planned_on: date | None,
    studio: StudioBlock,
    words: Words,
    paper: str,
) -> bytes:
    """Return the worksheet of an assessed formula on a paper named A4 or Letter."""
    from workbench.storage.reference.bands import load_bands

    order = BatchOrder(number, version, assessment.batch_g or Decimal(0), planned_on)
    bands = load_bands(paths.resources() / "reference")
    content = worksheet_content(order, formula, shelf, assessment, studio, words, bands)
    return worksheet_pdf(content, Paper[paper.upper()], words)
