"""A card as PDF, on A5, A4 or Letter."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from reportlab.lib.units import mm

from workbench.documents.card_content import CardContent, CardPhase, CardRow
from workbench.documents.fonts import BOLD, REGULAR, registered, width, wrapped
from workbench.documents.sheet import FINE, HAIR, THICK, Sheet, Spot, Upright
from workbench.documents.shown_signs import missing_notes, shown
from workbench.words.catalogue import Words

PERCENT, GRAMS = 19 * mm, 24 * mm
GAP = 3 * mm
LOGO = 11 * mm
BESIDE = 2.2 * mm


@dataclass(frozen=True, slots=True)
class CardType:
    """Hold the sizes of type and the leads of a card [pt]."""

    name: float
    body: float
    small: float
    heading: float
    lead: float
    small_lead: float


TYPES = (CardType(10.0, 9.0, 7.5, 11.0, 12.0, 9.6), CardType(9.0, 8.0, 7.0, 10.0, 10.2, 8.4))


def card_pdf(content: CardContent, paper: Upright, words: Words) -> bytes:
    """Return a card as PDF bytes: the same content gives the same bytes."""
    registered()
    tried = [(_drawn(content, paper, (words, type_), 0).page, type_) for type_ in TYPES]
    # The largest type that takes the fewest pages.
    pages, type_ = min(tried, key=lambda each: each[0])
    return _drawn(content, paper, (words, type_), pages).done()


def _drawn(content: CardContent, paper: Upright, way: tuple[Words, CardType], pages: int) -> Sheet:
    sheet = Sheet(paper, shown(content.product)[:200], pages)
    card = _Card(sheet, content, way)
    sheet.foot = card.foot
    card.head()
    card.phases()
    card.blocks()
    return sheet


class _Card:
    def __init__(self, sheet: Sheet, content: CardContent, way: tuple[Words, CardType]) -> None:
        self._sheet, self._content = sheet, content
        self._words, self._type = way
        self._say = self._words.say
        self._has_grams = bool(content.total_grams)

    def head(self) -> None:
        sheet, content, say = self._sheet, self._content, self._say
        top = sheet.y
        taken = 0.0
        if content.studio.logo:
            taken = sheet.picture(content.studio.logo, sheet.right, top, LOGO)
            taken += 4 * mm if taken else 0
        room = sheet.breadth - taken
        for line in wrapped(shown(content.product), BOLD, 18, room)[:4]:
            sheet.y -= 20
            sheet.text(line, Spot(sheet.left, sheet.y, room, 18, BOLD))
        studio = ", ".join(x for x in (content.studio.name, content.studio.contact) if x)
        if studio:
            self._lines((studio,), self._type.body)
        if taken:
            sheet.y = min(sheet.y, top - LOGO)
        sheet.y -= 5
        sheet.rule(sheet.y, FINE)
        for label, value in (
            ("card-version", content.version),
            ("card-kind", content.kind),
            ("card-ph", content.ph),
            ("card-batch", content.batch),
        ):
            if value:
                self._labelled(say(label), value)

    def _labelled(self, label: str, value: str) -> None:
        sheet = self._sheet
        indent = 17 * mm
        for number, line in enumerate(
            wrapped(shown(value), REGULAR, self._type.body, sheet.breadth - indent)
        ):
            sheet.need(self._type.lead)
            sheet.y -= self._type.lead
            if number == 0:
                sheet.text(label, Spot(sheet.left, sheet.y, indent - 4, self._type.body, BOLD))
            sheet.text(
                line, Spot(sheet.left + indent, sheet.y, sheet.breadth - indent, self._type.body)
            )

    def phases(self) -> None:
        sheet = self._sheet
        for phase in self._content.phases:
            self._phase(phase)
        sheet.need(9 * mm)
        sheet.y -= 6 * mm
        self._figures(self._content.total, self._content.total_grams, BOLD)
        sheet.text(
            self._say("card-total"), Spot(sheet.left, sheet.y, 60 * mm, self._type.name, BOLD)
        )
        sheet.rule(sheet.y - 4, THICK)
        sheet.rule(sheet.y - 6.4, HAIR)
        sheet.y -= 9

    def _phase(self, phase: CardPhase) -> None:
        sheet = self._sheet
        first = self._row_height(phase.rows[0]) if phase.rows else 0
        sheet.need(9 * mm + first)
        sheet.y -= 7 * mm
        title = self._say("card-phase", letter=phase.letter, name=shown(phase.name)[:300])
        sheet.text(title, Spot(sheet.left, sheet.y, self._name_room, self._type.heading, BOLD))
        self._heads()
        sheet.y -= 3.5
        sheet.rule(sheet.y, FINE)
        for row in phase.rows:
            if sheet.need(self._row_height(row)):
                sheet.y -= self._type.lead
                self._heads()
            self._row(row)
        sheet.y -= 1.5
        for number, step in enumerate(phase.steps, start=1):
            self._step(number, step)

    def _heads(self) -> None:
        sheet = self._sheet
        spot = Spot(self._percent_at, sheet.y, PERCENT, self._type.small, side="right")
        sheet.text(self._say("card-percent"), spot)
        if self._has_grams:
            spot = Spot(self._percent_at + PERCENT, sheet.y, GRAMS, self._type.small, side="right")
            sheet.text(self._say("card-grams"), spot)

    @property
    def _percent_at(self) -> float:
        return self._sheet.right - PERCENT - (GRAMS if self._has_grams else 0)

    @property
    def _name_room(self) -> float:
        return self._percent_at - self._sheet.left - 4

    def _row_texts(self, row: CardRow) -> tuple[list[str], list[str]]:
        names = wrapped(shown(row.name), REGULAR, self._type.name, self._name_room)
        inci = row.inci if row.inci != row.name else ""
        under = " · ".join(shown(text) for text in (inci, row.note) if text)
        small = wrapped(under, REGULAR, self._type.small, self._name_room) if under else []
        return names, small

    def _is_beside(self, names: list[str], small: list[str]) -> bool:
        """Tell whether name and label name stand in one line."""
        if len(names) > 1 or len(small) > 1:
            return False
        wide = width(names[0], REGULAR, self._type.name)
        return wide + BESIDE + width(small[0], REGULAR, self._type.small) <= self._name_room

    def _row_height(self, row: CardRow) -> float:
        names, small = self._row_texts(row)
        if small and self._is_beside(names, small):
            small = []
        # A note as long as a page flows on; no row asks for more than a page has.
        return min(len(names) * self._type.lead + len(small) * self._type.small_lead + 4, 60 * mm)

    def _row(self, row: CardRow) -> None:
        sheet = self._sheet
        names, small = self._row_texts(row)
        for number, line in enumerate(names):
            sheet.need(self._type.lead)
            sheet.y -= self._type.lead
            if number == 0:
                self._figures(row.percent, row.grams, REGULAR)
            sheet.text(line, Spot(sheet.left, sheet.y, self._name_room, self._type.name))
        if small and self._is_beside(names, small):
            x = sheet.left + width(names[0], REGULAR, self._type.name) + BESIDE
            sheet.text(small[0], Spot(x, sheet.y, self._percent_at - x, self._type.small))
            small = []
        for line in small:
            sheet.need(self._type.small_lead)
            sheet.y -= self._type.small_lead
            sheet.text(line, Spot(sheet.left, sheet.y, self._name_room, self._type.small))
        sheet.y -= 4
        sheet.rule(sheet.y, HAIR)

    def _figures(self, percent: str, grams: str, font: str) -> None:
        sheet = self._sheet
        x = self._percent_at
        sheet.figure(percent, Spot(x, sheet.y, PERCENT, self._type.name, font, "right"))
        if grams:
            sheet.figure(grams, Spot(x + PERCENT, sheet.y, GRAMS, self._type.name, font, "right"))

    def _step(self, number: int, text: str) -> None:
        sheet = self._sheet
        indent = 6 * mm
        for place, line in enumerate(
            wrapped(shown(text), REGULAR, self._type.body, sheet.breadth - indent)
        ):
            sheet.need(self._type.lead)
            sheet.y -= self._type.lead
            if place == 0:
                sheet.text(f"{number}.", Spot(sheet.left, sheet.y, indent, self._type.body, BOLD))
            sheet.text(
                line, Spot(sheet.left + indent, sheet.y, sheet.breadth - indent, self._type.body)
            )

    def blocks(self) -> None:
        content, say = self._content, self._say
        if content.gaps:
            complete = (say("card-complete-no"), *(f"– {gap}" for gap in content.gaps))
        else:
            complete = (say("card-complete-yes"),)
        missing = missing_notes(_texts(content), self._words)
        for heading, texts in (
            ("card-equipment", content.equipment),
            ("card-cautions", content.cautions),
            ("card-look", content.look),
            ("card-notes", (content.notes, *missing) if content.notes else missing),
            ("card-complete", complete),
        ):
            if texts:
                self._block(say(heading), texts)
        self._sheet.y -= GAP
        self._lines((content.usual,), self._type.body)

    def _block(self, heading: str, texts: tuple[str, ...]) -> None:
        sheet = self._sheet
        sheet.need(GAP + 2 * self._type.lead + 4)
        sheet.y -= GAP + self._type.lead
        sheet.text(heading, Spot(sheet.left, sheet.y, sheet.breadth, self._type.name, BOLD))
        sheet.y -= 3.5
        sheet.rule(sheet.y, HAIR)
        self._lines(texts, self._type.body)

    def _lines(self, texts: tuple[str, ...], size: float) -> None:
        sheet = self._sheet
        for text in texts:
            for line in wrapped(shown(text), REGULAR, size, sheet.breadth):
                sheet.need(self._type.lead)
                sheet.y -= self._type.lead
                sheet.text(line, Spot(sheet.left, sheet.y, sheet.breadth, size))

    def foot(self) -> None:
        sheet = self._sheet
        y = sheet.bottom - 6 * mm
        page = self._say("card-page", page=sheet.page, pages=sheet.pages)
        wide = width(page, REGULAR, self._type.small)
        sheet.rule(y + 10, HAIR)
        name = shown(self._content.product)
        sheet.text(name, Spot(sheet.left, y, sheet.breadth - wide - 12, self._type.small))
        sheet.text(page, Spot(sheet.right - wide - 1, y, wide + 2, self._type.small))


def _texts(content: CardContent) -> Iterator[str]:
    yield from (content.product, content.studio.name, content.studio.contact, content.version)
    yield from (content.ph, content.notes, *content.equipment, *content.cautions, *content.look)
    for phase in content.phases:
        yield from (phase.name, *phase.steps)
        for row in phase.rows:
            yield from (row.name, row.inci, row.note)
