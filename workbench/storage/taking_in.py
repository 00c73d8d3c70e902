"""Taking a formula in from elsewhere, with what it brings along."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import datetime
from graphlib import CycleError, TopologicalSorter
from typing import TYPE_CHECKING

from sqlalchemy import select

from workbench.formula.formula import Formula
from workbench.formula.ingredient import Ingredient
from workbench.formula.versions import same_design
from workbench.storage.formulas import free_key, insert_formula
from workbench.storage.ingredients import write_ingredients
from workbench.storage.schema import FormulaRow, IngredientRow
from workbench.storage.sentences import refusal
from workbench.storage.stored_formula import formula_of

if TYPE_CHECKING:
    from sqlalchemy import Connection


def take_in(
    connection: Connection,
    formula: Formula,
    stocks: Mapping[str, Formula],
    ingredients: Mapping[str, Ingredient],
    now: datetime,
) -> str:
    """Store a formula, the stocks and the ingredients it brings, and return its key."""
    new_keys: dict[str, str] = {}
    for key, item in ingredients.items():
        if not _has_ingredient(connection, key):
            new_keys[key] = _key_for(connection, key)
            write_ingredients(connection, (replace(item, key=new_keys[key], is_own=True),))
    for key in _innermost_first(stocks):
        stock = _renamed(stocks[key], new_keys)
        if not _has_stock(connection, key, stock):
            new_keys[key] = _key_for(connection, key)
            insert_formula(connection, new_keys[key], stock, now)
    formula_key = free_key(connection, formula.name)
    insert_formula(connection, formula_key, _renamed(formula, new_keys), now)
    return formula_key


def _innermost_first(stocks: Mapping[str, Formula]) -> tuple[str, ...]:
    needs = {
        key: {line.ingredient for line in stock.lines() if line.ingredient in stocks}
        for key, stock in stocks.items()
    }
    try:
        return tuple(TopologicalSorter(needs).static_order())
    except CycleError as error:
        names = tuple(stocks[key].name for key in error.args[1][1:])
        raise refusal("stocks-in-circle", names=names) from error


def _renamed(formula: Formula, new_keys: Mapping[str, str]) -> Formula:
    phases = tuple(
        replace(
            phase,
            lines=tuple(
                replace(line, ingredient=new_keys.get(line.ingredient, line.ingredient))
                for line in phase.lines
            ),
        )
        for phase in formula.phases
    )
    return replace(formula, phases=phases)


def _has_ingredient(connection: Connection, key: str) -> bool:
    query = select(IngredientRow.id).where(IngredientRow.key == key)
    return connection.scalar(query) is not None


def _has_stock(connection: Connection, key: str, stock: Formula) -> bool:
    row = connection.execute(
        select(FormulaRow.name, FormulaRow.draft).where(FormulaRow.key == key)
    ).one_or_none()
    return row is not None and same_design(formula_of(row.draft, row.name), stock)


def _key_for(connection: Connection, key: str) -> str:
    is_formula = connection.scalar(select(FormulaRow.id).where(FormulaRow.key == key)) is not None
    is_taken = is_formula or _has_ingredient(connection, key)
    return free_key(connection, key) if is_taken else key
