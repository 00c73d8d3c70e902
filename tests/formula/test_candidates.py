"""Candidates for a swap: the order, why each is one, and what differs."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from tests.builders import make_ingredient
from workbench import paths
from workbench.formula.candidate_values import Candidate, Sketch, Wanted, sketch_of
from workbench.formula.candidates import SwapTable, ranked, swap_table
from workbench.storage.reference.shipped import Shipped
from workbench.storage.reference.swaps import load_swaps

FOLDER = paths.resources() / "reference"
SHIPPED = Shipped(FOLDER)
TABLE = swap_table(load_swaps(FOLDER))
GUM = Sketch(
    "gum",
    "Gum",
    ("thickener-gum", "stabiliser"),
    "water",
    "anionic",
    "powder",
    strength=Decimal(100),
)


def best(*others: Sketch, wanted: Wanted | None = None) -> tuple[Candidate, ...]:
    """Return the ranked candidates without a table."""
    return ranked(wanted or Wanted(GUM), others, SwapTable())


def codes(candidate: Candidate) -> tuple[set[str], set[str]]:
    """Return the codes of why and of what differs."""
    return {each.code for each in candidate.why}, {each.code for each in candidate.differs}


def test_that_what_does_no_part_of_the_job_is_no_candidate() -> None:
    assert best(Sketch("oil", "Oil", ("emollient",), "oil")) == ()


def test_that_the_material_itself_is_no_candidate() -> None:
    assert best(GUM) == ()


def test_that_what_is_on_hand_comes_before_its_like() -> None:
    one, other = replace(GUM, key="a", name="A"), replace(GUM, key="b", name="B", on_hand=True)
    assert [each.key for each in best(one, other)] == ["b", "a"]
    assert "why-on-hand" in codes(best(other)[0])[0]


def test_that_what_goes_into_another_phase_or_bears_the_opposite_charge_comes_later() -> None:
    same = replace(GUM, key="z", name="Z")
    oily = replace(GUM, key="a", name="A", solubility="oil")
    cationic = replace(GUM, key="b", name="B", charge="cationic")
    assert [each.key for each in best(oily, cationic, same)] == ["z", "b", "a"]
    assert codes(best(oily)[0])[1] == {"differs-solubility"}
    assert codes(best(cationic)[0])[1] == {"differs-charge"}


@pytest.mark.parametrize(
    ("low", "high", "code"),
    [
        ("4", "8", "why-ph-fits"),
        ("5.2", "8", "differs-ph-narrower"),
        ("7", "9", "differs-ph-apart"),
    ],
)
def test_that_a_ph_window_is_held_against_what_is_asked_for(low: str, high: str, code: str) -> None:
    other = replace(GUM, key="a", ph_min=Decimal(low), ph_max=Decimal(high))
    found = best(other, wanted=Wanted(GUM, ph=(Decimal(5), Decimal("5.5"))))[0]
    assert code in codes(found)[0] | codes(found)[1]


def test_that_a_purpose_of_the_line_decides_the_job() -> None:
    keeper = Sketch("a", "A", ("stabiliser",))
    thick = Sketch("b", "B", ("thickener-gum",))
    found = best(keeper, thick, wanted=Wanted(GUM, purpose="stabiliser"))
    assert [each.key for each in found] == ["a", "b"]


def test_that_the_same_substance_in_another_strength_begins_by_pure_matter() -> None:
    neat = sketch_of(make_ingredient("neat", {"vitamin": "1"}, active_percent=Decimal(100)))
    diluted = sketch_of(
        make_ingredient("diluted", {"vitamin": "0.5", "aqua": "0.5"}, active_percent=Decimal(50))
    )
    found = best(diluted, wanted=Wanted(neat))[0]
    assert (found.ratio.kind, found.ratio.factor) == ("active", 2)
    assert codes(found) == ({"why-same-substance"}, {"differs-strength"})


def test_that_a_stock_of_the_material_comes_first() -> None:
    found = best(replace(GUM, key="a"), Sketch("stock", "Stock", is_stock=True))
    assert found[0].key == "stock"
    assert codes(found[0])[0] == {"why-stock-of-it"}


@pytest.mark.parametrize(
    ("key", "first"),
    [
        ("panthenol_d", {"panthenol_75"}),
        ("almond_oil", {"apricot_kernel_oil", "sunflower_oil_ho"}),
        ("xanthan_gum", {"sclerotium_gum"}),
        ("beeswax", {"candelilla_wax", "rice_bran_wax", "sunflower_wax", "carnauba_wax"}),
    ],
)
def test_that_the_table_leads_among_the_shipped(key: str, first: set[str]) -> None:
    item = sketch_of(SHIPPED.ingredients[key])
    found = ranked(Wanted(item), map(sketch_of, SHIPPED.ingredients.values()), TABLE)
    assert {each.key for each in found[: len(first)]} == first
    assert all("why-in-table" in codes(each)[0] for each in found[: len(first)])


def test_that_every_row_of_the_table_offers_its_swap_and_its_note() -> None:
    for swap in load_swaps(FOLDER):
        item, other = (sketch_of(SHIPPED.ingredients[key]) for key in (swap.from_key, swap.to_key))
        found = ranked(Wanted(item), (other,), TABLE)
        assert [each.key for each in found] == [swap.to_key], swap
        assert "why-in-table" in codes(found[0])[0]
        assert found[0].ratio.factor > 0
