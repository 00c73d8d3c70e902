"""Sheets of labels, heights of type and what each kind of label asks for, from the tables."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

from workbench.bench.label_sheets import HeightRule, LabelSheet
from workbench.bench.label_wants import LabelTables, Want
from workbench.storage.reference.cells import TableRow, table_rows
from workbench.storage.reference.rows import amount, items


def load_label_tables(folder: Path) -> LabelTables:
    """Return everything labels are laid out by.

    Raises
    ------
    WorkbenchError
        A row of one of the tables is malformed, or a sheet does not fit its page.
    """
    return LabelTables(
        sheets=tuple(map(_sheet, table_rows(folder, "label_sheets.csv"))),
        heights=tuple(map(_height, table_rows(folder, "label_heights.csv"))),
        wants=tuple(map(_want, table_rows(folder, "label_fields.csv"))),
    )


def _sheet(row: TableRow) -> LabelSheet:
    sheet = LabelSheet(
        key=row.text("key"),
        page=row.text("page"),
        page_w=row.number("page_w_mm"),
        page_h=row.number("page_h_mm"),
        cell_w=row.number("cell_w_mm"),
        cell_h=row.number("cell_h_mm"),
        columns=int(row.number("columns")),
        rows=int(row.number("rows")),
        gap_x=row.real("gap_x_mm"),
        gap_y=row.real("gap_y_mm"),
        left=row.real("left_mm"),
        top=row.real("top_mm"),
        shape=row.text("shape"),
        source=row.text("source"),
        confidence=row.text("confidence"),
    )
    if sheet.faults():
        row.refuse(", ".join(sheet.faults()))
    return sheet


def _height(row: TableRow) -> HeightRule:
    return HeightRule(
        key=row.text("key"),
        kinds=items(row.text("kinds")),
        what=row.text("what"),
        measures=row.text("measures"),
        least_mm=row.number("least_mm"),
        content_over=_amount(row, "content_over"),
        content_to=_amount(row, "content_to"),
        panel_over=_amount(row, "panel_over_cm2"),
        panel_to=_amount(row, "panel_to_cm2"),
        is_small_pack=row.text("small_pack") == "y",
        is_law=row.text("law") == "y",
        source=row.text("source"),
        confidence=row.text("confidence"),
    )


def _want(row: TableRow) -> Want:
    return Want(
        kind=row.text("kind"),
        field=row.text("field"),
        need=row.text("need"),
        source=row.text("source"),
        confidence=row.text("confidence"),
    )


def _amount(row: TableRow, column: str) -> Decimal | None:
    return amount(row.optional(column))
