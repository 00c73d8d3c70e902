"""Formulas: the list, the drafts, and who uses whom."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime

from sqlalchemy import Connection, delete, func, insert, select, update

from workbench.errors import WorkbenchError
from workbench.formula.formula import Formula
from workbench.storage.folding import folded
from workbench.storage.schema import FormulaRow, FormulaUseRow, IngredientRow, VersionRow
from workbench.storage.search_index import Findable, index, unindex
from workbench.storage.sentences import refusal
from workbench.storage.stored_formula import formula_of, formula_text
from workbench.storage.studio_file import StudioFile

STOCK = "stock"
_LONGEST_KEY = 60


@dataclass(frozen=True, slots=True)
class FormulaEntry:
    """Hold one line of the list of formulas; `latest_version` is None before the first."""

    key: str
    name: str
    product_type: str
    is_stock: bool
    latest_version: int | None
    edited_at: datetime
    archived: bool


class Formulas:
    """Keep the drafts."""

    def __init__(self, file: StudioFile) -> None:
        """Take the file they are in."""
        self._file = file

    def entries(self, *, archived: bool = False) -> tuple[FormulaEntry, ...]:
        """Return the list by name, with or without what was archived."""
        query = _ENTRIES if archived else _ENTRIES.where(~FormulaRow.archived)
        with self._file.reading() as connection:
            found = [_entry(*row) for row in connection.execute(query)]
        return tuple(sorted(found, key=lambda entry: (folded(entry.name), entry.key)))

    def create(self, name: str, formula: Formula, *, key: str = "") -> str:
        """Store a new draft under a name and return its key, made from the name or a wish."""
        with self._file.writing() as connection:
            new_key = free_key(connection, key or name)
            insert_formula(connection, new_key, replace(formula, name=name), self._file.clock())
        return new_key

    def find(self, name: str) -> str:
        """Return the key of the formula of this name, or of this key.

        Raises
        ------
        WorkbenchError
            If there is none, or several have this name.
        """
        entries = self.entries(archived=True)
        found = [entry.key for entry in entries if entry.key == name] or [
            entry.key for entry in entries if folded(entry.name) == folded(name)
        ]
        if not found:
            raise refusal("no-formula-named", name=name)
        if len(found) > 1:
            raise refusal("several-named", name=name, keys=tuple(found[:5]))
        return found[0]

    def draft(self, key: str) -> tuple[Formula, int]:
        """Return a draft and the counter that saving it asks for."""
        with self._file.reading() as connection:
            return read_draft(connection, key)

    def save_draft(self, key: str, formula: Formula, counter: int) -> int:
        """Store a draft over the state of that counter and return the new counter.

        Raises
        ------
        WorkbenchError
            If another window has stored the draft since, or has deleted the formula.
        """
        with self._file.writing() as connection:
            return self._write(connection, key, formula, counter)

    def rename(self, key: str, name: str) -> int:
        """Give a formula another name, its key unchanged, and return the new counter."""
        with self._file.writing() as connection:
            formula, counter = read_draft(connection, key)
            return self._write(connection, key, replace(formula, name=name), counter)

    def archive(self, key: str, *, archived: bool = True) -> None:
        """Take a formula out of the list and of search, or bring it back."""
        with self._file.writing() as connection:
            formula, _ = read_draft(connection, key)
            connection.execute(
                update(FormulaRow).where(FormulaRow.key == key).values(archived=archived)
            )
            _note_search(connection, key, formula, archived=archived)

    def delete(self, key: str) -> None:
        """Delete a formula that has no version and that no draft uses.

        Raises
        ------
        WorkbenchError
            If it has versions, which are kept for ever, or is used as a stock.
        """
        with self._file.writing() as connection:
            formula, _ = read_draft(connection, key)
            row_id = formula_id(connection, key)
            if connection.scalar(select(VersionRow.id).where(VersionRow.formula_id == row_id)):
                raise refusal("delete-has-versions", name=formula.name)
            users = tuple(entry.name for entry in _users(connection, key) if entry.key != key)
            if users:
                raise refusal("delete-is-used", name=formula.name, users=users[:5])
            unindex(connection, key)
            connection.execute(delete(FormulaUseRow).where(FormulaUseRow.formula_id == row_id))
            connection.execute(delete(FormulaRow).where(FormulaRow.id == row_id))

    def used_in(self, key: str) -> tuple[FormulaEntry, ...]:
        """Return the formulas whose drafts use an ingredient or stock, archived ones too."""
        with self._file.reading() as connection:
            return tuple(_users(connection, key))

    def _write(self, connection: Connection, key: str, formula: Formula, counter: int) -> int:
        written = connection.execute(
            update(FormulaRow)
            .where(FormulaRow.key == key, FormulaRow.counter == counter)
            .values(counter=counter + 1, **_columns(formula, self._file.clock()))
        )
        if written.rowcount != 1:
            raise _not_written(connection, key)
        _note_uses(connection, key, formula)
        archived = connection.scalar(select(FormulaRow.archived).where(FormulaRow.key == key))
        _note_search(connection, key, formula, archived=bool(archived))
        return counter + 1


def read_draft(connection: Connection, key: str) -> tuple[Formula, int]:
    """Return a draft and its counter, or refuse when there is no such formula."""
    row = connection.execute(
        select(FormulaRow.name, FormulaRow.draft, FormulaRow.counter).where(FormulaRow.key == key)
    ).one_or_none()
    if row is None:
        raise refusal("no-such-formula", key=key)
    return formula_of(row.draft, row.name), row.counter


def formula_id(connection: Connection, key: str) -> int:
    """Return the row of a formula, or refuse when there is none."""
    found = connection.scalar(select(FormulaRow.id).where(FormulaRow.key == key))
    if found is None:
        raise refusal("no-such-formula", key=key)
    return found


def stock_findable(key: str, formula: Formula) -> Findable:
    """Return what search shall know of a stock."""
    return Findable(key=key, name=formula.name, is_stock=True, other=(STOCK,))


def _columns(formula: Formula, now: datetime) -> dict[str, object]:
    return {
        "name": formula.name,
        "product_type": formula.product_type,
        "draft": formula_text(formula),
        "edited_at": now,
    }


def _not_written(connection: Connection, key: str) -> WorkbenchError:
    name = connection.scalar(select(FormulaRow.name).where(FormulaRow.key == key))
    if name is None:
        return refusal("no-such-formula", key=key)
    return refusal("stale", name=name)


def _note_uses(connection: Connection, key: str, formula: Formula) -> None:
    row_id = formula_id(connection, key)
    rows = connection.scalars(
        select(FormulaUseRow.ingredient).where(FormulaUseRow.formula_id == row_id)
    )
    before = set(rows)
    after = {line.ingredient for line in formula.lines()}
    for gone in sorted(before - after):
        connection.execute(
            delete(FormulaUseRow).where(
                FormulaUseRow.formula_id == row_id, FormulaUseRow.ingredient == gone
            )
        )
    new = [{"formula_id": row_id, "ingredient": name} for name in sorted(after - before)]
    if new:
        connection.execute(insert(FormulaUseRow), new)


def _note_search(connection: Connection, key: str, formula: Formula, *, archived: bool) -> None:
    unindex(connection, key)
    if formula.product_type == STOCK and not archived:
        index(connection, (stock_findable(key, formula),))


def insert_formula(connection: Connection, key: str, formula: Formula, now: datetime) -> None:
    """Store a new draft under a key that is free."""
    connection.execute(
        insert(FormulaRow).values(key=key, counter=1, archived=False, **_columns(formula, now))
    )
    _note_uses(connection, key, formula)
    _note_search(connection, key, formula, archived=False)


def free_key(connection: Connection, wish: str) -> str:
    """Return a key that no formula and no ingredient has, made from a name."""
    stem = folded(wish).replace(" ", "-")[:_LONGEST_KEY].strip("-") or "formula"
    taken = set(connection.scalars(select(FormulaRow.key)))
    taken.update(
        connection.scalars(select(IngredientRow.key).where(IngredientRow.key.startswith(stem)))
    )
    place = 1
    key = stem
    while key in taken:
        place += 1
        key = f"{stem}-{place}"
    return key


def _users(connection: Connection, key: str) -> list[FormulaEntry]:
    query = _ENTRIES.join(FormulaUseRow, FormulaUseRow.formula_id == FormulaRow.id)
    found = connection.execute(query.where(FormulaUseRow.ingredient == key))
    return [_entry(*row) for row in found]


def _entry(
    key: str,
    name: str,
    product_type: str,
    edited_at: datetime,
    archived: bool,  # noqa: FBT001
    latest: int | None,
) -> FormulaEntry:
    return FormulaEntry(
        key=key,
        name=name,
        product_type=product_type,
        is_stock=product_type == STOCK,
        latest_version=latest,
        edited_at=edited_at,
        archived=archived,
    )


_LATEST = (
    select(func.max(VersionRow.number))
    .where(VersionRow.formula_id == FormulaRow.id)
    .correlate(FormulaRow)
    .scalar_subquery()
)
_ENTRIES = select(
    FormulaRow.key,
    FormulaRow.name,
    FormulaRow.product_type,
    FormulaRow.edited_at,
    FormulaRow.archived,
    _LATEST,
)
