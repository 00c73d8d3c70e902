"""Sheets kept as a workbook (XLSX): read without trusting them, written plainly."""

from __future__ import annotations

import io
import re
import warnings
import zipfile
from collections.abc import Iterator
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from itertools import zip_longest
from typing import TYPE_CHECKING

from workbench.formula.old_sheet import MOST_CELLS, MOST_ROWS, At
from workbench.storage.sentences import refusal
from workbench.storage.sheet_text import require_size

if TYPE_CHECKING:
    from collections.abc import Sequence

    from openpyxl.cell import Cell, MergedCell
    from openpyxl.cell.read_only import EmptyCell, ReadOnlyCell

    AnyCell = Cell | MergedCell | EmptyCell | ReadOnlyCell

MOST_UNPACKED, MOST_PARTS, MOST_RATIO = 40_000_000, 500, 300
MOST_SHEETS = 40
_SMALL = 1_000_000
_DIGITS = 15
# Blank cells that only carry a border or a colour are counted here too.
_MOST_PACKED_CELLS = 2 * MOST_CELLS
_DOCTYPE = re.compile(rb"<!\s*(?:DOCTYPE|ENTITY)", re.IGNORECASE)


class Book:
    """Hold what a workbook's sheets say, and the cells whose calculation has no stored value."""

    def __init__(self) -> None:
        """Begin without sheets."""
        self.sheets: list[tuple[str, list[list[str]], dict[At, str], set[At]]] = []


