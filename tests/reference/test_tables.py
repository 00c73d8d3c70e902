from __future__ import annotations

import csv
import json
import re
from collections import Counter
from datetime import date
from decimal import Decimal
from functools import cache
from pathlib import Path

import pytest

REFERENCE = Path(__file__).resolve().parents[2] / "resources" / "reference"

# Rows and the columns that name a row once.
TABLES = {
    "acid_links.csv": (476, ("substance_key", "species", "model", "state")),
    "acids_bases.csv": (64, ("key",)),
    "acids_bases_proposed.csv": (28, ("key",)),
    "allergen_links.csv": (98, ("substance_key",)),
    "allergens.csv": (83, ("label_name",)),
    "atomic_weights.csv": (40, ("symbol",)),
    "buffers.csv": (36, ("id",)),
    "composition_dry.csv": (606, ("ingredient_key", "substance_key")),
    "composition_long.csv": (578, ("ingredient_key", "substance_key")),
    "constituents_long.csv": (209, ("ingredient_key", "substance_key")),
    "density.csv": (171, ("substance", "wt_percent", "temp_C")),
    "exceptions.csv": (7, ("table", "column", "value")),
    "ingredients.csv": (406, ("key",)),
    "limit_scopes.csv": (489, ("substance_key", "jurisdiction", "product_scope")),
    "limit_substances.csv": (
        1927,
        ("substance_key", "jurisdiction", "product_scope", "role", "covers"),
    ),
    "limits.csv": (489, ("substance_key", "jurisdiction", "product_scope")),
    "names.csv": (1039, ("name",)),
    "phreeqc_mixtures.csv": (71, ("mixture",)),
    "reference_names.csv": (172, ("table", "name", "target_key")),
    "salt_forms.csv": (55, ("salt_key",)),
    "salts.csv": (55, ("key",)),
    "substances.csv": (740, ("key",)),
    "swaps.csv": (109, ("from_key", "to_key")),
    "weighing.csv": (6, ("key",)),
    "preservative_forms.csv": (74, ("substance_key",)),
    "preservative_levels.csv": (7, ("substance_key",)),
    "partition.csv": (21, ("substance_key", "oil_class")),
    "oil_classes.csv": (118, ("ingredient_key",)),
    "binding.csv": (2, ("substance_key", "surfactant_key")),
    "solubility.csv": (13, ("substance_key",)),
    "required_hlb.csv": (26, ("ingredient_key",)),
    "density_classes.csv": (6, ("density_class",)),
    "surfactant_bands.csv": (4, ("product_type",)),
    "label_rules.csv": (30, ("market", "rule")),
    "usual_warnings.csv": (24, ("key",)),
    "micro_risk.csv": (21, ("key",)),
    "water_activity.csv": (13, ("substance_key",)),
    "unknown_acids.csv": (58, ("ingredient_key",)),
    "adjusters.csv": (13, ("ingredient_key",)),
    "acid_ranges.csv": (36, ("acid_key",)),
    "solute_ranges.csv": (29, ("key",)),
    "unmodelled.csv": (11, ("key",)),
    "chemistry_figures.csv": (16, ("key",)),
    "accept_bands.csv": (7, ("key",)),
    "figures.csv": (11, ("key",)),
    "balances.csv": (2, ("key",)),
    "label_sheets.csv": (9, ("key",)),
    "label_heights.csv": (14, ("key",)),
    "label_fields.csv": (70, ("kind", "field")),
    "product_types.csv": (15, ("key",)),
    "product_type_phases.csv": (50, ("type", "place")),
    "product_type_lines.csv": (112, ("type", "phase_place", "ingredient")),
    "meter.csv": (12, ("key",)),
    "meter_buffers.csv": (9, ("buffer", "temperature_c")),
    "ph_guide.csv": (35, ("key",)),
}
CONFIDENCE = {
    "read",
    "memory",
    "computed",
    "derived",
    "checked",
    "nominal",
    "label-name",
    "definition",
}
CLOSED = [
    pytest.param("ingredients.csv", "heat_sensitive", {"y", "n"}),
    pytest.param("ingredients.csv", "electrolyte_sensitive", {"y", "n"}),
    pytest.param("ingredients.csv", "phototoxic", {"", "y", "n"}),
    pytest.param("ingredients.csv", "confidence", {"read", "memory"}),
    pytest.param(
        "substances.csv",
        "kind",
        {"single", "salt", "hydrate", "mixture", "extract", "polymer", "group"},
    ),
    pytest.param("substances.csv", "colourant", {"y", "n"}),
    pytest.param("substances.csv", "declared", {"y", "n"}),
    pytest.param("substances.csv", "nano_possible", {"y", "n"}),
    pytest.param("limits.csv", "jurisdiction", {"EU", "UK", "US-guidance", "CIR"}),
    pytest.param(
        "limits.csv",
        "status",
        {
            "law",
            "future",
            "law-by-claim",
            "advice",
            "labelling",
            "raw-material",
            "information",
        },
    ),
    pytest.param("limit_scopes.csv", "when_excluded", {"", "banned", "check", "silent"}),
    pytest.param("limit_scopes.csv", "when_outside", {"", "banned", "check", "silent"}),
    pytest.param("limit_scopes.csv", "in_scope_of_tool", {"y", "n"}),
    pytest.param("limit_substances.csv", "coverage", {"named", "class", "possible", "group sum"}),
    pytest.param("constituents_long.csv", "already_in_composition", {"y", "n"}),
]
AMOUNTS = [
    ("ingredients.csv", "use_min_percent", 0, 100),
    ("ingredients.csv", "use_max_percent", 0, 100),
    ("ingredients.csv", "ph_min", 0, 14),
    ("ingredients.csv", "ph_max", 0, 14),
    ("ingredients.csv", "water_percent", 0, 100),
    ("ingredients.csv", "active_percent", 0, 100),
    ("ingredients.csv", "density_g_ml", "0.2", 6),
    ("ingredients.csv", "max_process_temp_c", 20, 300),
    ("ingredients.csv", "shelf_life_months", 1, 120),
    ("ingredients.csv", "hlb", 1, 40),
    ("ingredients.csv", "required_hlb_ow", 1, 20),
    ("ingredients.csv", "dermal_max_percent", 0, 100),
    ("limits.csv", "max_percent", 0, 100),
    ("limits.csv", "group_max_percent", 0, 100),
    ("limit_substances.csv", "factor", "0.05", 60),
    ("density.csv", "density_g_mL", "0.6", 2),
    ("allergens.csv", "threshold_leave_on_percent", "0.001", "0.001"),
    ("allergens.csv", "threshold_rinse_off_percent", "0.01", "0.01"),
    ("substances.csv", "water_mass_fraction", 0, 1),
    ("swaps.csv", "factor", 0, 100),
]


