"""The rows of the sheet as values: what each cell says, made from the assessed formula."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from enum import Enum

from workbench.checks.assessment import AssessedLine, Assessment
from workbench.formula.absent import Absent
from workbench.formula.cost import Cost
from workbench.formula.formula import Formula, Line, Phase, Step
from workbench.formula.shelf import Shelf
from workbench.formula.totals import Totals
from workbench.words.catalogue import Words
from workbench.words.numbers import percent_text

RowId = tuple[str, int]

TOTAL_ID: RowId = ("total", 0)
NEW_ID: RowId = ("new", 0)
_LETTERS = 26


class Kind(Enum):
    """What a row of the sheet is."""

    HEAD = "head"
    LINE = "line"
    TOTAL = "total"
    NEW = "new"


@dataclass(frozen=True, slots=True)
class UseRange:
    """Hold what the range cell paints, each a percent as supplied, and its figures."""

    low: Decimal | None
    high: Decimal | None
    value: Decimal
    limit: Decimal | None
    text: str


@dataclass(frozen=True, slots=True)
class SheetRow:
    """Hold one row; texts are ready to paint, `pad` counts the decimals a figure is short of."""

    id: RowId
    kind: Kind
    name: str
    letter: str = ""
    line: int = 0
    phase: int = 0
    secondary: str = ""
    purpose: str = ""
    percent: str = ""
    pad: int = 0
    grams: str = ""
    cost: str = ""
    severity: str = ""
    is_locked: bool = False
    is_rest: bool = False
    is_last_of_phase: bool = False
    alarm: str = ""
    use_range: UseRange | None = None


def line_id(line: int) -> RowId:
    """Return the id of the row of a line."""
    return ("line", line)


def rows_of(
    formula: Formula, assessment: Assessment, shelf: Shelf, words: Words, places: int = 2
) -> tuple[SheetRow, ...]:
    """Return every row of the sheet; `places` is how many decimals grams are printed to."""
    return _Maker(formula, assessment, shelf, words, places).rows()


def letter_of(place: int) -> str:
    """Return the letter of a phase by its place: A to Z, then AA.

    >>> letter_of(2)
    'C'
    """
    before, here = divmod(place, _LETTERS)
    return (letter_of(before - 1) if before else "") + chr(ord("A") + here)


class _Maker:
    def __init__(
        self,
        formula: Formula,
        assessment: Assessment,
        shelf: Shelf,
        words: Words,
        places: int,
    ) -> None:
        self._formula = formula
        self._sums = assessment.totals
        self._lines = {line.line: line for line in assessment.lines}
        self._cost = assessment.cost
        self._limits = _limits(assessment)
        self._shelf = shelf
        self._words = words
        self._places = places
        shown = (*self._sums.percents.values(), *self._sums.phases.values(), self._sums.percent)
        self._decimals = max((_decimals(self._percent(value)) for value in shown), default=2)

    def rows(self) -> tuple[SheetRow, ...]:
        rows: list[SheetRow] = []
        for place, phase in enumerate(self._formula.phases):
            letter = letter_of(place)
            rows.append(self._head(phase, letter))
            last = len(phase.lines) - 1
            rows.extend(
                self._line(line, phase, letter, is_last=index == last)
                for index, line in enumerate(phase.lines)
            )
        rows.append(self._total())
        rows.append(SheetRow(NEW_ID, Kind.NEW, self._words.say("sheet-new-line")))
        return tuple(rows)

    def _head(self, phase: Phase, letter: str) -> SheetRow:
        percent = self._percent(self._sums.phases[phase.id])
        lines = [self._lines[line.id] for line in phase.lines]
        return SheetRow(
            id=("phase", phase.id),
            kind=Kind.HEAD,
            name=phase.name or self._words.say("sheet-phase", letter=letter),
            letter=letter,
            phase=phase.id,
            secondary=", ".join(_step_text(step, self._words) for step in phase.steps),
            percent=percent,
            pad=self._pad(percent),
            grams=self._grams(_sum([line.column_g for line in lines])),
            cost=self._money(_sum([line.cost for line in lines])),
            is_last_of_phase=not lines,
        )

    def _line(self, line: Line, phase: Phase, letter: str, *, is_last: bool) -> SheetRow:
        known = self._lines[line.id]
        percent = self._percent(known.percent)
        return SheetRow(
            id=line_id(line.id),
            kind=Kind.LINE,
            name=self._shelf.name(line.ingredient),
            letter=letter,
            line=line.id,
            phase=phase.id,
            secondary=self._inci(line.ingredient),
            purpose=self._purpose(line.purpose or self._shelf.purpose(line.ingredient)),
            percent=percent,
            pad=self._pad(percent),
            grams=self._grams(known.column_g),
            cost=self._money(known.cost),
            severity="" if known.severity is None else known.severity.word,
            is_locked=line.locked,
            is_rest=line.is_rest,
            is_last_of_phase=is_last,
            use_range=self._range(line, known),
        )

    def _total(self) -> SheetRow:
        percent = self._percent(self._sums.percent)
        grams = _sum([line.column_g for line in self._lines.values()])
        costs = self._cost.lines.values() if isinstance(self._cost, Cost) else ()
        return SheetRow(
            id=TOTAL_ID,
            kind=Kind.TOTAL,
            name=self._words.say("sheet-total"),
            percent=percent,
            pad=self._pad(percent),
            grams=self._grams(grams),
            cost="" if isinstance(self._cost, Absent) else self._money(_sum(list(costs))),
            alarm=_alarm(self._sums, self._words),
        )

    def _percent(self, value: Decimal) -> str:
        return percent_text(value, self._words.style)

    def _pad(self, percent: str) -> int:
        return self._decimals - _decimals(percent)

    def _grams(self, value: Decimal | None) -> str:
        return "" if value is None else self._words.number(value, self._places)

    def _money(self, value: Decimal | None) -> str:
        return "" if value is None else self._words.number(value, 2)

    def _inci(self, key: str) -> str:
        item = self._shelf.ingredients.get(key)
        if item is not None:
            return item.inci
        return self._words.say("sheet-stock") if key in self._shelf.stocks else ""

    def _purpose(self, function: str) -> str:
        message = f"function-{function}"
        return self._words.say(message) if self._words.has(message) else function

    def _range(self, line: Line, known: AssessedLine) -> UseRange | None:
        item = self._shelf.ingredients.get(line.ingredient)
        low, high = (item.use_min, item.use_max) if item else (None, None)
        limit = self._limits.get(line.id)
        if (low is None and high is None and limit is None) or line.is_rest:
            return None
        return UseRange(low, high, known.percent, limit, _range_text(low, high, limit, self._words))


def _limits(assessment: Assessment) -> dict[int, Decimal]:
    """Return the percent as supplied at which a line meets its lowest limit.

    A limit is counted on its own basis, so it is carried over in proportion; where several lines
    share it, no mark on one of them would be true.
    """
    limits: dict[int, Decimal] = {}
    percents = assessment.totals.percents
    for found in assessment.findings:
        if not found.code.startswith("limit-") or len(found.lines) != 1 or not found.value:
            continue
        line = found.lines[0]
        if found.limit is None or line not in percents:
            continue
        at = (percents[line] * found.limit / found.value).quantize(Decimal("0.0001"))
        limits[line] = min(at, limits.get(line, at))
    return limits


def _range_text(
    low: Decimal | None, high: Decimal | None, limit: Decimal | None, words: Words
) -> str:
    if low is not None and high is not None:
        return words.say("sheet-range-both", low=low, high=high)
    if high is not None:
        return words.say("sheet-range-up-to", high=high)
    if low is not None:
        return words.say("sheet-range-from", low=low)
    return "" if limit is None else words.say("sheet-range-limit", limit=limit)


def _step_text(step: Step, words: Words) -> str:
    parts = [step.text]
    if step.target_c is not None:
        # "heat" reads on to its temperature; a longer instruction keeps it apart.
        form = "sheet-step-target" if " " not in step.text else "sheet-step-at"
        parts = [words.say(form, text=step.text, target=step.target_c)]
    if step.hold_min is not None:
        parts.append(words.say("sheet-step-hold", minutes=step.hold_min))
    if step.speed:
        parts.append(words.say("sheet-step-speed", speed=step.speed))
    if step.max_add_c is not None:
        parts.append(words.say("sheet-step-below", temperature=step.max_add_c))
    return ", ".join(part for part in parts if part)


def _alarm(sums: Totals, words: Words) -> str:
    excess = -sums.rest if sums.rest is not None and sums.rest < 0 else -sums.short
    if not excess:
        return ""
    message = "sheet-over" if excess > 0 else "sheet-short"
    return words.say(message, percent=percent_text(abs(excess), words.style))


def _sum(values: list[Decimal | None]) -> Decimal | None:
    known = [value for value in values if value is not None]
    return sum(known, Decimal(0)) if known else None


def _decimals(text: str) -> int:
    mark = max(text.rfind("."), text.rfind(","))
    return len(text) - mark - 1 if mark >= 0 else 0
