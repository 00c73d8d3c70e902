"""Every reason of a pH or a dose has a sentence that takes the values it comes with."""

from __future__ import annotations

import ast
from decimal import Decimal
from pathlib import Path

import pytest

from tests.checks.chemistry_shelf import shelf
from workbench import paths
from workbench.checks.ph_values import Reason
from workbench.words.catalogue import load_words
from workbench.words.ph import reason_text

ROOT = Path(__file__).resolve().parents[2]
WORDS = load_words(paths.resources() / "words")
VALUES = (
    ("ingredient", "lactic_acid_80"),
    ("percent", Decimal("1.5")),
    ("low", Decimal(84)),
    ("high", Decimal(105)),
    ("ionic-strength", Decimal("0.7")),
    ("room", Decimal(80)),
    ("most", Decimal(15)),
    ("held", Decimal(1)),
    ("confidence", "memory"),
)


def written_ids() -> set[str]:
    """Return every id of a reason that is written out in the checks."""
    return {
        node.value
        for file in (ROOT / "workbench" / "checks").glob("*.py")
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8")))
        if isinstance(node, ast.Constant)
        and isinstance(node.value, str)
        and node.value.startswith(("ph-reason-", "dose-reason-"))
    }


def said_ids() -> set[str]:
    text = (ROOT / "resources" / "words" / "en" / "chemistry.ftl").read_text(encoding="utf-8")
    ids = {line.partition(" ")[0] for line in text.splitlines() if " = " in line}
    return {one for one in ids if one.startswith(("ph-reason-", "dose-reason-"))}


def noted_ids() -> set[str]:
    return {
        cell
        for table in ("adjusters.csv", "solute_ranges.csv", "acid_ranges.csv")
        for line in (ROOT / "resources" / "reference" / table).read_text("utf-8").splitlines()
        for cell in line.split(",")
        if cell.startswith("ph-reason-")
    }


def test_that_every_reason_is_said_and_no_sentence_is_idle():
    assert len(written_ids()) > 12
    assert written_ids() | noted_ids() == said_ids()


@pytest.mark.parametrize("reason", sorted(said_ids()))
def test_that_a_reason_reads_as_a_sentence(reason):
    text = reason_text(Reason(reason, VALUES), shelf(), WORDS)
    assert text.endswith(".")
    assert "{" not in text
    assert "lactic_acid_80" not in text
