"""The rows of the formula list: headings and formulas, and how each is said."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import QAbstractListModel, QModelIndex, QPersistentModelIndex, Qt

from workbench.ui.places.desk.entries import ListedFormula, Section
from workbench.words.catalogue import Words

if TYPE_CHECKING:
    from PySide6.QtWidgets import QWidget

Index = QModelIndex | QPersistentModelIndex
Row = Section | ListedFormula
ROW_ROLE = Qt.ItemDataRole.UserRole


class ListModel(QAbstractListModel):
    """Hold headings and formulas in the order they are shown."""

    def __init__(self, words: Words, parent: QWidget) -> None:
        super().__init__(parent)
        self._words = words
        self._places: dict[str, int] = {}
        self.rows: tuple[Row, ...] = ()

    def set_formulas(self, formulas: tuple[ListedFormula, ...]) -> bool:
        """Take the formulas; tell whether rows came, went or moved."""
        rows: list[Row] = []
        for section in Section:
            under = [formula for formula in formulas if formula.section is section]
            rows.extend((section, *under) if under else ())
        new = tuple(rows)
        if [_id(row) for row in new] == [_id(row) for row in self.rows]:
            self._renew(new)
            return False
        self.beginResetModel()
        self.rows = new
        self._places = {
            row.key: place for place, row in enumerate(new) if isinstance(row, ListedFormula)
        }
        self.endResetModel()
        return True

    def row_of(self, key: str) -> int | None:
        """Return where a formula stands, or None."""
        return self._places.get(key)

    def _renew(self, new: tuple[Row, ...]) -> None:
        before, self.rows = self.rows, new
        for place, (old, row) in enumerate(zip(before, new, strict=True)):
            if old != row:
                index = self.index(place, 0)
                self.dataChanged.emit(index, index)

    def rowCount(self, parent: Index | None = None) -> int:
        """Return how many rows there are."""
        return 0 if parent is not None and parent.isValid() else len(self.rows)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        """Return the row, or its text."""
        if not index.isValid():
            return None
        row = self.rows[index.row()]
        answers: dict[int, Callable[[], object]] = {
            ROW_ROLE: lambda: row,
            Qt.ItemDataRole.DisplayRole: lambda: first_line(row, self._words),
            Qt.ItemDataRole.ToolTipRole: lambda: spoken(row, self._words),
            Qt.ItemDataRole.AccessibleTextRole: lambda: spoken(row, self._words),
        }
        return answers[role]() if role in answers else None

    def flags(self, index: Index) -> Qt.ItemFlag:
        """Let only formulas be chosen."""
        if index.isValid() and isinstance(self.rows[index.row()], ListedFormula):
            return Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable
        return Qt.ItemFlag.NoItemFlags


def first_line(row: Row, words: Words) -> str:
    """Return the heading, or the name of the formula."""
    return words.say(f"list-section-{row.value}") if isinstance(row, Section) else row.name


def second_line(row: ListedFormula, words: Words) -> str:
    """Return in words what state a formula is in, and its tags."""
    state = words.say(
        "desk-list-state",
        state="draft" if row.is_changed else "version",
        version=row.version or 0,
    )
    if row.is_stock:
        used = words.say("desk-list-used", count=row.used_in)
        state = words.say("list-stock", used=used) if row.section is Section.ARCHIVED else used
    return words.say("list-state-tags", state=state, tags=", ".join(row.tags), count=len(row.tags))


def spoken(row: Row, words: Words) -> str:
    """Return a row as it is read out."""
    if isinstance(row, Section):
        return first_line(row, words)
    return f"{row.name}, {second_line(row, words)}"


def _id(row: Row) -> str:
    return row.value if isinstance(row, Section) else f"{row.section.value} {row.key}"
