from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.builders import make_ingredient
from workbench.formula.blend import BlendPart, blend_total, blended
from workbench.formula.ingredient import Constituent, Ingredient

BASE = Ingredient(key="mix", name="My mix", inci="", functions=("emollient",), is_own=True)
PHENOXY = replace(
    make_ingredient("phenoxyethanol"), functions=("preservative",), density=Decimal("1.1")
)
GLYCERIN = replace(
    make_ingredient("glycerin", {"glycerin": "0.9", "aqua": "0.1"}),
    functions=("humectant",),
    density=Decimal("1.25"),
    water_percent=Decimal(10),
)


def mix(*parts):
    return blended([BlendPart(item, Decimal(percent)) for item, percent in parts], BASE)


def test_that_a_blend_is_made_of_the_substances_of_its_parts():
    found = mix((GLYCERIN, "60"), (PHENOXY, "40"))
    assert [(p.substance, p.fraction, p.purpose) for p in found.composition] == [
        ("glycerin", Decimal("0.54"), ""),
        ("phenoxyethanol", Decimal("0.4"), "preservative"),
        ("aqua", Decimal("0.06"), ""),
    ]
    assert {p.substance: p.water for p in found.composition}["aqua"] == Decimal("0.06")
    assert found.inci == "Glycerin (and) Phenoxyethanol"


def test_that_a_preservative_blend_needs_no_mark_on_its_parts():
    base = replace(BASE, functions=("preservative",))
    found = blended([BlendPart(PHENOXY, Decimal(100))], base)
    assert [part.purpose for part in found.composition] == [""]


def test_that_densities_add_by_volume():
    # 60/1.25 + 40/1.1 = 48 + 36.364 ml for 100 g: 1.185 g/ml
    assert mix((GLYCERIN, "60"), (PHENOXY, "40")).density == Decimal("1.185")
    assert mix((GLYCERIN, "60"), (make_ingredient("urea"), "40")).density is None


def test_that_water_is_known_only_when_it_is_of_every_part():
    assert mix((GLYCERIN, "60"), (PHENOXY, "40")).water_percent is None
    dry = replace(PHENOXY, water_percent=Decimal(0))
    assert mix((GLYCERIN, "60"), (dry, "40")).water_percent == Decimal(6)


def test_that_what_is_inside_adds_up_and_keeps_the_doubt():
    one = replace(GLYCERIN, constituents=(Constituent("linalool", Decimal("0.5"), "", "read"),))
    other = replace(PHENOXY, constituents=(Constituent("linalool", Decimal("0.1")),))
    (inside,) = mix((one, "50"), (other, "50")).constituents
    assert (inside.fraction, inside.confidence) == (Decimal("0.30"), "memory")


def test_that_cautions_tags_and_the_lowest_temperature_hold_for_the_whole():
    one = replace(GLYCERIN, cautions="gloves", tags=("volatile",), max_process_temp_c=Decimal(80))
    other = replace(PHENOXY, cautions="gloves", tags=("ester",), max_process_temp_c=Decimal(45))
    found = mix((one, "50"), (other, "50"))
    assert (found.cautions, found.tags) == ("gloves", ("volatile", "ester"))
    assert found.max_process_temp_c == Decimal(45)


@given(st.lists(st.decimals("0.01", "99", places=2), min_size=1, max_size=6))
def test_that_the_composition_of_a_whole_blend_is_whole(shares):
    shares = [*shares, 100 - sum(shares)]
    if shares[-1] <= 0:
        return
    parts = [BlendPart(GLYCERIN if n % 2 else PHENOXY, s) for n, s in enumerate(shares)]
    assert blend_total(parts) == 100
    assert sum(part.fraction for part in blended(parts, BASE).composition) == 1


@pytest.mark.parametrize("fact", ["name", "key", "functions", "is_own"])
def test_that_the_base_says_what_cannot_be_worked_out(fact):
    assert getattr(mix((GLYCERIN, "100")), fact) == getattr(BASE, fact)