@cache
def rows(table: str) -> tuple[dict[str, str], ...]:
    with (REFERENCE / table).open(encoding="utf-8", newline="") as file:
        return tuple(csv.DictReader(file))


def test_that_every_table_of_the_folder_is_looked_at():
    assert {file.name for file in REFERENCE.glob("*.csv")} == set(TABLES)


@pytest.mark.parametrize("table", TABLES)
def test_that_a_table_has_its_rows(table):
    assert len(rows(table)) == TABLES[table][0]


@pytest.mark.parametrize("table", TABLES)
def test_that_every_row_has_a_key_of_its_own(table):
    keys = Counter(tuple(row[name] for name in TABLES[table][1]) for row in rows(table))
    assert [key for key, times in keys.items() if times > 1 or not any(key)] == []


@pytest.mark.parametrize("table", TABLES)
def test_that_every_row_says_where_it_comes_from_and_how_far_it_was_confirmed(table):
    assert [row for row in rows(table) if not row["source"].strip()] == []
    assert {row["confidence"] for row in rows(table)} <= CONFIDENCE


@pytest.mark.parametrize("table", TABLES)
def test_that_derived_rows_name_the_table_they_follow_from(table):
    derived = [row["source"] for row in rows(table) if row["confidence"] == "derived"]
    if table != "salts.csv":  # these follow from molar masses, not from another row
        pattern = re.compile(r"derived: (\w+\.csv|hlb|preservation) ")
        assert [source for source in derived if not pattern.match(source)] == []


@pytest.mark.parametrize("table", TABLES)
def test_that_cells_name_only_files_that_are_shipped(table):
    named = {
        file
        for row in rows(table)
        for cell in row.values()
        for file in re.findall(r"\b\w+\.(?:csv|md|py|json|tsv)\b", cell)
    }
    assert named <= {file.name for file in REFERENCE.iterdir()}


