"""The sheet for a safety assessor as PDF."""

from __future__ import annotations

from collections.abc import Iterator

from reportlab.lib.units import mm

from workbench.documents.assessor_content import AssessorContent
from workbench.documents.fonts import BOLD, REGULAR, registered, width, wrapped
from workbench.documents.sheet import FINE, HAIR, Paper, Sheet, Spot
from workbench.documents.shown_signs import missing_notes, shown
from workbench.documents.tables import Sections
from workbench.words.catalogue import Words

SMALL, FACT = 8.0, 9.0
LOGO = 24


def assessor_pdf(content: AssessorContent, paper: Paper, words: Words) -> bytes:
    """Return the sheet as PDF bytes: the same content gives the same bytes."""
    registered()
    pages = _drawn(content, paper, words, 0).page
    return _drawn(content, paper, words, pages).done()


def _drawn(content: AssessorContent, paper: Paper, words: Words, pages: int) -> Sheet:
    title = f"{words.say('assessor-title')}: {shown(content.product)[:200]}"
    sheet = Sheet(paper, title, pages)
    frame = _Frame(sheet, content, words)
    sheet.head, sheet.foot = frame.head, frame.foot
    sheet.begin()
    frame.facts()
    sections = Sections(sheet)
    for section in content.sections:
        sections.draw(section)
    for note in missing_notes(_texts(content), words):
        sheet.need(11)
        sheet.y -= 11
        sheet.text(note, Spot(sheet.left, sheet.y, sheet.breadth, SMALL))
    return sheet


class _Frame:
    def __init__(self, sheet: Sheet, content: AssessorContent, words: Words) -> None:
        self._sheet, self._content, self._say = sheet, content, words.say

    def head(self) -> None:
        sheet, content = self._sheet, self._content
        top, third = sheet.y, sheet.breadth / 3
        product = shown(content.product)
        sheet.text(product, Spot(sheet.left, top - 15, sheet.breadth - third, 17, BOLD))
        taken = 0.0
        if content.studio.logo:
            taken = sheet.picture(content.studio.logo, sheet.right, top, LOGO)
            taken += 8 if taken else 0
        name = shown(", ".join(x for x in (content.studio.name, content.studio.contact) if x))
        spot = Spot(sheet.right - third, top - 8, third - taken, FACT, side="right")
        sheet.text(self._say("assessor-title"), spot)
        spot = Spot(sheet.right - third, top - 19, third - taken, FACT, side="right")
        sheet.text(name, spot)
        sheet.rule(top - 26, FINE)
        sheet.y = top - 26

    def facts(self) -> None:
        sheet = self._sheet
        text = " · ".join(shown(fact) for fact in self._content.facts)
        for line in wrapped(text, REGULAR, FACT, sheet.breadth):
            sheet.y -= 12
            sheet.text(line, Spot(sheet.left, sheet.y, sheet.breadth, FACT))

    def foot(self) -> None:
        sheet, say = self._sheet, self._say
        y = sheet.bottom - 6 * mm
        page = say("assessor-page", page=sheet.page, pages=sheet.pages)
        wide = width(page, REGULAR, SMALL) + 1
        sheet.rule(y + 10, HAIR)
        sheet.text(say("assessor-foot"), Spot(sheet.left, y, sheet.breadth - wide - 12, SMALL))
        sheet.text(page, Spot(sheet.right - wide, y, wide, SMALL))


def _texts(content: AssessorContent) -> Iterator[str]:
    yield from (content.product, content.studio.name, content.studio.contact, *content.facts)
    for section in content.sections:
        yield from section.lines
        if section.table is not None:
            for row in section.table.rows:
                yield from row