def read_workbook(content: bytes, file: str) -> Book:
    """Return the cells of a workbook; calculations give the value that was stored, if any.

    Raises
    ------
    WorkbenchError
        If it is damaged, locked with a password, unpacks to far more than a formula sheet, or
        has too many rows or columns.
    """
    _require_harmless(content, file)
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # what openpyxl leaves out is not what is read here
            return _read(content, file)
    except (MemoryError, RecursionError):
        raise refusal("sheet-too-large", file=file, limit=MOST_UNPACKED // 1_000_000) from None
    except _FAULTS as error:
        raise refusal("sheet-damaged", detail=repr(error)[:300], file=file) from error


def _require_harmless(content: bytes, file: str) -> None:
    """Look at the packed parts before any is read: their number, size and declarations."""
    limit = MOST_UNPACKED // 1_000_000
    try:
        with zipfile.ZipFile(io.BytesIO(content)) as packed:
            parts = packed.infolist()
            sizes = [part.file_size for part in parts]
            is_huge = sum(sizes) > MOST_UNPACKED or len(parts) > MOST_PARTS
            if is_huge or any(_is_bomb(part) for part in parts):
                raise refusal("sheet-too-large", file=file, limit=limit)
            if any(part.flag_bits & 1 for part in parts):
                raise refusal("sheet-locked", file=file)
            names = {part.filename for part in parts}
            if "[Content_Types].xml" not in names:
                raise refusal("sheet-not-workbook", file=file)
            for part in parts:
                if part.filename.endswith((".xml", ".rels")):
                    start = packed.read(part)
                    if _DOCTYPE.search(start.replace(b"\x00", b"")):
                        raise refusal("sheet-damaged", file=file)
    except _FAULTS as error:
        raise refusal("sheet-damaged", detail=repr(error)[:300], file=file) from error


def _is_bomb(part: zipfile.ZipInfo) -> bool:
    ratio = part.file_size / max(part.compress_size, 1)
    return part.file_size > _SMALL and ratio > MOST_RATIO


def _read(content: bytes, file: str) -> Book:
    from openpyxl import load_workbook

    packed = _sheet_bytes(content)
    if packed.count(b"<c ") > _MOST_PACKED_CELLS:
        raise refusal("sheet-too-many-cells", file=file, limit=MOST_CELLS)
    values = load_workbook(io.BytesIO(content), read_only=True, data_only=True, keep_links=False)
    book = Book()
    try:
        sheets = values.worksheets
        if len(sheets) > MOST_SHEETS:
            raise refusal("sheet-too-many-sheets", file=file, limit=MOST_SHEETS)
        for sheet in sheets:
            sheet.reset_dimensions()  # what a file says of its size need not be so
            rows, numeric = _cells(sheet.iter_rows(), file)
            book.sheets.append((str(sheet.title), rows, {}, numeric))
    finally:
        values.close()
    if b"<f" in packed:
        _note_calculations(content, book)
    return book


def _sheet_bytes(content: bytes) -> bytes:
    with zipfile.ZipFile(io.BytesIO(content)) as packed:
        names = [name for name in packed.namelist() if name.startswith("xl/worksheets/")]
        return b"".join(packed.read(name) for name in names)


def _cells(rows: Iterator[Sequence[AnyCell]], file: str) -> tuple[list[list[str]], set[At]]:
    found: list[list[str]] = []
    numeric: set[At] = set()
    filled = rows_filled = 0
    for row, cells in enumerate(rows):
        texts = [_text(cell) for cell in cells]
        while texts and not texts[-1]:
            texts.pop()
        rows_filled += bool(texts)
        filled += sum(map(bool, texts))
        far = MOST_ROWS + 1 if row > MOST_ROWS * 10 else 0
        require_size(max(rows_filled, far), len(texts), file, filled)
        found.append(texts)
        numeric |= {
            (row, column)
            for column, cell in enumerate(cells[: len(texts)])
            if isinstance(cell.value, int | float) and not isinstance(cell.value, bool)
        }
    while found and not found[-1]:
        found.pop()
    return found, numeric


def _note_calculations(content: bytes, book: Book) -> None:
    """Find the calculations that have no stored value, so that they are told as not read."""
    from openpyxl import load_workbook

    formulas = load_workbook(io.BytesIO(content), read_only=True, keep_links=False)
    try:
        for sheet, (_, rows, lost, _numeric) in zip(formulas.worksheets, book.sheets, strict=False):
            sheet.reset_dimensions()
            for row, (cells, texts) in enumerate(
                zip_longest(sheet.iter_rows(max_row=MOST_ROWS * 10), rows, fillvalue=())
            ):
                for column, cell in enumerate(cells):
                    value = cell.value
                    has_value = column < len(texts) and bool(texts[column])
                    if cell.data_type == "f" and not has_value:
                        lost[row, column] = str(value)[:200]
    finally:
        formulas.close()


def _text(cell: AnyCell) -> str:
    """Return what a cell shows, numbers to the digits a spreadsheet keeps."""
    value = cell.value
    if value is None:
        return ""
    if isinstance(value, bool):
        return "TRUE" if value else "FALSE"
    if isinstance(value, int | float):
        return _number(value, str(cell.number_format or ""))
    if isinstance(value, datetime):
        return value.date().isoformat() if value.time() == time() else value.isoformat(" ")
    if isinstance(value, date | time | timedelta):
        return str(value)
    return str(value)


def _number(value: float, shown_as: str) -> str:
    if value != value or value in (float("inf"), float("-inf")):  # noqa: PLR0124
        return "#NUM!"
    number = Decimal(f"{value:.{_DIGITS}g}") if isinstance(value, float) else Decimal(value)
    is_percent = "%" in re.sub(r'"[^"]*"|\\.', "", shown_as)
    if is_percent:
        number *= 100
    if number.adjusted() > _DIGITS + 5 or number.adjusted() < -_DIGITS - 5:
        return f"{number:E}"
    text = format(number, "f")
    text = text.rstrip("0").rstrip(".") if "." in text else text
    unit = re.search(r'"\s*(kg|g|mg|oz|lb|lbs|ml|l)\s*"', shown_as, re.IGNORECASE)
    if is_percent:
        return f"{text}%"
    return f"{text} {unit[1]}" if unit else text


def workbook_bytes(name: str, rows: Sequence[Sequence[str]]) -> bytes:
    """Return a workbook of one sheet; every cell is text or a number, none a calculation."""
    from openpyxl import Workbook

    book = Workbook(write_only=True)
    sheet = book.create_sheet(_sheet_name(name))
    for row in rows:
        sheet.append([_written(sheet, text) for text in row])
    made = io.BytesIO()
    book.save(made)
    return made.getvalue()


def _written(sheet: object, text: str) -> object:
    from openpyxl.cell import WriteOnlyCell

    if re.fullmatch(r"[0-9]{1,12}(?:\.[0-9]{1,8})?", text):
        cell = WriteOnlyCell(sheet, value=float(text))  # type: ignore[arg-type]
        places = len(text.partition(".")[2])
        cell.number_format = "0." + "0" * places if places else "0"
        return cell
    bare = re.sub(r"[\x00-\x08\x0b\x0c\x0e-\x1f]", " ", text)
    cell = WriteOnlyCell(sheet, value=bare)  # type: ignore[arg-type]
    cell.data_type = "s"
    return cell


def _sheet_name(name: str) -> str:
    return re.sub(r"[\[\]:*?/\\'\x00-\x1f]", " ", name).strip()[:31] or "Formula"


def _faults() -> tuple[type[Exception], ...]:
    import zlib
    from xml.etree.ElementTree import ParseError

    return (
        zipfile.BadZipFile,
        zlib.error,
        ParseError,
        KeyError,
        ValueError,
        TypeError,
        IndexError,
        AttributeError,
        EOFError,
        OSError,
        NotImplementedError,
        OverflowError,
        AssertionError,
        RuntimeError,
    )


_FAULTS = _faults()
