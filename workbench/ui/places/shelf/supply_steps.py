"""Changes of how ingredients are bought: each stored at once, each a step that undo takes back."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QUndoCommand, QUndoStack

from workbench.errors import WorkbenchError
from workbench.formula.supply import Supply
from workbench.ui.places.desk.work import DeskWork


class SupplySteps(QObject):
    """Store supplies; the list of a certificate is none of these steps and stays as it is."""

    stored = Signal(object)
    """A supply as it is stored now, after a step, its undo, or a refusal."""

    def __init__(self, work: DeskWork, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._work = work
        self.stack = QUndoStack(self)

    def store(self, supply: Supply) -> None:
        """Store a supply over the state of its counter as one step."""
        before = self._work.studio.supplies.get(supply.ingredient)
        if before.counter != supply.counter:
            try:
                self._work.studio.supplies.save(supply)  # refused in words: it is stale
            except WorkbenchError as error:
                self._work.notices.tell(error)
            self.stored.emit(before)
            return
        if supply != before:
            self.stack.push(_Step(self, before, supply, self._text(supply)))

    def set_there(self, key: str, *, is_there: bool) -> None:
        """Store whether an ingredient is on hand."""
        self.store(replace(self._work.studio.supplies.get(key), on_hand=is_there))

    def write(self, supply: Supply) -> bool:
        """Store the values of a supply over whatever is stored; tell when that cannot be."""
        supplies = self._work.studio.supplies
        try:
            now = supplies.get(supply.ingredient)
            saved = supplies.save(
                replace(
                    supply,
                    counter=now.counter,
                    allergens=now.allergens,
                    certificate_date=now.certificate_date,
                    certificate_lot=now.certificate_lot,
                )
            )
        except WorkbenchError as error:
            self._work.notices.tell(error)
            return False
        self.stored.emit(saved)
        return True

    def _text(self, supply: Supply) -> str:
        found = self._work.studio.ingredients.get([supply.ingredient])
        item = found.get(supply.ingredient)
        name = item.name if item else supply.ingredient
        return self._work.words.say("shelf-undo-supply", name=name)


class _Step(QUndoCommand):
    """Put one supply in the place of another."""

    def __init__(self, steps: SupplySteps, before: Supply, after: Supply, text: str) -> None:
        super().__init__(text)
        self._steps = steps
        self._before = before
        self._after = after

    def redo(self) -> None:
        """Store the supply after; called at once by the push."""
        self.setObsolete(not self._steps.write(self._after))

    def undo(self) -> None:
        """Store the supply before."""
        self.setObsolete(not self._steps.write(self._before))
