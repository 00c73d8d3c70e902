"""Which formulas an ingredient or stock goes into, through every stock."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass

from sqlalchemy import Connection, select

from workbench.storage.folding import folded
from workbench.storage.schema import FormulaRow, FormulaUseRow


@dataclass(frozen=True, slots=True)
class Use:
    """Hold one formula that something goes into.

    `through` names the stock that brings it, empty where the formula has it on a line.
    """

    key: str
    name: str
    product_type: str
    archived: bool
    through: str = ""


def read_uses(connection: Connection, key: str) -> tuple[Use, ...]:
    """Return every formula whose draft uses a key, itself or through stocks, by name."""
    users = defaultdict(list)
    formulas = {}
    rows = connection.execute(
        select(
            FormulaRow.key,
            FormulaRow.name,
            FormulaRow.product_type,
            FormulaRow.archived,
            FormulaUseRow.ingredient,
        ).join(FormulaUseRow, FormulaUseRow.formula_id == FormulaRow.id)
    )
    for user, name, product_type, archived, used in rows:
        users[used].append(user)
        formulas[user] = (name, product_type, archived)
    found: dict[str, Use] = {}
    to_follow = [(key, "")]
    while to_follow:
        used, through = to_follow.pop(0)
        for user in sorted(users[used]):
            if user not in found and user != key:
                found[user] = Use(user, *formulas[user], through=through)
                to_follow.append((user, formulas[user][0]))
    return tuple(sorted(found.values(), key=lambda use: (folded(use.name), use.key)))
