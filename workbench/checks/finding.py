"""A finding: something to look at, as data; its sentence is made in `words`."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from enum import IntEnum

from workbench.formula.edits import added, with_percent, with_rest_line
from workbench.formula.formula import Formula
from workbench.formula.rebalance import scaled_to_whole, short_taken_from

Value = str | int | Decimal | tuple[str, ...]


class Severity(IntEnum):
    """Order findings: a stop first. Only law in force, and sums that fail, are stops."""

    STOP = 0
    CAUTION = 1
    NOTE = 2

    @property
    def word(self) -> str:
        """Return the severity as documents write it: stop, caution or note."""
        return self.name.lower()


@dataclass(frozen=True, slots=True)
class SetPercent:
    """Remedy: set a line to a percent."""

    line: int
    percent: Decimal

    def applied(self, formula: Formula) -> Formula:
        """Return the formula with the line set."""
        return with_percent(formula, self.line, self.percent)


@dataclass(frozen=True, slots=True)
class TakeFromLine:
    """Remedy: let one line take what is short, or give what is over."""

    line: int

    def applied(self, formula: Formula) -> Formula:
        """Return the formula at 100 %."""
        return short_taken_from(formula, self.line)


@dataclass(frozen=True, slots=True)
class ScaleToWhole:
    """Remedy: scale every unlocked line in proportion."""

    def applied(self, formula: Formula) -> Formula:
        """Return the formula at 100 %."""
        return scaled_to_whole(formula)


@dataclass(frozen=True, slots=True)
class MakeRestLine:
    """Remedy: let a line take the rest from now on."""

    line: int

    def applied(self, formula: Formula) -> Formula:
        """Return the formula with this rest line."""
        return with_rest_line(formula, self.line)


@dataclass(frozen=True, slots=True)
class AddLine:
    """Remedy: add an ingredient at a percent to a phase."""

    ingredient: str
    percent: Decimal
    phase: int

    def applied(self, formula: Formula) -> Formula:
        """Return the formula with the line added."""
        return added(formula, self.ingredient, self.percent, self.phase)


Action = SetPercent | TakeFromLine | ScaleToWhole | MakeRestLine | AddLine


@dataclass(frozen=True, slots=True)
class Remedy:
    """Hold one way out: a message id, its values, and the edit that one click applies."""

    code: str
    values: tuple[tuple[str, Value], ...]
    action: Action


@dataclass(frozen=True, slots=True)
class Working:
    """Hold one line of the computation behind a finding: a message id and its values."""

    code: str
    values: tuple[tuple[str, Value], ...]


@dataclass(frozen=True, slots=True)
class Finding:
    """Hold one thing to look at.

    Parameters
    ----------
    code : str
        Stable code, also the message id of its title and detail ("limit-max").
    severity : Severity
        Stop, caution or note.
    values : tuple of (str, Value)
        What the sentence is filled with.
    lines : tuple of int
        Lines concerned.
    value, limit : Decimal or None
        The figure found and the one it is held against [% w/w unless `basis` says more].
    basis : str
        What the figures are counted as: a basis id or a substance key.
    source, confidence : str
        On whose authority, and how far that text was confirmed.
    remedies : tuple of Remedy
        Ways out, best first; may be empty.
    workings : tuple of Working
        The computation, line by line.
    about : tuple of str
        Keys of the ingredients and substances it is about; filled by `assess`.
    accepted : str
        The maker's reason for accepting it as it stands, empty while it is open.
    """

    code: str
    severity: Severity
    values: tuple[tuple[str, Value], ...] = ()
    lines: tuple[int, ...] = ()
    value: Decimal | None = None
    limit: Decimal | None = None
    basis: str = ""
    source: str = ""
    confidence: str = ""
    remedies: tuple[Remedy, ...] = ()
    workings: tuple[Working, ...] = ()
    about: tuple[str, ...] = ()
    accepted: str = ""

    @property
    def key(self) -> tuple[object, ...]:
        """Return what makes this the same finding before and after an edit."""
        names = ("substance", "authority", "rule")
        return (self.code, self.lines, *(self.values_of(name) for name in names))

    def values_of(self, name: str) -> Value:
        """Return one value by name, or an empty string."""
        for known, value in self.values:
            if known == name:
                return value
        return ""


def in_order(findings: list[Finding]) -> tuple[Finding, ...]:
    """Sort findings: stops, cautions, notes, in the order of the sheet; what is accepted last."""
    return tuple(
        sorted(
            findings,
            key=lambda found: (
                bool(found.accepted),
                found.severity,
                found.lines[:1] or (0,),
                found.code,
            ),
        )
    )
