"""The tables of labels: what they hold, and how a bad row stops them with file, line, reason."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest

from workbench import paths
from workbench.errors import WorkbenchError
from workbench.storage.reference.label_tables import load_labelling

FOLDER = paths.resources() / "reference"
TABLES = (
    "allergens.csv",
    "allergen_links.csv",
    "label_rules.csv",
    "usual_warnings.csv",
    "micro_risk.csv",
    "water_activity.csv",
)


@pytest.fixture
def spoiled(tmp_path: Path) -> Callable[[str, int, str, str], str]:
    """Spoil one line of a copied table and return what the loader says of it."""

    def spoil(table: str, line: int, old: str, new: str) -> str:
        for name in (*TABLES, "vocab.json"):
            shutil.copy(FOLDER / name, tmp_path / name)
        lines = (tmp_path / table).read_text(encoding="utf-8").splitlines()
        assert old in lines[line - 1], lines[line - 1]
        lines[line - 1] = lines[line - 1].replace(old, new, 1)
        (tmp_path / table).write_text("\n".join(lines) + "\n", encoding="utf-8")
        with pytest.raises(WorkbenchError) as refused:
            load_labelling(tmp_path)
        return str(refused.value.detail)

    return spoil


def line_of(table: str, text: str) -> int:
    lines = (FOLDER / table).read_text(encoding="utf-8").splitlines()
    return next(place for place, line in enumerate(lines, start=1) if text in line)


@pytest.mark.parametrize(
    ("table", "row", "old", "new", "reason"),
    [
        ("label_rules.csv", "EU,heading", "EU,", "XX,", "'XX' is no market"),
        ("label_rules.csv", "EU,heading", "heading", "caption", "'caption' is no rule"),
        ("label_rules.csv", "EU,free_below", "free_below_percent,1", "free_below_percent,one",
         "value is 'one', no number"),
        ("label_rules.csv", "EU,free_below", "free_below_percent,1", "free_below_percent,0",
         "not over 0"),
        ("label_rules.csv", "UK,heading", "UK,heading", "EU,heading", "stands in line 2 already"),
        ("label_rules.csv", "US,names", "inci_us", "latin", "neither inci nor inci_us"),
        ("label_rules.csv", "EU,aroma_areas", "lip", "ear", "'ear' is no word"),
        ("usual_warnings.csv", "bee-product", "bee-product,usual", "bee-product,loud",
         "kind is 'loud'"),
        ("usual_warnings.csv", "bee-product", "bee-product,usual", "sun-acid,usual",
         "stands in line"),
        ("usual_warnings.csv", "sun-acid", ",aha,", ",wizard,", "'wizard' is no word"),
        ("usual_warnings.csv", "sun-acid", "leave-on;rinse-off", "left-on", "'left-on' is no"),
        ("usual_warnings.csv", "flammable-product", ",20,", ",lots,", "'lots', no number"),
        ("usual_warnings.csv", "flammable-product", ",20,", ",nan,", "'nan', no number"),
        ("micro_risk.csv", "ph-low", "ph-low", "ph-lowest", "no factor the program knows"),
        ("micro_risk.csv", "ph-low,", "meets", "excuses", "direction is 'excuses'"),
        ("micro_risk.csv", "ph-low,", "3,pH", "3,", "a figure needs its unit"),
        ("micro_risk.csv", "ph-high,", "ph-high", "ph-low", "stands in line 2 already"),
        ("water_activity.csv", "glycerin", "1.0,1.3", "1.3,1.0", "do not fall"),
        ("water_activity.csv", "sucrose", "0.84", "84", "no water activity"),
        ("water_activity.csv", "xylitol,", "xylitol,xylitol", "glycerin,glycerin",
         "stands in line"),
        ("allergens.csv", "Linalool", "original (Dir. 2003/15/EC list)", "rumoured",
         "status is 'rumoured'"),
        ("allergens.csv", "Linalool", "0.001", "a trace", "is 'a trace'"),
        ("allergens.csv", "Vanillin", "2026-07-31", "31.7.2026", "no day such as"),
        ("allergens.csv", "Vanillin", "2026-07-31", "", "needs both its dates"),
        ("allergens.csv", "Vanillin", "2028-07-31", "2024-07-31", "before placing_deadline"),
        ("allergen_links.csv", "Linalool", "Linalool,", "Linaloop,",
         "'Linaloop' is no allergen"),
        ("allergen_links.csv", "lavandula_hybrida_oil", "lavandula_hybrida_oil",
         "lavandula_angustifolia_oil", "stands in line"),
    ],
)  # fmt: skip
def test_that_a_bad_row_stops_the_loader_with_file_line_and_reason(
    spoiled: Callable[[str, int, str, str], str],
    table: str,
    row: str,
    old: str,
    new: str,
    reason: str,
) -> None:
    line = line_of(table, row)
    said = spoiled(table, line, old, new)
    assert f"{table}, line {line}: " in said or "already" in said
    assert table in said
    assert reason in said


def test_that_a_missing_market_or_factor_stops_the_loader(tmp_path: Path) -> None:
    for table, start in (("label_rules.csv", "US,"), ("micro_risk.csv", "chelator,")):
        for name in (*TABLES, "vocab.json"):
            shutil.copy(FOLDER / name, tmp_path / name)
        text = (FOLDER / table).read_text(encoding="utf-8").splitlines(keepends=True)
        kept = [line for line in text if not line.startswith(start)]
        (tmp_path / table).write_text("".join(kept), encoding="utf-8")
        with pytest.raises(WorkbenchError) as refused:
            load_labelling(tmp_path)
        assert table in str(refused.value.detail)


def test_that_an_allergen_without_a_substance_stops_the_loader(tmp_path: Path) -> None:
    for name in (*TABLES, "vocab.json"):
        shutil.copy(FOLDER / name, tmp_path / name)
    links = (FOLDER / "allergen_links.csv").read_text(encoding="utf-8").splitlines(keepends=True)
    kept = [line for line in links if not line.startswith("Vanillin,")]
    (tmp_path / "allergen_links.csv").write_text("".join(kept), encoding="utf-8")
    with pytest.raises(WorkbenchError) as refused:
        load_labelling(tmp_path)
    line = line_of("allergens.csv", "Vanillin")
    assert f"allergens.csv, line {line}: 'Vanillin' covers no substance" in str(
        refused.value.detail
    )


# Reg. (EC) 1223/2009 Art. 19(1)(g) and 21 CFR 701.3 as the notes on labels retell them.
def test_that_the_markets_differ_where_the_law_differs() -> None:
    markets = load_labelling(FOLDER).markets
    assert {key: label.is_free_at_limit for key, label in markets.items()} == {
        "EU": False, "UK": False, "US": True,
    }  # fmt: skip
    assert {label.free_percent for label in markets.values()} == {Decimal(1)}
    assert markets["US"].uses_us_names
    assert (markets["EU"].fragrance_word, markets["US"].fragrance_word) == ("Parfum", "Fragrance")


# Dir. 2003/15/EC: 26 names, 2 of them prohibited since; Reg. (EU) 2023/1545 adds 56, one more
# is doubtful. New products from 2026-07-31, all stock from 2028-07-31.
def test_that_the_allergen_lists_hold_what_the_law_lists() -> None:
    rules = load_labelling(FOLDER).allergens
    first = [rule for rule in rules if rule.listed == "first"]
    added = [rule for rule in rules if rule.listed == "added" and not rule.is_doubtful]
    assert (len(first), len(added)) == (24, 56)
    assert all(rule.placing is None for rule in first)
    assert {(rule.placing, rule.making_available) for rule in added} == {
        (date(2026, 7, 31), date(2028, 7, 31))
    }
    assert {(rule.leave_on, rule.rinse_off) for rule in rules} == {
        (Decimal("0.001"), Decimal("0.01"))
    }


def test_that_every_rule_says_where_it_comes_from() -> None:
    labelling = load_labelling(FOLDER)
    rules = (*labelling.allergens, *labelling.warnings, *labelling.risks.values())
    assert all(rule.source and rule.confidence in {"read", "memory"} for rule in rules)
    assert all(
        source and confidence
        for label in labelling.markets.values()
        for source, confidence in label.sources.values()
    )
