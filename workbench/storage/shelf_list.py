"""What the list of the shelf shows of every ingredient, read without its other facts."""

from __future__ import annotations

import json
from dataclasses import dataclass
from functools import lru_cache

from sqlalchemy import Connection, func, select

from workbench.storage.schema import IngredientRow, SearchEntryRow, SupplyRow


@dataclass(frozen=True, slots=True)
class ListedIngredient:
    """Hold one line of the list; `is_there` tells whether it is on hand."""

    key: str
    name: str
    inci: str
    functions: tuple[str, ...]
    solubility: str
    charge: str
    is_own: bool
    is_there: bool


def read_list(connection: Connection) -> tuple[ListedIngredient, ...]:
    """Return every ingredient by name."""
    return tuple(
        ListedIngredient(
            key=key,
            name=name,
            inci=inci,
            functions=_words(functions),
            solubility=solubility or "",
            charge=charge or "",
            is_own=bool(is_own),
            is_there=bool(is_there),
        )
        for key, name, inci, functions, solubility, charge, is_own, is_there in connection.execute(
            _LIST
        )
    )


@lru_cache(maxsize=4096)
def _words(text: str | None) -> tuple[str, ...]:
    # Thousands of ingredients share a few hundred sets of functions.
    return tuple(json.loads(text)) if text else ()


# The facts are taken apart by SQLite, which is many times quicker than reading them whole.
_FACT = IngredientRow.facts
_LIST = (
    select(
        IngredientRow.key,
        IngredientRow.name,
        SearchEntryRow.inci,
        func.json_extract(_FACT, "$.functions"),
        func.json_extract(_FACT, "$.solubility"),
        func.json_extract(_FACT, "$.charge"),
        IngredientRow.is_own,
        SupplyRow.on_hand,
    )
    .join(SearchEntryRow, SearchEntryRow.key == IngredientRow.key)
    .outerjoin(SupplyRow, SupplyRow.ingredient == IngredientRow.key)
    .order_by(SearchEntryRow.folded_name, IngredientRow.key)
)