@pytest.mark.parametrize("table", TABLES)
def test_that_no_cell_is_missing_or_padded(table):
    for row in rows(table):
        assert None not in row, row
        assert None not in row.values(), row
        assert all(cell == cell.strip() for cell in row.values()), row


def test_that_sources_are_listed_once_and_name_tables_that_exist():
    with (REFERENCE / "SOURCES.tsv").open(encoding="utf-8", newline="") as file:
        sources = list(csv.DictReader(file, delimiter="\t"))
    keys = [source["key"] for source in sources]
    assert len(keys) == len(set(keys)) > 0
    used = {name for row in sources for name in re.findall(r"\w+\.csv", row["used_for"])}
    assert used <= set(TABLES)
    # What joins to nothing has its reason beside it; substances take theirs from the rest.
    assert set(TABLES) - used <= {"exceptions.csv", "acids_bases_proposed.csv"}


def test_that_the_set_has_a_name_and_a_day():
    facts = json.loads((REFERENCE / "set.json").read_text(encoding="utf-8"))
    assert set(facts) == {"id", "date", "title"}
    assert date.fromisoformat(facts["date"]).isoformat().startswith(facts["id"])


@pytest.mark.parametrize(("table", "column", "words"), CLOSED)
def test_that_closed_columns_hold_only_their_words(table, column, words):
    assert {row[column] for row in rows(table)} <= words


@pytest.mark.parametrize(
    ("column", "words"),
    [
        ("functions", "functions"),
        ("tags", "tags"),
        ("incompatibilities", "incompatibility_codes"),
        ("spectrum", "spectrum"),
        ("form", "forms"),
        ("solubility", "solubility"),
        ("ionic_charge", "ionic_charge"),
        ("origin", "origins"),
    ],
)
def test_that_ingredients_use_the_vocabulary(column, words):
    vocabulary = json.loads((REFERENCE / "vocab.json").read_text(encoding="utf-8"))
    used = {word for row in rows("ingredients.csv") for word in row[column].split(";") if word}
    assert used - set(vocabulary[words]) == set()


@pytest.mark.parametrize("column", ["functions", "form", "solubility", "ionic_charge", "origin"])
def test_that_every_ingredient_fills_the_columns_a_line_needs(column):
    assert [row["key"] for row in rows("ingredients.csv") if not row[column]] == []


def test_that_verified_fields_are_columns_and_stand_only_in_rows_that_were_read():
    columns = set(rows("ingredients.csv")[0])
    for row in rows("ingredients.csv"):
        fields = [field for field in row["verified_fields"].split(";") if field]
        assert set(fields) <= columns, row["key"]
        assert bool(fields) == (row["confidence"] == "read"), row["key"]


@pytest.mark.parametrize(("table", "column", "least", "most"), AMOUNTS)
def test_that_amounts_are_numbers_in_their_range(table, column, least, most):
    cells = [row[column] for row in rows(table) if row[column]]
    assert [cell for cell in cells if not Decimal(least) <= Decimal(cell) <= Decimal(most)] == []


@pytest.mark.parametrize(
    ("least", "most"), [("use_min_percent", "use_max_percent"), ("ph_min", "ph_max")]
)
def test_that_no_range_is_the_wrong_way_round(least, most):
    both = [row for row in rows("ingredients.csv") if row[least] and row[most]]
    assert [row["key"] for row in both if Decimal(row[least]) > Decimal(row[most])] == []


@pytest.mark.parametrize(
    ("table", "column"),
    [
        ("allergens.csv", "placing_deadline"),
        ("allergens.csv", "making_available_deadline"),
        ("limits.csv", "effective_from"),
    ],
)
def test_that_days_are_days(table, column):
    for row in rows(table):
        assert not row[column] or date.fromisoformat(row[column])


@pytest.mark.parametrize(
    "table",
    [
        "allergens.csv",
        "ingredients.csv",
        "label_rules.csv",
        "limits.csv",
        "preservative_levels.csv",
        "swaps.csv",
        "usual_warnings.csv",
    ],
)
def test_that_a_source_the_maker_reads_names_no_file(table):
    assert [row["source"] for row in rows(table) if ".csv" in row["source"]] == []
