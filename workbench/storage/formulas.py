"""Formulas: the list, the drafts, and who uses whom."""

from __future__ import annotations

import json
from dataclasses import dataclass, replace
from datetime import datetime

from sqlalchemy import Connection, delete, insert, select, update

from workbench.errors import WorkbenchError
from workbench.formula.formula import Formula
from workbench.storage.folding import folded
from workbench.storage.formula_entries import (
    STOCK,
    FormulaEntry,
    read_entries,
    read_users,
    read_using,
)
from workbench.storage.schema import FormulaRow, FormulaUseRow, IngredientRow, VersionRow
from workbench.storage.search_index import Findable, index, unindex
from workbench.storage.sentences import refusal
from workbench.storage.stored_formula import formula_of, formula_text
from workbench.storage.studio_file import StudioFile

_LONGEST_KEY = 60
_LONGEST_TAG = 40
_MOST_TAGS = 20


@dataclass(frozen=True, slots=True)
class DeletedFormula:
    """Hold all there was of a deleted formula, so that it can come back as it was."""

    key: str
    formula: Formula
    counter: int
    edited_at: datetime
    archived: bool
    tags: str
    notes: str


class Formulas:
    """Keep the drafts."""

    def __init__(self, file: StudioFile) -> None:
        """Take the file they are in."""
        self._file = file

    def entries(self, *, archived: bool = False) -> tuple[FormulaEntry, ...]:
        """Return the list by name, with or without what was archived."""
        with self._file.reading() as connection:
            return read_entries(connection, None if archived else ~FormulaRow.archived)

    def entry(self, key: str) -> FormulaEntry | None:
        """Return the line of one formula in the list, None when there is no such formula."""
        with self._file.reading() as connection:
            return next(iter(read_entries(connection, FormulaRow.key == key)), None)

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

    def delete(self, key: str) -> DeletedFormula:
        """Delete a formula that has no version and that no draft uses; return what it was.

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
            users = tuple(entry.name for entry in read_users(connection, key) if entry.key != key)
            if users:
                raise refusal("delete-is-used", name=formula.name, users=users[:5])
            deleted = _whole(connection, key, formula)
            unindex(connection, key)
            connection.execute(delete(FormulaUseRow).where(FormulaUseRow.formula_id == row_id))
            connection.execute(delete(FormulaRow).where(FormulaRow.id == row_id))
        return deleted

    def bring_back(self, deleted: DeletedFormula) -> None:
        """Store a deleted formula as it was, under its key.

        Raises
        ------
        WorkbenchError
            If the key was given to another formula meanwhile.
        """
        with self._file.writing() as connection:
            name = connection.scalar(select(FormulaRow.name).where(FormulaRow.key == deleted.key))
            if name is not None:
                raise refusal("key-is-taken", name=deleted.formula.name, key=deleted.key)
            insert_formula(connection, deleted.key, deleted.formula, deleted.edited_at)
            connection.execute(
                update(FormulaRow)
                .where(FormulaRow.key == deleted.key)
                .values(
                    counter=deleted.counter,
                    archived=deleted.archived,
                    tags=deleted.tags,
                    notes=deleted.notes,
                )
            )
            _note_search(connection, deleted.key, deleted.formula, archived=deleted.archived)

    def set_tags(self, key: str, tags: tuple[str, ...]) -> tuple[str, ...]:
        """Store the tags of a formula, each once and without needless spaces; return them."""
        plain = tuple(" ".join(tag.split())[:_LONGEST_TAG] for tag in tags)
        kept = tuple(dict.fromkeys(tag for tag in plain if tag))[:_MOST_TAGS]
        with self._file.writing() as connection:
            _require_formula(connection, key)
            connection.execute(
                update(FormulaRow)
                .where(FormulaRow.key == key)
                .values(tags=json.dumps(kept, ensure_ascii=False))
            )
        return kept

    def notes(self, key: str) -> str:
        """Return the notes of a formula."""
        with self._file.reading() as connection:
            found = connection.scalar(select(FormulaRow.notes).where(FormulaRow.key == key))
        if found is None:
            raise refusal("no-such-formula", key=key)
        return found

    def set_notes(self, key: str, notes: str, before: str) -> None:
        """Store the notes of a formula over those they were written from.

        Raises
        ------
        WorkbenchError
            If another window has stored other notes since.
        """
        with self._file.writing() as connection:
            name = _require_formula(connection, key)
            written = connection.execute(
                update(FormulaRow)
                .where(FormulaRow.key == key, FormulaRow.notes == before)
                .values(notes=notes)
            )
            if written.rowcount != 1:
                raise refusal("stale-notes", name=name)

    def using(self, typed: str) -> frozenset[str]:
        """Return the keys of formulas that use an ingredient or stock of such a name."""
        with self._file.reading() as connection:
            return read_using(connection, typed)

    def used_in(self, key: str) -> tuple[FormulaEntry, ...]:
        """Return the formulas whose drafts use an ingredient or stock, archived ones too."""
        with self._file.reading() as connection:
            return read_users(connection, key)

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


def _whole(connection: Connection, key: str, formula: Formula) -> DeletedFormula:
    row = connection.execute(
        select(
            FormulaRow.counter,
            FormulaRow.edited_at,
            FormulaRow.archived,
            FormulaRow.tags,
            FormulaRow.notes,
        ).where(FormulaRow.key == key)
    ).one()
    return DeletedFormula(key, formula, *row)


def _require_formula(connection: Connection, key: str) -> str:
    name = connection.scalar(select(FormulaRow.name).where(FormulaRow.key == key))
    if name is None:
        raise refusal("no-such-formula", key=key)
    return name
