"""What each column of pasted text most likely is, and which mark its decimals have."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from enum import Enum

from workbench.formula.tab_text import Cells
from workbench.units import Ambiguous, Quantity, parse_quantity
from workbench.units.factors import PERCENT

POINT, COMMA = ".", ","
REST_WORDS = frozenset({"rest", "q.s.", "q.s", "qs", "q. s.", "to 100", "ad 100", "qs to 100"})
TOTAL_WORDS = frozenset({"total", "totals", "sum", "subtotal", "summe", "gesamt", "somme"})


class Role(Enum):
    """What a column of pasted text is taken for."""

    NAME = "name"
    INCI = "inci"
    PERCENT = "percent"
    SHARE = "share"
    GRAMS = "grams"
    OUNCES = "ounces"
    PHASE = "phase"
    NOTE = "note"
    IGNORE = "ignore"


AMOUNTS = (Role.PERCENT, Role.SHARE, Role.GRAMS, Role.OUNCES)
# What headings of other programs and hand-made sheets say; whole words, small letters.
_HEADINGS: tuple[tuple[Role, tuple[str, ...]], ...] = (
    (Role.INCI, ("inci", "inci name", "label name")),
    (Role.PERCENT, ("%", "percent", "% w/w", "w/w", "wt %", "wt%", "pct", "prozent", "% (w/w)")),
    (Role.GRAMS, ("g", "grams", "gram", "weight", "mass", "weight (g)", "mass (g)", "gramm")),
    (Role.OUNCES, ("oz", "ounce", "ounces", "weight (oz)")),
    (Role.PHASE, ("phase", "part", "stage")),
    (Role.NOTE, ("note", "notes", "comment", "comments", "remark", "remarks")),
    (Role.NAME, ("ingredient", "ingredients", "name", "material", "raw material", "component")),
)
_BY_COMMA = re.compile(r"[0-9],[0-9]{1,2}(?![0-9])|[0-9],[0-9]{4,}|(?<![0-9])0,[0-9]|\.[0-9]{3},")
_BY_POINT = re.compile(
    r"[0-9]\.[0-9]{1,2}(?![0-9])|[0-9]\.[0-9]{4,}|(?<![0-9])0\.[0-9]|,[0-9]{3}\."
)
_EITHER = re.compile(r"[1-9][0-9]{0,2}[.,][0-9]{3}(?![0-9])")
_LONGEST_PHASE = 3
_MOST_PERCENT = Decimal(120)
_NEAR_ONE = (Decimal("0.9"), Decimal("1.1"))


@dataclass(frozen=True, slots=True)
class Reading:
    """Hold how pasted cells are read.

    `mark` is the decimal mark, None while it has to be asked for.
    """

    roles: tuple[Role, ...]
    has_header: bool
    mark: str | None


def guessed(cells: Cells, *, decimal_comma: bool) -> Reading:
    """Return how pasted cells are most likely meant.

    Parameters
    ----------
    cells
        Rows of equal length.
    decimal_comma
        How the maker writes decimals, for cells that show no mark at all.
    """
    if not cells:
        return Reading((), has_header=False, mark=COMMA if decimal_comma else POINT)
    mark = mark_of(cells, decimal_comma=decimal_comma)
    has_header = _has_header(cells)
    head = cells[0] if has_header else ("",) * len(cells[0])
    body = [row for row in cells[int(has_header) :] if not _is_total(row)]
    by_heading = [_role_of(text) for text in head]
    columns = [tuple(row[place] for row in body) for place in range(len(head))]
    return Reading(
        _roles(by_heading, columns, mark or (COMMA if decimal_comma else POINT)), has_header, mark
    )


def mark_of(cells: Cells, *, decimal_comma: bool) -> str | None:
    """Return the decimal mark of pasted cells; None where both readings are possible."""
    texts = [cell for row in cells for cell in row if is_number_like(cell)]
    has_comma = any(_BY_COMMA.search(text) for text in texts)
    has_point = any(_BY_POINT.search(text) for text in texts)
    if has_comma != has_point:
        return COMMA if has_comma else POINT
    if has_comma or any(_EITHER.search(text) for text in texts):
        return None
    return COMMA if decimal_comma else POINT


def quantity_of(text: str, mark: str) -> Quantity | None:
    """Return what a cell says, read with one decimal mark; None where it is no quantity."""
    read = parse_quantity(text, decimal_comma=mark == COMMA)
    if isinstance(read, Ambiguous) and read.readings[0].unit == read.readings[1].unit:
        return read.readings[0 if mark == COMMA else 1]
    return read if isinstance(read, Quantity) else None


def is_number_like(text: str) -> bool:
    """Tell whether a cell begins with a figure and is short enough to be an amount."""
    bare = text.lstrip("~<\u2248 ")
    if not bare[:1].isdigit():
        return False
    return any(quantity_of(bare, mark) is not None for mark in (POINT, COMMA))


def is_rest(text: str) -> bool:
    """Tell whether a cell says that its line takes the rest."""
    return text.strip().casefold() in REST_WORDS


def _has_header(cells: Cells) -> bool:
    first = cells[0]
    if any(is_number_like(cell) or is_rest(cell) for cell in first):
        return False
    if sum(_role_of(cell) is not None for cell in first) >= min(2, len(first)):
        return True
    places = [place for place, cell in enumerate(first) if cell]
    below = [row[place] for row in cells[1:] for place in places]
    return len(places) > 1 and any(is_number_like(cell) for cell in below)


def _role_of(heading: str) -> Role | None:
    text = heading.strip().casefold()
    for role, words in _HEADINGS:
        if text in words:
            return role
    if "%" in text:  # "weight %" is a percent, though it names a weight
        return Role.PERCENT
    for role, words in _HEADINGS:
        if any(len(word) > 1 and word in text.split() for word in words):
            return role
    return None


def _roles(
    by_heading: Sequence[Role | None], columns: Sequence[tuple[str, ...]], mark: str
) -> tuple[Role, ...]:
    roles: list[Role | None] = []
    for role in by_heading:  # a role can be one column's only
        roles.append(None if role in roles else role)
    for place, column in enumerate(columns):
        if roles[place] is None and _is_figures(column):
            roles[place] = _amount_role(column, mark, roles)
    names = [place for place, role in enumerate(roles) if role is None and any(columns[place])]
    for place in names if Role.NAME in roles or len(names) > 1 else ():
        if Role.PHASE not in roles and _is_phase(columns[place]):
            roles[place] = Role.PHASE
    texts = [place for place, role in enumerate(roles) if role is None and any(columns[place])]
    if Role.NAME not in roles and texts:
        roles[max(texts[:2], key=lambda place: _fullness(columns[place]))] = Role.NAME
    return tuple(Role.IGNORE if role is None else role for role in roles)


def _is_total(row: Sequence[str]) -> bool:
    return any(cell.casefold().rstrip(":") in TOTAL_WORDS for cell in row)


def _is_figures(column: tuple[str, ...]) -> bool:
    filled = [cell for cell in column if cell]
    amounts = sum(is_number_like(cell) or is_rest(cell) for cell in filled)
    return bool(filled) and amounts * 2 > len(filled)


def _amount_role(column: tuple[str, ...], mark: str, taken: Sequence[Role | None]) -> Role | None:
    read = [found for cell in column if (found := quantity_of(cell, mark)) is not None]
    units = {found.unit for found in read}
    values = [found.value for found in read]
    if len(values) > 2 and values[-1] == sum(values[:-1]):  # noqa: PLR2004 (a total below them)
        values.pop()
    total = sum(values, Decimal(0))
    role = Role.GRAMS
    if PERCENT in units:
        role = Role.PERCENT
    elif units == {None} and _NEAR_ONE[0] <= total <= _NEAR_ONE[1] and len(values) > 1:
        role = Role.SHARE
    elif units == {None} and total <= _MOST_PERCENT:
        role = Role.PERCENT
    elif "oz" in units:
        role = Role.OUNCES
    return None if role in taken else role


def _is_phase(column: tuple[str, ...]) -> bool:
    filled = [cell for cell in column if cell]
    return bool(filled) and all(
        len(cell) <= _LONGEST_PHASE or cell.casefold().startswith("phase") for cell in filled
    )


def _fullness(column: tuple[str, ...]) -> tuple[int, int]:
    return len(set(column)), sum(map(len, column))
