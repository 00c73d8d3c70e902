"""What is asked of an old sheet before it becomes a draft, and what was decided so far."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace

from workbench.formula.formula import Formula
from workbench.formula.old_sheet import Amount, Grid, SheetFormula, SheetRow, UnreadCell
from workbench.formula.old_sheet_amounts import amount_of
from workbench.formula.old_sheet_columns import Column, Kind
from workbench.formula.old_sheet_lines import formula_of_sheet
from workbench.formula.old_sheet_names import NameMatch
from workbench.formula.old_sheet_reading import read_formula, sheet_mark, unread_sheet
from workbench.formula.old_sheet_tables import Table, tables_in
from workbench.formula.pasted_guess import POINT
from workbench.ui.places.desk.paste_matching import Fate, Match

Matcher = Callable[[str, str, str], NameMatch]
CALCULATION = "sheet-calculation"
_NOT_DECIDED = frozenset(
    {"sheet-second-rest", "sheet-above-whole", "sheet-negative", "sheet-rest-of-mass"}
)
ONCE = frozenset({Kind.NAME, Kind.INCI, Kind.CAS, Kind.UNIT, Kind.PHASE})
"""What only one column can be."""


@dataclass(frozen=True, slots=True)
class Asked:
    """Hold all that decides what is read, so that it can be read beside the window."""

    grid: Grid
    table: Table
    others: tuple[Table, ...]
    amounts: tuple[tuple[int, Amount], ...]
    mark: str | None
    decimal_comma: bool


@dataclass(frozen=True, slots=True)
class Answer:
    """Hold what was read, and by row what its name means."""

    read: SheetFormula
    matches: Mapping[int, NameMatch] = field(hash=False)
    mark: str | None = None


def answered(asked: Asked, match: Matcher) -> Answer:
    """Read a table and find what its names mean."""
    if all(one.kind is Kind.OTHER for one in asked.table.columns):
        return Answer(unread_sheet(asked.grid), {}, asked.mark or POINT)
    read = read_formula(
        asked.grid,
        asked.table,
        asked.others,
        dict(asked.amounts),
        decimal_comma=asked.decimal_comma,
        mark=asked.mark,
    )
    matches = {row.row: match(row.name, row.inci, row.cas) for row in read.rows}
    mark = asked.mark or sheet_mark(asked.grid, asked.table, decimal_comma=asked.decimal_comma)
    return Answer(read, matches, mark)


@dataclass(frozen=True, slots=True)
class Seen:
    """Hold one row as it stands: what was read, what it becomes, and what is still open."""

    row: SheetRow
    match: NameMatch
    becomes: Match
    is_name_open: bool
    is_amount_open: bool

    @property
    def is_line(self) -> bool:
        """Tell whether it becomes a line of the draft."""
        return self.becomes.fate is not Fate.OUT

    @property
    def is_open(self) -> bool:
        """Tell whether anything about it is to be decided."""
        return self.is_line and (self.is_name_open or self.is_amount_open)


class SheetImport:
    """Hold the sheets of one file, and every decision about them."""

    def __init__(self, file: str, grids: tuple[Grid, ...], *, decimal_comma: bool) -> None:
        """Take the sheets that were read, and how the maker writes decimals."""
        self.file = file
        self.decimal_comma = decimal_comma
        self.tables: tuple[tuple[Grid, Table], ...] = tuple(
            (grid, table) for grid in grids for table in (tables_in(grid) or (_whole(grid),))
        )
        self.place = 0
        self.answer: Answer | None = None
        self.choose_table(0)

    @property
    def grid(self) -> Grid:
        """The sheet the chosen table stands on."""
        return self.tables[self.place][0]

    @property
    def table(self) -> Table:
        """The chosen table with the columns as they are chosen."""
        return replace(self.tables[self.place][1], columns=self._columns)

    @property
    def is_found(self) -> bool:
        """Tell whether the table was found, and is not the whole sheet for want of one."""
        return any(one.kind is not Kind.OTHER for one in self._columns)

    def title_of(self, place: int) -> str:
        """Return what a table is called."""
        grid, table = self.tables[place]
        return table.title or grid.name

    def choose_table(self, place: int) -> None:
        """Begin with another table; what was decided for the one before goes."""
        self.place = place
        self._columns = self.tables[place][1].columns
        self._mark: str | None = None
        self._forget()

    def set_column(self, place: int, kind: Kind, unit: str) -> None:
        """Say what a column is; a kind there is only one of leaves the column it was."""
        columns = [
            Column(one.place, Kind.OTHER)
            if kind in ONCE and one.kind is kind and one.place != place
            else one
            for one in self._columns
            if one.place != place
        ]
        columns.append(Column(place, kind, unit))
        self._columns = tuple(sorted(columns, key=lambda one: one.place))
        self._forget()

    def set_mark(self, mark: str) -> None:
        """Say what the decimal mark is."""
        self._mark = mark
        self._amounts.clear()

    def column(self, place: int) -> Column:
        """Return what a column is."""
        return next((one for one in self._columns if one.place == place), Column(place, Kind.OTHER))

    def places(self) -> tuple[int, ...]:
        """Return the columns of the chosen table in which something stands."""
        table = self.table
        rows = self.grid.cells[min((*table.heads, table.top)) : table.bottom]
        return tuple(
            place for place in range(table.left, table.right) if any(row[place] for row in rows)
        )

    def heading(self, place: int) -> str:
        """Return what stands over a column, or first in it."""
        table = self.table
        rows = (*table.heads, *range(table.top, table.bottom))
        return next((text for row in rows if (text := self.grid.cells[row][place])), "")

    # Reading.

    def asked(self) -> Asked:
        """Return what is to be read."""
        grid, table = self.grid, self.table
        chosen = self.tables[self.place][1]
        others = tuple(
            other for sheet, other in self.tables if sheet is grid and other is not chosen
        )
        amounts = tuple(sorted(self._amounts.items(), key=lambda one: one[0]))
        return Asked(grid, table, others, amounts, self._mark, self.decimal_comma)

    def take(self, answer: Answer) -> None:
        """Take what was read."""
        self.answer = answer

    # Decisions.

    def choose(self, row: int, match: Match) -> None:
        """Say what a row becomes."""
        self._names[row] = match

    def choose_amount(self, row: int, amount: Amount) -> None:
        """Say what the amount of a row is."""
        self._amounts[row] = amount

    def typed_amount(self, text: str) -> Amount | None:
        """Return a typed amount, bare ones per cent or grams as the sheet is; None if unread."""
        unit = "g" if self.answer is not None and self.answer.read.is_of_mass else "%"
        mark = self.answer.mark if self.answer is not None else None
        found = amount_of(text, unit, mark or ("," if self.decimal_comma else POINT))
        return found if found.is_read else None

    def confirm(self, code: str, *, is_confirmed: bool) -> None:
        """Say that something about the whole was looked at, or not."""
        (self._confirmed.add if is_confirmed else self._confirmed.discard)(code)

    def is_confirmed(self, code: str) -> bool:
        """Tell whether something about the whole was looked at."""
        return code in self._confirmed

    def seen(self) -> tuple[Seen, ...]:
        """Return the rows as they stand."""
        if self.answer is None:
            return ()
        return tuple(self._seen(row, self.answer.matches[row.row]) for row in self.answer.read.rows)

    def doubts(self) -> tuple[tuple[str, Mapping[str, object]], ...]:
        """Return what is to be looked at about the whole: message and values."""
        if self.answer is None:
            return ()
        read = self.answer.read
        found: list[tuple[str, Mapping[str, object]]] = [
            (one.code, dict(one.values)) for one in read.remarks if one.is_doubtful
        ]
        lost = sum(cell.reason_id == CALCULATION for cell in read.unread)
        if lost:
            found.append(("sheet-import-calculations", {"count": lost}))
        return tuple(found)

    def open_count(self) -> int:
        """Return how many things are still to be decided."""
        rows = sum(one.is_open for one in self.seen())
        return rows + sum(code not in self._confirmed for code, _ in self.doubts())

    def left_out(self) -> tuple[SheetRow, ...]:
        """Return the rows the maker leaves out."""
        return tuple(one.row for one in self.seen() if not one.is_line)

    def unread(self) -> tuple[UnreadCell, ...]:
        """Return the cells that become nothing, with the reason."""
        return self.answer.read.unread if self.answer is not None else ()

    def formula(self, name: str, phase_name: str) -> Formula:
        """Return the draft as it would be made now."""
        assert self.answer is not None
        lines = [one for one in self.seen() if one.is_line]
        keys = {one.row.row: one.becomes.key for one in lines if one.becomes.key}
        read = replace(self.answer.read, rows=tuple(one.row for one in lines))
        return formula_of_sheet(read, keys, name=name, phase_name=phase_name)

    def _seen(self, row: SheetRow, match: NameMatch) -> Seen:
        chosen = self._names.get(row.row)
        best = match.best
        if chosen is not None:
            becomes = chosen
        elif best is not None and match.is_sure:
            becomes = Match(Fate.LINE, best.key, best.name)
        else:
            becomes = Match(Fate.UNLISTED, name=row.name)
        doubt = row.doubt
        is_amount_open = doubt is not None and (
            row.row not in self._amounts or doubt.reason_id in _NOT_DECIDED
        )
        is_name_open = chosen is None and not match.is_sure
        return Seen(row, match, becomes, is_name_open, is_amount_open)

    def _forget(self) -> None:
        self._names: dict[int, Match] = {}
        self._amounts: dict[int, Amount] = {}
        self._confirmed: set[str] = set()
        self.answer = None


def _whole(grid: Grid) -> Table:
    """Return the whole sheet as a table of which nothing is known yet."""
    width = len(grid.cells[0]) if grid.cells else 0
    columns = tuple(Column(place, Kind.OTHER) for place in range(width))
    return Table("", (), (), 0, len(grid.cells), 0, width, columns)
