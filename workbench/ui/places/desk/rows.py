"""The rows of the sheet as values: what each cell says, made from the assessed formula."""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal
from enum import Enum
from functools import lru_cache

from workbench.checks.assessment import AssessedLine, Assessment
from workbench.formula.absent import Absent
from workbench.formula.cost import Cost
from workbench.formula.formula import Formula, Line, Phase, Step
from workbench.formula.shelf import Shelf
from workbench.formula.totals import Totals
from workbench.words.catalogue import Words
from workbench.words.findings import title
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
    """Hold what the range cell paints, each a percent as supplied, and its figures.

    `said` is what is read out: the figures with the limit.
    """

    low: Decimal | None
    high: Decimal | None
    value: Decimal
    limit: Decimal | None
    text: str
    said: str = ""


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
    is_to_ph: bool = False
    is_last_of_phase: bool = False
    alarm: str = ""
    use_range: UseRange | None = None
    pure: str = ""
    pure_pad: int = 0
    inci: str = ""
    note: str = ""
    phase_name: str = ""
    told: str = ""
    """The titles of the findings about the line, for what is read out."""


def line_id(line: int) -> RowId:
    """Return the id of the row of a line."""
    return ("line", line)


def rows_of(
    formula: Formula, assessment: Assessment, shelf: Shelf, words: Words, places: int = 2
) -> tuple[SheetRow, ...]:
    """Return every row of the sheet; `places` is how many decimals grams are printed to."""
    return SheetRows(words).of(formula, assessment, shelf, places)


class SheetRows:
    """Make the rows of the sheet; a line of which nothing changed keeps the row it had."""

    def __init__(self, words: Words) -> None:
        """Take the words the rows are written in."""
        self._words = words
        self._style = words.style
        self._shelf: Shelf | None = None
        self._kept = _Kept()

    def of(
        self, formula: Formula, assessment: Assessment, shelf: Shelf, places: int = 2
    ) -> tuple[SheetRow, ...]:
        """Return every row; `places` is how many decimals grams are printed to."""
        if shelf is not self._shelf or self._words.style is not self._style:
            self._kept = _Kept()
        self._shelf, self._style = shelf, self._words.style
        return _Maker(formula, assessment, shelf, self._words, places, self._kept).rows()


def letter_of(place: int) -> str:
    """Return the letter of a phase by its place: A to Z, then AA.

    >>> letter_of(2)
    'C'
    """
    before, here = divmod(place, _LETTERS)
    return (letter_of(before - 1) if before else "") + chr(ord("A") + here)


@dataclass
class _Kept:
    """Hold what was made before: rows by line with the facts they came from, and titles."""

    rows: dict[int, tuple[tuple[object, ...], SheetRow]] = field(default_factory=dict)
    titles: dict[tuple[object, ...], str] = field(default_factory=dict)


