"""The list of formulas: what stands on each line of it, read with one query."""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import ColumnElement, Connection, func, select
from sqlalchemy.orm import aliased

from workbench.storage.folding import folded
from workbench.storage.schema import FormulaRow, FormulaUseRow, SearchEntryRow, VersionRow

STOCK = "stock"


@dataclass(frozen=True, slots=True)
class FormulaEntry:
    """Hold one line of the list of formulas.

    `latest_version` and `version_made_at` are None before the first version; `used_in` counts
    the drafts that use it as a stock.
    """

    key: str
    name: str
    product_type: str
    is_stock: bool
    latest_version: int | None
    edited_at: datetime
    archived: bool
    tags: tuple[str, ...] = ()
    version_made_at: datetime | None = None
    used_in: int = 0


def read_entries(
    connection: Connection, condition: ColumnElement[bool] | None = None
) -> tuple[FormulaEntry, ...]:
    """Return the entries that meet a condition, or all, by name."""
    query = _ENTRIES if condition is None else _ENTRIES.where(condition)
    found = [_entry(*row) for row in connection.execute(query)]
    return tuple(sorted(found, key=lambda entry: (folded(entry.name), entry.key)))


def read_users(connection: Connection, key: str) -> tuple[FormulaEntry, ...]:
    """Return the entries whose drafts use an ingredient or stock."""
    users = select(FormulaUseRow.formula_id).where(FormulaUseRow.ingredient == key)
    return read_entries(connection, FormulaRow.id.in_(users))


def read_using(connection: Connection, typed: str) -> frozenset[str]:
    """Return the keys of formulas that use something with a text in its name."""
    asked = folded(typed)
    if not asked:
        return frozenset()
    query = (
        select(FormulaRow.key)
        .distinct()
        .join(FormulaUseRow, FormulaUseRow.formula_id == FormulaRow.id)
        .join(SearchEntryRow, SearchEntryRow.key == FormulaUseRow.ingredient)
        .where(SearchEntryRow.folded_name.contains(asked, autoescape=True))
    )
    return frozenset(connection.scalars(query))


def tags_of(text: str) -> tuple[str, ...]:
    """Return tags as they are stored; what makes no sense counts as none."""
    if text == "[]":
        return ()
    try:
        tags = json.loads(text)
    except ValueError:
        return ()
    return tuple(tag for tag in tags if isinstance(tag, str)) if isinstance(tags, list) else ()


def _entry(  # noqa: PLR0913, PLR0917 (one for each column)
    key: str,
    name: str,
    product_type: str,
    edited_at: datetime,
    archived: bool,  # noqa: FBT001
    tags: str,
    latest: int | None,
    made_at: datetime | None,
    used_in: int,
) -> FormulaEntry:
    return FormulaEntry(
        key=key,
        name=name,
        product_type=product_type,
        is_stock=product_type == STOCK,
        latest_version=latest,
        edited_at=edited_at,
        archived=archived,
        tags=tags_of(tags),
        version_made_at=made_at,
        used_in=used_in,
    )


_LATEST = (
    select(
        VersionRow.formula_id.label("formula_id"),
        func.max(VersionRow.number).label("number"),
    )
    .group_by(VersionRow.formula_id)
    .subquery()
)
_MADE = aliased(VersionRow)
_USES = (
    select(FormulaUseRow.ingredient.label("ingredient"), func.count().label("times"))
    .group_by(FormulaUseRow.ingredient)
    .subquery()
)
_ENTRIES = (
    select(
        FormulaRow.key,
        FormulaRow.name,
        FormulaRow.product_type,
        FormulaRow.edited_at,
        FormulaRow.archived,
        FormulaRow.tags,
        _LATEST.c.number,
        _MADE.made_at,
        func.coalesce(_USES.c.times, 0),
    )
    .outerjoin(_LATEST, _LATEST.c.formula_id == FormulaRow.id)
    .outerjoin(_MADE, (_MADE.formula_id == FormulaRow.id) & (_MADE.number == _LATEST.c.number))
    .outerjoin(_USES, _USES.c.ingredient == FormulaRow.key)
)
