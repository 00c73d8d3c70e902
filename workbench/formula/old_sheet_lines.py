"""From what was read of an old sheet to a formula."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace

from workbench.formula.formula import Formula, Phase, Plan
from workbench.formula.old_sheet import SheetFormula, SheetRow
from workbench.formula.pasted_lines import Entry, pasted_into

LONGEST_NAME = 120
_KINDS = (
    ("cool-down", re.compile(r"cool", re.IGNORECASE)),
    ("water", re.compile(r"water|aqueous|wasser", re.IGNORECASE)),
    ("oil", re.compile(r"\boils?\b|fat|\u00f6l|lipid", re.IGNORECASE)),
    ("adjust", re.compile(r"adjust|\bph\b", re.IGNORECASE)),
)


def formula_of_sheet(
    read: SheetFormula, keys: Mapping[int, str], *, name: str, phase_name: str
) -> Formula:
    """Return the formula that was read.

    Parameters
    ----------
    read
        What was read; a row that is still doubtful comes in with the percent it has.
    keys
        By row (from 0) the ingredient or stock it means; a row without one keeps its name as
        a line that is not on the shelf.
    name
        What the formula is called.
    phase_name
        What the phase of lines without one is called.
    """
    entries = [
        Entry(keys.get(row.row) or row.name, row.percent, row.phase, _note(read, row))
        for row in read.rows
    ]
    empty = Formula(name=name[:LONGEST_NAME])
    made = pasted_into(empty, entries, 1, is_replacing=True, name=phase_name)
    made = replace(made, phases=tuple(_with_kind(phase) for phase in made.phases))
    return replace(made, plan=Plan(batch_mass=read.batch_g)) if read.batch_g else made


def _note(read: SheetFormula, row: SheetRow) -> str:
    """Return the note of a row; a mass keeps the amount as it was written."""
    if not read.is_of_mass or row.percent is None or not row.amount:
        return row.note
    return f"{row.amount}; {row.note}" if row.note else row.amount


def _with_kind(phase: Phase) -> Phase:
    kind = next((kind for kind, word in _KINDS if word.search(phase.name)), phase.kind)
    return replace(phase, kind=kind)