class _Maker:
    def __init__(
        self,
        formula: Formula,
        assessment: Assessment,
        shelf: Shelf,
        words: Words,
        places: int,
        kept: _Kept,
    ) -> None:
        self._formula = formula
        self._sums = assessment.totals
        self._lines = {line.line: line for line in assessment.lines}
        self._cost = assessment.cost
        self._limits = _limits(assessment)
        self._kept = kept
        self._titles = _titles(assessment, shelf, words, kept.titles)
        self._shelf = shelf
        self._words = words
        self._places = places
        shown = (*self._sums.percents.values(), *self._sums.phases.values(), self._sums.percent)
        self._decimals = max((_shown_decimals(value) for value in shown), default=2)
        pure = [line.pure_percent for line in self._lines.values()]
        self._pure_decimals = max((_shown_decimals(value) for value in pure), default=2)

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
            secondary=self._steps(phase),
            purpose=self._words.say(f"sheet-kind-{phase.kind}"),
            phase_name=phase.name,
            percent=percent,
            pad=self._pad(percent),
            grams=self._grams(_sum([line.column_g for line in lines])),
            cost=self._money(_sum([line.cost for line in lines])),
            is_last_of_phase=not lines,
        )

    def _line(self, line: Line, phase: Phase, letter: str, *, is_last: bool) -> SheetRow:
        facts = (
            line,
            self._lines[line.id],
            self._limits.get(line.id),
            self._titles.get(line.id),
            (phase.id, phase.name, letter, is_last),
            (self._decimals, self._pure_decimals, self._places),
        )
        before = self._kept.rows.get(line.id)
        if before is not None and before[0] == facts:
            return before[1]
        row = self._made(line, phase, letter, is_last=is_last)
        self._kept.rows[line.id] = (facts, row)
        return row

    def _made(self, line: Line, phase: Phase, letter: str, *, is_last: bool) -> SheetRow:
        known = self._lines[line.id]
        percent, pure = self._percent(known.percent), self._percent(known.pure_percent)
        inci = self._inci(line.ingredient)
        return SheetRow(
            id=line_id(line.id),
            kind=Kind.LINE,
            name=self._shelf.name(line.ingredient),
            letter=letter,
            line=line.id,
            phase=phase.id,
            secondary=inci,
            purpose=self._purpose(line.purpose or self._shelf.purpose(line.ingredient)),
            percent=percent,
            pad=self._pad(percent),
            grams=self._grams(known.column_g),
            cost=self._money(known.cost),
            severity="" if known.severity is None else known.severity.word,
            is_locked=line.locked,
            is_rest=line.is_rest,
            is_to_ph=line.to_ph,
            is_last_of_phase=is_last,
            use_range=self._range(line, known),
            pure=pure,
            pure_pad=self._pure_decimals - _decimals(pure),
            inci=inci,
            note=line.note,
            phase_name=phase.name,
            told=self._titles.get(line.id, ""),
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

    def _steps(self, phase: Phase) -> str:
        """Return the first step in words, and how many follow it."""
        if not phase.steps:
            return ""
        first = _step_text(phase.steps[0], self._words)
        more = len(phase.steps) - 1
        return self._words.say("sheet-steps-more", first=first, more=more) if more else first

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
        text = _range_text(low, high, limit, self._words)
        said = text
        if limit is not None and (low is not None or high is not None):
            said = f"{text}, {self._words.say('sheet-range-limit', limit=limit)}"
        return UseRange(low, high, known.percent, limit, text, said)


def _limits(assessment: Assessment) -> dict[int, Decimal]:
    """Return the percent as supplied at which a line meets its lowest limit.

    What the law allows of each line, the others as they stand; then advice, which is counted on
    its own basis and so carried over in proportion; where several lines share that, no mark on
    one of them would be true.
    """
    limits: dict[int, Decimal] = dict(assessment.maxima)
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


def _titles(
    assessment: Assessment, shelf: Shelf, words: Words, made: dict[tuple[object, ...], str]
) -> dict[int, str]:
    """Return what is found about each line, in words; `made` keeps sentences for the next time."""
    titles: dict[int, list[str]] = {}
    for found in assessment.findings:
        if found.lines:
            key = (found.code, found.values)
            if key not in made:
                made[key] = title(found, shelf, words)
            for line in found.lines:
                titles.setdefault(line, []).append(made[key])
    return {line: ". ".join(said) for line, said in titles.items()}


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


@lru_cache(maxsize=4096)
def _shown_decimals(percent: Decimal) -> int:
    """Return how many decimals a percent is written with: two, or up to four where they say more.

    >>> _shown_decimals(Decimal("0.1250"))
    3
    """
    exponent = percent.normalize().as_tuple().exponent
    return min(max(-exponent if isinstance(exponent, int) else 0, 2), 4)


def _decimals(text: str) -> int:
    mark = max(text.rfind("."), text.rfind(","))
    return len(text) - mark - 1 if mark >= 0 else 0
