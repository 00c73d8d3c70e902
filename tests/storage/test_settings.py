from __future__ import annotations

import sqlite3
from contextlib import closing
from dataclasses import replace
from decimal import Decimal

import pytest

from workbench.errors import WorkbenchError
from workbench.formula.shelf import Price
from workbench.formula.weighability import Balance
from workbench.storage.settings import StudioSettings
from workbench.words.numbers import NumberStyle

PEBBLEWICK = StudioSettings(
    name="Pebblewick",
    contact="3 Gorse Lane",
    currency="GBP",
    markets=("UK", "EU"),
    paper="Letter",
    decimal_style=NumberStyle.COMMA,
    numbering="{yymm}/{initials}/{count}",
    on_hand_only=True,
)


def put(studio, key, text):
    with closing(sqlite3.connect(studio.path)) as connection:
        connection.execute("INSERT OR REPLACE INTO settings VALUES (?, ?)", (key, text))
        connection.commit()


def test_that_a_new_studio_has_the_settings_by_default(studio):
    assert studio.settings.load() == StudioSettings()


def test_that_settings_are_kept(studio):
    studio.settings.save(PEBBLEWICK)
    assert studio.settings.load() == PEBBLEWICK
    studio.settings.save(replace(PEBBLEWICK, contact=""))
    assert studio.settings.load().contact == ""


def test_that_settings_of_a_later_program_are_left_alone(studio):
    put(studio, "moon_phase", '{"shown": true}')
    studio.settings.save(PEBBLEWICK)
    with closing(sqlite3.connect(studio.path)) as connection:
        found = connection.execute("SELECT value FROM settings WHERE key = 'moon_phase'")
        assert found.fetchone() == ('{"shown": true}',)


@pytest.mark.parametrize(
    ("key", "text"),
    [
        ("markets", "7"),
        ("markets", "[1]"),
        ("decimal_style", '";"'),
        ("paper", "null"),
        ("on_hand_only", '"yes"'),
        ("name", "{"),
    ],
)
def test_that_a_setting_that_makes_no_sense_is_as_by_default(studio, key, text):
    put(studio, key, text)
    assert studio.settings.load() == StudioSettings()


def test_that_settings_changed_elsewhere_are_not_written_over(studio):
    before = studio.settings.load()
    studio.settings.save(PEBBLEWICK)
    with pytest.raises(WorkbenchError, match="settings were changed in another window"):
        studio.settings.save(replace(before, name="Other"), before=before)
    studio.settings.save(replace(PEBBLEWICK, name="Other"), before=PEBBLEWICK)
    assert studio.settings.load().name == "Other"


def test_that_balances_keep_their_order_and_figures(studio):
    pair = (
        Balance("kitchen", Decimal("1"), Decimal("5000")),
        Balance("fine", Decimal("0.010"), Decimal("200"), Decimal("0.0063")),
    )
    studio.settings.set_balances(pair)
    assert studio.settings.balances() == pair
    assert str(studio.settings.balances()[1].readability) == "0.010"
    studio.settings.set_balances(pair[:1])
    assert studio.settings.balances() == pair[:1]


def test_that_two_balances_of_one_name_are_refused(studio):
    one = Balance("fine", Decimal("0.01"), Decimal("200"))
    with pytest.raises(WorkbenchError, match="same name"):
        studio.settings.set_balances((one, one))
    assert studio.settings.balances() == ()


def test_that_a_price_is_kept_exactly_and_can_be_taken_back(studio):
    price = Price(Decimal("12.3400"), "GBP")
    studio.settings.set_price("glycerin", price)
    studio.settings.set_price("water", Price(Decimal("0.5"), "GBP"))
    studio.settings.set_price("water", None)
    assert studio.settings.prices() == {"glycerin": price}
    assert str(studio.settings.prices()["glycerin"].per_kg) == "12.3400"
