"""Ingredients: the shipped ones and the maker's own."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from sqlalchemy import Connection, delete, insert, select, update

from workbench.formula.facts import ingredient_facts, ingredient_from_facts
from workbench.formula.ingredient import Ingredient
from workbench.storage.attachments import drop_attachments
from workbench.storage.json_text import to_mapping, to_text
from workbench.storage.schema import FormulaRow, FormulaUseRow, IngredientRow, SearchEntryRow
from workbench.storage.search_index import findable, index, unindex
from workbench.storage.sentences import refusal
from workbench.storage.shelf_list import ListedIngredient, read_list
from workbench.storage.stored_formula import UNREADABLE
from workbench.storage.studio_file import StudioFile
from workbench.storage.supplies import drop_supply
from workbench.storage.where_used import Use, read_uses


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

    def listed(self) -> tuple[ListedIngredient, ...]:
        """Return what the list of the shelf shows of every ingredient, by name."""
        with self._file.reading() as connection:
            return read_list(connection)

    def used_in(self, key: str) -> tuple[Use, ...]:
        """Return the formulas whose drafts use an ingredient, itself or through stocks."""
        with self._file.reading() as connection:
            return read_uses(connection, key)

    def taken_keys(self) -> frozenset[str]:
        """Return every key that an ingredient or a formula has."""
        with self._file.reading() as connection:
            keys = set(connection.scalars(select(IngredientRow.key)))
            return frozenset(keys | set(connection.scalars(select(FormulaRow.key))))

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

    def entry(self, key: str) -> tuple[Ingredient, int]:
        """Return an ingredient and the counter that changing it asks for.

        Raises
        ------
        WorkbenchError
            If there is none of this key.
        """
        with self._file.reading() as connection:
            return _read_entry(connection, key)

    def update_own(self, item: Ingredient, counter: int) -> int:
        """Store an own ingredient over the state of that counter and return the new counter.

        Raises
        ------
        WorkbenchError
            If another window has stored it since, or it is none of the maker's own.
        """
        own = replace(item, is_own=True)
        with self._file.writing() as connection:
            stored, now = _read_entry(connection, own.key)
            if not stored.is_own:
                raise refusal("ingredient-shipped", name=stored.name)
            if now != counter:
                raise refusal("stale", name=stored.name)
            connection.execute(
                update(IngredientRow)
                .where(IngredientRow.key == own.key)
                .values(name=own.name, facts=to_text(ingredient_facts(own)), counter=counter + 1)
            )
            unindex(connection, own.key)
            index(connection, (findable(own),))
        return counter + 1

    def delete_own(self, key: str) -> None:
        """Delete an own ingredient that no draft uses, with its supply and its files.

        Versions keep the facts they were made with, so they do not hold it back.

        Raises
        ------
        WorkbenchError
            If it is none of the maker's own, or a draft uses it.
        """
        with self._file.writing() as connection:
            item, _ = _read_entry(connection, key)
            if not item.is_own:
                raise refusal("ingredient-shipped", name=item.name)
            users = tuple(
                connection.scalars(
                    select(FormulaRow.name)
                    .join(FormulaUseRow, FormulaUseRow.formula_id == FormulaRow.id)
                    .where(FormulaUseRow.ingredient == key)
                    .order_by(FormulaRow.name)
                )
            )
            if users:
                raise refusal("delete-is-used", name=item.name, users=users[:5])
            unindex(connection, key)
            drop_supply(connection, key)
            drop_attachments(connection, key)
            connection.execute(delete(IngredientRow).where(IngredientRow.key == key))


def _read_entry(connection: Connection, key: str) -> tuple[Ingredient, int]:
    row = connection.execute(
        select(IngredientRow.facts, IngredientRow.counter).where(IngredientRow.key == key)
    ).one_or_none()
    if row is None:
        raise refusal("no-such-ingredient", key=key)
    return ingredient_of(row.facts, key), row.counter


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
