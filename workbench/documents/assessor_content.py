"""What the sheet for a safety assessor says: data in the open, and never a verdict."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from workbench.checks.assessment import Assessment
from workbench.checks.finding import Finding
from workbench.checks.label_values import Allergen, Declaration, WarningKind
from workbench.checks.rules import Rules
from workbench.documents.assessor_checked import checked_sections
from workbench.documents.assessor_substances import (
    SubstanceRow,
    material_rows,
    substance_rows,
)
from workbench.documents.card_content import kind_text
from workbench.documents.tables import Section, Table
from workbench.documents.worksheet_content import StudioBlock
from workbench.formula.absent import Absent
from workbench.formula.formula import Formula
from workbench.formula.shelf import Shelf
from workbench.words.catalogue import Words
from workbench.words.findings import detail, title
from workbench.words.labels import LabelWords
from workbench.words.numbers import percent_text
from workbench.words.ph import estimate_text

PLACES = 4


@dataclass(frozen=True, slots=True)
class AssessorContent:
    """Hold a whole assessor's sheet in plain words.

    `substances` are the rows of the composition with their figures, for whoever wants to count.
    """

    studio: StudioBlock
    product: str
    facts: tuple[str, ...]
    sections: tuple[Section, ...]
    substances: tuple[SubstanceRow, ...]


@dataclass(frozen=True, slots=True)
class AssessorMaking:
    """Hold with what the sheet is made: whose it is, the version, the rules, the words."""

    studio: StudioBlock
    version: str
    rules: Rules
    words: Words


def assessor_content(
    formula: Formula, shelf: Shelf, assessment: Assessment, made: AssessorMaking
) -> AssessorContent:
    """Say everything an assessor's sheet gives."""
    writer = _Writer(formula, shelf, assessment, made)
    rows = substance_rows(formula, shelf, assessment, made.words)
    return AssessorContent(
        studio=made.studio,
        product=formula.name,
        facts=tuple(writer.facts()),
        sections=(
            writer.composition(rows),
            writer.materials(),
            writer.ph(),
            writer.preservation(),
            *writer.labels(),
            writer.findings(),
            *writer.label_words(),
            *checked_sections(assessment.checked, writer.label, made.rules, made.words),
        ),
        substances=rows,
    )


