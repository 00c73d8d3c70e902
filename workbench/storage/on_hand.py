"""What can be drafted from: the ingredients on hand, and the stocks made of nothing else."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

from sqlalchemy import select

from workbench.storage.formula_entries import STOCK
from workbench.storage.schema import FormulaRow, FormulaUseRow, SupplyRow

if TYPE_CHECKING:
    from sqlalchemy import Connection


def available(connection: Connection) -> frozenset[str]:
    """Return the keys of what is on hand, and of every stock whose lines all are.

    A stock that contains itself, or is empty, can never be made and is not among them.
    """
    there = set(connection.scalars(select(SupplyRow.ingredient).where(SupplyRow.on_hand)))
    needs: defaultdict[str, set[str]] = defaultdict(set)
    rows = connection.execute(
        select(FormulaRow.key, FormulaUseRow.ingredient)
        .join(FormulaUseRow, FormulaUseRow.formula_id == FormulaRow.id)
        .where(FormulaRow.product_type == STOCK)
    )
    for key, ingredient in rows:
        needs[key].add(ingredient)
    waiting = {key for key in needs if key not in there}
    while made := {key for key in waiting if needs[key] <= there}:
        there |= made
        waiting -= made
    return frozenset(there)
