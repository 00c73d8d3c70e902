"""Where the formulas stand on an old sheet."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from workbench.formula.old_sheet import At, Grid
from workbench.formula.old_sheet_amounts import is_amount_like
from workbench.formula.old_sheet_columns import (
    AMOUNTS,
    Column,
    Kind,
    column_kind,
    is_table,
    is_unit_row,
    once,
    parted_units,
    segments,
    with_units,
)
from workbench.formula.old_sheet_texts import (
    ABOVE_HEADINGS,
    COLLECTION,
    LABEL,
    NO_TITLE,
    is_phase_text,
    is_total_text,
)

_TITLE_REACH = 8
_LONGEST_TITLE = 80
_MOST_GAP = 2
_LEAST_ROWS = 2


@dataclass(frozen=True, slots=True)
class Table:
    """Hold where one formula stands: its heading rows, the rows of its body, and its columns.

    `bottom` is the row behind the last one. `left` and `right` bound its columns, `right` being
    the column behind the last one. `batch` are cells that tell how much it makes.
    """

    title: str
    title_at: tuple[At, ...]
    heads: tuple[int, ...]
    top: int
    bottom: int
    left: int
    right: int
    columns: tuple[Column, ...]

    def place(self, kind: Kind) -> int | None:
        """Return the column of a kind."""
        return next((one.place for one in self.columns if one.kind is kind), None)


def tables_in(grid: Grid) -> tuple[Table, ...]:
    """Return the formulas that stand on a sheet, from the top, those beside each other too."""
    found = tuple(_with_headings(grid)) or tuple(_without_headings(grid))
    titled = []
    for table in found:
        floor = max((one.bottom for one in found if one.bottom <= _first(table)), default=0)
        floor = max(floor, _first(table) - _TITLE_REACH)
        has_neighbour = any(_first(one) == _first(table) and one is not table for one in found)
        titled.append(_titled(grid, table, floor, is_nearest=has_neighbour))
    return tuple(titled)


def _with_headings(grid: Grid) -> Iterator[Table]:
    heads = [
        (row, found)
        for row, cells in enumerate(grid.cells)
        if (found := segments(cells) or _unnamed(grid, row))
    ]
    for at, (row, found) in enumerate(heads):
        for place, columns in enumerate(found):
            left = 0 if place == 0 else columns[0].place
            right = found[place + 1][0].place if place + 1 < len(found) else len(grid.cells[row])
            is_same = [
                later
                for later, others in heads[at + 1 :]
                if any(left <= one[0].place < right or one[0].place < left for one in others)
            ]
            bottom = min(is_same, default=len(grid.cells))
            if _is_repeat(grid, heads, at):
                continue
            bottom = _past_repeats(grid, heads, at, bottom)
            yield _headed(grid, row, bottom, (left, right), columns)


def _unnamed(grid: Grid, row: int) -> tuple[tuple[Column, ...], ...]:
    """Return the columns of headings that leave out the one of the names: ", %, g"."""
    cells = grid.cells[row]
    if row and segments(grid.cells[row - 1]):
        return ()  # the units of the headings above
    said = {place: column_kind(text) for place, text in enumerate(cells) if text}
    columns = [Column(place, *kind) for place, kind in said.items() if kind is not None]
    amounts = [one.place for one in columns if one.kind in AMOUNTS]
    if not amounts or any(is_amount_like(text) for text in cells if text):
        return ()
    is_plain = all(kind is not None or is_phase_text(cells[place]) for place, kind in said.items())
    below = [line for line in grid.cells[row + 1 : row + 1 + _TITLE_REACH] if line[amounts[0]]]
    names = {
        place: sum(_is_name(line[place]) for line in below)
        for place in range(amounts[0])
        if said.get(place) is None
    }
    place = max(names, key=lambda one: names[one], default=None)
    if not is_plain or place is None or not names[place]:
        return ()
    named = Column(place, Kind.NAME)
    return (tuple(sorted([named, *columns], key=lambda one: one.place)),)


def _headed(
    grid: Grid, row: int, bottom: int, span: tuple[int, int], columns: tuple[Column, ...]
) -> Table:
    heads: tuple[int, ...] = (row,)
    top = row + 1
    if top < bottom and is_unit_row(grid.cells[top][span[0] : span[1]]):
        columns = with_units(columns, grid.cells[top])
        heads, top = (row, top), top + 1
    columns = once(columns, parted_units(columns, grid.cells[top:bottom]))
    bottom = _without_next_title(grid, top, bottom)
    return Table("", (), heads, top, bottom, span[0], span[1], columns)


def _is_repeat(grid: Grid, heads: Sequence[tuple[int, object]], at: int) -> bool:
    """Tell whether a heading row only repeats the one before it in the same table."""
    if not at:
        return False
    before, row = heads[at - 1][0], heads[at][0]
    if grid.cells[before] != grid.cells[row]:
        return False
    between = grid.cells[before + 1 : row]
    has_total = any(is_total_text(text) for cells in between for text in cells if text)
    above = next((cells for cells in reversed(between) if any(cells)), ())
    said = [text for text in above if text]
    is_titled = len(said) == 1 and not is_phase_text(said[0]) and not is_amount_like(said[0])
    return not has_total and not is_titled


def _past_repeats(grid: Grid, heads: Sequence[tuple[int, object]], at: int, bottom: int) -> int:
    place = at + 1
    while place < len(heads) and heads[place][0] == bottom and _is_repeat(grid, heads, place):
        place += 1
        bottom = heads[place][0] if place < len(heads) else len(grid.cells)
    return bottom


def _without_next_title(grid: Grid, top: int, bottom: int) -> int:
    """Leave the title rows above the next headings to the table below."""
    if bottom >= len(grid.cells):
        return bottom
    last = bottom
    while last > top:
        said = [text for text in grid.cells[last - 1] if text]
        has_amount = any(is_amount_like(text) for text in said[1:])
        if has_amount and not ABOVE_HEADINGS.fullmatch(said[0]):
            break
        if len(said) > _MOST_GAP:
            break
        if len(said) == 1 and is_phase_text(said[0]) and last == bottom:
            break
        last -= 1
    while last < bottom and not any(grid.cells[last]):
        last += 1
    return last


def _first(table: Table) -> int:
    return table.heads[0] if table.heads else table.top


def _titled(grid: Grid, table: Table, floor: int, *, is_nearest: bool) -> Table:
    """Give a table the title that stands above it, a labelled one before any other.

    Of plain ones the first counts that is not of a collection; the nearest one where tables
    stand beside each other, as one above them names them all.
    """
    plain: tuple[str, tuple[At, ...]] | None = None
    for row in range(floor, _first(table)):
        said = [
            (column, text)
            for column, text in enumerate(grid.cells[row])
            if text and (table.left <= column < table.right)
        ]
        if not said:
            continue
        column, text = said[0]
        label = LABEL.fullmatch(text)
        if label and label["said"]:
            return _named(table, label["said"], ((row, column),))
        if label and len(said) > 1:
            return _named(table, said[1][1], ((row, column), (row, said[1][0])))
        is_title = len(text) <= _LONGEST_TITLE and not NO_TITLE.fullmatch(text)
        is_open = is_nearest or plain is None or COLLECTION.fullmatch(plain[0]) is not None
        if is_open and is_title and not is_amount_like(text):
            plain = text, ((row, column),)
    return _named(table, *plain) if plain else table


def _named(table: Table, title: str, at: tuple[At, ...]) -> Table:
    return Table(
        title.strip(),
        at,
        table.heads,
        table.top,
        table.bottom,
        table.left,
        table.right,
        table.columns,
    )


# Sheets without headings: what is text and what is an amount tells the columns.


def _without_headings(grid: Grid) -> Iterator[Table]:
    for top, bottom in _runs(grid):
        columns = _by_content(grid, top, bottom)
        if is_table(columns):
            yield Table("", (), (), top, bottom, 0, len(grid.cells[0]), columns)


def _runs(grid: Grid) -> Iterator[tuple[int, int]]:
    """Yield where rows with a name and an amount follow each other, gaps of two rows allowed."""
    begun, last = -1, -1
    for row, cells in enumerate(grid.cells):
        if not _is_line(cells):
            continue
        if begun >= 0 and row - last > _MOST_GAP + 1:
            if last - begun + 1 >= _LEAST_ROWS:
                yield _from_phase(grid, begun), last + 1
            begun = row
        begun = row if begun < 0 else begun
        last = row
    if begun >= 0 and last - begun + 1 >= _LEAST_ROWS:
        yield _from_phase(grid, begun), last + 1


def _from_phase(grid: Grid, row: int) -> int:
    """Let a table begin with the phase named right above its first line."""
    for above in range(row - 1, max(row - 1 - _MOST_GAP, -1), -1):
        said = [text for text in grid.cells[above] if text]
        if said:
            return above if len(said) == 1 and is_phase_text(said[0]) else row
    return row


def _is_line(cells: Sequence[str]) -> bool:
    filled = [text for text in cells if text]
    has_amount = any(is_amount_like(text) for text in filled)
    return has_amount and any(_is_name(text) for text in filled)


def _is_name(text: str) -> bool:
    return sum(letter.isalpha() for letter in text) > 1 and not is_amount_like(text)


def _by_content(grid: Grid, top: int, bottom: int) -> tuple[Column, ...]:
    rows = [cells for cells in grid.cells[top:bottom] if _is_line(cells)]
    columns: list[Column] = []
    for place in range(len(grid.cells[0])):
        texts = [row[place] for row in rows if row[place]]
        if not texts:
            continue
        kind = _content_kind(texts, len(rows), columns)
        above = [grid.cells[row][place] for row in range(max(top - _MOST_GAP, 0), top)]
        if kind in AMOUNTS and any(column_kind(text) == (Kind.OTHER, "") for text in above):
            kind = Kind.OTHER  # a list of prices
        columns.append(Column(place, kind))
    return tuple(columns)


def _content_kind(texts: Sequence[str], rows: int, before: Sequence[Column]) -> Kind:
    amounts = sum(is_amount_like(text) for text in texts)
    kinds = {column.kind for column in before}
    if amounts * 2 > len(texts):
        is_counted = [text.rstrip(".)") for text in texts] == [
            str(number) for number in range(1, len(texts) + 1)
        ]
        if kinds.intersection(AMOUNTS) or (is_counted and rows > _LEAST_ROWS and not kinds):
            return Kind.OTHER
        return Kind.AMOUNT
    if Kind.PHASE not in kinds and all(is_phase_text(text) for text in texts):
        return Kind.PHASE
    if Kind.NAME not in kinds:
        return Kind.NAME if len(texts) * 2 > rows else Kind.OTHER
    return Kind.NOTE if Kind.NOTE not in kinds else Kind.OTHER
