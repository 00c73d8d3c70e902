"""Edits of phases: put in, moved, merged, and their steps."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from decimal import Decimal

from workbench.formula.edits import EditRefused
from workbench.formula.formula import PHASE_KINDS, Formula, Phase, Step
from workbench.formula.line_moves import phase_of_id

NO_KIND = "other"
COLDEST_C, HOTTEST_C = Decimal(-30), Decimal(200)
"""Between these lies every temperature of a step [degrees C]; outside it is a slip of the hand."""
LONGEST_MIN = Decimal(2880)
"""The longest hold of a step [min]: two days, as for a maceration."""


def phase_put_in(formula: Formula, name: str, kind: str, after: int | None = None) -> Formula:
    """Put an empty phase after another, or at the end."""
    phase = Phase(id=formula.next_phase_id(), name=name, kind=_kind(kind))
    place = len(formula.phases) if after is None else _place(formula, after) + 1
    return replace(formula, phases=(*formula.phases[:place], phase, *formula.phases[place:]))


def phase_begun_at(formula: Formula, line_id: int, name: str, kind: str) -> Formula:
    """Let a new phase begin at a line; the lines below it in its phase go with it.

    Raises
    ------
    EditRefused
        If the line is the first of its phase, which would be left empty.
    """
    old = formula.phase_of(line_id)
    place = [line.id for line in old.lines].index(line_id)
    if place == 0:
        raise EditRefused("edit-phase-first-line", phase=old.name)
    new = Phase(formula.next_phase_id(), name, _kind(kind), (), old.lines[place:])
    kept = replace(old, lines=old.lines[:place])
    at = _place(formula, old.id)
    return replace(formula, phases=(*formula.phases[:at], kept, new, *formula.phases[at + 1 :]))


def phase_moved_by(formula: Formula, phase_id: int, step: int) -> Formula:
    """Move a phase with its lines one place up (-1) or down (+1); at the ends it stays."""
    at = _place(formula, phase_id)
    to = at + step
    if not 0 <= to < len(formula.phases):
        return formula
    phases = list(formula.phases)
    phases.insert(to, phases.pop(at))
    return replace(formula, phases=tuple(phases))


def heir_of(formula: Formula, phase_id: int) -> Phase | None:
    """Return the phase that takes the lines of one that goes: the one before, or the next."""
    at = _place(formula, phase_id)
    if at > 0:
        return formula.phases[at - 1]
    return formula.phases[1] if len(formula.phases) > 1 else None


def phase_merged(formula: Formula, phase_id: int) -> Formula:
    """Take a phase out; its lines and steps go to its heir, in the order of the sheet.

    Raises
    ------
    EditRefused
        If it is the only phase and holds lines.
    """
    phase = phase_of_id(formula, phase_id)
    heir = heir_of(formula, phase_id)
    if heir is None and phase.lines:
        raise EditRefused("edit-phase-only", phase=phase.name)
    if heir is not None and (phase.lines or phase.steps):
        is_before = _place(formula, heir.id) < _place(formula, phase_id)
        first, second = (heir, phase) if is_before else (phase, heir)
        lines = (*first.lines, *second.lines)
        without = formula.with_phase(replace(phase, lines=()))  # no line may stand twice
        formula = without.with_phase(
            replace(heir, steps=(*first.steps, *second.steps), lines=lines)
        )
    return replace(formula, phases=tuple(one for one in formula.phases if one.id != phase_id))


def with_phase_kind(formula: Formula, phase_id: int, kind: str) -> Formula:
    """Set what a phase is: one of PHASE_KINDS."""
    return formula.with_phase(replace(phase_of_id(formula, phase_id), kind=_kind(kind)))


def kinds_by_name(formula: Formula, words: Mapping[str, str]) -> Formula:
    """Give phases of no kind the one their name tells, as "Oil phase" does.

    Parameters
    ----------
    formula
        The formula.
    words
        The word for each kind in the maker's language, in small letters.
    """
    for phase in formula.phases:
        name = phase.name.casefold()
        kind = next((kind for kind, word in words.items() if word in name), phase.kind)
        if phase.kind == NO_KIND and kind != NO_KIND:
            formula = with_phase_kind(formula, phase.id, kind)
    return formula


def with_steps(formula: Formula, phase_id: int, steps: tuple[Step, ...]) -> Formula:
    """Set the steps of a phase.

    Raises
    ------
    EditRefused
        If a step says nothing, or its temperature or time is none a bench can have.
    """
    for step in steps:
        _refuse_step(step)
    return formula.with_phase(replace(phase_of_id(formula, phase_id), steps=steps))


def _refuse_step(step: Step) -> None:
    if step == Step(text=step.text) and not step.text.strip():
        raise EditRefused("edit-step-empty")
    for degrees in (step.target_c, step.max_add_c):
        if degrees is not None and not COLDEST_C <= degrees <= HOTTEST_C:
            raise EditRefused(
                "edit-step-temperature", degrees=degrees, low=COLDEST_C, high=HOTTEST_C
            )
    if step.hold_min is not None and not 0 <= step.hold_min <= LONGEST_MIN:
        raise EditRefused("edit-step-hold", minutes=step.hold_min, most=LONGEST_MIN)


def _kind(kind: str) -> str:
    if kind not in PHASE_KINDS:
        raise ValueError(f"{kind!r} is no kind of phase")
    return kind


def _place(formula: Formula, phase_id: int) -> int:
    for place, phase in enumerate(formula.phases):
        if phase.id == phase_id:
            return place
    raise KeyError(phase_id)
