"""Files of sheets: CSV, TSV and XLSX, read by what they hold and written by their ending."""

from __future__ import annotations

import csv
import io
import re
from pathlib import Path

from workbench.formula.old_sheet import LONGEST_CELL, At, Grid, UnreadCell
from workbench.formula.sheet_export import unguarded
from workbench.storage.sentences import refusal
from workbench.storage.sheet_text import Rows, decoded, rows_of_text
from workbench.storage.sheet_workbook import read_workbook, workbook_bytes
from workbench.storage.text_file import read_bytes_file, write_bytes_file

ENDINGS = (".csv", ".tsv", ".xlsx", ".xlsm", ".txt", ".tab")
WRITTEN = (".csv", ".tsv", ".xlsx")
MOST_BYTES = 10_000_000
_CONTROLS = re.compile(r"[\x00-\x08\x0e-\x1f\x7f\ud800-\udfff]")
_PACKED, _OLD_OFFICE = b"PK\x03\x04", b"\xd0\xcf\x11\xe0"
_NOT_SHEETS = (b"%PDF", b"{\\rtf", b"\x89PNG", b"\xff\xd8\xff", b"GIF8", b"SQLite format 3")


def is_sheet_file(path: Path) -> bool:
    """Tell by its ending whether a file is a sheet."""
    return path.suffix.casefold() in ENDINGS


def read_sheets(path: Path) -> tuple[Grid, ...]:
    """Return the sheets of a file, each as its cells; nothing in them is calculated.

    Raises
    ------
    WorkbenchError
        If it cannot be read, is too large, or is no sheet; the sentence says why.
    """
    content = _content(path)
    return sheets_of(content, path.name)


def sheets_of(content: bytes, file: str) -> tuple[Grid, ...]:
    """Return the sheets that bytes hold; `file` names them in a refusal."""
    stem = Path(file).stem
    if content.startswith(_PACKED):
        book = read_workbook(content, file)
        found = [
            _grid(file, rows, lost, numeric, name) for name, rows, lost, numeric in book.sheets
        ]
    elif content.startswith(_OLD_OFFICE):
        raise refusal("sheet-old-workbook", file=file)
    elif content.startswith(_NOT_SHEETS):
        raise refusal("sheet-not-text", file=file)
    else:
        found = [_grid(file, rows_of_text(decoded(content, file), file), {}, set(), stem)]
    kept = tuple(grid for grid in found if grid.cells)
    if not kept:
        raise refusal("sheet-empty", file=file)
    return kept


def write_sheet(path: Path, name: str, rows: tuple[tuple[str, ...], ...]) -> None:
    """Write rows that were made harmless as CSV, TSV or XLSX, by the ending of the path.

    Raises
    ------
    WorkbenchError
        If the ending is another one, or the file cannot be written.
    """
    ending = path.suffix.casefold()
    if ending not in WRITTEN:
        raise refusal("sheet-ending", file=path.name)
    if ending == ".xlsx":
        write_bytes_file(path, workbook_bytes(name, rows))
        return
    made = io.StringIO(newline="")
    writer = csv.writer(made, delimiter="\t" if ending == ".tsv" else ",", lineterminator="\r\n")
    writer.writerows(rows)
    # The mark lets spreadsheets see that the letters are UTF-8.
    write_bytes_file(path, made.getvalue().encode("utf-8-sig"))


def _content(path: Path) -> bytes:
    content = read_bytes_file(path, MOST_BYTES)
    if len(content) > MOST_BYTES:
        raise refusal("sheet-too-large", file=path.name, limit=MOST_BYTES // 1_000_000)
    if not content.strip():
        raise refusal("sheet-empty", file=path.name)
    return content


def _grid(file: str, rows: Rows, lost: dict[At, str], numeric: set[At], name: str) -> Grid:
    height = max((at[0] + 1 for at in lost), default=0)
    rows = [*rows, *([[]] * (height - len(rows)))]
    width = max((len(row) for row in rows), default=0)
    width = max((width, *(at[1] + 1 for at in lost)))
    if any(len(text) > LONGEST_CELL for row in rows for text in row):
        raise refusal("sheet-long-cell", file=file, limit=LONGEST_CELL)
    cells = tuple(tuple(_clean(text) for text in row) + ("",) * (width - len(row)) for row in rows)
    if not lost and not any(any(row) for row in cells):
        cells = ()
    told = tuple(UnreadCell(at, text, "sheet-calculation") for at, text in sorted(lost.items()))
    return Grid(name, cells, told, frozenset(numeric))


def _clean(text: str) -> str:
    bare = unguarded(_CONTROLS.sub(" ", text))
    return " ".join(bare.split())
