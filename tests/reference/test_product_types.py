"""The shipped product types, and the drafts made of them.

Starting ranges: common practice among makers and trade pages, as each row of the tables says.
"""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import date
from decimal import Decimal
from functools import cache

import pytest

from workbench import paths
from workbench.checks.assess import assess
from workbench.formula.absent import Absent
from workbench.formula.formula import AREAS, EXPOSURES, PHASE_KINDS, PRODUCT_TYPES, Plan
from workbench.formula.scope import scope_of
from workbench.formula.shelf import shelf_of
from workbench.formula.skeleton import ProductType, TypeLine, TypePhase, skeleton
from workbench.formula.totals import totals
from workbench.storage.reference.limits import load_rules
from workbench.storage.reference.product_types import load_product_types
from workbench.storage.reference.shipped import Shipped
from workbench.words.catalogue import load_words
from workbench.words.product_types import TypeWording

REFERENCE = paths.resources() / "reference"
TYPES = load_product_types(REFERENCE)


@cache
def wording() -> TypeWording:
    return TypeWording(load_words(paths.resources() / "words"))


@cache
def shipped() -> Shipped:
    return Shipped(REFERENCE)


def draft(key: str):
    return skeleton(TYPES[key], "Test", wording())


def test_that_every_type_but_the_open_one_has_a_skeleton():
    assert set(TYPES) == set(PRODUCT_TYPES) - {"other"}


@pytest.mark.parametrize("key", TYPES)
def test_that_a_draft_totals_100_with_every_line_above_nothing(key):
    counted = totals(draft(key))
    assert counted.percent == Decimal(100)
    assert min(counted.percents.values()) > 0


@pytest.mark.parametrize("key", TYPES)
def test_that_starting_percents_lie_in_their_ranges(key):
    made, product = draft(key), TYPES[key]
    percents = [totals(made).percents[line.id] for line in made.lines()]
    for percent, line in zip(percents, product.lines(), strict=True):
        if line.low is not None and line.basis == "of-total":
            assert line.low <= percent <= line.high, line.ingredient
    oils = sum(
        percent
        for percent, line in zip(percents, product.lines(), strict=True)
        if line.basis == "oils-together"
    )
    for line in product.lines():
        if line.basis == "oils-together":
            assert line.low <= oils <= line.high


@pytest.mark.parametrize("key", TYPES)
def test_that_active_surfactant_lies_in_the_band_of_the_type(key):
    made, product = draft(key), TYPES[key]
    active = sum(
        line.percent * shipped().ingredients[line.ingredient].active_percent / 100
        for line in product.lines()
        if line.basis == "active-together"
    )
    bands = {(line.low, line.high) for line in product.lines() if line.basis == "active-together"}
    for low, high in bands:
        assert low <= active <= high
    assert made.product_type == key


def test_that_a_part_of_the_base_is_counted_without_the_grain():
    percents = {line.ingredient: line.percent for line in draft("scrub").lines()}
    base = 100 - percents["sucrose"]
    for line in TYPES["scrub"].lines():
        if line.basis == "of-base":
            assert line.low <= line.percent * 100 / base <= line.high


@pytest.mark.parametrize("key", TYPES)
def test_that_types_use_the_words_of_the_program(key):
    product = TYPES[key]
    functions = json.loads((REFERENCE / "vocab.json").read_text(encoding="utf-8"))["functions"]
    assert product.exposure in EXPOSURES
    assert product.area in AREAS
    assert {phase.kind for phase in product.phases} <= set(PHASE_KINDS)
    assert {line.role for line in product.lines()} <= set(functions)
    assert {line.ingredient for line in product.lines()} <= set(shipped().ingredients)


@pytest.mark.parametrize("key", TYPES)
def test_that_the_starting_ph_lies_in_the_usual_one(key):
    product = TYPES[key]
    if product.usual_ph and product.target_ph:
        assert product.usual_ph[0] <= product.target_ph[0]
        assert product.target_ph[1] <= product.usual_ph[1]


@pytest.mark.parametrize("key", TYPES)
def test_that_no_draft_starts_with_a_stop(key):
    made = replace(draft(key), markets=("EU", "UK"))
    shelf = shelf_of(shipped().ingredients, {}, shipped().substances)
    found = assess(made, shelf, scope_of(made, date(2026, 11, 25)), load_rules(REFERENCE))
    assert [one.code for one in found.findings if one.severity.word == "stop"] == []


@pytest.mark.parametrize("key", TYPES)
def test_that_the_adjuster_held_back_leads_to_the_target_and_is_enough(key):
    made = replace(draft(key), plan=Plan(batch_mass=Decimal(100)))
    held = [line for line in made.lines() if line.to_ph]
    assert len(held) == (made.target_ph is not None)
    shelf = shelf_of(shipped().ingredients, {}, shipped().substances)
    found = assess(made, shelf, scope_of(made, date(2026, 11, 25)), load_rules(REFERENCE))
    if isinstance(found.adjusters, Absent) or not found.adjusters:
        return  # no water, or the starting lines lie in the target window already
    doses = {dose.ingredient: dose.estimate for dose in found.adjusters}
    assert doses[held[0].ingredient] <= float(held[0].percent)


def test_that_the_range_of_a_line_stands_in_its_note():
    glycerin = next(line for line in draft("lotion").lines() if line.ingredient == "glycerin")
    assert glycerin.note == "Start from 2 – 5 %"
    assert glycerin.purpose == "humectant"


def test_that_a_type_that_cannot_total_100_is_refused():
    over = TypeLine("glycerin", "humectant", Decimal(101))
    rest = TypeLine("water", "water", None)
    for lines in ((over, rest), (rest, rest), (replace(over, percent=Decimal(3)),)):
        product = ProductType(
            "gel", "leave-on", "face", None, None, "", (TypePhase("water", "water", lines=lines),)
        )
        with pytest.raises(ValueError, match="does not total 100"):
            skeleton(product, "Test", wording())
