"""The worksheet as PDF."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass

from reportlab.lib.units import mm

from workbench.documents.fonts import BOLD, REGULAR, printable, registered, require_glyphs, width
from workbench.documents.sheet import FINE, HAIR, Paper, Sheet, Spot
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
    whole, split = (_drawn(content, paper, words, splits=way) for way in (False, True))
    # A phase that would fit on one page is split only where that saves a page.
    saves = split[1] < whole[1]
    pages = (split if saves else whole)[0].page
    return _drawn(content, paper, words, splits=saves, pages=pages)[0].done()


def _drawn(
    content: WorksheetContent, paper: Paper, words: Words, *, splits: bool, pages: int = 0
) -> tuple[Sheet, int]:
    sheet = Sheet(paper, f"{words.say('worksheet-title')} {printable(content.product)}", pages)
    frame = _Frame(sheet, content, words)
    sheet.head, sheet.foot = frame.head, frame.foot
    sheet.begin()
    blocks = Blocks(sheet, content, words)
    blocks.before()
    Materials(sheet, content, words, splits=splits).draw()
    weighed_on = sheet.page
    blocks.rest()
    return sheet, weighed_on


class _Frame:
    def __init__(self, sheet: Sheet, content: WorksheetContent, words: Words) -> None:
        self._sheet = sheet
        self._content = content
        self._words = words

    def head(self) -> None:
        sheet, content, say = self._sheet, self._content, self._words.say
        top = sheet.y
        third = sheet.breadth / 3
        sheet.text(
            printable(content.product), Spot(sheet.left, top - 15, sheet.breadth - third, 17, BOLD)
        )
        self._studio(top, third)
        y = top - 29
        cells = (
            ("worksheet-batch-number", content.number),
            ("worksheet-version", content.version),
            ("worksheet-batch-mass", f"{content.batch} g"),
            ("worksheet-planned", content.planned),
            ("worksheet-made-by", ""),
            ("worksheet-checked-by", ""),
        )
        step = sheet.breadth / len(cells)
        for place, (label, value) in enumerate(cells):
            x = sheet.left + place * step
            sheet.text(say(label), Spot(x, y, step - 6, 8))
            if value:
                sheet.text(printable(value), Spot(x, y - 13, step - 6, 12, BOLD))
            else:
                sheet.line(x, y - 15, x + step - 10, y - 15, FINE)
        sheet.rule(y - 19, FINE)
        sheet.y = y - 19

    def _studio(self, top: float, third: float) -> None:
        sheet, studio = self._sheet, self._content.studio
        taken = 0.0
        if studio.logo:
            taken = sheet.picture(studio.logo, sheet.right, top, 24)
            taken += 8 if taken else 0
        sheet.text(
            printable(", ".join(x for x in (studio.name, studio.contact) if x)),
            Spot(sheet.right - third, top - 13, third - taken, 9, side="right"),
        )

    def foot(self) -> None:
        sheet, say = self._sheet, self._words.say
        y = sheet.bottom - 6 * mm
        sheet.rule(y + 10, HAIR)
        sheet.text(say("worksheet-footer"), Spot(sheet.left, y, sheet.breadth * 0.7, 8))
        page = say("worksheet-page", page=sheet.page, pages=sheet.pages)
        name = printable(self._content.number or self._content.product)[:60]
        # The page is written apart, so that a long number never pushes it out.
        x, end = sheet.right - sheet.breadth * 0.28, sheet.right - width(page, REGULAR, 8) - 8
        sheet.text(name, Spot(x, y, end - x, 8, side="right"))
        sheet.text(page, Spot(end, y, sheet.right - end, 8, side="right"))


def _texts(value: object) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, tuple):
        for item in value:
            yield from _texts(item)
    elif is_dataclass(value):
        for field in fields(value):
            yield from _texts(getattr(value, field.name))
