"""Sheets kept as text: which letters the bytes are, and what parts the cells."""

from __future__ import annotations

import codecs
import csv
import io
import re
from collections import Counter
from itertools import islice

from workbench.formula.old_sheet import MOST_CELLS, MOST_COLUMNS, MOST_ROWS
from workbench.formula.tab_text import LONGEST_CELL as PASTED_CELL
from workbench.formula.tab_text import cells_of
from workbench.storage.sentences import refusal

Rows = list[list[str]]

DELIMITERS = (",", ";", "\t", "|")
_BOMS = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF32_LE, "utf-32"),
    (codecs.BOM_UTF32_BE, "utf-32"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)
_NAMED = re.compile(r"sep=(.)\r?\n", re.IGNORECASE)
_MEASURE = re.compile(
    r"(?P<amount>[0-9\u00bc\u00bd\u00be][0-9.,/ ]*(?:tsp|tbsp|teaspoons?|tablespoons?|drops?"
    r"|cups?|lbs?|pounds?|ounces?|grams?|fl\.? ?oz|pumps?|capfuls?|parts?))\.?\s+"
    r"(?:of\s+)?(?P<name>\S.*)",
    re.IGNORECASE,
)
_OPEN = {0xDC00 + byte: byte for byte in range(0x80, 0x100)}
_LEAST_BODY = 3
_SAMPLE = 400
_MOST_CONTROLS = 0.02
_PAIR = 2


def decoded(content: bytes, file: str) -> str:
    """Return the text of a sheet's bytes: by its mark, as UTF-8, UTF-16, or Windows-1252.

    Raises
    ------
    WorkbenchError
        If the bytes are no text.
    """
    for bom, name in _BOMS:
        if content.startswith(bom):
            return _as(content, name, file)
    if b"\x00" in content:
        even, odd = content[0::2].count(0), content[1::2].count(0)
        name = "utf-16-le" if odd > even else "utf-16-be"
        if max(even, odd) * 3 < len(content) // _PAIR:
            raise refusal("sheet-not-text", file=file)
        return _as(content, name, file)
    try:
        return _without_controls(content.decode("utf-8"), file)
    except UnicodeDecodeError:
        # The five bytes Windows-1252 leaves open stand for themselves, so nothing is lost.
        letters = content.decode("cp1252", errors="surrogateescape")
        return _without_controls(letters.translate(_OPEN), file)


def rows_of_text(text: str, file: str) -> Rows:
    """Return the cells of a text, parted by what parts them best.

    Raises
    ------
    WorkbenchError
        If there are more rows or columns than a formula sheet has.
    """
    named = _NAMED.match(text)
    if named:
        return _parted(text[named.end() :], named[1], file)
    delimiter = delimiter_of(text)
    if delimiter is None:
        return [list(row) for row in _single(text, file)]
    rows = _parted(text, delimiter, file)
    return _with_decimal_commas(rows) if delimiter == "," else rows


def _with_decimal_commas(rows: Rows) -> Rows:
    """Join amounts whose decimal comma was taken for a mark between cells: 69,10.

    That is so where each row with figures has exactly one cell more than the headings, and two
    whole numbers stand beside each other at one and the same place.
    """
    head = next((row for row in rows if len([text for text in row if text.strip()]) > 1), [])
    body = [row for row in rows if row is not head and len(row) > len(head)]
    if len(body) < _LEAST_BODY or any(len(row) != len(head) + 1 for row in body):
        return rows
    if any(text.strip()[:1].isdigit() for text in head):
        return rows
    for place in range(len(head)):
        pairs = [row[place : place + 2] for row in body]
        if all(
            a.strip().isdecimal() and re.fullmatch(r"\s*[0-9]{1,4}\s*%?\s*", b) for a, b in pairs
        ):
            return [
                [*row[:place], f"{row[place].strip()},{row[place + 1].strip()}", *row[place + 2 :]]
                if len(row) > len(head)
                else row
                for row in rows
            ]
    return rows