class _Writer:
    def __init__(
        self, formula: Formula, shelf: Shelf, assessment: Assessment, made: AssessorMaking
    ) -> None:
        self._formula, self._shelf = formula, shelf
        self._assessment, self._words = assessment, made.words
        self._version, self._say = made.version, made.words.say
        self.label = LabelWords(made.words, formula, shelf)

    def facts(self) -> Iterator[str]:
        say, formula, checked = self._say, self._formula, self._assessment.checked
        yield kind_text(formula, self._words)
        if self._version:
            yield say("assessor-version", version=self._version)
        yield say("assessor-markets", markets=", ".join(checked.markets))
        pack = formula.pack
        yield say("assessor-pack", pack=pack) if pack else say("assessor-pack-none")
        if formula.form == "spray":
            yield say("assessor-spray")
        yield say(
            "assessor-on",
            on=checked.on.isoformat(),
            dated=checked.dated.isoformat(),
            set=checked.reference_set,
        )

    def composition(self, rows: tuple[SubstanceRow, ...]) -> Section:
        say, parts = self._say, self._assessment.composition
        heads = tuple(
            say(f"assessor-{name}") for name in ("inci", "cas", "function", "percent", "from")
        )
        cells = [(row.inci, row.cas, row.function, row.percent, row.brought_by) for row in rows]
        total = self._percent(sum((row.percent_exact for row in rows), Decimal(0)))
        cells.append((say("assessor-sum"), "", "", total, ""))
        notes = [say("assessor-water", percent=self._percent(parts.water))]
        if parts.unknown:
            notes.append(say("assessor-unknown", lines=self.label.lines(parts.unknown)))
        notes += [say("assessor-carry-note"), say("assessor-impurities")]
        table = Table(heads, (26, 14, 18, 10, 32), tuple(cells), right=(3,), sums=True)
        return Section(say("assessor-composition"), table, tuple(notes))

    def materials(self) -> Section:
        say = self._say
        heads = tuple(
            say(f"assessor-{name}")
            for name in ("line", "material", "inci", "cas", "function", "percent-supplied")
        )
        cells = material_rows(self._formula, self._shelf, self._assessment, self._words)
        table = Table(heads, (5, 27, 30, 12, 15, 11), cells, right=(5,))
        return Section(say("assessor-materials"), table)

    def ph(self) -> Section:
        say, wanted, found = self._say, self._formula.target_ph, self._assessment.ph
        number = self._words.number
        lines = [
            say("assessor-ph-target", low=number(wanted[0]), high=number(wanted[1]))
            if wanted
            else say("assessor-ph-no-target"),
            say(found.reason_id)
            if isinstance(found, Absent)
            else estimate_text(found, self._words),
            say("assessor-ph-measured"),
        ]
        return Section(say("assessor-ph"), None, tuple(lines))

    def preservation(self) -> Section:
        say, shares = self._say, self._assessment.preservatives
        if not shares:
            return Section(say("assessor-preservation"), None, (say("assessor-preservation-none"),))
        heads = tuple(
            say(f"assessor-{name}")
            for name in ("preservative", "put-in", "as-acid", "undissociated", "in-water")
        )
        cells = tuple(
            (
                self._shelf.inci(share.substance),
                self._percent(share.percent),
                self._maybe(share.as_acid_percent),
                self._range(share.undissociated_percent),
                self._range(share.water_phase_percent),
            )
            for share in shares
        )
        table = Table(heads, (36, 16, 16, 16, 16), cells, right=(1, 2, 3, 4))
        basis = next((s.ph_basis.value for s in shares if s.ph_basis is not None), "estimate")
        note = say("assessor-preservation-note", basis=basis)
        return Section(say("assessor-preservation"), table, (note,))

    def labels(self) -> Iterator[Section]:
        for declaration in self._assessment.label.declarations:
            yield self._allergens(declaration)
            notes = self.label.notes(declaration)
            lines = (f"{declaration.heading}: {declaration.text}", *notes)
            heading = self._say("assessor-declaration", market=declaration.market)
            yield Section(heading, None, lines)

    def _allergens(self, declaration: Declaration) -> Section:
        say = self._say
        heading = say("assessor-allergens", market=declaration.market)
        if not declaration.allergens:
            return Section(heading, None, (say("assessor-allergens-none"),))
        names = ("allergen", "percent", "threshold", "duty", "grounds")
        heads = tuple(say(f"assessor-{name}") for name in names)
        cells = tuple(self._allergen(each) for each in declaration.allergens)
        return Section(heading, Table(heads, (34, 14, 14, 22, 16), cells, right=(1, 2)))

    def _allergen(self, each: Allergen) -> tuple[str, ...]:
        due = each.due.isoformat() if each.due else ""
        return (
            each.label,
            self._percent(each.percent),
            self._words.number(each.threshold),
            self._say(f"assessor-duty-{each.duty.value}", due=due),
            self._say(f"assessor-grounds-{each.grounds.value}"),
        )

    def findings(self) -> Section:
        lines = tuple(self._finding(found) for found in self._assessment.findings)
        return Section(
            self._say("assessor-findings"), None, lines or (self._say("assessor-findings-none"),)
        )

    def _finding(self, found: Finding) -> str:
        severity = self._say(f"severity-{found.severity.word}")
        text = f"{severity}: {title(found, self._shelf, self._words)}."
        text += f" {detail(found, self._shelf, self._words)}"
        if found.accepted:
            text += f" ({self._say('assessor-accepted', reason=found.accepted)})"
        return text

    def label_words(self) -> Iterator[Section]:
        say, label = self._say, self._assessment.label
        lines = tuple(
            f"{self.label.warning_kind(each)}: {self.label.warning(each)}"
            for each in label.warnings
            if each.kind is not WarningKind.BENCH
        )
        yield Section(say("assessor-warnings"), None, lines or (say("warning-none"),))
        points = tuple(self.label.risk_point(point) for point in label.micro_risk.points)
        verdict = self.label.verdict(label.micro_risk)
        yield Section(say("assessor-micro"), None, (verdict, *points))

    def _percent(self, value: Decimal) -> str:
        return percent_text(round(value, PLACES), self._words.style)

    def _maybe(self, value: Decimal | None) -> str:
        return self._say("assessor-none") if value is None else self._percent(value)

    def _range(self, span: object) -> str:
        if span is None:
            return self._say("assessor-none")
        low, high = (self._percent(Decimal(str(getattr(span, end)))) for end in ("low", "high"))
        return low if low == high else self._say("assessor-range", low=low, high=high)
