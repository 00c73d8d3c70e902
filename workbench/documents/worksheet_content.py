"""What a worksheet says: plain text and numbers, before any paper."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal

from workbench.bench.batch import BatchOrder, allowed_g
from workbench.checks.assessment import AssessedLine, Assessment
from workbench.checks.finding import Finding, Severity
from workbench.formula.formula import Formula, Line, Step
from workbench.formula.shelf import Shelf
from workbench.words.catalogue import Words
from workbench.words.findings import detail, title

HAZARDS = ("strong-base", "strong-acid", "corrosive", "respirable-powder", "flammable")
COARSE = "weigh-coarse"
STRONG = {"strong-base", "strong-acid"}
# To what grams are printed as long as no balance is entered.
CENTI = Decimal("0.01")
LONGEST_NAME, NAMES_AT_ONCE = 80, 25
LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


@dataclass(frozen=True, slots=True)
class StudioBlock:
    """Hold who made the paper; `logo` is a picture file as it is kept, empty for none."""

    name: str
    contact: str
    logo: bytes = b""


@dataclass(frozen=True, slots=True)
class MaterialRow:
    """Hold one line to weigh, as printed; `target_g` is the same figure as a number [g]."""

    number: str
    name: str
    inci: str
    target: str
    target_g: Decimal
    balance: str
    band: str
    vessel: str
    advice: str


@dataclass(frozen=True, slots=True)
class PhaseBlock:
    """Hold one phase: its lines and its steps."""

    letter: str
    name: str
    rows: tuple[MaterialRow, ...]
    steps: tuple[str, ...]
    subtotal: str


@dataclass(frozen=True, slots=True)
class WorksheetContent:
    """Hold a whole worksheet in plain words."""

    studio: StudioBlock
    product: str
    number: str
    version: str
    batch: str
    planned: str
    target_ph: str
    phases: tuple[PhaseBlock, ...]
    total: str
    total_g: Decimal
    findings: tuple[tuple[str, str, str], ...]
    cautions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Print:
    """Hold how a paper is made: for which studio, in which words, with which accept bands."""

    studio: StudioBlock
    words: Words
    bands: Mapping[str, Decimal | None]


def worksheet_content(
    order: BatchOrder, formula: Formula, shelf: Shelf, assessment: Assessment, made: Print
) -> WorksheetContent:
    """Say everything a worksheet prints; the assessment must hold the grams of this batch."""
    words = made.words
    writer = _Writer(formula, shelf, assessment, made)
    phases = tuple(writer.phases())
    total = sum((row.target_g for phase in phases for row in phase.rows), Decimal(0))
    low_high = formula.target_ph
    return WorksheetContent(
        studio=made.studio,
        product=formula.name,
        number=order.number,
        version=order.version,
        batch=writer.grams(order.batch_g),
        planned=order.planned_on.isoformat() if order.planned_on else "",
        target_ph=""
        if low_high is None
        else f"{words.number(low_high[0])} – {words.number(low_high[1])}",
        phases=phases,
        total=writer.grams(total),
        total_g=total,
        findings=tuple(
            (found.severity.word, title(found, shelf, words), _more(found, shelf, words))
            for found in assessment.findings
            if found.severity is not Severity.NOTE
        ),
        cautions=tuple(writer.cautions()),
    )


class _Writer:
    def __init__(
        self,
        formula: Formula,
        shelf: Shelf,
        assessment: Assessment,
        made: Print,
    ) -> None:
        words = made.words
        self._formula = formula
        self._shelf = shelf
        self._words = words
        self._bands = made.bands
        self._assessed = {line.line: line for line in assessment.lines}
        self._places = _places(min((item.readability for item in shelf.balances), default=CENTI))
        self._step_g = Decimal(1).scaleb(-self._places)
        self._coarse = {
            found.lines[0]: detail(found, shelf, words)
            for found in assessment.findings
            if found.code == COARSE
        }

    def grams(self, value: Decimal) -> str:
        return self._words.number(value, self._places)

    def phases(self) -> Iterator[PhaseBlock]:
        count = sum(1 for _ in self._formula.lines())
        number = 0
        for place, phase in enumerate(self._formula.phases):
            rows: list[MaterialRow] = []
            vessel = Decimal(0)
            for line in phase.lines:
                number += 1
                assessed = self._assessed[line.id]
                target = assessed.column_g or Decimal(0)
                vessel += target
                rows.append(self._row(line, assessed, f"{number} of {count}", vessel))
            yield PhaseBlock(
                letter=LETTERS[place % len(LETTERS)],
                name=phase.name,
                rows=tuple(rows),
                steps=tuple(self._step(step) for step in phase.steps),
                subtotal=self.grams(vessel),
            )

    def _row(self, line: Line, assessed: AssessedLine, number: str, vessel: Decimal) -> MaterialRow:
        target = assessed.column_g or Decimal(0)
        weighed = assessed.weighability
        balance = weighed.balance if weighed else None
        off = allowed_g(line, target, balance, self._shelf, self._bands)
        item = self._shelf.ingredients.get(line.ingredient)
        note = " · ".join(part for part in (line.note, self._coarse.get(line.id, "")) if part)
        if line.to_ph:
            note = " · ".join(
                part for part in (self._words.say("worksheet-hold-back"), note) if part
            )
        return MaterialRow(
            number=number,
            name=self._shelf.name(line.ingredient),
            inci=item.inci if item else self._stock(line),
            target=self.grams(target),
            target_g=target,
            balance=balance.name if balance else "",
            band="" if off is None else f"± {self.grams(max(off, self._step_g))}",
            vessel=self.grams(vessel),
            advice=note,
        )

    def _stock(self, line: Line) -> str:
        known = line.ingredient in self._shelf.stocks
        return self._words.say("worksheet-stock") if known else ""

    def _step(self, step: Step) -> str:
        say, parts = self._words.say, [step.text]
        if step.target_c is not None:
            parts.append(say("worksheet-step-target", degrees=step.target_c))
        if step.hold_min is not None:
            parts.append(say("worksheet-step-hold", minutes=step.hold_min))
        if step.speed:
            parts.append(step.speed)
        if step.max_add_c is not None:
            parts.append(say("worksheet-step-most", degrees=step.max_add_c))
        return ", ".join(parts)

    def cautions(self) -> Iterator[str]:
        items = [
            self._shelf.ingredients[key]
            for key in dict.fromkeys(_keys(self._formula, self._shelf))
            if key in self._shelf.ingredients
        ]
        for tag in HAZARDS:
            # What is named as a strong acid or alkali isn't named as corrosive once more.
            told = STRONG if tag == "corrosive" else set()
            names = tuple(_brief(i.name) for i in items if tag in i.tags and not told & set(i.tags))
            for start in range(0, len(names), NAMES_AT_ONCE):
                some = names[start : start + NAMES_AT_ONCE]
                yield self._words.say(f"worksheet-hazard-{tag}", names=some)
        for item in items:
            if item.cautions and set(item.tags) & set(HAZARDS):
                yield self._words.say(
                    "worksheet-caution", name=_brief(item.name), text=item.cautions
                )


def _more(found: Finding, shelf: Shelf, words: Words) -> str:
    # What to weigh in place of too little stands at the line itself.
    return "" if found.code == COARSE else detail(found, shelf, words)


def _brief(name: str) -> str:
    return name if len(name) <= LONGEST_NAME else name[: LONGEST_NAME - 1].rstrip() + "…"


def _places(value: Decimal) -> int:
    exponent = value.normalize().as_tuple().exponent
    return max(-exponent, 0) if isinstance(exponent, int) else 0


def _keys(formula: Formula, shelf: Shelf, depth: int = 0) -> Iterator[str]:
    for line in formula.lines():
        yield line.ingredient
        if line.ingredient in shelf.stocks and depth < len(shelf.stocks):
            yield from _keys(shelf.stocks[line.ingredient], shelf, depth + 1)
