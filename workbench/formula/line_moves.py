"""Moving, copying and putting in several lines at once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TypeAlias

from workbench.formula.edits import EditRefused
from workbench.formula.formula import Formula, Line, Phase

_Item: TypeAlias = Line | Phase


def lines_moved(
    formula: Formula, line_ids: frozenset[int], phase_id: int, place: int | None = None
) -> Formula:
    """Put lines, in the order they have, together at one place of a phase.

    Parameters
    ----------
    formula
        The formula that holds the lines.
    line_ids
        The lines to move; ids no line has are passed over.
    phase_id
        The phase they go to.
    place
        How many lines of that phase, counted as it is now, stay before them; None is its end.
    """
    moving = [line for line in formula.lines() if line.id in line_ids]
    if not moving:
        return formula
    target = phase_of_id(formula, phase_id)
    whole = len(target.lines) if place is None else place
    before = tuple(line for line in target.lines[:whole] if line.id not in line_ids)
    after = tuple(line for line in target.lines[whole:] if line.id not in line_ids)
    phases = tuple(
        replace(phase, lines=(*before, *moving, *after))
        if phase.id == phase_id
        else replace(phase, lines=tuple(one for one in phase.lines if one.id not in line_ids))
        for phase in formula.phases
    )
    return replace(formula, phases=phases)


def lines_moved_by(formula: Formula, line_ids: frozenset[int], step: int) -> Formula:
    """Move lines one place up (-1) or down (+1), each over what does not move with it.

    The head of a phase is a place too, so a line at the end of its phase goes to the next one.
    Lines at the very top or bottom stay, and so do chosen lines that stand against them.
    """
    items = _as_list(formula)
    order = range(len(items)) if step < 0 else range(len(items) - 1, -1, -1)
    for place in order:
        other = place + step
        if not _is_chosen(items[place], line_ids) or not 0 <= other < len(items):
            continue
        is_first_head = other == 0
        if _is_chosen(items[other], line_ids) or is_first_head:
            continue
        items[place], items[other] = items[other], items[place]
    return _from_list(formula, items)


def lines_moved_to_neighbour(formula: Formula, line_ids: frozenset[int], step: int) -> Formula:
    """Move lines to the end of the phase before (-1) or the start of the one after (+1).

    Raises
    ------
    EditRefused
        If there is no phase on that side of any of the lines.
    """
    holding = [
        place
        for place, phase in enumerate(formula.phases)
        if any(line.id in line_ids for line in phase.lines)
    ]
    if not holding:
        return formula
    target = (holding[0] if step < 0 else holding[-1]) + step
    if not 0 <= target < len(formula.phases):
        raise EditRefused("edit-no-phase-before" if step < 0 else "edit-no-phase-after")
    return lines_moved(formula, line_ids, formula.phases[target].id, None if step < 0 else 0)


def lines_put_in(
    formula: Formula, lines: Sequence[Line], phase_id: int, place: int | None = None
) -> Formula:
    """Put lines into a phase under new ids, at a place of it or at its end.

    Raises
    ------
    EditRefused
        If a line takes the rest in a formula where another one does already.
    """
    if formula.rest_line is not None and any(line.is_rest for line in lines):
        raise EditRefused("edit-second-rest")
    first = formula.next_line_id()
    new = tuple(replace(line, id=first + count) for count, line in enumerate(lines))
    phase = phase_of_id(formula, phase_id)
    whole = len(phase.lines) if place is None else place
    return formula.with_phase(
        replace(phase, lines=(*phase.lines[:whole], *new, *phase.lines[whole:]))
    )


def phase_of_id(formula: Formula, phase_id: int) -> Phase:
    """Return the phase of this id, or raise KeyError."""
    for phase in formula.phases:
        if phase.id == phase_id:
            return phase
    raise KeyError(phase_id)


def _as_list(formula: Formula) -> list[_Item]:
    items: list[_Item] = []
    for phase in formula.phases:
        items.append(phase)
        items.extend(phase.lines)
    return items


def _from_list(formula: Formula, items: Sequence[_Item]) -> Formula:
    held: dict[int, list[Line]] = {}
    current: list[Line] = []
    for item in items:
        if isinstance(item, Phase):
            current = held.setdefault(item.id, [])
        else:
            current.append(item)
    phases = tuple(replace(phase, lines=tuple(held[phase.id])) for phase in formula.phases)
    return replace(formula, phases=phases)


def _is_chosen(item: _Item, line_ids: frozenset[int]) -> bool:
    return isinstance(item, Line) and item.id in line_ids
