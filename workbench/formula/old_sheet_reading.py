"""Reading one formula of an old sheet, with the fate of every cell of the sheet."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal

from workbench.formula.old_sheet import (
    Amount,
    Grid,
    Remark,
    SheetFormula,
)
from workbench.formula.old_sheet_amounts import is_amount_like
from workbench.formula.old_sheet_columns import AMOUNTS, Kind
from workbench.formula.old_sheet_percents import percents_of
from workbench.formula.old_sheet_rows import Fate, raw_table
from workbench.formula.old_sheet_tables import Table
from workbench.formula.pasted_guess import COMMA, POINT, mark_of


def read_formula(
    grid: Grid,
    table: Table,
    others: Sequence[Table] = (),
    chosen: Mapping[int, Amount] | None = None,
    *,
    decimal_comma: bool = False,
    mark: str | None = None,
) -> SheetFormula:
    """Read one formula of a sheet.

    Parameters
    ----------
    grid
        The sheet.
    table
        Where the formula stands; its columns may be changed before.
    others
        The other formulas of the sheet; their cells are told as not read.
    chosen
        By row (from 0) the amount the maker chose where it was doubtful.
    decimal_comma
        How the maker writes decimals, for a sheet that shows no mark.
    mark
        The decimal mark the maker chose; None takes what the sheet shows.
    """
    fate = Fate()
    for cell in grid.lost:
        fate.unread[cell.at] = cell
    mark = mark or sheet_mark(grid, table, decimal_comma=decimal_comma)
    raw = raw_table(grid, table, mark, fate)
    found = percents_of(raw, _units(table), dict(chosen or {}))
    remarks = list(found.remarks)
    if raw.nameless:
        remarks.append(
            Remark(
                "sheet-amounts-without-name",
                is_doubtful=True,
                values=(("count", str(raw.nameless)),),
            )
        )
    beside = _figures_beside(grid, table, fate)
    if beside:
        remarks.append(
            Remark("sheet-figures-beside", is_doubtful=True, values=(("count", str(beside)),))
        )
    _account(grid, others, fate)
    return SheetFormula(
        title=table.title,
        rows=found.rows,
        used=dict(sorted(fate.used.items())),
        unread=tuple(fate.unread[at] for at in sorted(fate.unread)),
        remarks=tuple(remarks),
        total=found.total,
        batch_g=found.batch_g,
        is_of_mass=found.is_of_mass,
    )


def sheet_mark(grid: Grid, table: Table, *, decimal_comma: bool) -> str | None:
    """Return the decimal mark of the amounts written as text; None where it is open."""
    places = [column.place for column in table.columns if column.kind in AMOUNTS]
    texts = tuple(
        tuple(
            grid.cells[row][place] if (row, place) not in grid.numeric else "" for place in places
        )
        for row in range(table.top, table.bottom)
    )
    if not any(text for row in texts for text in row):
        return POINT
    found = mark_of(texts, decimal_comma=decimal_comma)
    if found is None or any(found in text for row in texts for text in row):
        return found
    return COMMA if decimal_comma else POINT


def unread_sheet(grid: Grid) -> SheetFormula:
    """Return what is told of a sheet on which no formula was found: every cell is unread."""
    fate = Fate()
    for cell in grid.lost:
        fate.unread[cell.at] = cell
    for at in grid.filled():
        fate.leave(at, grid.text(at), "sheet-no-table")
    unread = tuple(fate.unread[at] for at in sorted(fate.unread))
    return SheetFormula("", (), {}, unread, (), Decimal(0))


def _figures_beside(grid: Grid, table: Table, fate: Fate) -> int:
    """Count figures right beside an amount, under no heading: 69,10 may have been parted there."""
    beside = {column.place + 1 for column in table.columns if column.kind in AMOUNTS}
    headed = {place for row in table.heads for place, text in enumerate(grid.cells[row]) if text}
    rows = set(range(table.top, table.bottom))
    return sum(
        at[0] in rows
        and at[1] in beside - headed
        and cell.reason_id == "sheet-column"
        and is_amount_like(cell.text)
        for at, cell in fate.unread.items()
    )


def _units(table: Table) -> frozenset[str]:
    kinds = {column.kind for column in table.columns}
    found = {"percent"} if Kind.PERCENT in kinds else set()
    return frozenset(found | ({"none"} if Kind.AMOUNT in kinds else set()))


def _account(grid: Grid, others: Sequence[Table], fate: Fate) -> None:
    """Tell of every filled cell that has no fate yet why it becomes nothing."""
    for row, column in grid.filled():
        is_other = any(
            min((*one.heads, one.top)) <= row < one.bottom and one.left <= column < one.right
            for one in others
        ) or any((row, column) in one.title_at for one in others)
        reason = "sheet-other-table" if is_other else "sheet-outside"
        fate.leave((row, column), grid.text((row, column)), reason)
