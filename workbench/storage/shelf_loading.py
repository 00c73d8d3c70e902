"""The shelf of one formula: only what it can reach."""

from __future__ import annotations

from collections.abc import Mapping

from sqlalchemy import Connection, select

from workbench.formula.formula import Formula
from workbench.formula.ingredient import Ingredient
from workbench.formula.shelf import Shelf, shelf_of
from workbench.formula.substance import Substance
from workbench.formula.supply import certified
from workbench.storage.ingredients import read_ingredients
from workbench.storage.schema import FormulaRow
from workbench.storage.settings import read_balances
from workbench.storage.stored_formula import formula_of
from workbench.storage.supplies import read_prices, read_supplies


def read_shelf(
    connection: Connection,
    formula: Formula,
    substances: Mapping[str, Substance],
    adjusters: frozenset[str] = frozenset(),
) -> Shelf:
    """Return the shelf of a formula: its ingredients and stocks through every level.

    `adjusters` stand on it as well, as what could move the pH of any formula.
    """
    ingredients: dict[str, Ingredient] = {}
    stocks: dict[str, Formula] = {}
    asked: set[str] = set()
    wanted = _keys(formula) | adjusters
    while wanted:
        asked |= wanted
        found = _certified(connection, read_ingredients(connection, wanted))
        inner = _read_stocks(connection, wanted - found.keys())
        ingredients |= found
        stocks |= inner
        wanted = {key for stock in inner.values() for key in _keys(stock)} - asked
    return shelf_of(
        ingredients,
        stocks,
        substances,
        read_prices(connection, frozenset(asked)),
        read_balances(connection),
    )


def _certified(connection: Connection, found: dict[str, Ingredient]) -> dict[str, Ingredient]:
    """Put what a certificate lists in the place of what is typical."""
    supplies = read_supplies(connection, found)
    return {key: certified(item, supplies.get(key)) for key, item in found.items()}


def _keys(formula: Formula) -> set[str]:
    return {line.ingredient for line in formula.lines()}


def _read_stocks(connection: Connection, keys: set[str]) -> dict[str, Formula]:
    if not keys:
        return {}
    query = select(FormulaRow.key, FormulaRow.name, FormulaRow.draft)
    rows = connection.execute(query.where(FormulaRow.key.in_(sorted(keys))))
    return {row.key: formula_of(row.draft, row.name) for row in rows}
