"""Every reason, ratio and decision of a rework has its sentence."""

from __future__ import annotations

import ast
from decimal import Decimal
from pathlib import Path

import pytest

from tests.builders import make_ingredient, make_shelf
from workbench import paths
from workbench.formula import candidate_weights
from workbench.formula.candidate_values import Wanted, sketch_of
from workbench.formula.candidates import ranked, swap_table
from workbench.formula.decisions import Decision
from workbench.formula.edits import EditRefused
from workbench.formula.swaps import Ratio
from workbench.storage.reference.shipped import Shipped
from workbench.storage.reference.swaps import load_swaps
from workbench.words.catalogue import load_words
from workbench.words.rework import (
    decision_text,
    decisions_text,
    ratio_text,
    reason_text,
    refusal_text,
)

WORDS = load_words(paths.resources() / "words")
FOLDER = paths.resources() / "reference"
SHIPPED = Shipped(FOLDER)


def test_that_every_reason_and_difference_has_its_sentence() -> None:
    tree = ast.parse(Path(candidate_weights.__file__).read_text(encoding="utf-8"))
    texts = {node.value for node in ast.walk(tree) if isinstance(node, ast.Constant)}
    codes = {
        text for text in texts if isinstance(text, str) and text.startswith(("why-", "differs-"))
    }
    assert len(codes) > 15
    assert [code for code in sorted(codes) if not WORDS.has(code)] == []


@pytest.mark.parametrize("key", ["xanthan_gum", "phenoxyethanol_ehg", "almond_oil", "panthenol_d"])
def test_that_candidates_of_the_shipped_read_as_sentences(key: str) -> None:
    wanted = Wanted(sketch_of(SHIPPED.ingredients[key]), ph=(Decimal(5), Decimal("5.5")))
    found = ranked(
        wanted, map(sketch_of, SHIPPED.ingredients.values()), swap_table(load_swaps(FOLDER))
    )
    assert found
    for each in found:
        for reason in (*each.why, *each.differs):
            assert "{" not in reason_text(reason, SHIPPED.shelf, WORDS)
        assert ratio_text(each.ratio, WORDS)


def test_that_a_ratio_reads_with_three_places_at_most() -> None:
    text = ratio_text(Ratio("active", Decimal(100) / 75), WORDS)
    assert text == "the same pure matter: 1.333 parts for one"
    assert ratio_text(Ratio("active", Decimal(100)), WORDS).endswith("100 parts for one")


def test_that_a_refusal_names_what_the_maker_knows() -> None:
    shelf = make_shelf(make_ingredient("gum_stock"), make_ingredient("blend"))
    refused = EditRefused(
        "swap-carried-short", ingredient="gum_stock", line="blend", percent=Decimal("0.05")
    )
    text = refusal_text(refused, shelf, WORDS)
    assert text.startswith(
        "Gum Stock brings more Blend along than the line holds: 0.05 % too much."
    )


def test_that_one_decision_and_several_read_differently() -> None:
    shelf = make_shelf(make_ingredient("gum"))
    one = (Decision("swapped", "gum", (3,)),)
    several = (*one, Decision("head", "target_ph"))
    assert decisions_text((), shelf, WORDS) == ""
    assert decisions_text(one, shelf, WORDS).startswith("One decision")
    assert "Gum swapped in and another target pH" in decisions_text(several, shelf, WORDS)


@pytest.mark.parametrize(
    "kind", ["swapped", "added", "removed", "percent", "scaled", "moved", "steps", "head"]
)
def test_that_every_kind_of_decision_has_its_sentence(kind: str) -> None:
    assert decision_text(Decision(kind, "pack", (1, 2)), make_shelf(), WORDS)


@pytest.mark.parametrize("kind", ["mass", "active", "function", "dose", "typed"])
def test_that_every_kind_of_ratio_has_its_sentence(kind: str) -> None:
    assert ratio_text(Ratio(kind, Decimal(2)), WORDS)
