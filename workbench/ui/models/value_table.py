"""A table of immutable rows that tells a view only what really changed."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterator, Sequence
from dataclasses import dataclass
from operator import attrgetter
from typing import Generic, TypeVar

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QObject, QPersistentModelIndex, Qt

from workbench.ui.models.column import LOOK_ROLE, SORT_ROLE, VALUE_ROLE, Cell, Column
from workbench.ui.models.row_changes import Insert, Move, Remove, moved, steps_between

__all__ = ["LOOK_ROLE", "SORT_ROLE", "VALUE_ROLE", "Column", "ValueTableModel"]

R = TypeVar("R")
Index = QModelIndex | QPersistentModelIndex

_TOP = QModelIndex()
_Role = Qt.ItemDataRole
_READ = Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable | Qt.ItemFlag.ItemNeverHasChildren
_EDITABLE = _READ | Qt.ItemFlag.ItemIsEditable
_TOLD: dict[int, Callable[[Cell], object]] = {
    int(_Role.DisplayRole): attrgetter("text"),
    int(_Role.EditRole): attrgetter("typed"),
    int(_Role.ToolTipRole): attrgetter("tip"),
    int(_Role.AccessibleTextRole): attrgetter("accessible"),
    SORT_ROLE: attrgetter("sort"),
    LOOK_ROLE: attrgetter("look"),
}


@dataclass(frozen=True, slots=True)
class _Shown(Generic[R]):
    """A row with its cells made ready, since a view asks for each many times."""

    row: R
    cells: tuple[Cell, ...]


class ValueTableModel(QAbstractTableModel, Generic[R]):
    """Show a tuple of rows, each known by its id."""

    def __init__(
        self,
        columns: Sequence[Column[R]],
        row_id: Callable[[R], Hashable],
        parent: QObject | None = None,
    ) -> None:
        super().__init__(parent)
        self._columns = tuple(columns)
        self._places = {column.key: place for place, column in enumerate(self._columns)}
        self._row_id = row_id
        self._ids: list[Hashable] = []
        self._shown: list[_Shown[R]] = []
        self._is_telling = False

    @property
    def rows(self) -> tuple[R, ...]:
        """The rows as they are shown."""
        return tuple(shown.row for shown in self._shown)

    @property
    def columns(self) -> tuple[Column[R], ...]:
        """The columns, from the left."""
        return self._columns

    def row_at(self, index: Index) -> R:
        """Return the row an index stands in."""
        return self._shown[index.row()].row

    def index_of(self, row_id: Hashable, key: str) -> QModelIndex:
        """Return the index of a row's cell by column key; an invalid index without such a row."""
        if row_id not in self._ids:
            return QModelIndex()
        return self.index(self._ids.index(row_id), self._places[key])

    def set_rows(self, rows: Sequence[R]) -> None:
        """Show these rows, and tell the views of each difference and of nothing else."""
        if self._is_telling:
            raise RuntimeError("rows cannot be set while their change is being told")
        ids = [self._row_id(row) for row in rows]
        if len(set(ids)) != len(ids):
            raise ValueError("two rows have the same id")
        self._is_telling = True
        try:
            self._reorder(ids, rows)
            self._renew(rows)
        finally:
            self._is_telling = False

    def _reorder(self, ids: list[Hashable], rows: Sequence[R]) -> None:
        for step in steps_between(self._ids, ids):
            if isinstance(step, Remove):
                self._remove(step)
            elif isinstance(step, Move):
                self._move(step)
            else:
                self._insert(step, ids, rows)

    def _remove(self, step: Remove) -> None:
        end = step.first + step.count
        self.beginRemoveRows(_TOP, step.first, end - 1)
        del self._ids[step.first : end]
        del self._shown[step.first : end]
        self.endRemoveRows()

    def _move(self, step: Move) -> None:
        self.beginMoveRows(_TOP, step.first, step.first + step.count - 1, _TOP, step.before)
        moved(self._ids, step)
        moved(self._shown, step)
        self.endMoveRows()

    def _insert(self, step: Insert, ids: list[Hashable], rows: Sequence[R]) -> None:
        end = step.first + step.count
        made = [self._made(row) for row in rows[step.first : end]]
        self.beginInsertRows(_TOP, step.first, end - 1)
        self._ids[step.first : step.first] = ids[step.first : end]
        self._shown[step.first : step.first] = made
        self.endInsertRows()

    def _renew(self, rows: Sequence[R]) -> None:
        renewed: dict[int, _Shown[R]] = {}
        for place, row in enumerate(rows):
            old = self._shown[place].row
            if old is not row and old != row:
                renewed[place] = self._made(row)
        runs = {
            place: tuple(_differing(self._shown[place].cells, new.cells))
            for place, new in renewed.items()
        }
        # A sorting proxy puts the told rows in their place among the others, which must not have
        # changed untold by then: so each group is changed and told before the next one is.
        for first, last in _groups(runs):
            for place in range(first, last + 1):
                self._shown[place] = renewed[place]
            for left, right in runs[first]:
                self.dataChanged.emit(self.index(first, left), self.index(last, right))

    def _made(self, row: R) -> _Shown[R]:
        return _Shown(row, tuple(column.cell(row) for column in self._columns))

    # Qt's own names from here.

    def rowCount(self, parent: Index = _TOP) -> int:
        """Return the number of rows; a cell has none below it."""
        return 0 if parent.isValid() else len(self._shown)

    def columnCount(self, parent: Index = _TOP) -> int:
        """Return the number of columns; a cell has none below it."""
        return 0 if parent.isValid() else len(self._columns)

    def data(self, index: Index, role: int = _Role.DisplayRole) -> object:
        """Return what a view asks of a cell."""
        if not index.isValid():
            return None
        shown = self._shown[index.row()]
        told = _TOLD.get(role)
        if told is not None:
            return told(shown.cells[index.column()])
        if role == VALUE_ROLE:
            return shown.row
        if role == _Role.TextAlignmentRole:
            return self._columns[index.column()].alignment
        return None

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = _Role.DisplayRole
    ) -> object:
        """Return the heading of a column, set as its cells are."""
        if orientation != Qt.Orientation.Horizontal or not 0 <= section < len(self._columns):
            return None
        if role == _Role.DisplayRole:
            return self._columns[section].header
        if role == _Role.TextAlignmentRole:
            return self._columns[section].alignment
        return None

    def flags(self, index: Index) -> Qt.ItemFlag:
        """Return what can be done with a cell."""
        if not index.isValid():
            return Qt.ItemFlag.NoItemFlags
        is_editable = self._shown[index.row()].cells[index.column()].is_editable
        return _EDITABLE if is_editable else _READ

    def setData(self, index: Index, value: object, role: int = _Role.EditRole) -> bool:
        """Hand typed text to the column's commit; the rows change when the news comes back."""
        if role != _Role.EditRole or not index.isValid():
            return False
        shown = self._shown[index.row()]
        commit = self._columns[index.column()].commit
        if commit is None or not shown.cells[index.column()].is_editable:
            return False
        return commit(shown.row, str(value))


def _differing(old: tuple[Cell, ...], new: tuple[Cell, ...]) -> Iterator[tuple[int, int]]:
    """Yield first and last of every run of cells that differ."""
    first: int | None = None
    for place, (before, after) in enumerate(zip(old, new, strict=True)):
        if before != after:
            first = place if first is None else first
        elif first is not None:
            yield first, place - 1
            first = None
    if first is not None:
        yield first, len(new) - 1


def _groups(runs: dict[int, tuple[tuple[int, int], ...]]) -> list[tuple[int, int]]:
    """Return first and last of rows that follow each other and differ in the same columns."""
    groups: list[tuple[int, int]] = []
    for place, run in runs.items():
        if groups and groups[-1][1] == place - 1 and runs[place - 1] == run:
            groups[-1] = (groups[-1][0], place)
        else:
            groups.append((place, place))
    return groups
