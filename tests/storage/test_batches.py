from __future__ import annotations

import sqlite3
from contextlib import closing
from datetime import UTC, datetime
from decimal import Decimal

import pytest

from workbench.errors import WorkbenchError
from workbench.storage.batches import NumberedBatch, initials_of
from workbench.storage.settings import StudioSettings

NOVEMBER = datetime(2026, 11, 3, 9, 30, tzinfo=UTC)
DECEMBER = datetime(2026, 12, 1, 9, 30, tzinfo=UTC)
MASS = Decimal("500.0")


@pytest.fixture
def key(studio, gel):
    """A gel with one version; returns its key."""
    made = studio.formulas.create("Oat & quince gel", gel)
    studio.versions.make_version(made, "First", NOVEMBER, studio.shelf_for(gel))
    return made


@pytest.mark.parametrize(
    ("name", "initials"),
    [
        ("Oat & quince gel", "OQ"),
        ("Harbour Fog lotion", "HF"),
        ("Balm", "BA"),
        ("É", "E"),
        ("2-in-1 wash", "IW"),
        ("!", "B"),
    ],
)
def test_that_initials_are_of_two_words_or_two_letters(name, initials):
    assert initials_of(name) == initials


def test_that_batches_of_a_month_count_up(studio, key):
    assert studio.batches.next_number("OQ", "2611") == "OQ-2611-01"
    numbers = [studio.batches.take_number(key, 1, MASS, NOVEMBER).number for _ in range(3)]
    assert numbers == ["OQ-2611-01", "OQ-2611-02", "OQ-2611-03"]
    assert studio.batches.next_number("OQ", "2611") == "OQ-2611-04"
    assert studio.batches.take_number(key, 1, MASS, DECEMBER).number == "OQ-2612-01"


def test_that_formulas_of_the_same_initials_share_one_count(studio, key, gel):
    other = studio.formulas.create("Olive quark mask", gel)
    studio.versions.make_version(other, "First", NOVEMBER, studio.shelf_for(gel))
    studio.batches.take_number(key, 1, MASS, NOVEMBER)
    assert studio.batches.take_number(other, 1, MASS, NOVEMBER).number == "OQ-2611-02"


def test_that_a_batch_is_kept_with_its_version_and_mass(studio, key):
    made = studio.batches.take_number(key, 1, MASS, NOVEMBER)
    assert made == NumberedBatch("OQ-2611-01", key, 1, MASS, NOVEMBER)
    assert studio.batches.get("OQ-2611-01") == made
    assert studio.batches.of_formula(key) == (made,)
    with pytest.raises(WorkbenchError, match="no batch 'OQ-2611-09'"):
        studio.batches.get("OQ-2611-09")


def test_that_the_studio_may_number_in_its_own_way(studio, key):
    studio.settings.save(StudioSettings(numbering="{yymm}/{initials}{count}"))
    assert studio.batches.take_number(key, 1, MASS, NOVEMBER).number == "2611/OQ01"


def test_that_a_pattern_without_a_count_is_not_followed(studio, key):
    studio.settings.save(StudioSettings(numbering="always the same"))
    assert studio.batches.take_number(key, 1, MASS, NOVEMBER).number == "OQ-2611-01"


def test_that_a_number_is_never_given_twice_whatever_the_pattern(studio, key):
    studio.settings.save(StudioSettings(numbering="B1{count}"))
    assert studio.batches.take_number(key, 1, MASS, NOVEMBER).number == "B101"
    studio.settings.save(StudioSettings(numbering="B{count}"))
    numbers = {studio.batches.take_number(key, 1, MASS, NOVEMBER).number for _ in range(105)}
    assert len(numbers | {"B101"}) == 106


def test_that_only_versions_and_real_masses_are_numbered(studio, key):
    with pytest.raises(WorkbenchError, match="no version 2"):
        studio.batches.take_number(key, 2, MASS, NOVEMBER)
    with pytest.raises(WorkbenchError, match="mass above zero"):
        studio.batches.take_number(key, 1, Decimal(0), NOVEMBER)
    assert studio.batches.of_formula(key) == ()


@pytest.mark.parametrize("statement", ["UPDATE batches SET number = 'X'", "DELETE FROM batches"])
def test_that_batches_refuse_every_change(studio, key, statement):
    studio.batches.take_number(key, 1, MASS, NOVEMBER)
    with (
        closing(sqlite3.connect(studio.path)) as connection,
        pytest.raises(sqlite3.IntegrityError, match="batches are append-only"),
    ):
        connection.execute(statement)
