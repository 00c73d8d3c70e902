"""Ingredients: the shipped ones and the maker's own."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from sqlalchemy import Connection, insert, select

from workbench.formula.facts import ingredient_facts, ingredient_from_facts
from workbench.formula.ingredient import Ingredient
from workbench.storage.json_text import to_mapping, to_text
from workbench.storage.schema import FormulaRow, IngredientRow, SearchEntryRow
from workbench.storage.search_index import findable, index
from workbench.storage.sentences import refusal
from workbench.storage.stored_formula import UNREADABLE
from workbench.storage.studio_file import StudioFile


class Ingredients:
    """Keep the shelf."""

    def __init__(self, file: StudioFile) -> None:
        """Take the file they are in."""
        self._file = file

    def get(self, keys: Iterable[str]) -> dict[str, Ingredient]:
        """Return the ingredients of these keys; a key that is none is left out."""
        with self._file.reading() as connection:
            return read_ingredients(connection, keys)

    def names(self) -> tuple[tuple[str, str], ...]:
        """Return key and name of every ingredient and stock, by name."""
        query = select(SearchEntryRow.key, SearchEntryRow.name).order_by(
            SearchEntryRow.folded_name, SearchEntryRow.key
        )
        with self._file.reading() as connection:
            return tuple((row.key, row.name) for row in connection.execute(query))

    def add_own(self, item: Ingredient) -> str:
        """Store an ingredient of the maker's own and return its key.

        Raises
        ------
        WorkbenchError
            If an ingredient or formula of that key is there already.
        """
        own = replace(item, is_own=True)
        with self._file.writing() as connection:
            for taken in (IngredientRow.key, FormulaRow.key):
                if connection.scalar(select(taken).where(taken == own.key)) is not None:
                    raise refusal("key-taken", key=own.key)
            write_ingredients(connection, (own,))
        return own.key


def read_ingredients(connection: Connection, keys: Iterable[str]) -> dict[str, Ingredient]:
    """Return the ingredients of these keys; a key that is none is left out."""
    query = select(IngredientRow.key, IngredientRow.facts)
    found = connection.execute(query.where(IngredientRow.key.in_(sorted(set(keys)))))
    return {row.key: ingredient_of(row.facts, row.key) for row in found}


def ingredient_of(text: str, key: str) -> Ingredient:
    """Return the ingredient a JSON text holds, or refuse naming which cannot be read."""
    try:
        return ingredient_from_facts(to_mapping(text))  # type: ignore[arg-type]
    except UNREADABLE as error:
        raise refusal("unreadable-ingredient", detail=repr(error), key=key) from error


def write_ingredients(
    connection: Connection,
    items: Iterable[Ingredient],
    other_names: Mapping[str, tuple[str, ...]] | None = None,
) -> None:
    """Store new ingredients and make them findable, also by other names given by key."""
    new = tuple(items)
    if not new:
        return
    rows = [
        {
            "key": item.key,
            "name": item.name,
            "facts": to_text(ingredient_facts(item)),
            "is_own": item.is_own,
            "counter": 1,
        }
        for item in new
    ]
    connection.execute(insert(IngredientRow), rows)
    others = other_names or {}
    index(connection, (findable(item, others.get(item.key, ())) for item in new))
