"""Versions: made once, kept for ever."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import Connection, func, insert, select

from workbench.formula.formula import Formula
from workbench.formula.shelf import Shelf, shelf_of
from workbench.formula.substance import Substance
from workbench.formula.versions import Version
from workbench.storage.formulas import formula_id, read_draft
from workbench.storage.frozen_facts import facts_of, facts_text
from workbench.storage.schema import FormulaRow, StudioRow, VersionRow
from workbench.storage.sentences import refusal
from workbench.storage.settings import read_balances
from workbench.storage.stored_formula import UNREADABLE, formula_of, formula_text
from workbench.storage.studio_file import StudioFile
from workbench.storage.supplies import read_prices


@dataclass(frozen=True, slots=True)
class VersionEntry:
    """Hold one line of a formula's history."""

    number: int
    reason: str
    made_at: datetime


class Versions:
    """Keep the versions."""

    def __init__(self, file: StudioFile, substances: Callable[[], Mapping[str, Substance]]) -> None:
        """Take the file they are in, and what gives the shipped substances."""
        self._file = file
        self._substances = substances

    def make_version(
        self,
        key: str,
        reason: str,
        made_at: datetime,
        shelf: Shelf,
        *,
        counter: int | None = None,
    ) -> Version:
        """Freeze the stored draft of a formula with the facts it reaches on a shelf.

        Raises
        ------
        WorkbenchError
            If the reason is empty, or `counter` is given and the draft was stored since.
        """
        if not reason.strip():
            raise refusal("version-needs-reason")
        with self._file.writing() as connection:
            formula, stored = read_draft(connection, key)
            if counter is not None and counter != stored:
                raise refusal("stale", name=formula.name)
            row_id = formula_id(connection, key)
            number = _latest(connection, row_id) + 1
            connection.execute(
                insert(VersionRow).values(
                    formula_id=row_id,
                    number=number,
                    reason=reason.strip(),
                    made_at=made_at,
                    document=formula_text(formula),
                    facts=facts_text(formula, shelf),
                    reference_set=connection.scalar(select(StudioRow.reference_set)) or "",
                )
            )
            return self._read(connection, key, number)

    def get(self, key: str, number: int) -> Version:
        """Return a version as it was made.

        Compositions, strengths, stocks and label names are those frozen with it; prices and
        balances are of today, because they say what making it now costs and how it is weighed.
        """
        with self._file.reading() as connection:
            return self._read(connection, key, number)

    def numbers(self, key: str) -> tuple[int, ...]:
        """Return the numbers of the versions of a formula, rising."""
        return tuple(entry.number for entry in self.entries(key))

    def entries(self, key: str) -> tuple[VersionEntry, ...]:
        """Return the history of a formula, the first version first."""
        query = (
            select(VersionRow.number, VersionRow.reason, VersionRow.made_at)
            .join(FormulaRow, FormulaRow.id == VersionRow.formula_id)
            .where(FormulaRow.key == key)
            .order_by(VersionRow.number)
        )
        with self._file.reading() as connection:
            return tuple(VersionEntry(*row) for row in connection.execute(query))

    def _read(self, connection: Connection, key: str, number: int) -> Version:
        row = connection.execute(
            select(
                FormulaRow.name,
                VersionRow.reason,
                VersionRow.made_at,
                VersionRow.document,
                VersionRow.facts,
                VersionRow.reference_set,
            )
            .join(FormulaRow, FormulaRow.id == VersionRow.formula_id)
            .where(FormulaRow.key == key, VersionRow.number == number)
        ).one_or_none()
        if row is None:
            raise refusal("no-such-version", key=key, number=str(number))
        return Version(
            number=number,
            reason=row.reason,
            made_at=row.made_at,
            formula=formula_of(row.document, row.name),
            shelf=self._shelf(connection, row.facts, row.name, number),
            reference_set=row.reference_set,
        )

    def _shelf(self, connection: Connection, facts: str, name: str, number: int) -> Shelf:
        try:
            ingredients, stocks, substances = facts_of(facts)
        except UNREADABLE as error:
            raise refusal(
                "unreadable-version", detail=repr(error), name=name, number=str(number)
            ) from error
        keys = frozenset(ingredients) | frozenset(stocks)
        return shelf_of(
            ingredients,
            stocks,
            {**self._substances(), **substances},
            read_prices(connection, keys),
            read_balances(connection),
        )


def version_id(connection: Connection, key: str, number: int) -> int:
    """Return the row of a version, or refuse when there is none."""
    found = connection.scalar(
        select(VersionRow.id)
        .join(FormulaRow, FormulaRow.id == VersionRow.formula_id)
        .where(FormulaRow.key == key, VersionRow.number == number)
    )
    if found is None:
        raise refusal("no-such-version", key=key, number=str(number))
    return found


def version_formula(document: str, facts: str, name: str) -> Formula:
    """Return the formula of a version after reading all that was frozen with it."""
    facts_of(facts)
    return formula_of(document, name)


def _latest(connection: Connection, row_id: int) -> int:
    query = select(func.max(VersionRow.number)).where(VersionRow.formula_id == row_id)
    return connection.scalar(query) or 0
