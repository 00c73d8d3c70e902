"""What a card says: a formula for sharing, and what somebody else would miss."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from workbench.checks.assessment import AssessedLine, Assessment
from workbench.checks.finding import Severity
from workbench.checks.label_values import WarningKind
from workbench.documents.card_gaps import gaps
from workbench.documents.worksheet_content import StudioBlock
from workbench.formula.absent import Absent
from workbench.formula.formula import Formula, Line, Step
from workbench.formula.shelf import Shelf
from workbench.formula.totals import totals
from workbench.words.catalogue import Words
from workbench.words.findings import title
from workbench.words.labels import LabelWords
from workbench.words.numbers import percent_text
from workbench.words.ph import ph_text

LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
CENTI = Decimal("0.01")
SEVERE = (Severity.STOP, Severity.CAUTION)


@dataclass(frozen=True, slots=True)
class CardRow:
    """Hold one line of a card; `grams` is empty where none are given."""

    name: str
    inci: str
    percent: str
    grams: str
    note: str
    grams_g: Decimal | None = None


@dataclass(frozen=True, slots=True)
class CardPhase:
    """Hold one phase: its lines and its steps."""

    letter: str
    name: str
    rows: tuple[CardRow, ...]
    steps: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class CardOrder:
    """Hold what the maker says for a card.

    `has_grams` gives grams of the batch beside the percents.
    """

    version: str = ""
    has_grams: bool = False
    ph_method: str = ""
    equipment: tuple[str, ...] = ()
    notes: str = ""


@dataclass(frozen=True, slots=True)
class CardContent:
    """Hold a whole card in plain words; never lots, prices or who it is for."""

    studio: StudioBlock
    product: str
    version: str
    kind: str
    ph: str
    batch: str
    phases: tuple[CardPhase, ...]
    total: str
    total_grams: str
    equipment: tuple[str, ...]
    cautions: tuple[str, ...]
    look: tuple[str, ...]
    notes: str
    gaps: tuple[str, ...]
    usual: str


def card_content(
    order: CardOrder,
    formula: Formula,
    shelf: Shelf,
    assessment: Assessment,
    made: tuple[StudioBlock, Words],
) -> CardContent:
    """Say everything a card gives; grams only where the assessment holds those of a batch."""
    studio, words = made
    writer = _Writer(order, formula, shelf, assessment, words)
    phases = tuple(writer.phases())
    rows = [row for phase in phases for row in phase.rows]
    grams = [row.grams_g for row in rows if row.grams_g is not None]
    return CardContent(
        studio=studio,
        product=formula.name,
        version=order.version,
        kind=writer.kind(),
        ph=writer.ph(),
        batch=writer.batch(),
        phases=phases,
        total=percent_text(assessment.totals.percent, words.style),
        total_grams=writer.grams(sum(grams, Decimal(0))) if grams else "",
        equipment=order.equipment,
        cautions=tuple(dict.fromkeys(writer.cautions())),
        look=tuple(
            title(found, shelf, words)
            for found in assessment.findings
            if found.severity in SEVERE and not found.accepted
        ),
        notes=order.notes,
        gaps=gaps(formula, shelf, assessment, (order.ph_method, order.equipment), words),
        usual=words.say("card-usual"),
    )


class _Writer:
    def __init__(
        self,
        order: CardOrder,
        formula: Formula,
        shelf: Shelf,
        assessment: Assessment,
        words: Words,
    ) -> None:
        self._order, self._formula, self._shelf = order, formula, shelf
        self._assessment, self._words = assessment, words
        self._lines = {line.line: line for line in assessment.lines}
        finest = min((item.readability for item in shelf.balances), default=CENTI)
        exponent = finest.normalize().as_tuple().exponent
        self._places = max(-exponent, 0) if isinstance(exponent, int) else 0

    def grams(self, value: Decimal) -> str:
        return self._words.number(value, self._places)

    @property
    def _has_grams(self) -> bool:
        return self._order.has_grams and self._assessment.batch_g is not None

    def kind(self) -> str:
        return kind_text(self._formula, self._words)

    def ph(self) -> str:
        say, number = self._words.say, self._words.number
        found, wanted = self._assessment.ph, self._formula.target_ph
        if wanted is not None:
            text = say("card-ph-target", low=number(wanted[0]), high=number(wanted[1]))
        elif isinstance(found, Absent):
            return say("card-ph-none")
        else:
            low, high = ph_text(found.low, self._words), ph_text(found.high, self._words)
            text = say("card-ph-estimate", low=low, high=high)
        method = self._order.ph_method
        return f"{text}, {say('card-ph-method', method=method)}" if method else text

    def batch(self) -> str:
        mass = self._assessment.batch_g
        return f"{self.grams(mass)} g" if self._has_grams and mass is not None else ""

    def phases(self) -> Iterator[CardPhase]:
        for place, phase in enumerate(self._formula.phases):
            yield CardPhase(
                letter=LETTERS[place % len(LETTERS)],
                name=phase.name,
                rows=tuple(self._row(line) for line in phase.lines),
                steps=tuple(step_text(step, self._words) for step in phase.steps),
            )

    def _row(self, line: Line) -> CardRow:
        assessed: AssessedLine = self._lines[line.id]
        item = self._shelf.ingredients.get(line.ingredient)
        grams = assessed.column_g if self._has_grams else None
        marks = [self._words.say("card-hold-back")] if line.to_ph else []
        if line.is_rest:
            marks.append(self._words.say("card-rest"))
        return CardRow(
            name=self._shelf.name(line.ingredient),
            inci=item.inci if item else self._stock(line.ingredient),
            percent=percent_text(assessed.percent, self._words.style),
            grams="" if grams is None else self.grams(grams),
            note=" ".join((*marks, line.note)).strip(),
            grams_g=grams,
        )

    def _stock(self, key: str) -> str:
        stock = self._shelf.stocks.get(key)
        if stock is None:
            return ""
        shares = totals(stock).percents
        parts = tuple(
            f"{self._shelf.name(line.ingredient)} "
            f"{percent_text(shares[line.id], self._words.style)} %"
            for line in stock.lines()
        )
        return self._words.say("card-stock-of", parts=parts)

    def cautions(self) -> Iterator[str]:
        say = LabelWords(self._words, self._formula, self._shelf)
        for warning in self._assessment.label.warnings:
            if warning.kind is WarningKind.BENCH:
                names = self._words.listed(say.lines(warning.lines))
                yield f"{names}: {say.warning(warning)}" if warning.lines else say.warning(warning)
        for line in self._formula.lines():
            item = self._shelf.ingredients.get(line.ingredient)
            if item is not None and item.cautions:
                yield f"{item.name}: {item.cautions}"


def kind_text(formula: Formula, words: Words) -> str:
    """Return what a product is and whom and what it is for."""
    return words.say(
        "card-kind-text",
        type=words.say("form-type", type=formula.product_type),
        exposure=words.say("form-exposure", exposure=formula.exposure),
        area=words.say("form-area", area=formula.area),
        users=words.say("form-users", users=formula.users),
    )


def step_text(step: Step, words: Words) -> str:
    """Return one instruction with its temperatures and times."""
    parts = [step.text]
    if step.target_c is not None:
        parts.append(words.say("card-step-target", degrees=step.target_c))
    if step.hold_min is not None:
        parts.append(words.say("card-step-hold", minutes=step.hold_min))
    if step.speed:
        parts.append(step.speed)
    if step.max_add_c is not None:
        parts.append(words.say("card-step-most", degrees=step.max_add_c))
    return ", ".join(part for part in parts if part)
