"""Edits of a formula: each takes one and returns another, or refuses by code."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from decimal import ROUND_HALF_UP, Decimal

from workbench.formula.formula import Formula, Line, Phase
from workbench.formula.totals import WHOLE, totals

PERCENT_STEP = Decimal("0.0001")


class EditRefused(Exception):
    """Say that an edit is impossible: a message id and the values its sentence needs."""

    def __init__(self, reason_id: str, **values: str | Decimal) -> None:
        super().__init__(reason_id)
        self.reason_id = reason_id
        self.values: Mapping[str, str | Decimal] = values


def to_percent_step(percent: Decimal) -> Decimal:
    """Round a percent to 0.0001, half up."""
    return percent.quantize(PERCENT_STEP, ROUND_HALF_UP)


def with_percent(formula: Formula, line_id: int, percent: Decimal) -> Formula:
    """Set the percent of a line; the rest line becomes an ordinary one.

    Raises
    ------
    EditRefused
        If the percent is not from 0 to 100, or the line is locked.
    """
    _refuse_outside(percent)
    line = _unlocked(formula, line_id)
    return formula.with_line(replace(line, percent=to_percent_step(percent)))


def with_mass(formula: Formula, line_id: int, mass_g: Decimal, batch_g: Decimal) -> Formula:
    """Set the percent of a line from its mass in a batch, both in grams."""
    if batch_g <= 0:
        raise EditRefused("edit-no-batch")
    return with_percent(formula, line_id, mass_g * WHOLE / batch_g)


def with_rest_line(formula: Formula, line_id: int) -> Formula:
    """Let a line take the rest; the line that took it keeps the percent it shows."""
    line = _unlocked(formula, line_id)
    if line.to_ph:
        raise EditRefused("edit-to-ph-rest")
    old = formula.rest_line
    if old is not None and old.id != line_id:
        shown = totals(formula).percents[old.id]
        if shown < 0:
            raise EditRefused("edit-rest-negative", excess=-shown)
        formula = formula.with_line(replace(old, percent=shown))
    return formula.with_line(replace(line, percent=None))


def with_lock(formula: Formula, line_id: int, *, locked: bool) -> Formula:
    """Lock or unlock the percent of a line; the rest line cannot be locked."""
    line = formula.line(line_id)
    if locked and line.is_rest:
        raise EditRefused("edit-lock-rest")
    return formula.with_line(replace(line, locked=locked))


def with_note(formula: Formula, line_id: int, note: str) -> Formula:
    """Set the note of a line."""
    return formula.with_line(replace(formula.line(line_id), note=note))


def with_purpose(formula: Formula, line_id: int, purpose: str) -> Formula:
    """Set what a line is there for; empty text gives it its ingredient's own purpose."""
    return formula.with_line(replace(formula.line(line_id), purpose=purpose))


def with_locks(formula: Formula, line_ids: frozenset[int], *, locked: bool) -> Formula:
    """Lock or unlock several lines; the rest line cannot be locked and is passed over."""
    for line in list(formula.lines()):
        if line.id in line_ids and not line.is_rest:
            formula = formula.with_line(replace(line, locked=locked))
    return formula


def with_to_ph(formula: Formula, line_id: int, *, to_ph: bool) -> Formula:
    """Mark a line as adjuster held back for the bench, or as an ordinary one."""
    line = formula.line(line_id)
    if to_ph and line.is_rest:
        raise EditRefused("edit-to-ph-rest")
    return formula.with_line(replace(line, to_ph=to_ph))


def with_ingredient(formula: Formula, line_id: int, ingredient: str) -> Formula:
    """Put another ingredient on a line at the same percent; its purpose is then its own."""
    line = _unlocked(formula, line_id)
    return formula.with_line(replace(line, ingredient=ingredient, purpose=""))


def added(
    formula: Formula, ingredient: str, percent: Decimal, phase_id: int, place: int | None = None
) -> Formula:
    """Add a line to a phase, at a place in it or at its end."""
    _refuse_outside(percent)
    line = Line(id=formula.next_line_id(), ingredient=ingredient, percent=to_percent_step(percent))
    phase = _phase(formula, phase_id)
    index = len(phase.lines) if place is None else place
    lines = (*phase.lines[:index], line, *phase.lines[index:])
    return formula.with_phase(replace(phase, lines=lines))


def removed(formula: Formula, line_ids: frozenset[int]) -> Formula:
    """Take lines out; phases stay, even when empty."""
    phases = tuple(
        replace(phase, lines=tuple(line for line in phase.lines if line.id not in line_ids))
        for phase in formula.phases
    )
    return replace(formula, phases=phases)


def moved(formula: Formula, line_id: int, phase_id: int, place: int) -> Formula:
    """Move a line to a place in a phase; places count without the moved line."""
    line = formula.line(line_id)
    without = removed(formula, frozenset({line_id}))
    phase = _phase(without, phase_id)
    lines = (*phase.lines[:place], line, *phase.lines[place:])
    return without.with_phase(replace(phase, lines=lines))


def moved_by(formula: Formula, line_id: int, step: int) -> Formula:
    """Move a line one place up (-1) or down (+1), across phases at their ends."""
    phase = formula.phase_of(line_id)
    index = [line.id for line in phase.lines].index(line_id)
    target = index + step
    if 0 <= target < len(phase.lines):
        return moved(formula, line_id, phase.id, target)
    neighbour = [other.id for other in formula.phases].index(phase.id) + step
    if not 0 <= neighbour < len(formula.phases):
        return formula
    other = formula.phases[neighbour]
    return moved(formula, line_id, other.id, len(other.lines) if step < 0 else 0)


def phase_added(formula: Formula, name: str, kind: str) -> Formula:
    """Add an empty phase at the end."""
    phase = Phase(id=formula.next_phase_id(), name=name, kind=kind)
    return replace(formula, phases=(*formula.phases, phase))


def phase_renamed(formula: Formula, phase_id: int, name: str) -> Formula:
    """Give a phase another name."""
    return formula.with_phase(replace(_phase(formula, phase_id), name=name))


def _refuse_outside(percent: Decimal) -> None:
    if not percent.is_finite() or not 0 <= percent <= WHOLE:
        raise EditRefused("edit-percent-outside", percent=percent)


def _unlocked(formula: Formula, line_id: int) -> Line:
    line = formula.line(line_id)
    if line.locked:
        raise EditRefused("edit-line-locked", line=line.ingredient)
    return line


def _phase(formula: Formula, phase_id: int) -> Phase:
    for phase in formula.phases:
        if phase.id == phase_id:
            return phase
    raise KeyError(phase_id)
