"""What differs between two formulas: the head, the phases and the lines."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, fields
from decimal import Decimal

from workbench.formula.formula import Formula, Line, Phase
from workbench.formula.line_pairs import Pair, paired
from workbench.formula.totals import totals

ADDED, REMOVED = "added", "removed"
SWAPPED, PERCENT, MOVED = "swapped", "percent", "moved"
REST, LOCK, NOTE, PURPOSE, TO_PH = "rest", "lock", "note", "purpose", "to-ph"
RENAMED, KIND, STEPS = "renamed", "kind", "steps"
_BESIDE_LINES = ("phases", "accepted", "reference_set")


@dataclass(frozen=True, slots=True)
class HeadDifference:
    """Hold one field of the head before and after."""

    field: str
    before: object
    after: object


@dataclass(frozen=True, slots=True)
class PhaseDifference:
    """Hold how one phase differs: added, removed, renamed, kind, steps, moved."""

    kinds: tuple[str, ...]
    before: Phase | None
    after: Phase | None


@dataclass(frozen=True, slots=True)
class LineDifference:
    """Hold how one line differs.

    Parameters
    ----------
    kinds : tuple of str
        added, removed, swapped, percent, moved, rest, lock, note, purpose, to-ph.
    before, after : Line or None
        The line in either formula.
    percent, to_percent : Decimal or None
        What it shows before and after [% w/w], None where it is not there.
    phase, to_phase : str
        Name of its phase before and after, empty where it is not there.
    """

    kinds: tuple[str, ...]
    before: Line | None
    after: Line | None
    percent: Decimal | None
    to_percent: Decimal | None
    phase: str = ""
    to_phase: str = ""

    @property
    def by(self) -> Decimal:
        """Return what the line gains [% w/w], negative where it loses."""
        return (self.to_percent or Decimal(0)) - (self.percent or Decimal(0))


@dataclass(frozen=True, slots=True)
class FormulaDifference:
    """Hold everything that differs between two formulas; `same` counts lines that do not."""

    head: tuple[HeadDifference, ...]
    phases: tuple[PhaseDifference, ...]
    lines: tuple[LineDifference, ...]
    same: int

    @property
    def is_empty(self) -> bool:
        """Tell whether nothing differs."""
        return not (self.head or self.phases or self.lines)

    def of_kind(self, kind: str) -> tuple[LineDifference, ...]:
        """Return the lines that differ in one way."""
        return tuple(each for each in self.lines if kind in each.kinds)


def formula_difference(before: Formula, after: Formula) -> FormulaDifference:
    """Return what differs, lines in the order of the later sheet, what is gone last.

    Notes
    -----
    Lines are taken for the same by their id and ingredient, then by their ingredient, then by
    their id alone. A line has moved when its phase or its place among the others is another.
    """
    pairs = paired(before, after)
    lines = _lines(before, after, pairs)
    return FormulaDifference(
        head=_head(before, after),
        phases=_phases(before, after, pairs),
        lines=lines,
        same=sum(pair.before is not None and pair.after is not None for pair in pairs)
        - sum(each.before is not None and each.after is not None for each in lines),
    )


def _head(before: Formula, after: Formula) -> tuple[HeadDifference, ...]:
    names = (field.name for field in fields(Formula) if field.name not in _BESIDE_LINES)
    return tuple(
        HeadDifference(name, getattr(before, name), getattr(after, name))
        for name in names
        if getattr(before, name) != getattr(after, name)
    )


def _lines(before: Formula, after: Formula, pairs: Iterable[Pair]) -> tuple[LineDifference, ...]:
    old, new = totals(before).percents, totals(after).percents
    was, now = _phase_names(before), _phase_names(after)
    found = []
    for pair in pairs:
        one, other = pair.before, pair.after
        percent = None if one is None else old[one.id]
        to_percent = None if other is None else new[other.id]
        kinds = _kinds(pair, percent, to_percent)
        if kinds:
            found.append(
                LineDifference(
                    kinds,
                    one,
                    other,
                    percent,
                    to_percent,
                    "" if one is None else was[one.id],
                    "" if other is None else now[other.id],
                )
            )
    return tuple(found)


def _kinds(pair: Pair, percent: Decimal | None, to_percent: Decimal | None) -> tuple[str, ...]:
    one, other = pair.before, pair.after
    if one is None or other is None:
        return (ADDED,) if one is None else (REMOVED,)
    asked = (
        (SWAPPED, one.ingredient != other.ingredient),
        (PERCENT, percent != to_percent),
        (MOVED, pair.is_moved),
        (REST, one.is_rest != other.is_rest),
        (LOCK, one.locked != other.locked),
        (NOTE, one.note != other.note),
        (PURPOSE, one.purpose != other.purpose and one.ingredient == other.ingredient),
        (TO_PH, one.to_ph != other.to_ph),
    )
    return tuple(kind for kind, differs in asked if differs)


def _phase_names(formula: Formula) -> Mapping[int, str]:
    return {line.id: phase.name for phase in formula.phases for line in phase.lines}


def _phases(before: Formula, after: Formula, pairs: Iterable[Pair]) -> tuple[PhaseDifference, ...]:
    left = list(before.phases)
    found: list[PhaseDifference] = []
    for phase in after.phases:
        old = _same_phase(phase, left, pairs)
        if old is None:
            found.append(PhaseDifference((ADDED,), None, phase))
            continue
        left.remove(old)
        asked = (
            (RENAMED, old.name != phase.name),
            (KIND, old.kind != phase.kind),
            (STEPS, old.steps != phase.steps),
        )
        kinds = tuple(kind for kind, differs in asked if differs)
        if kinds:
            found.append(PhaseDifference(kinds, old, phase))
    return (*found, *(PhaseDifference((REMOVED,), phase, None) for phase in left))


def _same_phase(phase: Phase, left: list[Phase], pairs: Iterable[Pair]) -> Phase | None:
    """Return the phase of the same id that shares a line or the name; else one of that name."""
    shared = {
        pair.before.id
        for pair in pairs
        if pair.before is not None and pair.after is not None and pair.after in phase.lines
    }
    for old in left:
        holds = any(line.id in shared for line in old.lines)
        if old.id == phase.id and (holds or old.name == phase.name):
            return old
    return next((old for old in left if old.name == phase.name), None)
