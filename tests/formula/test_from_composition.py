from __future__ import annotations

from decimal import Decimal

from workbench.formula.from_composition import (
    active_percent,
    diluted,
    is_whole,
    joined_names,
    water_percent,
)
from workbench.formula.ingredient import Part

HALF = Decimal("0.5")
NEAT = (Part("panthenol", Decimal(1)),)


def test_that_water_and_the_rest_make_the_whole():
    parts = (Part("panthenol", HALF), Part("water", HALF, HALF))
    assert (water_percent(parts), active_percent(parts)) == (50, 50)


def test_that_crystal_water_counts_as_water():
    # Citric acid monohydrate: 18.015 of 210.14 g/mol is water (molar masses).
    parts = (Part("citric_acid", Decimal(1), Decimal("0.0857")),)
    assert active_percent(parts) == Decimal("91.43")


def test_that_a_material_is_brought_to_a_strength_with_water():
    parts = diluted(NEAT, Decimal(75))
    assert parts == (
        Part("panthenol", Decimal("0.75")),
        Part("water", Decimal("0.25"), Decimal("0.25")),
    )


def test_that_water_that_is_there_gives_way():
    parts = (
        Part("a", Decimal("0.2")),
        Part("b", Decimal("0.1")),
        Part("water", *2 * [Decimal("0.7")]),
    )
    stronger = diluted(parts, Decimal(60))
    assert stronger is not None
    assert [part.fraction for part in stronger] == [Decimal("0.4"), Decimal("0.2"), Decimal("0.4")]


def test_that_thirds_still_make_the_whole():
    parts = diluted((Part("a", Decimal(1)), Part("b", Decimal(2))), Decimal(50))
    assert parts is not None
    assert is_whole(parts)


def test_that_water_alone_and_hydrates_over_their_strength_cannot_be():
    assert diluted((Part("water", Decimal(1), Decimal(1)),), Decimal(50)) is None
    assert diluted((Part("hydrate", Decimal(1), Decimal("0.1")),), Decimal(95)) is None


def test_that_names_stand_from_the_most_to_the_least():
    parts = (Part("water", Decimal("0.3")), Part("panthenol", Decimal("0.7")))
    assert joined_names(parts, str.upper) == "PANTHENOL (and) WATER"
