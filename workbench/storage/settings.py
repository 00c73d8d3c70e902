"""Settings of the work: the studio's own block, its balances, its prices."""

from __future__ import annotations

import binascii
import json
from base64 import b64decode, b64encode
from collections.abc import Mapping
from dataclasses import dataclass, fields

from sqlalchemy import Connection, delete, insert, select
from sqlalchemy.dialects.sqlite import insert as upsert

from workbench.formula.shelf import Price
from workbench.formula.weighability import Balance
from workbench.storage.schema import BalanceRow, SettingRow
from workbench.storage.sentences import refusal
from workbench.storage.studio_file import StudioFile
from workbench.storage.supplies import read_prices, write_price
from workbench.words.numbers import NumberStyle

LARGEST_LOGO = 1_000_000
# Kept apart from the settings that every look at a number needs.
_LOGO = "logo"


@dataclass(frozen=True, slots=True)
class StudioSettings:
    """Hold what belongs to the work and not to the machine.

    `numbering` makes batch numbers of {initials}, {yymm} and {count}; with `on_hand_only` a
    draft is offered only what is on hand.
    """

    name: str = ""
    contact: str = ""
    currency: str = "EUR"
    markets: tuple[str, ...] = ("EU",)
    paper: str = "A4"
    decimal_style: NumberStyle = NumberStyle.POINT
    numbering: str = "{initials}-{yymm}-{count}"
    on_hand_only: bool = False


class Settings:
    """Keep the settings of the work."""

    def __init__(self, file: StudioFile) -> None:
        """Take the file they are in."""
        self._file = file

    def load(self) -> StudioSettings:
        """Return the settings; what is missing or makes no sense is as by default."""
        with self._file.reading() as connection:
            return read_settings(connection)

    def save(self, settings: StudioSettings, *, before: StudioSettings | None = None) -> None:
        """Store the settings; keys that this program does not know are left as they are.

        Raises
        ------
        WorkbenchError
            If `before` is given and what is stored differs from it: another window was first.
        """
        with self._file.writing() as connection:
            if before is not None and read_settings(connection) != before:
                raise refusal("stale-settings")
            for key, value in _stored(settings).items():
                row = upsert(SettingRow).values(key=key, value=json.dumps(value))
                changed = {"value": row.excluded.value}
                connection.execute(row.on_conflict_do_update(index_elements=["key"], set_=changed))

    def logo(self) -> bytes:
        """Return the picture of the studio as it was stored, empty when there is none."""
        with self._file.reading() as connection:
            text = connection.scalar(select(SettingRow.value).where(SettingRow.key == _LOGO))
        try:
            return b64decode(json.loads(text or '""'), validate=True)
        except (ValueError, TypeError, binascii.Error):
            return b""

    def set_logo(self, picture: bytes) -> None:
        """Store the picture of the studio; nothing takes it out.

        Raises
        ------
        WorkbenchError
            If it is larger than a megabyte.
        """
        if len(picture) > LARGEST_LOGO:
            raise refusal("logo-too-large")
        with self._file.writing() as connection:
            connection.execute(delete(SettingRow).where(SettingRow.key == _LOGO))
            if picture:
                text = json.dumps(b64encode(picture).decode("ascii"))
                connection.execute(insert(SettingRow).values(key=_LOGO, value=text))

    def balances(self) -> tuple[Balance, ...]:
        """Return the balances in their order."""
        with self._file.reading() as connection:
            return read_balances(connection)

    def set_balances(self, balances: tuple[Balance, ...]) -> None:
        """Store the balances in place of the former; their names differ."""
        rows = [
            {
                "place": place,
                "name": item.name,
                "readability": item.readability,
                "capacity": item.capacity,
                "repeatability": item.repeatability,
            }
            for place, item in enumerate(balances)
        ]
        if len({item.name for item in balances}) != len(balances):
            raise refusal("balance-twice")
        with self._file.writing() as connection:
            connection.execute(delete(BalanceRow))
            if rows:
                connection.execute(insert(BalanceRow), rows)

    def prices(self) -> dict[str, Price]:
        """Return every price by the key of its ingredient or stock."""
        with self._file.reading() as connection:
            return read_prices(connection)

    def set_price(self, key: str, price: Price | None) -> None:
        """Store what a kilogram costs, or that it is not known."""
        self.set_prices({key: price})

    def set_prices(self, prices: Mapping[str, Price | None]) -> None:
        """Store several prices at once."""
        with self._file.writing() as connection:
            for key, price in prices.items():
                write_price(connection, key, price)


def read_settings(connection: Connection) -> StudioSettings:
    """Return the settings as they are stored."""
    stored: dict[str, object] = {}
    query = select(SettingRow.key, SettingRow.value).where(SettingRow.key != _LOGO)
    for row in connection.execute(query):
        try:
            stored[row.key] = json.loads(row.value)
        except ValueError:
            continue
    return _settings_of(stored)


def read_balances(connection: Connection) -> tuple[Balance, ...]:
    """Return the balances in their order."""
    rows = connection.execute(
        select(
            BalanceRow.name, BalanceRow.readability, BalanceRow.capacity, BalanceRow.repeatability
        ).order_by(BalanceRow.place)
    )
    return tuple(Balance(*row) for row in rows)


def _stored(settings: StudioSettings) -> dict[str, object]:
    values: dict[str, object] = {
        field.name: getattr(settings, field.name) for field in fields(StudioSettings)
    }
    values["markets"] = list(settings.markets)
    values["decimal_style"] = settings.decimal_style.value
    return values


def _settings_of(stored: Mapping[str, object]) -> StudioSettings:
    values: dict[str, object] = {}
    for field in fields(StudioSettings):
        value = stored.get(field.name)
        if field.name == "markets":
            if isinstance(value, list) and all(isinstance(item, str) for item in value):
                values[field.name] = tuple(value)
        elif field.name == "decimal_style":
            if value in {style.value for style in NumberStyle}:
                values[field.name] = NumberStyle(value)
        elif isinstance(value, type(field.default)):
            values[field.name] = value
    return StudioSettings(**values)  # type: ignore[arg-type]
