"""From a formula and its assessment to the bytes of a worksheet."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from workbench.bench.batch import BatchOrder
from workbench.checks.assessment import Assessment
from workbench.documents.sheet import Paper
from workbench.documents.worksheet import worksheet_pdf
from workbench.documents.worksheet_content import StudioBlock, worksheet_content
from workbench.formula.formula import Formula
from workbench.formula.shelf import Shelf
from workbench.words.catalogue import Words


@dataclass(frozen=True, slots=True)
class Print:
    """Hold how a paper is made: for which studio, in which words, on A4 or Letter."""

    studio: StudioBlock
    words: Words
    paper: str
    bands: Mapping[str, Decimal | None]


def worksheet_bytes(
    order: BatchOrder, formula: Formula, shelf: Shelf, assessment: Assessment, made: Print
) -> bytes:
    """Return the worksheet of an assessed formula as PDF bytes."""
    content = worksheet_content(
        order, formula, shelf, assessment, made.studio, made.words, made.bands
    )
    return worksheet_pdf(content, Paper[made.paper.upper()], made.words)
