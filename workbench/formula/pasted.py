"""Pasted text as lines of a formula; what cannot be read is kept with its reason."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import ROUND_FLOOR, Decimal

from workbench.formula.edits import PERCENT_STEP, to_percent_step
from workbench.formula.pasted_guess import (
    AMOUNTS,
    TOTAL_WORDS,
    Reading,
    Role,
    is_rest,
    quantity_of,
)
from workbench.formula.tab_text import Cells
from workbench.formula.totals import WHOLE
from workbench.units import Quantity, to_grams
from workbench.units.factors import PERCENT

REASONS = (
    "pasted-no-name",
    "pasted-no-amount",
    "pasted-not-a-number",
    "pasted-wrong-unit",
    "pasted-outside",
    "pasted-second-rest",
    "pasted-rest-of-mass",
    "pasted-total",
    "pasted-header",
)


@dataclass(frozen=True, slots=True)
class PastedRow:
    """Hold one line read from pasted text.

    `row` counts the pasted rows from 1. `percent` is None for the rest line; 0 with a `fault`
    where the amount `text` could not be read, so that the line is not lost.
    """

    row: int
    name: str
    percent: Decimal | None
    text: str
    inci: str = ""
    phase: str = ""
    note: str = ""
    fault: str = ""


@dataclass(frozen=True, slots=True)
class Unread:
    """Hold one pasted row that becomes no line, with the reason."""

    row: int
    text: str
    reason_id: str


@dataclass(frozen=True, slots=True)
class Pasted:
    """Hold everything read from pasted text; `total` is the sum of the percents [%]."""

    rows: tuple[PastedRow, ...]
    unread: tuple[Unread, ...]
    total: Decimal
    is_of_mass: bool = False


def read_pasted(
    cells: Cells, reading: Reading, mark: str, batch_g: Decimal | None = None
) -> Pasted:
    """Read pasted cells as lines.

    Parameters
    ----------
    cells
        Rows of equal length.
    reading
        What each column is.
    mark
        The decimal mark, which the reading may have left open.
    batch_g
        The batch the masses are part of [g], where they go into a draft that has one.

    Notes
    -----
    Masses become per cent of the batch; without one, of their sum, rounded to 0.0001 so that
    they add up to 100.
    """
    rows: list[PastedRow] = []
    unread: list[Unread] = []
    phase = ""
    for number, cells_of_row in enumerate(cells, 1):
        if reading.has_header and number == 1:
            unread.append(Unread(number, _whole(cells_of_row), "pasted-header"))
            continue
        part = _Part(number, cells_of_row, reading.roles)
        if part.is_heading:
            phase = part.name
            continue
        read = _row(part, mark, phase)
        if isinstance(read, PastedRow):
            rows.append(read)
        else:
            unread.append(read)
    kept = _one_rest(rows)
    is_of_mass = _amount_role(reading.roles) in (Role.GRAMS, Role.OUNCES)
    if is_of_mass:
        kept = _of_batch(kept, batch_g) if batch_g else _as_percents(kept)
    total = sum((row.percent or Decimal(0) for row in kept), Decimal(0))
    return Pasted(tuple(kept), tuple(unread), total, is_of_mass)


@dataclass(frozen=True, slots=True)
class _Part:
    number: int
    cells: tuple[str, ...]
    roles: tuple[Role, ...]

    def of(self, role: Role) -> str:
        """Return the text of a role; a note may be spread over several columns."""
        found = [
            cell for cell, one in zip(self.cells, self.roles, strict=True) if one is role and cell
        ]
        return ", ".join(found)

    @property
    def name(self) -> str:
        return self.of(Role.NAME) or self.of(Role.INCI)

    @property
    def amount(self) -> tuple[Role, str]:
        """Return the amount cell: of the percents where the text has them, else of the masses."""
        role = _amount_role(self.roles)
        return role, self.of(role) if role is not Role.IGNORE else ""

    @property
    def is_heading(self) -> bool:
        """Tell whether the row only names a phase."""
        filled = [cell for cell in self.cells if cell]
        text = filled[0].casefold() if len(filled) == 1 else ""
        has_word = "phase" in text.split() or text.rstrip(":").endswith("phase")
        is_letter = len(text.rstrip(":")) == 1 and text[:1].isalpha()
        return bool(self.name) and (has_word or is_letter)


def _row(part: _Part, mark: str, phase: str) -> PastedRow | Unread:
    role, text = part.amount
    name = part.name
    if name.casefold().rstrip(":") in TOTAL_WORDS or (not name and _says_total(part.cells)):
        return Unread(part.number, _whole(part.cells), "pasted-total")
    if not name:
        return Unread(part.number, _whole(part.cells), "pasted-no-name")
    amount, fault = _amount(role, text, mark)
    return PastedRow(
        row=part.number,
        name=name,
        percent=amount,
        text=text,
        inci=part.of(Role.INCI),
        phase=part.of(Role.PHASE) or phase,
        note=part.of(Role.NOTE),
        fault=fault,
    )


def _amount(role: Role, text: str, mark: str) -> tuple[Decimal | None, str]:
    """Return percent or mass of a cell, and why it could not be read."""
    nothing = Decimal(0)
    if is_rest(text):
        return None, ""
    if not text:
        return nothing, "pasted-no-amount"
    read = quantity_of(text, mark)
    if read is None:
        return nothing, "pasted-not-a-number"
    if role in (Role.PERCENT, Role.SHARE):
        value = read.value * (WHOLE if role is Role.SHARE and read.unit is None else 1)
        if read.unit not in (None, PERCENT):
            return nothing, "pasted-wrong-unit"
        return (value, "") if 0 <= value <= WHOLE else (nothing, "pasted-outside")
    unit = read.unit or ("oz" if role is Role.OUNCES else "g")
    mass = to_grams(Quantity(read.value, unit))
    return (mass, "") if isinstance(mass, Decimal) else (nothing, "pasted-wrong-unit")


def _one_rest(rows: Sequence[PastedRow]) -> list[PastedRow]:
    """Let the first line that asks for it take the rest; a second one is told."""
    kept: list[PastedRow] = []
    has_rest = False
    for row in rows:
        if row.percent is None and has_rest:
            row = replace(row, percent=Decimal(0), fault="pasted-second-rest")  # noqa: PLW2901
        has_rest = has_rest or row.percent is None
        kept.append(row)
    return kept


def _of_batch(rows: Sequence[PastedRow], batch_g: Decimal) -> list[PastedRow]:
    """Turn masses into per cent of a batch; more than the batch is told."""
    made = [
        row if row.percent is None else replace(row, percent=row.percent * WHOLE / batch_g)
        for row in rows
    ]
    return [
        replace(row, percent=Decimal(0), fault="pasted-outside")
        if row.percent is not None and row.percent > WHOLE
        else replace(row, percent=row.percent and to_percent_step(row.percent))
        for row in made
    ]


def _as_percents(rows: Sequence[PastedRow]) -> list[PastedRow]:
    """Turn masses into per cent of their sum; a rest among masses has no size and is told."""
    masses = [row.percent or Decimal(0) for row in rows]
    whole = sum(masses, Decimal(0))
    if not whole:
        return list(rows)
    exact = [mass * WHOLE / whole for mass in masses]
    percents = [value.quantize(PERCENT_STEP, ROUND_FLOOR) for value in exact]
    left = int((WHOLE - sum(percents, Decimal(0))) / PERCENT_STEP)
    for place in sorted(range(len(rows)), key=lambda at: percents[at] - exact[at])[:left]:
        percents[place] += PERCENT_STEP
    return [
        replace(row, percent=percent)
        if row.percent is not None
        else replace(row, percent=Decimal(0), fault="pasted-rest-of-mass")
        for row, percent in zip(rows, percents, strict=True)
    ]


def _amount_role(roles: Sequence[Role]) -> Role:
    return next((role for role in AMOUNTS if role in roles), Role.IGNORE)


def _says_total(cells: Sequence[str]) -> bool:
    return any(cell.casefold().rstrip(":") in TOTAL_WORDS for cell in cells)


def _whole(cells: Sequence[str]) -> str:
    return "  ".join(cell for cell in cells if cell)
