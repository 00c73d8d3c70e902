from __future__ import annotations

import csv
import shutil
from functools import cache
from pathlib import Path

import pytest

from workbench.storage.reference.joins import join_report

REFERENCE = Path(__file__).resolve().parents[2] / "resources" / "reference"

JOINED = {
    "ingredients.csv": (406, 406),
    "composition_long.csv": (578, 578),
    "composition_dry.csv": (606, 606),
    "constituents_long.csv": (209, 209),
    "substances.csv": (740, 740),
    "names.csv": (1039, 1039),
    "limits.csv": (489, 487),
    "limit_scopes.csv": (489, 489),
    "limit_substances.csv": (1927, 1927),
    "allergens.csv": (83, 83),
    "allergen_links.csv": (98, 98),
    "acids_bases.csv": (64, 64),
    "acid_links.csv": (476, 476),
    "salts.csv": (55, 55),
    "salt_forms.csv": (55, 55),
    "reference_names.csv": (172, 169),
    "density.csv": (171, 169),
    "swaps.csv": (109, 109),
    "usual_warnings.csv": (24, 24),
    "water_activity.csv": (13, 13),
    "preservative_forms.csv": (74, 74),
    "preservative_levels.csv": (7, 7),
    "partition.csv": (21, 21),
    "oil_classes.csv": (118, 118),
    "binding.csv": (2, 2),
    "solubility.csv": (13, 13),
    "required_hlb.csv": (26, 26),
}


@cache
def rows(table: str) -> tuple[dict[str, str], ...]:
    with (REFERENCE / table).open(encoding="utf-8", newline="") as file:
        return tuple(csv.DictReader(file))


@cache
def report():
    return {join.table: join for join in join_report(REFERENCE)}


def test_that_every_table_with_references_is_in_the_report():
    assert set(report()) == set(JOINED)


@pytest.mark.parametrize("table", JOINED)
def test_that_no_reference_leads_nowhere(table):
    assert report()[table].loose == ()


@pytest.mark.parametrize("table", JOINED)
def test_that_rows_join(table):
    assert (report()[table].rows, report()[table].joined) == JOINED[table]


def test_that_what_does_not_join_is_named_with_its_reason():
    named = {(row["table"], row["value"]) for row in rows("exceptions.csv")}
    found = {(join.table, value) for join in report().values() for value in join.exceptions}
    assert found == named
    assert all(row["reason"] for row in rows("exceptions.csv"))


def test_that_only_two_limits_speak_of_no_substance():
    assert report()["limits.csv"].exceptions == (
        "suntanning_no_sunscreen",
        "safety_not_substantiated",
    )


@pytest.fixture
def folder(tmp_path):
    return Path(shutil.copytree(REFERENCE, tmp_path / "reference"))


def change(folder: Path, table: str, column: str, before: str, after: str) -> None:
    """Replace a text in the first cell of a column that holds it."""
    path = folder / table
    with path.open(encoding="utf-8", newline="") as file:
        found = list(csv.DictReader(file))
    row = next(row for row in found if before in row[column])
    row[column] = row[column].replace(before, after, 1)
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, list(found[0]))
        writer.writeheader()
        writer.writerows(found)


@pytest.mark.parametrize(
    ("table", "column", "before", "loose_table", "named"),
    [
        ("composition_long.csv", "substance_key", "xanthan_gum", "composition_long.csv", "xxx"),
        ("composition_dry.csv", "ingredient_key", "glycerin", "composition_dry.csv", "xxx"),
        ("ingredients.csv", "allergens", "Linalool", "ingredients.csv", "xxx"),
        ("ingredients.csv", "key", "beeswax", "composition_long.csv", "beeswax"),
        ("limit_substances.csv", "covers", "sodium_benzoate", "limit_substances.csv", "xxx"),
        ("limit_scopes.csv", "product_scope", "body lotion", "limits.csv", "body lotion"),
        ("limits.csv", "substance_key", "retinol", "limits.csv", "xxx"),
        ("allergen_links.csv", "allergen_label", "Citral", "allergens.csv", "Citral"),
        ("acid_links.csv", "acids_bases_key", "lactic", "acid_links.csv", "xxx"),
        ("substances.csv", "ions", '"benzoic"', "substances.csv", "xxx"),
        ("substances.csv", "parent", "sorbic_acid", "substances.csv", "xxx"),
        ("salt_forms.csv", "salt_key", "potassium_sorbate", "salts.csv", "potassium_sorbate"),
        ("names.csv", "name", "lactic acid", "acids_bases.csv", "lactic acid"),
        ("names.csv", "substance_key", "water", "names.csv", "xxx"),
        ("reference_names.csv", "name", "sunflower oil", "density.csv", "sunflower oil"),
        ("density.csv", "substance", "jojoba oil", "density.csv", "xxx"),
        ("swaps.csv", "to_key", "corn_starch", "swaps.csv", "xxx"),
    ],
)
def test_that_a_broken_reference_is_named(folder, table, column, before, loose_table, named):
    change(folder, table, column, before, '"xxx"' if before.startswith('"') else "xxx")
    broken = {join.table: join for join in join_report(folder)}[loose_table]
    assert any(named in end for end in broken.loose)
    assert broken.joined < JOINED[loose_table][1]


def test_that_the_report_is_printed_and_ends_well(run_python):
    run = run_python("-m", "workbench.storage.reference.joins")
    assert run.returncode == 0, run.stderr
    assert [line.split()[:3] for line in run.stdout.splitlines()[1:]] == [
        [table, str(total), str(joined)] for table, (total, joined) in JOINED.items()
    ]
    assert "leads nowhere" not in run.stdout


def labels(row: dict[str, str]) -> list[str]:
    return [name for name in (row["inci"], row["inci_us"], *row["other_names"].split(";")) if name]


def test_that_every_name_belongs_to_one_substance():
    names = [row["name"] for row in rows("names.csv")]
    assert len(names) == len(set(names))
    assert [name for name in names if name != name.lower()] == []


def test_that_every_name_of_a_substance_is_owned():
    owners = {row["name"]: row["substance_key"] for row in rows("names.csv")}
    unowned: set[tuple[str, str]] = set()
    for row in rows("substances.csv"):
        for name in labels(row):
            owner = owners.get(name.lower())
            if owner is None:
                unowned.add((row["key"], name))
            elif owner != row["key"]:
                # Only a hydrate shares its label name, and the dry substance owns it.
                assert row["kind"] == "hydrate", (row["key"], name, owner)
    # One US name for three pigments is a label, not a key; two substances are never declared.
    assert unowned == {
        ("ci_77491", "Iron Oxides"),
        ("ci_77492", "Iron Oxides"),
        ("ci_77499", "Iron Oxides"),
        ("surfactant_byproducts", "Surfactant by-products"),
        ("botanical_matter", "Botanical matter"),
    }


def test_that_every_name_is_written_at_its_substance():
    written = {row["key"]: {name.lower() for name in labels(row)} for row in rows("substances.csv")}
    stray = [row for row in rows("names.csv") if row["name"] not in written[row["substance_key"]]]
    assert stray == []