def delimiter_of(text: str) -> str | None:
    """Return what parts the cells of a text, None where nothing does.

    Notes
    -----
    The sign that gives most rows the same number of cells wins; a comma that only stands
    between digits is a decimal mark.
    """
    lines = [line for line in islice(io.StringIO(text), _SAMPLE) if line.strip()]
    if not lines:
        return None
    best, most = None, 0.0
    for delimiter in DELIMITERS:
        counts = Counter(_cells_in(line, delimiter) for line in lines)
        counts.pop(1, None)
        if not counts:
            continue
        width, rows = max(counts.items(), key=lambda item: (item[1], item[0]))
        filled = sum(counts.values())
        score = rows / len(lines) + filled / len(lines) + min(width, 6) / 100
        if score > most and filled * 3 >= len(lines):
            best, most = delimiter, score
    return best


def _cells_in(line: str, delimiter: str) -> int:
    bare = re.sub(r'"[^"]*"', "", line)
    if delimiter == ",":
        bare = re.sub(r"(?<=[0-9]),(?=[0-9])", "", bare) if ";" in line or "\t" in line else bare
        bare = re.sub(r", ", " ", bare)
    return bare.count(delimiter) + 1


def _parted(text: str, delimiter: str, file: str) -> Rows:
    try:
        return _read(text, delimiter, file, csv.QUOTE_MINIMAL)
    except csv.Error:
        # Quotation marks that do not pair are letters like others (1/2" pieces).
        try:
            return _read(text, delimiter, file, csv.QUOTE_NONE)
        except csv.Error as error:
            limit = csv.field_size_limit()
            raise refusal("sheet-long-cell", detail=str(error), file=file, limit=limit) from error


def _read(text: str, delimiter: str, file: str, quoting: int) -> Rows:
    lines = io.StringIO(text, newline="")
    reader = csv.reader(
        lines,
        delimiter=delimiter,
        quoting=quoting,  # type: ignore[arg-type]
        strict=quoting == csv.QUOTE_MINIMAL,
        skipinitialspace=delimiter != "\t",
    )
    rows: Rows = []
    filled = 0
    for row in reader:
        rows.append(row)
        filled += sum(map(bool, row))
        require_size(len(rows), len(row), file, filled)
    return rows


def _single(text: str, file: str) -> tuple[tuple[str, ...], ...]:
    lines = [line for line in text.splitlines() if line.strip()]
    require_size(len(lines), 1, file)
    # What pasting would cut short is refused here, so that nothing is lost.
    if any(len(line) > PASTED_CELL for line in lines):
        raise refusal("sheet-long-cell", file=file, limit=PASTED_CELL)
    cells = tuple(_measured(row) for row in cells_of(text))
    require_size(len(cells), len(cells[0]) if cells else 0, file)
    return cells


def _measured(row: tuple[str, ...]) -> tuple[str, ...]:
    """Part an amount in spoons, drops and the like from the name behind it."""
    found = _MEASURE.fullmatch(row[0]) if not any(row[1:]) else None
    return (found["name"], found["amount"], *row[2:]) if found else row


def require_size(rows: int, columns: int, file: str, cells: int = 0) -> None:
    """Refuse what has more rows, columns or filled cells than a formula sheet has."""
    if cells > MOST_CELLS:
        raise refusal("sheet-too-many-cells", file=file, limit=MOST_CELLS)
    if rows > MOST_ROWS:
        raise refusal("sheet-too-many-rows", file=file, limit=MOST_ROWS)
    if columns > MOST_COLUMNS:
        raise refusal("sheet-too-many-columns", file=file, limit=MOST_COLUMNS)


def _as(content: bytes, name: str, file: str) -> str:
    try:
        return _without_controls(content.decode(name), file)
    except UnicodeDecodeError as error:
        raise refusal("sheet-not-text", detail=str(error), file=file) from error


def _without_controls(text: str, file: str) -> str:
    """Refuse what is mostly no letters; a stray control sign is passed on as a blank."""
    controls = sum(letter < " " and letter not in "\t\r\n\x0b\x0c" for letter in text)
    if controls > max(2, len(text) * _MOST_CONTROLS):
        raise refusal("sheet-not-text", file=file)
    return re.sub(r"[\x00-\x08\x0e-\x1f\x7f]", " ", text)
