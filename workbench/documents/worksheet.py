"""The worksheet as PDF."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass

from reportlab.lib.units import mm

from workbench.documents.fonts import BOLD, registered, require_glyphs
from workbench.documents.sheet import FINE, GREY, HAIR, Paper, Sheet, Spot
from workbench.documents.worksheet_blocks import Blocks
from workbench.documents.worksheet_content import WorksheetContent
from workbench.documents.worksheet_materials import Materials
from workbench.words.catalogue import Words


def worksheet_pdf(content: WorksheetContent, paper: Paper, words: Words) -> bytes:
    """Return the worksheet as PDF bytes: the same content gives the same bytes.

    Raises
    ------
    WorkbenchError
        If the font lacks a letter of it.
    """
    registered()
    for text in _texts(content):
        require_glyphs(text, words)
    first = _drawn(content, paper, words, 0)
    return _drawn(content, paper, words, first.page).done()


def _drawn(content: WorksheetContent, paper: Paper, words: Words, pages: int) -> Sheet:
    sheet = Sheet(paper, f"{words.say('worksheet-title')} {content.product}", pages)
    frame = _Frame(sheet, content, words)
    sheet.head, sheet.foot = frame.head, frame.foot
    sheet.begin()
    blocks = Blocks(sheet, content, words)
    blocks.start_checks()
    Materials(sheet, content, words).draw()
    blocks.rest()
    return sheet


class _Frame:
    def __init__(self, sheet: Sheet, content: WorksheetContent, words: Words) -> None:
        self._sheet = sheet
        self._content = content
        self._words = words

    def head(self) -> None:
        sheet, content, say = self._sheet, self._content, self._words.say
        top = sheet.y
        third = sheet.breadth / 3
        sheet.text(content.product, Spot(sheet.left, top - 15, sheet.breadth - third, 17, BOLD))
        sheet.text(
            " ".join(part for part in (content.studio.name, content.studio.contact) if part),
            Spot(sheet.right - third, top - 13, third, 9, side="right", grey=GREY),
        )
        y = top - 29
        cells = (
            ("worksheet-batch-number", content.number or "______________"),
            ("worksheet-version", content.version),
            ("worksheet-batch-mass", f"{content.batch} g"),
            ("worksheet-planned", content.planned or "____________"),
            ("worksheet-made-by", "__________"),
            ("worksheet-checked-by", "__________"),
        )
        step = sheet.breadth / len(cells)
        for place, (label, value) in enumerate(cells):
            x = sheet.left + place * step
            sheet.text(say(label), Spot(x, y, step - 6, 8, grey=GREY))
            sheet.text(value, Spot(x, y - 13, step - 6, 11.5, BOLD))
        sheet.rule(y - 19, FINE)
        sheet.y = y - 19

    def foot(self) -> None:
        sheet, say = self._sheet, self._words.say
        y = sheet.bottom - 6 * mm
        sheet.rule(y + 10, HAIR)
        sheet.text(say("worksheet-footer"), Spot(sheet.left, y, sheet.breadth * 0.7, 8, grey=GREY))
        page = say("worksheet-page", page=sheet.page, pages=sheet.pages)
        name = self._content.number or self._content.product
        sheet.text(
            f"{name}   {page}",
            Spot(sheet.right - sheet.breadth * 0.28, y, sheet.breadth * 0.28, 8, side="right"),
        )


def _texts(value: object) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, tuple):
        for item in value:
            yield from _texts(item)
    elif is_dataclass(value):
        for field in fields(value):
            yield from _texts(getattr(value, field.name))
