"""What `assess` prints of the label: lists by market, warnings, risk, what was checked."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from workbench.cli import main

LINES = [
    {"ingredient": "water", "percent": "rest"},
    {"ingredient": "glycolic_acid_70", "percent": "4"},
    {"ingredient": "eo_lavender", "percent": "0.02"},
    {"ingredient": "phenoxyethanol_ehg", "percent": "0.9"},
    {"ingredient": "panthenol_d", "percent": "1"},
    {"ingredient": "sodium_hydroxide_10", "percent": "1.5", "to_ph": True},
]
DOCUMENT = {
    "format": "formulation-workbench/formula",
    "format_version": 1,
    "name": "Reedling toner",
    "product_type": "toner",
    "exposure": "leave-on",
    "area": "face",
    "markets": ["EU"],
    "target_ph": ["4.0", "4.4"],
    "phases": [{"name": "Water phase", "lines": LINES}],
}
Assess = Callable[..., str]


@pytest.fixture
def assessed(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Assess:
    """Run `assess` on the document and return what it printed."""
    file = tmp_path / "reedling.formula.json"
    file.write_text(json.dumps(DOCUMENT), encoding="utf-8")

    def run(*options: str) -> str:
        assert main(["assess", str(file), "--date", "2026-11-25", *options]) in (0, 1)
        return capsys.readouterr().out

    return run


def test_that_json_gives_the_names_for_the_first_market_and_every_list(assessed: Assess) -> None:
    data = json.loads(assessed("--json", "--market", "US,EU"))
    assert data["declaration"][0] == "Water"
    assert list(data["declarations"]) == ["US", "EU"]
    eu = data["declarations"]["EU"]
    assert eu["text"].startswith("Aqua, Glycolic Acid, Panthenol")
    assert eu["heading"] == "Ingredients"
    by_name = {entry["name"]: entry for entry in eu["entries"]}
    assert by_name["Panthenol"] == {
        "name": "Panthenol", "percent": "1", "any_order": False, "colourant": False,
        "allergen": False, "nano": False, "held_back": False, "substances": ["panthenol"],
    }  # fmt: skip
    us = {entry["name"]: entry for entry in data["declarations"]["US"]["entries"]}
    assert us["Panthenol"]["any_order"]


def test_that_the_exposure_asked_for_decides_the_allergens(assessed: Assess) -> None:
    def named(*options: str) -> set[str]:
        data = json.loads(assessed("--json", *options))
        return {each["label"] for each in data["declarations"]["EU"]["allergens"]}

    # 0.02 % lavender: 0.02 % of the oil itself, 0.0068 % linalool (34 %)
    assert {"Lavandula Oil/Extract", "Linalool"} <= named()
    assert named("--exposure", "rinse-off") == {"Lavandula Oil/Extract"}


def test_that_the_day_asked_for_decides_the_list(assessed: Assess) -> None:
    data = json.loads(assessed("--json", "--date", "2026-07-30"))
    duties = {each["label"]: each for each in data["declarations"]["EU"]["allergens"]}
    assert duties["Linalool"]["duty"] == "required"
    assert duties["Lavandula Oil/Extract"]["duty"] == "coming"
    assert duties["Lavandula Oil/Extract"]["due"] == "2026-07-31"
    assert "Lavandula Oil/Extract" not in data["declaration"]


def test_that_json_holds_warnings_risk_and_what_was_checked(assessed: Assess) -> None:
    data = json.loads(assessed("--json", "--market", "EU", "US"))
    kinds = {(each["key"], each["kind"]) for each in data["warnings"]}
    assert ("sun-acid", "usual") in kinds
    assert ("aha_any", "recommended") in kinds
    assert data["micro_risk"]["verdict"] == "challenge-test-needed"
    checked = data["checked"]
    assert (checked["dated"], checked["on"]) == ("2026-11-25", "2026-11-25")
    assert sum(kind["rows"] for kind in checked["limit_kinds"].values()) == 489
    assert checked["limits"]
    assert checked["cautions"]


def test_that_json_gives_chemistry_as_numbers_and_percents_as_text(assessed: Assess) -> None:
    data = json.loads(assessed("--json"))
    ph = data["ph"]
    # 2.8 % glycolic acid (pKa 3.83) alone in water: below pH 3 before adjusting
    assert ph["low"] <= ph["estimate"] <= ph["high"] < 3
    assert ph["before_adjusting"]
    assert {dose["ingredient"] for dose in data["adjusters"]} >= {"sodium_hydroxide_10"}
    phenoxyethanol = next(
        each for each in data["preservatives"] if each["inci"] == "Phenoxyethanol"
    )
    assert phenoxyethanol["percent"] == "0.81"
    assert phenoxyethanol["as_acid_percent"] is None


def test_that_the_text_holds_the_same(assessed: Assess) -> None:
    text = assessed("--market", "EU,UK")
    for needed in (
        "Before adjusting, estimated",
        "Sodium hydroxide 10 % solution: ",
        "Ingredient list, EU",
        "Ingredient list, UK",
        "From Phenoxyethanol on in any order (below 1 %).",
        "Warnings",
        "A challenge test is needed before others use it.",
        "What was checked",
        "Law in force: 386 rows in the set",
        "Not looked at",
        "What remains to be done",
    ):
        assert needed in text


def test_that_nothing_is_called_safe_or_compliant(assessed: Assess) -> None:
    said = assessed("--market", "EU,UK,US").lower()
    assert "is safe" not in said
    assert "compliant" not in said
