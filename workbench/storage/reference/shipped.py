"""Everything the program ships to check a formula against, read once."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property
from pathlib import Path

from workbench.checks.rules import Rules
from workbench.formula.ingredient import Ingredient
from workbench.formula.shelf import Shelf, shelf_of
from workbench.formula.substance import Substance
from workbench.formula.weighability import Balance
from workbench.storage.reference.limits import load_rules
from workbench.storage.reference.rows import amount, read_rows
from workbench.storage.reference.tables import load_ingredients, load_names, load_substances


class Shipped:
    """Read each part of the reference folder when it is first asked for."""

    def __init__(self, folder: Path) -> None:
        """Take the folder of the tables."""
        self._folder = folder

    @cached_property
    def substances(self) -> Mapping[str, Substance]:
        """The substances by key."""
        return load_substances(self._folder)

    @cached_property
    def names(self) -> Mapping[str, str]:
        """The substance each lower-case label name belongs to."""
        return load_names(self._folder)

    @cached_property
    def ingredients(self) -> Mapping[str, Ingredient]:
        """The ingredients by key."""
        return load_ingredients(self._folder)

    @cached_property
    def rules(self) -> Rules:
        """The rules of the dated set."""
        return load_rules(self._folder)

    @cached_property
    def balances(self) -> tuple[Balance, ...]:
        """The balances taken when none is entered."""
        return tuple(
            Balance(row["name"], readability, capacity)
            for row in read_rows(self._folder, "balances.csv")
            if (readability := amount(row["readability_g"])) is not None
            and (capacity := amount(row["capacity_g"])) is not None
        )

    @cached_property
    def shelf(self) -> Shelf:
        """A shelf of every shipped ingredient."""
        return shelf_of(self.ingredients, {}, self.substances, balances=self.balances)
