"""Putting what was pasted into a formula."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from workbench.formula.edits import to_percent_step
from workbench.formula.formula import Formula, Line, Phase
from workbench.formula.line_moves import lines_put_in

_LETTERS = 26


@dataclass(frozen=True, slots=True)
class Entry:
    """Hold one line that is to be put into a formula; percent None takes the rest."""

    ingredient: str
    percent: Decimal | None
    phase: str = ""
    note: str = ""


def pasted_into(
    formula: Formula, entries: Sequence[Entry], phase_id: int, *, is_replacing: bool, name: str
) -> Formula:
    """Put entries into a formula, in place of its lines or behind them.

    Parameters
    ----------
    formula
        The draft.
    entries
        What is put in; entries that follow each other with the same phase text share a phase.
    phase_id
        Where entries without a phase text go when the lines of the draft stay.
    is_replacing
        Whether the phases of the draft go.
    name
        What a phase is called where the text names none.

    Notes
    -----
    A rest line among the entries wins over the one of the draft only when the draft is
    replaced; otherwise EditRefused says that there is one.
    """
    groups = list(_groups(entries))
    if is_replacing:
        formula = replace(formula, phases=())
    lettered = {_letter(place): phase.id for place, phase in enumerate(formula.phases)}
    for text, group in groups:
        lines = [Line(1, entry.ingredient, entry.percent, note=entry.note) for entry in group]
        target = lettered.get(_phase_name(text).casefold()) or _target(formula, text, phase_id)
        if target is None:
            target = formula.next_phase_id()
            new = Phase(target, _phase_name(text) or name, "other")
            formula = replace(formula, phases=(*formula.phases, new))
        formula = lines_put_in(formula, lines, target)
    return formula


def _groups(entries: Sequence[Entry]) -> Iterator[tuple[str, list[Entry]]]:
    group: list[Entry] = []
    for entry in entries:
        percent = None if entry.percent is None else to_percent_step(entry.percent)
        entry = replace(entry, percent=percent)  # noqa: PLW2901
        if group and group[-1].phase != entry.phase:
            yield group[0].phase, group
            group = []
        group.append(entry)
    if group:
        yield group[0].phase, group


def _target(formula: Formula, text: str, phase_id: int) -> int | None:
    """Return the phase of a name; without one the phase that is asked for."""
    known = [phase.id for phase in formula.phases]
    if not text:
        return phase_id if phase_id in known else (known[-1] if known else None)
    wanted = _phase_name(text).casefold()
    for phase in formula.phases:
        if phase.name.casefold() in (wanted, f"phase {wanted}"):
            return phase.id
    return None


def _letter(place: int) -> str:
    """Return the letter the sheet gives the phase at a place; only the first have a single one."""
    return chr(ord("a") + place) if place < _LETTERS else ""


def _phase_name(text: str) -> str:
    return text.strip().rstrip(":").strip()
