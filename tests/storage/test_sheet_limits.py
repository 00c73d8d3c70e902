"""What is no sheet of a formula is refused in words, and quickly."""

from __future__ import annotations

import io
import time
import zipfile

import pytest
from openpyxl import Workbook

from workbench.errors import WorkbenchError
from workbench.formula.old_sheet_reading import read_formula
from workbench.formula.old_sheet_tables import tables_in
from workbench.storage import sheet_workbook
from workbench.storage.sheet_files import MOST_BYTES, read_sheets, sheets_of

MOST_SECONDS = 3


def workbook(*rows: tuple[object, ...]) -> bytes:
    book = Workbook(write_only=True)
    sheet = book.create_sheet("Formula")
    for row in rows:
        sheet.append(row)
    made = io.BytesIO()
    book.save(made)
    return made.getvalue()


def repacked(content: bytes, change) -> bytes:
    made = io.BytesIO()
    with (
        zipfile.ZipFile(io.BytesIO(content)) as old,
        zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED) as new,
    ):
        for name in old.namelist():
            new.writestr(name, change(name, old.read(name)))
    return made.getvalue()


def refused(content: bytes, file: str = "old.xlsx") -> str:
    with pytest.raises(WorkbenchError) as caught:
        sheets_of(content, file)
    return caught.value.what


@pytest.mark.parametrize("ending", ["csv", "xlsx"])
def test_that_ten_thousand_rows_of_fifty_columns_are_answered_within_three_seconds(ending):
    row = ("Glycerin", *(f"{number}.5" for number in range(49)))
    if ending == "csv":
        content = "\n".join([",".join(row)] * 10_000).encode()
    else:
        content = workbook(*[row] * 10_000)
    begun = time.perf_counter()
    assert "filled cells" in refused(content, f"old.{ending}")
    assert time.perf_counter() - begun < MOST_SECONDS


@pytest.mark.parametrize("ending", ["csv", "xlsx"])
def test_that_the_largest_sheet_that_is_read_is_read_within_three_seconds(ending):
    head = ("Ingredient", "%", *(f"extra {number}" for number in range(18)))
    row = ("Glycerin", "0.05", *(f"{number}.5" for number in range(18)))
    rows = (head, *[row] * 1_990)
    if ending == "csv":
        content = "\n".join(",".join(one) for one in rows).encode()
    else:
        content = workbook(*rows)
    begun = time.perf_counter()
    (grid,) = sheets_of(content, f"old.{ending}")
    (table,) = tables_in(grid)
    assert len(read_formula(grid, table).rows) == 1_990
    assert time.perf_counter() - begun < MOST_SECONDS


def test_that_a_packed_bomb_is_refused_before_it_is_unpacked(monkeypatch):
    bomb = repacked(
        workbook(("Water", 1)),
        lambda name, part: b"<a>" + b" " * 60_000_000 if "sheet1" in name else part,
    )
    assert len(bomb) < 200_000
    monkeypatch.setattr(zipfile.ZipFile, "read", lambda *_: pytest.fail("it was unpacked"))
    assert "unpacks to more" in refused(bomb)


def test_that_a_workbook_that_lies_about_its_sizes_is_refused():
    content = bytearray(
        repacked(
            workbook(("Water", 1)),
            lambda name, part: part + b" " * 3_000_000 if "sheet1" in name else part,
        )
    )
    with zipfile.ZipFile(io.BytesIO(bytes(content))) as packed:
        size = next(part.file_size for part in packed.infolist() if "sheet1" in part.filename)
    lie = bytes(content).replace(size.to_bytes(4, "little"), (500).to_bytes(4, "little"))
    assert lie != bytes(content)
    assert "damaged" in refused(lie)


@pytest.mark.parametrize("declaration", ["<!DOCTYPE a [<!ENTITY b 'c'>]>", "<!ENTITY b 'c'>"])
def test_that_a_workbook_with_entities_is_refused(declaration):
    changed = repacked(
        workbook(("Water", 1)),
        lambda name, part: (
            part.replace(b"<worksheet", declaration.encode() + b"<worksheet", 1)
            if "sheet1" in name
            else part
        ),
    )
    assert "damaged" in refused(changed)


def test_that_what_a_workbook_says_of_its_size_is_not_believed():
    changed = repacked(
        workbook(("Ingredient", "%"), ("Water", 100)),
        lambda name, part: part.replace(
            b"<sheetData>", b'<dimension ref="A1:XFD1048576"/><sheetData>', 1
        ),
    )
    (grid,) = sheets_of(changed, "old.xlsx")
    assert grid.cells == (("Ingredient", "%"), ("Water", "100"))


def test_that_a_row_far_below_is_refused_at_once():
    changed = repacked(
        workbook(("Water", 1)),
        lambda name, part: part.replace(b'<row r="1"', b'<row r="1048576"', 1).replace(
            b'r="A1"', b'r="A1048576"'
        ),
    )
    begun = time.perf_counter()
    assert "rows" in refused(changed)
    assert time.perf_counter() - begun < MOST_SECONDS


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"\xd0\xcf\x11\xe0 old workbook", "XLS format"),
        (b"PK\x03\x04 cut off", "damaged"),
        (b"%PDF-1.7", "not text"),
        (b"\x00\x01\x02\x03" * 40, "not text"),
        (b" \n ,,\n", "nothing"),
        (b"\xef\xbb\xbf", "nothing"),
    ],
)
def test_that_what_is_no_sheet_is_refused_in_words(content, said):
    assert said in refused(content, "old.csv")


def test_that_a_packed_file_that_is_no_workbook_is_refused():
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w") as packed:
        packed.writestr("letter.txt", "dear")
    assert "not an XLSX" in refused(made.getvalue())


def test_that_more_than_forty_sheets_are_refused(monkeypatch):
    monkeypatch.setattr(sheet_workbook, "MOST_SHEETS", 0)
    assert "sheets" in refused(workbook(("Water", 1)))


def test_that_too_many_columns_are_refused():
    assert "columns" in refused(",".join(["1"] * 101).encode(), "old.csv")


@pytest.mark.parametrize("content", [b"9" * 3_000, b"a,b\n" + b"x" * 200_000 + b",1\n"])
def test_that_a_cell_too_long_for_a_sheet_is_refused_and_not_cut_short(content):
    assert "a cell of more than" in refused(content, "old.csv")


def test_that_a_long_note_is_kept_whole():
    note = "stir " * 700
    (grid,) = sheets_of(f"Ingredient,%,Notes\nWater,100,{note}\n".encode(), "old.csv")
    (table,) = tables_in(grid)
    assert read_formula(grid, table).rows[0].note == note.strip()


def test_that_a_large_file_a_folder_and_a_missing_file_are_refused(tmp_path):
    large = tmp_path / "large.csv"
    large.write_bytes(b"a" * (MOST_BYTES + 1))
    for path in (large, tmp_path, tmp_path / "none.csv"):
        with pytest.raises(WorkbenchError):
            read_sheets(path)
