"""The lines to weigh, phase by phase."""

from __future__ import annotations

from dataclasses import dataclass

from reportlab.lib.units import mm

from workbench.documents.fonts import BOLD, REGULAR, printable, shortened, width, wrapped
from workbench.documents.sheet import FINE, HAIR, THICK, Sheet, Spot
from workbench.documents.worksheet_content import MaterialRow, PhaseBlock, WorksheetContent
from workbench.words.catalogue import Words

ROW, TICK = 9 * mm, 5.5 * mm
HEAD, PHASE_HEAD = 5.5 * mm, 7.5 * mm
SPARE_ROWS = 2
NAME_SIZE, TARGET_SIZE, SMALL = 12, 17, 8
NAME_LEAD = 4.6 * mm
MOST_ADVICE = 3
TOTAL = 10 * mm


@dataclass(frozen=True, slots=True)
class Column:
    """Hold one column: its head, left edge and width [pt], and the side its text stands on."""

    key: str
    x: float
    width: float
    side: str = "left"


def columns(left: float, breadth: float) -> dict[str, Column]:
    """Share the breadth [pt] out; the material gets what the others leave."""
    fixed = (
        ("worksheet-line", 14.5 * mm, "left"),
        ("worksheet-material", 0, "left"),
        ("worksheet-target", 30 * mm, "right"),
        ("worksheet-allowed", 18 * mm, "right"),
        ("worksheet-vessel", 21 * mm, "right"),
        ("worksheet-balance", 25 * mm, "left"),
        ("worksheet-lot", 27 * mm, "left"),
        ("worksheet-actual", 32 * mm, "left"),
        ("worksheet-weighed", 14 * mm, "left"),
        ("worksheet-added", 12 * mm, "left"),
    )
    free = breadth - sum(wide for _, wide, _ in fixed)
    made: dict[str, Column] = {}
    x = left
    for key, asked, side in fixed:
        wide = asked or free
        made[key] = Column(key, x, wide, side)
        x += wide
    return made


