"""A sheet a maker has kept elsewhere, as values: its cells, its tables, and what is read of it."""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal

from workbench.formula.tab_text import Cells

At = tuple[int, int]
"""Row and column of a cell, both from 0."""

MOST_ROWS, MOST_COLUMNS, MOST_CELLS, LONGEST_CELL = 2000, 100, 40_000, 20_000
_LETTERS = 26

REASONS = (
    "sheet-outside",
    "sheet-column",
    "sheet-subtotal",
    "sheet-no-name",
    "sheet-below-total",
    "sheet-calculation",
    "sheet-other-table",
    "sheet-text-row",
    "sheet-no-table",
)
DOUBTS = (
    "sheet-no-amount",
    "sheet-not-a-number",
    "sheet-range",
    "sheet-fraction",
    "sheet-about",
    "sheet-trace",
    "sheet-negative",
    "sheet-above-whole",
    "sheet-volume",
    "sheet-drops",
    "sheet-spoon",
    "sheet-unknown-unit",
    "sheet-two-readings",
    "sheet-second-rest",
    "sheet-rest-of-mass",
    "sheet-to-ph",
    "sheet-disagrees",
    "sheet-zero",
    "sheet-percent-among-masses",
)
REMARKS = (
    "sheet-total-differs",
    "sheet-total-agrees",
    "sheet-not-whole",
    "sheet-unit-assumed",
    "sheet-percent-assumed",
    "sheet-of-masses",
    "sheet-amounts-without-name",
    "sheet-figures-beside",
)


@dataclass(frozen=True, slots=True)
class UnreadCell:
    """Hold one cell that becomes nothing, with the reason."""

    at: At
    text: str
    reason_id: str


@dataclass(frozen=True, slots=True)
class Grid:
    """Hold the cells of one sheet: rows of equal length, and cells that could not be read.

    `numeric` are the cells that hold a number as such, written with a decimal point.
    """

    name: str
    cells: Cells
    lost: tuple[UnreadCell, ...] = ()
    numeric: frozenset[At] = frozenset()

    def text(self, at: At) -> str:
        """Return the text of a cell."""
        return self.cells[at[0]][at[1]]

    def filled(self) -> tuple[At, ...]:
        """Return where there is a text, row by row."""
        return tuple(
            (row, column)
            for row, texts in enumerate(self.cells)
            for column, text in enumerate(texts)
            if text
        )


@dataclass(frozen=True, slots=True)
class Amount:
    """Hold what an amount cell says: percent [%], mass [g], or that its line takes the rest.

    `whole_g` is what a rest fills up to where it is a mass [g]; `is_soft` marks a bare "q.s.",
    which also stands for "as much as is needed". `step` is what one in the last written place
    is worth, in the same unit. With a `doubt`, `options` are what could be meant.
    """

    percent: Decimal | None = None
    mass_g: Decimal | None = None
    is_rest: bool = False
    is_soft: bool = False
    whole_g: Decimal | None = None
    doubt: str = ""
    options: tuple[Amount, ...] = ()
    step: Decimal = Decimal(0)

    @property
    def is_read(self) -> bool:
        """Tell whether it says a percent, a mass or the rest without doubt."""
        return not self.doubt and (
            self.percent is not None or self.mass_g is not None or self.is_rest
        )


@dataclass(frozen=True, slots=True)
class Doubt:
    """Hold why the amount of a row is doubtful, and what it could be."""

    reason_id: str
    choices: tuple[Amount, ...] = ()


@dataclass(frozen=True, slots=True)
class SheetRow:
    """Hold one line read from a sheet.

    `row` counts from 0. `percent` is None for the rest line and 0 where it is doubtful what the
    amount is; `mass_g` is None where no mass stands there. `amount` is the text as written, with
    the unit of its column.
    """

    row: int
    name: str
    percent: Decimal | None
    amount: str
    inci: str = ""
    cas: str = ""
    phase: str = ""
    note: str = ""
    mass_g: Decimal | None = None
    doubt: Doubt | None = None


@dataclass(frozen=True, slots=True)
class Remark:
    """Hold something to know about a whole table; a doubtful one is to be confirmed."""

    code: str
    is_doubtful: bool = False
    values: tuple[tuple[str, str | Decimal], ...] = ()


@dataclass(frozen=True, slots=True)
class SheetFormula:
    """Hold one formula read from a sheet, with the fate of every cell of the sheet.

    `used` says by cell what it became: title, heading, name, inci, cas, amount, unit, phase,
    note, total. Every filled cell is either in `used` or in `unread`. `total` is the sum of the
    percents without the rest line [%]; `batch_g` what the masses add up to [g].
    """

    title: str
    rows: tuple[SheetRow, ...]
    used: dict[At, str] = field(hash=False)
    unread: tuple[UnreadCell, ...]
    remarks: tuple[Remark, ...]
    total: Decimal
    batch_g: Decimal | None = None
    is_of_mass: bool = False

    @property
    def is_doubtful(self) -> bool:
        """Tell whether anything read is to be confirmed, names aside."""
        return any(row.doubt for row in self.rows) or any(one.is_doubtful for one in self.remarks)


def place_text(at: At) -> str:
    """Return a cell's place as spreadsheets name it.

    >>> place_text((6, 27))
    'AB7'
    """
    row, column = at
    letters = ""
    column += 1
    while column:
        column, rest = divmod(column - 1, _LETTERS)
        letters = chr(ord("A") + rest) + letters
    return f"{letters}{row + 1}"
