"""What search looks in: kept beside the ingredients and stocks in the same transactions."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from sqlalchemy import Connection, delete, func, insert, select, text

from workbench.formula.ingredient import Ingredient
from workbench.storage.folding import folded, tails
from workbench.storage.schema import FULL_TEXT, SearchEntryRow, SearchTailRow

# Which text a tail is cut from; the whole name has an index of its own.
NAME_WORD, INCI, INCI_WORD, CAS = 1, 2, 3, 4

_ADD_TEXT = text(f"INSERT INTO {FULL_TEXT} (rowid, words) VALUES (:rowid, :words)")
_DROP_TEXT = text(f"DELETE FROM {FULL_TEXT} WHERE rowid = :rowid")


@dataclass(frozen=True, slots=True)
class Findable:
    """Hold what search knows of one ingredient or stock."""

    key: str
    name: str
    is_stock: bool = False
    inci: str = ""
    cas: tuple[str, ...] = ()
    other: tuple[str, ...] = ()


def findable(item: Ingredient, other_names: tuple[str, ...] = ()) -> Findable:
    """Return what search shall know of an ingredient."""
    return Findable(
        key=item.key,
        name=item.name,
        inci=item.inci,
        cas=item.cas,
        other=(item.key, *item.functions, *item.tags, *other_names),
    )


def index(connection: Connection, items: Iterable[Findable]) -> None:
    """Make items findable that were not."""
    first = (connection.scalar(select(func.max(SearchEntryRow.id))) or 0) + 1
    entries: list[dict[str, object]] = []
    endings: set[tuple[int, str, int]] = set()
    texts: list[dict[str, object]] = []
    for place, item in enumerate(items, first):
        name = folded(item.name)
        entries.append(
            {
                "id": place,
                "key": item.key,
                "is_stock": item.is_stock,
                "name": item.name,
                "inci": item.inci,
                "folded_name": name,
            }
        )
        endings.update(_endings(place, item, name))
        pieces = (item.name, item.inci, *item.cas, *item.other)
        texts.append({"rowid": place, "words": " ".join(map(folded, pieces))})
    if not entries:
        return
    connection.execute(insert(SearchEntryRow), entries)
    connection.execute(_ADD_TEXT, texts)
    if endings:
        rows = [
            {"kind": kind, "tail": tail, "entry_id": place} for kind, tail, place in sorted(endings)
        ]
        connection.execute(insert(SearchTailRow), rows)


def unindex(connection: Connection, key: str) -> None:
    """Let search forget a key, if it knew it."""
    entry = connection.scalar(select(SearchEntryRow.id).where(SearchEntryRow.key == key))
    if entry is None:
        return
    connection.execute(_DROP_TEXT, {"rowid": entry})
    connection.execute(delete(SearchTailRow).where(SearchTailRow.entry_id == entry))
    connection.execute(delete(SearchEntryRow).where(SearchEntryRow.id == entry))


def _endings(place: int, item: Findable, name: str) -> set[tuple[int, str, int]]:
    inci = folded(item.inci)
    found = {(NAME_WORD, tail, place) for tail in tails(name)[1:]}
    found |= {(INCI, inci, place)} if inci else set()
    found |= {(INCI_WORD, tail, place) for tail in tails(inci)[1:]}
    return found | {(CAS, number, place) for number in map(folded, item.cas) if number}
