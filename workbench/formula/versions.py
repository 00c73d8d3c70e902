"""Versions: numbered, immutable states of a formula with the facts they stood on."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from workbench.formula.formula import Formula
from workbench.formula.shelf import Shelf


@dataclass(frozen=True, slots=True)
class Version:
    """Hold one version: its number, why it was made, when, and the facts frozen with it.

    `shelf` carries compositions, strengths and stocks as they were, so that the version
    reads the same for ever; `reference_set` names the dated rules of that day.
    """

    number: int
    reason: str
    made_at: datetime
    formula: Formula
    shelf: Shelf
    reference_set: str


def same_design(one: Formula, other: Formula) -> bool:
    """Tell whether two formulas are equal in everything but the ids of lines and phases."""
    return _without_ids(one) == _without_ids(other)


def _without_ids(formula: Formula) -> tuple[object, ...]:
    head = tuple(
        getattr(formula, name) for name in Formula.__dataclass_fields__ if name != "phases"
    )
    phases = tuple(
        (
            phase.name,
            phase.kind,
            phase.steps,
            tuple(
                (line.ingredient, line.percent, line.locked, line.note, line.purpose, line.to_ph)
                for line in phase.lines
            ),
        )
        for phase in formula.phases
    )
    return (head, phases)
