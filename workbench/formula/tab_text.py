"""Tab-separated text as spreadsheets exchange it: cells to text and text to cells."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

Cells = tuple[tuple[str, ...], ...]

TAB, SEMICOLON = "\t", ";"
MOST_ROWS, LONGEST_CELL = 2000, 2000
_GUARDED = "=+-@"
_GUARD = "'"
_NUMBER = re.compile(r"[-+]?[0-9][0-9.,\u00a0 ]*%?")
_NEEDS_QUOTES = re.compile(r'[\t\r\n]|^"')
_BREAKS = re.compile(r"\r\n|\r|[\n\u2028\u2029]")
_ENDING_AMOUNT = re.compile(
    r"(?P<name>.*?[^\s:\u2013-])\s*[:\u2013-]?\s+"
    r"(?P<amount>[0-9][0-9.,]*\s*(?:%|g|kg|mg|oz|ml)?|q\.?\s?s\.?|rest)",
    re.IGNORECASE,
)
_LEADING_AMOUNT = re.compile(
    r"(?P<amount>[0-9][0-9.,]*\s*(?:%|g|kg|mg|oz|ml))\s+(?P<name>\S.*)", re.IGNORECASE
)


def tab_text(rows: Iterable[Sequence[str]]) -> str:
    r"""Return rows as text for the clipboard, one a line, cells parted by tabs.

    Notes
    -----
    A cell that a spreadsheet would take for a calculation (it begins with =, +, - or @ and is no
    plain number) gets an apostrophe before it, which spreadsheets take as "this is text" and
    `cells_of` takes off again. Cells with tabs or line breaks are quoted, as spreadsheets do.

    >>> tab_text([("=1+1", "4.00")])
    "'=1+1\t4.00\n"
    """
    return "".join(TAB.join(_written(cell) for cell in row) + "\n" for row in rows)


def cells_of(text: str) -> Cells:
    """Return the cells of pasted text, without empty columns at the right and empty rows.

    Notes
    -----
    Parted by tabs where there is one, else by semicolons; else each line is a name with its
    amount behind or before it. Every row gets as many cells as the longest.
    """
    separator = TAB if TAB in text or not _is_semicolons(text) else SEMICOLON
    rows = [[_clean(cell) for cell in row] for row in _split(text, separator)]
    if separator == TAB and all(len(row) == 1 for row in rows):
        rows = [list(_name_and_amount(row[0])) for row in rows]
    rows = [row for row in rows if any(row)]
    width = max((_last_filled(row) for row in rows), default=0)
    return tuple(tuple((row + [""] * width)[:width]) for row in rows)


def _written(cell: str) -> str:
    if cell[:1] and cell[0] in _GUARDED and not _NUMBER.fullmatch(cell):
        cell = _GUARD + cell
    if _NEEDS_QUOTES.search(cell):
        return '"' + cell.replace('"', '""') + '"'
    return cell


def _split(text: str, separator: str) -> list[list[str]]:
    """Part a text into rows of cells; quotes hold a cell together, as spreadsheets write it."""
    rows: list[list[str]] = [[]]
    place = 0
    while place <= len(text):
        cell, place = _cell(text, place, separator)
        rows[-1].append(cell)
        if place >= len(text):
            break
        if text[place] == separator:
            place += 1
            continue
        place += len(_BREAKS.match(text, place)[0])  # type: ignore[index]
        rows.append([])
    return rows


def _cell(text: str, place: int, separator: str) -> tuple[str, int]:
    """Return the cell that begins at a place, and where it ends."""
    if text[place : place + 1] == '"':
        quoted = re.compile(r'"((?:[^"]|"")*)"').match(text, place)
        end = quoted.end() if quoted else 0
        if quoted and (end == len(text) or text[end] == separator or _BREAKS.match(text, end)):
            return quoted[1].replace('""', '"'), end
    plain = re.compile(rf"[^{separator}\r\n\u2028\u2029]*").match(text, place)
    return (plain[0], plain.end()) if plain else ("", place)


def _clean(cell: str) -> str:
    text = " ".join(cell.replace("\u00a0", " ").replace("\u202f", " ").split())
    is_guarded = text[:1] == _GUARD and text[1:2] and text[1] in _GUARDED
    return (text[1:] if is_guarded else text)[:LONGEST_CELL]


def _is_semicolons(text: str) -> bool:
    lines = [line for line in _BREAKS.split(text) if line.strip()]
    return bool(lines) and sum(SEMICOLON in line for line in lines) * 2 > len(lines)


def _name_and_amount(line: str) -> tuple[str, ...]:
    ending = _ENDING_AMOUNT.fullmatch(line)
    if ending:
        return ending["name"], ending["amount"]
    leading = _LEADING_AMOUNT.fullmatch(line)
    return (leading["name"], leading["amount"]) if leading else (line,)


def _last_filled(row: Sequence[str]) -> int:
    return max((place + 1 for place, cell in enumerate(row) if cell), default=0)
