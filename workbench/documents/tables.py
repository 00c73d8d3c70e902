"""Tables and sections of a paper: values first, then drawn down a sheet."""

from __future__ import annotations

from dataclasses import dataclass

from reportlab.lib.units import mm

from workbench.documents.fonts import BOLD, REGULAR, wrapped
from workbench.documents.sheet import FINE, HAIR, Sheet, Spot
from workbench.documents.shown_signs import shown

BODY, HEAD, TITLE = 8.5, 7.5, 11.0
LEAD, PAD, GAP, FIGURE_GAP = 10.6, 2.6, 2 * mm, 4 * mm
MOST_CELL_LINES = 30
HAND = 9 * mm


@dataclass(frozen=True, slots=True)
class Table:
    """Hold a table: heads, widths as shares of the breadth, rows of text.

    `right` are the columns that stand at the right; with `sums` the last row is a sum, and
    `is_blank` gives rows the height that writing by hand needs.
    """

    heads: tuple[str, ...]
    widths: tuple[int, ...]
    rows: tuple[tuple[str, ...], ...]
    right: tuple[int, ...] = ()
    sums: bool = False
    is_blank: bool = False


@dataclass(frozen=True, slots=True)
class Section:
    """Hold one section: heading, a table or none, and lines below it."""

    heading: str
    table: Table | None
    lines: tuple[str, ...] = ()


class Sections:
    """Draw sections one below the other."""

    def __init__(self, sheet: Sheet) -> None:
        """Take the sheet they go on."""
        self._sheet = sheet

    def draw(self, section: Section) -> None:
        """Draw one section; its heading never stands alone at the foot of a page."""
        sheet = self._sheet
        sheet.need(18 * mm)
        sheet.y -= 7 * mm
        sheet.text(shown(section.heading), Spot(sheet.left, sheet.y, sheet.breadth, TITLE, BOLD))
        sheet.y -= 3.5
        if section.table is not None:
            self._table(section.table)
            sheet.y -= 2
        else:
            sheet.rule(sheet.y, FINE)
        for text in section.lines:
            self._line(text)

    def _line(self, text: str) -> None:
        sheet = self._sheet
        for number, line in enumerate(wrapped(shown(text), REGULAR, BODY, sheet.breadth - 4 * mm)):
            sheet.need(LEAD)
            sheet.y -= LEAD
            x = sheet.left + (4 * mm if number else 0)
            sheet.text(line, Spot(x, sheet.y, sheet.right - x, BODY))

    def _table(self, table: Table) -> None:
        sheet = self._sheet
        self._heads(table)
        for number, row in enumerate(table.rows):
            is_sum = table.sums and number == len(table.rows) - 1
            cells = self._cells(table, row, BOLD if is_sum else REGULAR)
            high = max(len(lines) for lines in cells) * LEAD + PAD
            high = max(high, HAND) if table.is_blank else high
            if sheet.need(high):
                self._heads(table)
            self._row(table, cells, BOLD if is_sum else REGULAR)
            sheet.y -= high
            sheet.rule(sheet.y, FINE if is_sum else HAIR)

    def _edges(self, table: Table) -> list[tuple[float, float]]:
        sheet, whole = self._sheet, sum(table.widths)
        edges, x = [], sheet.left
        for share in table.widths:
            wide = sheet.breadth * share / whole
            edges.append((x, wide))
            x += wide
        return edges

    def _heads(self, table: Table) -> None:
        sheet = self._sheet
        sheet.y -= LEAD
        for number, ((x, wide), head) in enumerate(
            zip(self._edges(table), table.heads, strict=True)
        ):
            side = "right" if number in table.right else "left"
            room = wide - (FIGURE_GAP if side == "right" else GAP)
            sheet.text(head, Spot(x, sheet.y, room, HEAD, side=side))
        sheet.y -= 3
        sheet.rule(sheet.y, FINE)

    def _cells(self, table: Table, row: tuple[str, ...], font: str) -> list[list[str]]:
        return [
            wrapped(shown(text), font, BODY, wide - GAP)[:MOST_CELL_LINES]
            for (_, wide), text in zip(self._edges(table), row, strict=True)
        ]

    def _row(self, table: Table, cells: list[list[str]], font: str) -> None:
        sheet = self._sheet
        for number, ((x, wide), lines) in enumerate(zip(self._edges(table), cells, strict=True)):
            side = "right" if number in table.right else "left"
            room = wide - (FIGURE_GAP if side == "right" else GAP)
            for place, line in enumerate(lines):
                y = sheet.y - (place + 1) * LEAD + 0.6
                sheet.text(line, Spot(x, y, room, BODY, font, side))
