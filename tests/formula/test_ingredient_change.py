from __future__ import annotations

from dataclasses import fields, replace
from decimal import Decimal

import pytest

from tests.builders import make_ingredient
from workbench.formula.ingredient import Constituent, Ingredient, Part
from workbench.formula.ingredient_change import changed_fields, changes
from workbench.formula.ingredient_fields import confidence_of, copied, restated

BASE = replace(
    make_ingredient("citric_acid", {"citric_acid": "0.5", "water": "0.5"}),
    hlb=Decimal(4),
    ph_min=Decimal(2),
    ph_max=Decimal(6),
    verified_fields=("hlb", "ph_min", "ph_max"),
    confidence="read",
)


def test_that_a_copy_differs_in_its_name_alone():
    copy = copied(BASE, "my-acid", "My acid")
    assert (copy.is_own, copy.based_on, copy.key) == (True, "citric_acid", "my-acid")
    assert [change.field for change in changes(BASE, copy)] == ["name"]


@pytest.mark.parametrize(
    "name", [f.name for f in fields(Ingredient) if f.name not in ("composition", "constituents")]
)
def test_that_every_fact_is_compared(name):
    value = {"str": "other", "bool": True, "int | None": 7}.get(
        {f.name: f.type for f in fields(Ingredient)}[name], ("x",)
    )
    differs = changes(BASE, replace(BASE, **{name: value}))
    no_fact = {"key", "is_own", "based_on", "source", "confidence", "verified_fields"}
    no_fact |= {"is_certified"}  # says whose word the constituents are; those are compared
    assert [change.field for change in differs] == ([] if name in no_fact else [name])


def test_that_a_composition_is_compared_by_substance_and_not_by_order():
    turned = replace(BASE, composition=BASE.composition[::-1])
    assert changes(BASE, turned) == ()
    other = replace(
        BASE, composition=(Part("citric_acid", Decimal("0.6")), Part("ethanol", Decimal("0.4")))
    )
    assert [(c.substance, c.before, c.after) for c in changes(BASE, other)] == [
        ("citric_acid", Decimal("0.5"), Decimal("0.6")),
        ("water", Decimal("0.5"), None),
        ("ethanol", None, Decimal("0.4")),
    ]


def test_that_what_is_inside_is_compared_too():
    more = replace(BASE, constituents=(Constituent("linalool", Decimal("0.1")),))
    assert changed_fields(BASE, more) == {"constituents"}


def test_that_a_copy_keeps_read_on_what_it_did_not_change():
    copy = replace(copied(BASE, "my-acid", "My acid"), hlb=Decimal(5))
    stored = restated(copy, BASE)
    assert stored.verified_fields == ("ph_min", "ph_max")
    assert confidence_of(stored, "hlb", BASE) == "own"
    assert confidence_of(stored, "ph", BASE) == "read"
    assert confidence_of(stored, "density", BASE) == "memory"


def test_that_an_ingredient_made_from_nothing_is_all_the_makers_own():
    assert restated(BASE, None).verified_fields == ()
    assert confidence_of(restated(BASE, None), "hlb") == "own"


def test_that_a_span_is_read_only_when_both_ends_are():
    assert confidence_of(BASE, "ph") == "read"
    assert confidence_of(replace(BASE, verified_fields=("ph_min",)), "ph") == "memory"
    one_end = replace(BASE, ph_min=None, verified_fields=("ph_max",))
    assert confidence_of(one_end, "ph") == "read"
