"""Find what could take the place of a material, quickly, in a studio of any size."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from dataclasses import replace
from decimal import Decimal
from typing import TYPE_CHECKING

from sqlalchemy import Connection, bindparam, select, text

from workbench.formula.candidate_values import Candidate, Sketch, Span, Wanted, main_part
from workbench.formula.candidates import SwapTable, ranked
from workbench.formula.formula import Formula
from workbench.formula.stocks import stocks_holding
from workbench.formula.totals import WHOLE
from workbench.storage.folding import folded
from workbench.storage.formula_entries import STOCK
from workbench.storage.json_text import to_text
from workbench.storage.on_hand import available
from workbench.storage.schema import FULL_TEXT, FormulaRow, FormulaUseRow
from workbench.storage.sentences import refusal
from workbench.storage.shelf_loading import read_shelf
from workbench.storage.studio_file import StudioFile

if TYPE_CHECKING:
    from sqlalchemy.engine import Row

# Of so many that do the same job the ranking is made; what the table names and what is on hand
# is always among them.
_POOL = 2000
_FACTS = (
    "functions",
    "solubility",
    "charge",
    "form",
    "origin",
    "active_percent",
    "ph_min",
    "ph_max",
    "use_min",
    "use_max",
    "is_electrolyte_sensitive",
    "is_heat_sensitive",
    "composition",
)


class Candidates:
    """Find candidates for a swap."""

    def __init__(self, file: StudioFile, table: SwapTable) -> None:
        """Take the file to search in and the swaps of the trade."""
        self._file = file
        self._table = table

    def __call__(
        self,
        key: str,
        *,
        purpose: str = "",
        ph: Span | None = None,
        most: int = 40,
    ) -> tuple[Candidate, ...]:
        """Return what could take the place of an ingredient or stock, the best first.

        `purpose` is what the line is there for, `ph` the pH the rest of the formula asks for.

        Raises
        ------
        WorkbenchError
            If there is no ingredient or stock of this key.
        """
        with self._file.reading() as connection:
            there = available(connection)
            item = _item(connection, key, purpose)
            job = purpose or (item.functions[0] if item.functions else "")
            found = {sketch.key: sketch for sketch in _stocks_of(connection, item)}
            asked = sorted(self._table.partners(key))
            for sketch in (*_of_keys(connection, asked), *_alike(connection, job, there)):
                found.setdefault(sketch.key, sketch)
        sketches = (_there(sketch, there) for sketch in found.values())
        return ranked(Wanted(item, purpose, ph), sketches, self._table, most)


def _item(connection: Connection, key: str, purpose: str) -> Sketch:
    known = list(_of_keys(connection, (key,)))
    if known:
        return known[0]
    name = connection.scalar(select(FormulaRow.name).where(FormulaRow.key == key))
    if name is None:
        raise refusal("no-such-ingredient", key=key)
    return Sketch(key, name, functions=(purpose,) if purpose else (), is_stock=True)


def _there(sketch: Sketch, there: frozenset[str]) -> Sketch:
    return replace(sketch, on_hand=True) if sketch.key in there else sketch


def _of_keys(connection: Connection, keys: Iterable[str]) -> Iterator[Sketch]:
    rows = connection.execute(_BY_KEY, {"keys": to_text(list(keys))})
    return map(_sketch, rows)


def _alike(connection: Connection, job: str, there: frozenset[str]) -> Iterator[Sketch]:
    """Yield what does the same job: first of what is on hand, then of all."""
    words = folded(job)
    if not words:
        return
    values = {"words": f'"{words}"', "pool": _POOL}
    among = connection.execute(_ALIKE_THERE, {**values, "keys": to_text(sorted(there))})
    yield from map(_sketch, among)
    yield from map(_sketch, connection.execute(_ALIKE, values))


def _stocks_of(connection: Connection, item: Sketch) -> Iterator[Sketch]:
    """Yield the stocks that are made for an ingredient, with their strength."""
    query = (
        select(FormulaRow.key, FormulaRow.name)
        .join(FormulaUseRow, FormulaUseRow.formula_id == FormulaRow.id)
        .where(FormulaUseRow.ingredient == item.key)
        .where(FormulaRow.product_type == STOCK)
        .where(FormulaRow.archived.is_(False))
    )
    names = {row.key: row.name for row in connection.execute(query)}
    if not names:
        return
    shelf = read_shelf(connection, Formula(name=""), {}, frozenset(names))
    for key, percent in stocks_holding(item.key, shelf):
        if key in names:
            strength = percent * (item.strength or WHOLE) / WHOLE
            yield Sketch(
                key,
                names[key],
                strength=strength,
                substance=item.substance,
                share=percent * (item.share or Decimal(1)) / WHOLE,
                is_stock=True,
            )


def _sketch(row: Row[tuple[object, ...]]) -> Sketch:
    known = dict(zip(_FACTS, json.loads(row.facts), strict=True))
    strength = _decimal(known["active_percent"])
    substance, share = main_part(_solids(known["composition"] or ()), strength)
    return Sketch(
        key=row.key,
        name=row.name,
        functions=tuple(known["functions"] or ()),
        solubility=known["solubility"] or "",
        charge=known["charge"] or "",
        form=known["form"] or "",
        origin=known["origin"] or "",
        strength=strength,
        substance=substance,
        share=share,
        ph_min=_decimal(known["ph_min"]),
        ph_max=_decimal(known["ph_max"]),
        use_min=_decimal(known["use_min"]),
        use_max=_decimal(known["use_max"]),
        salt_sensitive=bool(known["is_electrolyte_sensitive"]),
        heat_sensitive=bool(known["is_heat_sensitive"]),
    )


def _decimal(value: object) -> Decimal | None:
    return None if value is None else Decimal(str(value))


def _solids(parts: Iterable[dict[str, str]]) -> Iterator[tuple[str, Decimal]]:
    for part in parts:
        if part.get("water", "0") != part["fraction"]:
            yield part["substance"], Decimal(part["fraction"])


# SQLite takes the facts apart: many times quicker than reading each of them whole.
_PATHS = ", ".join(f"'$.{name}'" for name in _FACTS)
_SHOWN = f"SELECT ingredients.key, ingredients.name, json_extract(facts, {_PATHS}) AS facts"
_KEYS = "(SELECT value FROM json_each(:keys))"
_BY_KEY = text(f"{_SHOWN} FROM ingredients WHERE key IN {_KEYS}").bindparams(bindparam("keys"))
_JOINED = (
    f" FROM {FULL_TEXT} JOIN search_entries ON search_entries.id = {FULL_TEXT}.rowid"
    " JOIN ingredients ON ingredients.key = search_entries.key"
    f" WHERE {FULL_TEXT} MATCH :words"
)
_ALIKE = text(f"{_SHOWN}{_JOINED} LIMIT :pool")
_ALIKE_THERE = text(f"{_SHOWN}{_JOINED} AND ingredients.key IN {_KEYS} LIMIT :pool")
