"""An open studio."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Self

from sqlalchemy import select

from workbench.formula.candidates import swap_table
from workbench.formula.formula import Formula
from workbench.formula.ingredient import Ingredient
from workbench.formula.shelf import Shelf
from workbench.formula.substance import Substance
from workbench.formula.swaps import Swap
from workbench.storage.attachments import Attachments
from workbench.storage.batches import Batches
from workbench.storage.candidates import Candidates
from workbench.storage.formulas import Formulas
from workbench.storage.ingredients import Ingredients
from workbench.storage.inspection import Verdict
from workbench.storage.own_rules import OwnRuleBook
from workbench.storage.reference.chemistry import load_adjuster_keys
from workbench.storage.reference.compatibility import RuleBook
from workbench.storage.reference.swaps import load_swaps
from workbench.storage.reference.tables import load_substances
from workbench.storage.schema import StudioRow
from workbench.storage.search import Search
from workbench.storage.settings import Settings
from workbench.storage.shelf_loading import read_shelf
from workbench.storage.studio_file import StudioFile
from workbench.storage.supplies import Supplies
from workbench.storage.taking_in import take_in
from workbench.storage.versions import Versions


@dataclass(frozen=True, slots=True)
class Found:
    """Hold what a file was when it was opened, and what opening did to it.

    `backup` is the copy made before an upgrade; `news` tells in sentences of an upgrade and of
    shipped ingredients that were refreshed.
    """

    verdict: Verdict
    backup: Path | None = None
    news: str = ""


class Studio:
    """Hold the repositories of a studio by topic, and how it was found."""

    def __init__(self, file: StudioFile, reference_folder: Path, found: Found) -> None:
        """Take the file, the folder of the shipped tables, and how the file was found."""
        self.path = file.path
        self.read_only = file.read_only
        self.found = found
        self.formulas = Formulas(file)
        self.ingredients = Ingredients(file)
        self.settings = Settings(file)
        self.supplies = Supplies(file)
        self.attachments = Attachments(file)
        self.batches = Batches(file)
        self.search = Search(file)
        self.own_rules = OwnRuleBook(file, lambda: self._rule_book)
        self.versions = Versions(file, lambda: self.substances)
        self._file = file
        self._reference_folder = reference_folder

    @cached_property
    def _rule_book(self) -> RuleBook:
        return RuleBook(self._reference_folder)

    @cached_property
    def substances(self) -> Mapping[str, Substance]:
        """Return the shipped substances, read at the first use."""
        return load_substances(self._reference_folder)

    @cached_property
    def _adjusters(self) -> frozenset[str]:
        return load_adjuster_keys(self._reference_folder)

    @cached_property
    def swaps(self) -> tuple[Swap, ...]:
        """Return the swaps of the trade, read at the first use."""
        return load_swaps(self._reference_folder)

    @cached_property
    def candidates(self) -> Candidates:
        """Return what finds candidates for a swap."""
        return Candidates(self._file, swap_table(self.swaps))

    @property
    def reference_set(self) -> str:
        """Return the name of the reference tables this studio was filled from."""
        with self._file.reading() as connection:
            return connection.scalar(select(StudioRow.reference_set)) or ""

    def shelf_for(self, formula: Formula, also: frozenset[str] = frozenset()) -> Shelf:
        """Return the shelf of a formula: only what it reaches, through every stock.

        `also` are keys of what could come into it.
        """
        with self._file.reading() as connection:
            return read_shelf(connection, formula, self.substances, self._adjusters | also)

    def take_in(
        self,
        formula: Formula,
        stocks: Mapping[str, Formula],
        ingredients: Mapping[str, Ingredient],
    ) -> str:
        """Store a formula from elsewhere with the stocks and ingredients it brings; return its key.

        Everything is stored, or nothing. Ingredients this studio has are not replaced, a stock
        of the same design is used as it is, and a key that means something else here is changed.
        """
        with self._file.writing() as connection:
            return take_in(connection, formula, stocks, ingredients, self._file.clock())

    def close(self) -> None:
        """Close the file."""
        self._file.close()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()
