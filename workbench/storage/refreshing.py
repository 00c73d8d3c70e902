"""Bringing the shipped ingredients of an older studio to those of today's tables."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from sqlalchemy import Connection, select, update

from workbench.formula.facts import ingredient_facts
from workbench.storage.filling import shipped_ingredients
from workbench.storage.ingredients import write_ingredients
from workbench.storage.json_text import to_text
from workbench.storage.reference.tables import load_reference_set
from workbench.storage.schema import FormulaRow, IngredientRow, StudioRow
from workbench.storage.search_index import findable, index, unindex
from workbench.storage.studio_file import StudioFile


@dataclass(frozen=True, slots=True)
class Refreshed:
    """Hold what a newer set of tables brought: how many ingredients changed, how many are new."""

    before: str
    after: str
    changed: int
    added: int


def refresh_studio(file: StudioFile, folder: Path) -> Refreshed | None:
    """Take over the shipped ingredients of a set later than the studio's; None if it is not.

    The maker's own ingredients stay as they are, one that is no longer shipped stays too, and
    a shipped one whose key the maker has given to something else is left out.
    """
    after = load_reference_set(folder).id
    with file.reading() as connection:
        if _reference_set(connection) >= after:
            return None
    with file.writing() as connection:
        before = _reference_set(connection)
        if before >= after:  # another window was first
            return None
        changed, added = _refreshed(connection, folder)
        connection.execute(update(StudioRow).values(reference_set=after))
    return Refreshed(before, after, changed, added)


def _reference_set(connection: Connection) -> str:
    # A set is named by year and month, so that the names sort as time does.
    return connection.scalar(select(StudioRow.reference_set)) or ""


def _refreshed(connection: Connection, folder: Path) -> tuple[int, int]:
    items, others = shipped_ingredients(folder)
    stored = {
        row.key: row
        for row in connection.execute(
            select(IngredientRow.key, IngredientRow.facts, IngredientRow.is_own)
        )
    }
    taken = set(connection.scalars(select(FormulaRow.key)))
    new = [item for key, item in items.items() if key not in stored and key not in taken]
    changed = 0
    for key, item in items.items():
        if key not in stored or stored[key].is_own:
            continue
        facts = to_text(ingredient_facts(item))
        if facts != stored[key].facts:
            changed += 1
            connection.execute(
                update(IngredientRow)
                .where(IngredientRow.key == key)
                .values(name=item.name, facts=facts, counter=IngredientRow.counter + 1)
            )
        unindex(connection, key)
        index(connection, (findable(item, others.get(key, ())),))
    write_ingredients(connection, new, others)
    return changed, len(new)
