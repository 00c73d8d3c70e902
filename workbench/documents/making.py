"""From a formula and its assessment to the bytes of a worksheet."""

from __future__ import annotations

from workbench.bench.batch import BatchOrder
from workbench.checks.assessment import Assessment
from workbench.documents.sheet import Paper
from workbench.documents.worksheet import worksheet_pdf
from workbench.documents.worksheet_content import Print, worksheet_content
from workbench.formula.formula import Formula
from workbench.formula.shelf import Shelf


def worksheet_bytes(
    order: BatchOrder,
    formula: Formula,
    shelf: Shelf,
    assessment: Assessment,
    made: Print,
    paper: Paper = Paper.A4,
) -> bytes:
    """Return the worksheet of an assessed formula as PDF bytes."""
    content = worksheet_content(order, formula, shelf, assessment, made)
    return worksheet_pdf(content, paper, made.words)
