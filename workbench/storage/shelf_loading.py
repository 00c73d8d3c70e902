"""The shelf of one formula: only what it can reach."""

from __future__ import annotations

from collections.abc import Mapping

from sqlalchemy import Connection, select

from workbench.formula.formula import Formula
from workbench.formula.ingredient import Ingredient
from workbench.formula.shelf import Shelf, shelf_of
from workbench.formula.substance import Substance
from workbench.storage.ingredients import read_ingredients
from workbench.storage.schema import FormulaRow
from workbench.storage.settings import read_balances, read_prices
from workbench.storage.stored_formula import formula_of


def read_shelf(
    connection: Connection, formula: Formula, substances: Mapping[str, Substance]
) -> Shelf:
    """Return the shelf of a formula: its ingredients and stocks through every level."""
    ingredients: dict[str, Ingredient] = {}
    stocks: dict[str, Formula] = {}
    asked: set[str] = set()
    wanted = _keys(formula)
    while wanted:
        asked |= wanted
        found = read_ingredients(connection, wanted)
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


def _keys(formula: Formula) -> set[str]:
    return {line.ingredient for line in formula.lines()}


def _read_stocks(connection: Connection, keys: set[str]) -> dict[str, Formula]:
    if not keys:
        return {}
    query = select(FormulaRow.key, FormulaRow.name, FormulaRow.draft)
    rows = connection.execute(query.where(FormulaRow.key.in_(sorted(keys))))
    return {row.key: formula_of(row.draft, row.name) for row in rows}
