"""Supplies: what is on hand, from whom it comes, what it costs, and what its certificate lists."""

from __future__ import annotations

import json
from collections.abc import Iterable
from decimal import Decimal
from typing import TYPE_CHECKING

from sqlalchemy import Connection, delete, insert, select, update

from workbench.formula.shelf import Price
from workbench.formula.supply import KILOGRAM_G, Allergen, Supply
from workbench.storage.json_text import to_text
from workbench.storage.schema import SupplyRow
from workbench.storage.sentences import refusal
from workbench.storage.studio_file import StudioFile

if TYPE_CHECKING:
    from sqlalchemy.engine import Row


class Supplies:
    """Keep what is known of buying each ingredient."""

    def __init__(self, file: StudioFile) -> None:
        """Take the file they are in."""
        self._file = file

    def get(self, key: str) -> Supply:
        """Return the supply of an ingredient or stock; of one never entered, an empty one."""
        with self._file.reading() as connection:
            return read_supplies(connection, (key,)).get(key) or Supply(key)

    def all(self) -> dict[str, Supply]:
        """Return every supply that was entered, by key."""
        with self._file.reading() as connection:
            return read_supplies(connection)

    def on_hand(self) -> frozenset[str]:
        """Return the keys of everything that is there."""
        query = select(SupplyRow.ingredient).where(SupplyRow.on_hand)
        with self._file.reading() as connection:
            return frozenset(connection.scalars(query))

    def save(self, supply: Supply) -> Supply:
        """Store a supply over the state of its counter and return it with the new one.

        Raises
        ------
        WorkbenchError
            If another window has stored it since.
        """
        values = _columns(supply)
        with self._file.writing() as connection:
            if supply.counter:
                written = connection.execute(
                    update(SupplyRow)
                    .where(SupplyRow.ingredient == supply.ingredient)
                    .where(SupplyRow.counter == supply.counter)
                    .values(counter=supply.counter + 1, **values)
                )
                if written.rowcount != 1:
                    raise refusal("stale-supply")
            elif read_supplies(connection, (supply.ingredient,)):
                raise refusal("stale-supply")
            else:
                connection.execute(
                    insert(SupplyRow).values(ingredient=supply.ingredient, counter=1, **values)
                )
            return read_supplies(connection, (supply.ingredient,))[supply.ingredient]

    def set_on_hand(self, key: str, *, on_hand: bool) -> Supply:
        """Store whether an ingredient is there, all else unchanged."""
        with self._file.writing() as connection:
            written = connection.execute(
                update(SupplyRow)
                .where(SupplyRow.ingredient == key)
                .values(on_hand=on_hand, counter=SupplyRow.counter + 1)
            )
            if not written.rowcount:
                values = _columns(Supply(key, on_hand))
                connection.execute(insert(SupplyRow).values(ingredient=key, counter=1, **values))
            return read_supplies(connection, (key,))[key]


def read_supplies(connection: Connection, keys: Iterable[str] | None = None) -> dict[str, Supply]:
    """Return supplies by key: those of some keys, or all."""
    query = select(SupplyRow.__table__)
    if keys is not None:
        query = query.where(SupplyRow.ingredient.in_(sorted(keys)))
    return {row.ingredient: _supply(row) for row in connection.execute(query)}


def read_prices(connection: Connection, keys: frozenset[str] | None = None) -> dict[str, Price]:
    """Return what a kilogram costs by key: of some keys, or of all."""
    supplies = read_supplies(connection, keys)
    prices = {key: supply.price for key, supply in supplies.items()}
    return {key: price for key, price in prices.items() if price is not None}


def write_price(connection: Connection, key: str, price: Price | None) -> None:
    """Store what a kilogram costs, freight included, or that it is not known.

    What is priced for the first time was bought, so it is on hand from then on.
    """
    pack = {
        "pack_g": KILOGRAM_G if price else None,
        "pack_price": price.per_kg if price else None,
        "freight": Decimal(0) if price else None,
        "currency": price.currency if price else "",
    }
    written = connection.execute(
        update(SupplyRow)
        .where(SupplyRow.ingredient == key)
        .values(counter=SupplyRow.counter + 1, **pack)
    )
    if price is not None and not written.rowcount:
        values = _columns(Supply(key, on_hand=True)) | pack
        connection.execute(insert(SupplyRow).values(ingredient=key, counter=1, **values))


def drop_supply(connection: Connection, key: str) -> None:
    """Forget how an ingredient is bought."""
    connection.execute(delete(SupplyRow).where(SupplyRow.ingredient == key))


def _columns(supply: Supply) -> dict[str, object]:
    return {
        "on_hand": supply.on_hand,
        "supplier": supply.supplier.strip(),
        "order_code": supply.order_code.strip(),
        "pack_g": supply.pack_g,
        "pack_price": supply.pack_price,
        "freight": supply.freight,
        "currency": supply.currency,
        "allergens": _certificate_text(supply),
    }


def _supply(row: Row[tuple[object, ...]]) -> Supply:
    day, lot, allergens = "", "", None
    if row.allergens is not None:
        allergens = allergens_of(row.allergens, row.ingredient)
        day, lot = _paper_of(row.allergens)
    return Supply(
        ingredient=row.ingredient,
        on_hand=row.on_hand,
        supplier=row.supplier,
        order_code=row.order_code,
        pack_g=row.pack_g,
        pack_price=row.pack_price,
        freight=row.freight,
        currency=row.currency,
        allergens=allergens,
        counter=row.counter,
        certificate_date=day,
        certificate_lot=lot,
    )


def _certificate_text(supply: Supply) -> str | None:
    """Return the list of a certificate, with its date and lot around it where it has any."""
    if supply.allergens is None:
        return None
    listed = [
        {"substance": line.substance, "fraction": str(line.fraction)} for line in supply.allergens
    ]
    day, lot = supply.certificate_date.strip(), supply.certificate_lot.strip()
    return to_text({"date": day, "lot": lot, "listed": listed} if day or lot else listed)


def _paper_of(text: str) -> tuple[str, str]:
    held = json.loads(text)
    if not isinstance(held, dict):
        return "", ""
    return str(held.get("date", "")), str(held.get("lot", ""))


def allergens_of(text: str, key: str) -> tuple[Allergen, ...]:
    """Return the list of a certificate, or refuse naming whose cannot be read."""
    try:
        held = json.loads(text)
        listed = held["listed"] if isinstance(held, dict) else held
        return tuple(Allergen(str(line["substance"]), Decimal(line["fraction"])) for line in listed)
    except (ValueError, KeyError, TypeError, ArithmeticError) as error:
        raise refusal("unreadable-certificate", detail=repr(error), key=key) from error
