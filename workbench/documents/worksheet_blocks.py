"""The blocks around the lines: start, care, pH, filling, yield, deviations, review."""

from __future__ import annotations

from reportlab.lib.units import mm

from workbench.documents.fonts import BOLD, REGULAR, wrapped
from workbench.documents.sheet import FINE, HAIR, Sheet, Spot
from workbench.documents.worksheet_content import WorksheetContent
from workbench.words.catalogue import Words

TICK, ROW, HEAD, STEP = 5.5 * mm, 9 * mm, 8 * mm, 8.5 * mm
PH_ROWS, FILL_CELLS, DEVIATION_ROWS = 8, 10, 3
LINES_OF_A_STEP, GAP = 8, 2 * mm
STARTS = ("current", "lots", "clean", "clear", "balance", "meter")
PH_COLUMNS = (
    ("time", 1.0),
    ("reading", 1.0),
    ("temperature", 0.8),
    ("method", 1.4),
    ("adjuster", 1.9),
    ("before", 1.4),
    ("after", 1.4),
    ("dose", 1.1),
    ("wait", 0.8),
    ("new", 1.0),
)


class Blocks:
    """Draw each block where the sheet stands."""

    def __init__(self, sheet: Sheet, content: WorksheetContent, words: Words) -> None:
        self._sheet = sheet
        self._content = content
        self._say = words.say

    def before(self) -> None:
        """Draw what is read before anything is weighed: checks, care to take, open findings."""
        self._start_checks()
        self._care()
        self._findings()

    def _start_checks(self) -> None:
        sheet = self._sheet
        self._head("worksheet-start", 2 * 6.8 * mm)
        third = sheet.breadth / 3
        for place, name in enumerate(STARTS):
            x = sheet.left + (place % 3) * third
            y = sheet.y - (place // 3 + 1) * 6.8 * mm
            sheet.tick(x, y + 0.5 * mm, TICK)
            text = self._say(f"worksheet-start-{name}")
            sheet.text(text, Spot(x + 8 * mm, y + 1.8 * mm, third - 10 * mm, 10.5))
        sheet.y -= 2 * 6.8 * mm + 0.5 * mm

    def rest(self) -> None:
        """Draw every block after the lines."""
        self._steps()
        self._evaporation()
        self._filling()
        self._deviations()
        self._ph()
        self._yield()
        self._review()

    def _head(self, message: str, below: float, aside: str = "") -> None:
        sheet = self._sheet
        sheet.need(HEAD + below)
        sheet.y -= HEAD
        sheet.text(
            self._say(message), Spot(sheet.left, sheet.y + 2 * mm, sheet.breadth, 12.5, BOLD)
        )
        if aside:
            indent = 35 * mm
            room = sheet.breadth - indent
            sheet.text(aside, Spot(sheet.left + indent, sheet.y + 2 * mm, room, 10, side="right"))
        sheet.rule(sheet.y, FINE)

    def _paragraph(self, text: str, size: float, font: str = REGULAR) -> None:
        sheet = self._sheet
        for line in wrapped(text, font, size, sheet.breadth):
            sheet.need(size * 1.35)
            sheet.y -= size * 1.35
            sheet.text(line, Spot(sheet.left, sheet.y, sheet.breadth, size, font))

    def _steps(self) -> None:
        if not any(phase.steps for phase in self._content.phases):
            return
        self._head("worksheet-steps", 2 * STEP)
        for phase in self._content.phases:
            for step in phase.steps:
                self._step(phase.letter, step)
        self._sheet.y -= GAP

    def _step(self, letter: str, step: str) -> None:
        sheet, blank = self._sheet, 78 * mm
        lines = wrapped(step, REGULAR, 12, sheet.breadth - blank - 20 * mm)
        lines, later = lines[:LINES_OF_A_STEP], lines[LINES_OF_A_STEP:]
        height = max(STEP, len(lines) * 14 + 8)
        sheet.need(height)
        base = sheet.y - 5.6 * mm
        sheet.tick(sheet.left, sheet.y - 1.6 * mm - TICK, TICK)
        sheet.text(letter, Spot(sheet.left + 9 * mm, base, 6 * mm, 12, BOLD))
        for place, line in enumerate(lines):
            sheet.text(
                line, Spot(sheet.left + 16 * mm, base - place * 14, sheet.breadth - blank, 12)
            )
        actual = self._say("worksheet-actual-step")
        sheet.text(actual, Spot(sheet.right - blank, base, blank, 9, side="right"))
        sheet.y -= height
        for line in later:
            sheet.need(14)
            sheet.y -= 14
            sheet.text(line, Spot(sheet.left + 16 * mm, sheet.y + 6, sheet.breadth - blank, 12))
        sheet.rule(sheet.y, HAIR)

    def _care(self) -> None:
        if not self._content.cautions:
            return
        self._head("worksheet-cautions", 16 * mm, self._say("worksheet-cautions-defer"))
        for text in self._content.cautions:
            self._paragraph(text, 12)
        self._sheet.y -= 1.5 * mm

    def _findings(self) -> None:
        if not self._content.findings:
            return
        self._head("worksheet-look", 14 * mm)
        for severity, title, detail in self._content.findings:
            self._sheet.need(30)
            word = self._say(f"severity-{severity}").capitalize()
            self._paragraph(f"{word}: {title}", 12, BOLD)
            if detail:
                self._paragraph(detail, 10)
        self._sheet.y -= GAP

    def _evaporation(self) -> None:
        self._head("worksheet-evaporation", ROW)
        self._blanks(
            tuple(f"worksheet-evaporation-{x}" for x in ("vessel", "before", "after", "top"))
        )

    def _ph(self) -> None:
        say, wanted = self._say, self._content.target_ph
        aside = say("worksheet-ph-target", range=wanted) if wanted else say("worksheet-ph-none")
        self._head("worksheet-ph", 6 * mm + PH_ROWS * ROW, aside)
        sheet = self._sheet
        meter = Spot(sheet.left + 35 * mm, sheet.y + 2 * mm, 130 * mm, 10)
        sheet.text(say("worksheet-ph-meter"), meter)
        unit = sheet.breadth / sum(share for _, share in PH_COLUMNS)
        edges = [sheet.left]
        for _, share in PH_COLUMNS:
            edges.append(edges[-1] + share * unit)
        sheet.y -= 6 * mm
        top = sheet.y
        for (name, _), x, end in zip(PH_COLUMNS, edges, edges[1:], strict=False):
            label = say(f"worksheet-ph-{name}")
            sheet.text(label, Spot(x + 3, sheet.y + 1.8 * mm, end - x - 4, 8))
        for _ in range(PH_ROWS):
            sheet.rule(sheet.y, HAIR)
            sheet.y -= ROW
        sheet.rule(sheet.y, FINE)
        for x in edges[1:-1]:
            sheet.line(x, top, x, sheet.y, HAIR)
        sheet.y -= GAP

    def _filling(self) -> None:
        self._head("worksheet-fill", 2 * ROW)
        sheet = self._sheet
        sheet.y -= ROW
        cell = (sheet.breadth - 52 * mm) / FILL_CELLS
        sheet.text(self._say("worksheet-fill-net"), Spot(sheet.left, sheet.y + 2, 50 * mm, 9.5))
        for place in range(FILL_CELLS):
            x = sheet.left + 52 * mm + place * cell
            sheet.line(x, sheet.y, x + cell - 6, sheet.y, FINE)
        self._blanks(("worksheet-fill-good", "worksheet-fill-reject"))

    def _yield(self) -> None:
        masses = ("filled", "retains", "samples", "residue")
        self._head("worksheet-yield", 5 * ROW)
        self._blanks(tuple(f"worksheet-yield-{name}" for name in masses))
        self._worked_out((("made", 0.54), ("yield", 0.46)))
        self._worked_out((("lost", 1.0),))
        self._worked_out((("reconciled", 1.0),))
        self._sheet.y -= GAP

    def _worked_out(self, shares: tuple[tuple[str, float], ...]) -> None:
        sheet, blank, apart = self._sheet, 34 * mm, 6 * mm
        sheet.need(ROW)
        sheet.y -= ROW
        x, y = sheet.left, sheet.y + 1.5 * mm
        for name, share in shares:
            end = x + share * (sheet.breadth + apart) - apart
            text = self._say(f"worksheet-yield-{name}")
            sheet.text(text, Spot(x, sheet.y + 2.2 * mm, end - x - blank, 10.5))
            sheet.line(end - blank, y, end, y, FINE)
            x = end + apart

    def _deviations(self) -> None:
        self._head("worksheet-deviations", DEVIATION_ROWS * ROW)
        for _ in range(DEVIATION_ROWS):
            self._sheet.need(ROW)
            self._sheet.y -= ROW
            self._sheet.rule(self._sheet.y, HAIR)
        self._sheet.y -= GAP

    def _review(self) -> None:
        self._head("worksheet-review", ROW + 4 * mm)
        sheet = self._sheet
        sheet.y -= ROW
        x = sheet.left
        for name in ("quarantined", "released", "rejected"):
            sheet.tick(x, sheet.y, TICK)
            sheet.text(self._say(f"worksheet-{name}"), Spot(x + 8 * mm, sheet.y + 1.5 * mm, 90, 11))
            x += 38 * mm
        for name, wide in (("by", 60 * mm), ("date", 45 * mm)):
            sheet.text(self._say(f"worksheet-{name}"), Spot(x, sheet.y + 1.5 * mm, 40, 11))
            sheet.line(x + 12 * mm, sheet.y, x + 12 * mm + wide, sheet.y, FINE)
            x += 16 * mm + wide
        sheet.y -= GAP

    def _blanks(self, messages: tuple[str, ...]) -> None:
        sheet = self._sheet
        sheet.need(ROW)
        sheet.y -= ROW
        step = sheet.breadth / len(messages)
        for place, message in enumerate(messages):
            x = sheet.left + place * step
            sheet.text(self._say(message), Spot(x, sheet.y + 2, step * 0.6, 9.5))
            sheet.line(x + step * 0.6, sheet.y, x + step - 10, sheet.y, FINE)
        sheet.y -= GAP
