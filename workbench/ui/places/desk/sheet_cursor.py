"""Where the cursor of the sheet goes."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, Qt
from PySide6.QtWidgets import QAbstractItemView, QTableView

from workbench.ui.models.value_table import ValueTableModel
from workbench.ui.places.desk.columns import INGREDIENT, KEYS, STOPS
from workbench.ui.places.desk.rows import NEW_ID, Kind, SheetRow

Action = QAbstractItemView.CursorAction
NO_KEYS = Qt.KeyboardModifier.NoModifier
_STEPS = {Action.MoveUp: -1, Action.MoveDown: 1, Action.MovePageUp: -12, Action.MovePageDown: 12}
_SIDES = {
    Action.MoveLeft: -1,
    Action.MovePrevious: -1,
    Action.MoveRight: 1,
    Action.MoveNext: 1,
}
_TYPED_INTO = (Kind.LINE, Kind.NEW)


class SheetCursor:
    """Say which cell a key leads to.

    Up and Down pass over the total only; Enter and Tab, which follow typing, pass over the heads
    of phases too.
    """

    def __init__(self, view: QTableView, model: ValueTableModel[SheetRow]) -> None:
        self._view = view
        self._model = model

    def moved(self, action: Action, modifiers: Qt.KeyboardModifier) -> QModelIndex:
        """Return the cell an action of the view leads to."""
        here = self._view.currentIndex()
        places = self._places((*_TYPED_INTO, Kind.HEAD))
        if not here.isValid():
            lines = self._places(_TYPED_INTO)
            return self.at(lines[0] if lines else 0, INGREDIENT)
        key = KEYS[here.column()]
        has_ctrl = bool(modifiers & Qt.KeyboardModifier.ControlModifier)
        if action in _STEPS:
            return self.at(_stepped(places, here.row(), _STEPS[action]), key)
        if action in _SIDES:
            return self._sideways(here, _SIDES[action])
        if action is Action.MoveHome:
            return self.at(places[0] if has_ctrl else here.row(), self.stops[0])
        if action is Action.MoveEnd:
            return self.at(places[-1] if has_ctrl else here.row(), self.stops[-1])
        return here

    def after_typing(self, step: int) -> QModelIndex:
        """Return the cell above (-1) or below (+1) that can be typed into."""
        here = self._view.currentIndex()
        if not here.isValid():
            return self.moved(Action.MoveDown, NO_KEYS)
        places = self._places(_TYPED_INTO)
        return self.at(_stepped(places, here.row(), step), KEYS[here.column()])

    def at(self, place: int, key: str) -> QModelIndex:
        """Return a cell; the last row has one cell only."""
        if self._model.rows[place].id == NEW_ID or key not in STOPS:
            key = INGREDIENT
        return self._model.index(place, KEYS.index(key))

    @property
    def stops(self) -> list[str]:
        """The columns the cursor can stand in, from the left."""
        header = self._view.horizontalHeader()
        shown = [key for key in STOPS if not self._view.isColumnHidden(KEYS.index(key))]
        return sorted(shown, key=lambda key: header.visualIndex(KEYS.index(key)))

    def _sideways(self, here: QModelIndex, step: int) -> QModelIndex:
        key, stops = KEYS[here.column()], self.stops
        place = (stops.index(key) if key in stops else 0) + step
        if 0 <= place < len(stops) and self._model.row_at(here).kind is not Kind.NEW:
            return self.at(here.row(), stops[place])
        there = _stepped(self._places(_TYPED_INTO), here.row(), step)
        if there == here.row():
            return here
        return self.at(there, stops[0 if step > 0 else -1])

    def _places(self, kinds: tuple[Kind, ...]) -> list[int]:
        return [place for place, row in enumerate(self._model.rows) if row.kind in kinds]


def _stepped(places: list[int], here: int, step: int) -> int:
    """Return the place `step` stops away from here, held within the places."""
    if step > 0:
        beyond = [place for place in places if place > here]
        return beyond[min(step, len(beyond)) - 1] if beyond else here
    beyond = [place for place in reversed(places) if place < here]
    return beyond[min(-step, len(beyond)) - 1] if beyond else here