class Materials:
    """Draw the phases and the total below them."""

    def __init__(
        self, sheet: Sheet, content: WorksheetContent, words: Words, *, splits: bool
    ) -> None:
        self._splits = splits
        self._sheet = sheet
        self._content = content
        self._say = words.say
        self._columns = columns(sheet.left, sheet.breadth)

    def draw(self) -> None:
        """Draw every phase, then the total of the batch."""
        sheet = self._sheet
        head = sheet.head
        sheet.need(HEAD + max(map(self._least, self._content.phases[:1]), default=0))
        self._column_heads()

        def again() -> None:
            head()
            self._column_heads()

        sheet.head = again
        for phase in self._content.phases:
            self._phase(phase)
        sheet.need(TOTAL)
        sheet.head = head
        self._total()

    def _phase(self, phase: PhaseBlock) -> None:
        sheet = self._sheet
        # The sum of the batch never stands on a page without a line above it.
        below = TOTAL if phase is self._content.phases[-1] else 0
        sheet.need(self._least(phase))
        self._phase_head("worksheet-phase", phase)
        for row in phase.rows:
            if sheet.need(self._row_height(row)):
                self._phase_head("worksheet-phase-continued", phase)
            self._row(row)
        for left in range(SPARE_ROWS, 0, -1):
            if sheet.need(left * ROW + below):
                self._phase_head("worksheet-phase-continued", phase)
            self._spare()

    def _least(self, phase: PhaseBlock) -> float:
        """Return what room a phase asks for before it begins [pt]: all of it, or two lines."""
        whole = PHASE_HEAD + sum(map(self._row_height, phase.rows)) + SPARE_ROWS * ROW
        if phase is self._content.phases[-1]:
            whole += TOTAL
        few = PHASE_HEAD + (sum(map(self._row_height, phase.rows[:2])) or ROW)
        page = self._sheet.high - 60 * mm
        return few if self._splits or whole > page else whole

    def _under(self, row: MaterialRow) -> str:
        inci = printable(row.inci)
        return f"{inci} · {printable(row.advice)}" if row.advice and self._is_short(row) else inci

    def _is_short(self, row: MaterialRow) -> bool:
        text = f"{printable(row.inci)} · {printable(row.advice)}"
        return width(text, REGULAR, SMALL) <= self._columns["worksheet-material"].width - 6

    def _advice(self, row: MaterialRow) -> list[str]:
        if not row.advice or self._is_short(row):
            return []
        material = self._columns["worksheet-material"]
        room = self._sheet.right - material.x
        lines = wrapped(row.advice, REGULAR, SMALL + 0.5, room)
        if len(lines) > MOST_ADVICE:
            last = shortened(" ".join(lines[MOST_ADVICE - 1 :]), REGULAR, SMALL + 0.5, room)
            lines[MOST_ADVICE - 1 :] = [last]
        return lines

    def _row_height(self, row: MaterialRow) -> float:
        lines = len(self._advice(row))
        more = (len(self._name(row)) - 1) * NAME_LEAD
        return ROW + more + (lines * 11 + 4 if lines else 0)

    def _name(self, row: MaterialRow) -> list[str]:
        room = self._columns["worksheet-material"].width - 6
        first, *rest = wrapped(row.name, BOLD, NAME_SIZE, room)
        return [first, shortened(" ".join(rest), BOLD, NAME_SIZE, room)] if rest else [first]

    def _column_heads(self) -> None:
        sheet = self._sheet
        sheet.y -= HEAD
        for column in self._columns.values():
            gap = 14 if column.key == "worksheet-target" else 6
            indent = 6 if column.key == "worksheet-balance" else 0
            sheet.text(
                self._say(column.key),
                Spot(
                    column.x + indent,
                    sheet.y + 1.6 * mm,
                    column.width - gap,
                    SMALL,
                    side=column.side,
                ),
            )
        sheet.rule(sheet.y, FINE)

    def _phase_head(self, message: str, phase: PhaseBlock) -> None:
        sheet = self._sheet
        sheet.y -= PHASE_HEAD
        base = sheet.y + 2 * mm
        title = self._say(message, letter=phase.letter, name=phase.name)
        target = self._columns["worksheet-target"]
        sheet.text(title, Spot(sheet.left, base, target.x - sheet.left - 5 * mm, 12.5, BOLD))
        together = self._say("worksheet-phase-sum", grams=phase.subtotal)
        room = target.width + 4 * mm
        sheet.figure(together, Spot(target.x - 4 * mm, base, room - 5, 11, side="right"))
        sheet.rule(sheet.y, FINE)

    def _row(self, row: MaterialRow) -> None:
        sheet, base = self._sheet, self._sheet.y - ROW + 2.9 * mm
        cell = self._columns
        self._put("worksheet-line", row.number, base, SMALL + 1)
        name = cell["worksheet-material"]
        room = name.width - 6
        lines = self._name(row)
        for place, part in enumerate(lines):
            y = base + 1.6 * mm - place * NAME_LEAD
            sheet.text(part, Spot(name.x, y, room, NAME_SIZE, BOLD))
        below = base - 1.9 * mm - (len(lines) - 1) * NAME_LEAD
        sheet.text(self._under(row), Spot(name.x, below, room, SMALL))
        target = cell["worksheet-target"]
        room = target.width - 14
        sheet.figure(row.target, Spot(target.x, base, room, TARGET_SIZE, BOLD, "right"))
        sheet.text("g", Spot(target.x + target.width - 11, base, 10, 11))
        self._put("worksheet-allowed", row.band, base, 10)
        self._put("worksheet-vessel", row.vessel, base, 10)
        self._put("worksheet-balance", row.balance, base, SMALL + 1)
        self._blanks(sheet.y - ROW)
        for place, advice in enumerate(self._advice(row)):
            y = below - (place + 1) * 11
            sheet.text(advice, Spot(name.x, y, sheet.right - name.x, SMALL + 0.5))
        sheet.y -= self._row_height(row)
        sheet.rule(sheet.y, HAIR)

    def _put(self, key: str, text: str, y: float, size: float) -> None:
        column = self._columns[key]
        gap = 4 if column.side == "right" else 2
        x = column.x + (6 if key == "worksheet-balance" else 0)
        write = self._sheet.figure if column.side == "right" else self._sheet.text
        write(text, Spot(x, y, column.width - gap - 2, size, side=column.side))

    def _blanks(self, bottom: float) -> None:
        sheet = self._sheet
        for key in ("worksheet-lot", "worksheet-actual"):
            column = self._columns[key]
            y = bottom + 2 * mm
            sheet.line(column.x, y, column.x + column.width - 3 * mm, y, FINE)
        for key in ("worksheet-weighed", "worksheet-added"):
            sheet.tick(self._columns[key].x + 1 * mm, bottom + (ROW - TICK) / 2, TICK)

    def _spare(self) -> None:
        sheet = self._sheet
        bottom = sheet.y - ROW
        material = self._columns["worksheet-material"]
        y = bottom + 2 * mm
        sheet.text(self._say("worksheet-spare"), Spot(sheet.left, y + 2, 13 * mm, SMALL))
        sheet.line(material.x, y, material.x + material.width - 6, y, HAIR)
        self._blanks(bottom)
        sheet.y = bottom
        sheet.rule(sheet.y, HAIR)

    def _total(self) -> None:
        sheet = self._sheet
        sheet.y -= 8 * mm
        base = sheet.y + 2.4 * mm
        target = self._columns["worksheet-target"]
        material = self._columns["worksheet-material"]
        sheet.text(self._say("worksheet-total"), Spot(material.x, base, 200, 12, BOLD))
        grams = self._content.total
        room = target.width - 14
        sheet.figure(grams, Spot(target.x, base, room, TARGET_SIZE, BOLD, "right"))
        sheet.text("g", Spot(target.x + target.width - 11, base, 10, 11))
        sheet.rule(sheet.y, THICK)
        sheet.rule(sheet.y - 2.6, HAIR)
        sheet.y -= 4 * mm
