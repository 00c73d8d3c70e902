"""The sheets of tests/sheets_in: each beside what a careful person reads in it."""

from __future__ import annotations

import csv
import json
from decimal import Decimal
from pathlib import Path

import pytest
from openpyxl import load_workbook

from workbench.errors import WorkbenchError
from workbench.formula.old_sheet import Grid, SheetFormula
from workbench.formula.old_sheet_reading import read_formula, unread_sheet
from workbench.formula.old_sheet_tables import tables_in
from workbench.storage.sheet_files import read_sheets

FOLDER = Path(__file__).resolve().parents[1] / "sheets_in"
EXPECTED = sorted(FOLDER.glob("*.json"))
LEAST_SHEETS = 25


def sheet_of(expected: Path) -> Path:
    return expected.with_name(expected.name.removesuffix(".json"))


def read(path: Path) -> list[tuple[Grid, list[SheetFormula]]]:
    found = []
    for grid in read_sheets(path):
        tables = tables_in(grid)
        formulas = [
            read_formula(grid, table, [one for one in tables if one is not table])
            for table in tables
        ]
        found.append((grid, formulas))
    return found


def squeezed(text: str) -> str:
    return "".join(text.split()).lstrip("'")


def plain_cells(path: Path) -> list[list[str]]:
    """Return the filled cells of each sheet as a plain reader sees them, squeezed."""
    if path.suffix == ".xlsx":
        book = load_workbook(path, data_only=True)
        return [
            [squeezed(str(cell.value)) for row in sheet.iter_rows() for cell in row
             if cell.value not in (None, "")]
            for sheet in book.worksheets
        ]  # fmt: skip
    content = path.read_bytes()
    is_wide = content[:2] in (b"\xff\xfe", b"\xfe\xff")
    try:
        text = content.decode("utf-16" if is_wide else "utf-8-sig")
    except UnicodeDecodeError:
        text = content.decode("cp1252")
    words = text.replace(";", " ").replace("\t", " ").replace("|", " ").replace(",", " ")
    return [[word for word in words.replace('"', " ").split() if word.lower() != "sep="]]


@pytest.fixture(params=EXPECTED, ids=lambda path: path.name.removesuffix(".json"))
def case(request) -> tuple[Path, dict]:
    return sheet_of(request.param), json.loads(request.param.read_text(encoding="utf-8"))


def test_that_there_are_enough_sheets_each_with_its_expected_reading():
    assert len(EXPECTED) >= LEAST_SHEETS
    assert [path.name for path in EXPECTED if not sheet_of(path).exists()] == []
    sheets = {path for path in FOLDER.iterdir() if path.suffix not in (".json", ".md")}
    assert sheets == {sheet_of(path) for path in EXPECTED}


def test_that_a_sheet_is_read_as_a_careful_person_reads_it(case):
    path, expected = case
    if expected.get("refused"):
        with pytest.raises(WorkbenchError):
            read(path)
        return
    formulas = [formula for _, found in read(path) for formula in found]
    assert len(formulas) == len(expected["formulas"])
    for formula, said in zip(formulas, expected["formulas"], strict=True):
        assert_reads(formula, said)


def assert_reads(formula: SheetFormula, said: dict) -> None:
    if "name" in said:
        assert formula.title == said["name"]
    assert [row.name for row in formula.rows] == [line["name"] for line in said["lines"]]
    within = Decimal(said.get("within", "0.01"))
    for row, line in zip(formula.rows, said["lines"], strict=True):
        assert_amount(row, line["percent"], within)
        for key in ("phase", "note", "inci", "cas"):
            if key in line:
                assert getattr(row, key) == line[key], (row.name, key)
    if "batch_g" in said:
        assert formula.batch_g is not None
        assert abs(formula.batch_g - Decimal(said["batch_g"])) <= Decimal("0.01")


def assert_amount(row, percent: str, within: Decimal) -> None:
    if percent == "?":
        assert row.doubt is not None, row.name
        return
    assert row.doubt is None, (row.name, row.doubt)
    if percent == "rest":
        assert row.percent is None, row.name
        return
    assert row.percent is not None, row.name
    assert abs(row.percent - Decimal(percent)) <= within, (row.name, row.percent)


def test_that_what_must_be_told_as_not_read_is_told(case):
    path, expected = case
    wanted = set(expected.get("not_read", ()))
    if not wanted:
        return
    told = {
        cell.text
        for grid, formulas in read(path)
        for formula in (formulas or [unread_sheet(grid)])
        for cell in formula.unread
    }
    assert wanted <= told


def test_that_no_cell_is_lost_in_silence(case):
    path, expected = case
    if expected.get("refused"):
        return
    for grid, formulas in read(path):
        for formula in formulas or [unread_sheet(grid)]:
            told = {cell.at for cell in formula.unread}
            assert told.isdisjoint(formula.used)
            assert set(grid.filled()) <= told | set(formula.used)
            assert_used_stands_in_what_was_read(grid, formula)


def assert_used_stands_in_what_was_read(grid: Grid, formula: SheetFormula) -> None:
    rows = {row.row: row for row in formula.rows}
    phases = {row.phase for row in formula.rows}
    for at, what in formula.used.items():
        text = grid.text(at)
        if what in ("name", "inci", "cas", "note", "amount", "phase", "unit") and at[0] in rows:
            row = rows[at[0]]
            held = f"{row.name}|{row.inci}|{row.cas}|{row.note}|{row.phase}|{row.amount}"
            compared = row.mass_g is not None and row.percent is not None
            assert text in held or what == "unit" or (what == "amount" and compared), (at, text)
        elif what == "phase":
            # A phase without lines has nothing to stand in.
            assert any(text.strip().rstrip(":") in phase for phase in phases) or not any(
                row > at[0] for row in rows
            ), (at, text)
        else:
            assert what in ("title", "heading", "total", "batch", "unit", "phase"), (at, what)


def test_that_a_plain_reader_sees_no_cell_that_is_not_in_the_grid(case):
    path, expected = case
    if expected.get("refused"):
        return
    for seen, grid in zip(filled_only(plain_cells(path)), read_sheets(path), strict=True):
        held = squeezed("".join(text for row in grid.cells for text in row)).replace(" ", "")
        if path.suffix == ".xlsx":
            assert len(seen) == len(grid.filled()), grid.name
        else:
            for sign in ',"':
                held = held.replace(sign, "")
            for sign in ";\t|":
                held = held.replace(sign, "")
            lost = [word for word in seen if word.lstrip("'") not in held]
            assert lost == []


def filled_only(sheets: list[list[str]]) -> list[list[str]]:
    return [cells for cells in sheets if cells]


def test_that_the_plain_reader_of_these_tests_sees_cells(tmp_path):
    file = tmp_path / "x.csv"
    with file.open("w", encoding="utf-8", newline="") as out:
        csv.writer(out).writerows([["Water", "70,5"], ["Shea butter", "5"]])
    assert plain_cells(file) == [["Water", "70", "5", "Shea", "butter", "5"]]
