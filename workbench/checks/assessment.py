"""The one answer that feeds every panel, document and command."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal

from workbench.checks.checked_values import Checked
from workbench.checks.finding import Finding, Severity
from workbench.checks.labelled import Labelled
from workbench.checks.late import Late
from workbench.checks.ph_values import AdjusterDose, PhEstimate
from workbench.checks.ph_windows import PhWindows
from workbench.checks.preservative_values import PreservativeShare
from workbench.formula.absent import Absent
from workbench.formula.composition import Composition
from workbench.formula.cost import Cost
from workbench.formula.totals import Totals
from workbench.formula.weighability import Weighability


@dataclass(frozen=True, slots=True)
class AssessedLine:
    """Hold what is known of one line.

    `percent` as supplied and `pure_percent` as pure matter [% w/w]; `mass_g` exact and
    `column_g` as printed [g], None without a batch; `weighability` None without a balance.
    """

    line: int
    ingredient: str
    phase: int
    percent: Decimal
    pure_percent: Decimal
    mass_g: Decimal | None
    column_g: Decimal | None
    cost: Decimal | None
    weighability: Weighability | None
    severity: Severity | None


@dataclass(frozen=True, slots=True)
class Figure:
    """Hold one computed number about the formula: key, value, unit id."""

    key: str
    value: Decimal | Absent
    unit: str
    values: tuple[tuple[str, str | Decimal], ...] = ()


@dataclass(frozen=True, slots=True)
class Assessment:
    """Hold everything computed about a formula in one go.

    `maxima` is the highest percent the law allows of each line it limits [% w/w as supplied].
    """

    totals: Totals
    batch_g: Decimal | None
    lines: tuple[AssessedLine, ...]
    composition: Composition
    findings: tuple[Finding, ...]
    figures: tuple[Figure, ...]
    cost: Cost | Absent
    maxima: Mapping[int, Decimal]
    ph: PhEstimate | Absent
    ph_windows: PhWindows
    adjusters: tuple[AdjusterDose, ...] | Absent
    preservatives: tuple[PreservativeShare, ...]
    late: Late = field(compare=False, repr=False)

    @property
    def label(self) -> Labelled:
        """Return what belongs on the label of the formula."""
        return self.late.label

    @property
    def checked(self) -> Checked:
        """Return what was checked of the formula, and what not."""
        return self.late.checked

    @property
    def absent(self) -> Mapping[str, str]:
        """Return why each part that could not be computed is missing: reason ids by part."""
        parts = ("cost", "ph", "adjusters")
        values = ((name, getattr(self, name)) for name in parts)
        return {name: value.reason_id for name, value in values if isinstance(value, Absent)}

    def line(self, line_id: int) -> AssessedLine:
        """Return what is known of the line of this id, or raise KeyError."""
        for line in self.lines:
            if line.line == line_id:
                return line
        raise KeyError(line_id)

    def count(self, severity: Severity) -> int:
        """Count the open findings of one severity."""
        return sum(found.severity is severity and not found.accepted for found in self.findings)

    @property
    def accepted(self) -> tuple[Finding, ...]:
        """Return the findings the maker has accepted with a reason."""
        return tuple(found for found in self.findings if found.accepted)
