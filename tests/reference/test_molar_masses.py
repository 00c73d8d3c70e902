from __future__ import annotations

import csv
import json
from decimal import Decimal
from functools import cache
from pathlib import Path

import pytest
from chemicals import MW
from chemicals.elements import periodic_table

from workbench.chemistry.formula_mass import element_counts, molar_mass

REFERENCE = Path(__file__).resolve().parents[2] / "resources" / "reference"

# The tables were made with unabridged weights; abridged ones differ by less than this,
# most for sulfur dioxide (9 in 100 000).
ABRIDGED = Decimal("1e-4")

# What the `chemicals` package holds under these numbers is another form of the substance.
ANOTHER_FORM = {
    "arginine_hcl": "the free base",
    "benzalkonium_saccharinate": "another chain length",
    "chlorhexidine_diacetate": "the free base",
    "ci_77492": "with one more water",
    "ci_77499": "hydrogen atoms that an oxide has not",
    "disodium_edta": "the free acid",
    "disodium_edta_dihydrate": "the free acid",
    "disodium_phosphate_heptahydrate": "two hydrogen atoms too many",
    "quaternium_15": "the cation alone",
    "sodium_borate_pentahydrate": "an impossible ion",
    "sodium_lauroyl_sarcosinate": "with one more water",
    "sodium_lauryl_sulfoacetate": "one hydrogen atom too many",
    "talc": "one silicate unit",
    "zinc_gluconate": "two hydrogen atoms too many",
}
# Counted as another substance one to one: the row names the class, not a conversion.
COUNTED_ONE_TO_ONE = {"total_parabens", "triisopropanolamine"}
# No formula can be given, so the factor is the nominal content of a mineral or a lake.
NOMINAL = {"bentonite", "illite", "montmorillonite", "magnesium_aluminum_silicate", "ci_75470"}
# The annex prints the silver of its mixture: 0.0024 % in 0.2 %.
SILVER_OF_THE_MIXTURE = Decimal("0.0024") / Decimal("0.2")


@cache
def rows(table: str) -> tuple[dict[str, str], ...]:
    with (REFERENCE / table).open(encoding="utf-8", newline="") as file:
        return tuple(csv.DictReader(file))


@cache
def weights() -> dict[str, Decimal]:
    return {row["symbol"]: Decimal(row["weight"]) for row in rows("atomic_weights.csv")}


@cache
def substances() -> dict[str, dict[str, str]]:
    return {row["key"]: row for row in rows("substances.csv")}


def mass(formula: str) -> Decimal:
    return molar_mass(formula, weights())


def apart(value: Decimal, other: str | float) -> Decimal:
    return abs(value / Decimal(str(other)) - 1)


@pytest.mark.parametrize("symbol", [row["symbol"] for row in rows("atomic_weights.csv")])
def test_that_atomic_weights_are_those_of_another_collection(symbol):
    # chemicals 1.x; its lithium, sulfur and selenium are older values.
    assert apart(weights()[symbol], periodic_table[symbol].MW) < Decimal("2e-4")


@pytest.mark.parametrize(
    ("table", "formula", "printed", "count"),
    [
        ("substances.csv", "formula", "molar_mass_g_mol", 446),
        ("acids_bases.csv", "formula", "molar_mass_g_mol", 63),
        ("salts.csv", "formula_as_counted", "molar_mass_g_mol", 55),
    ],
)
def test_that_formulas_weigh_what_the_table_prints(table, formula, printed, count):
    both = [row for row in rows(table) if row[formula] or row[printed]]
    assert len(both) == count
    assert [row for row in both if apart(mass(row[formula]), row[printed]) > ABRIDGED] == []


def test_that_molar_masses_are_those_of_another_collection():
    agree: set[str] = set()
    differ: set[str] = set()
    for key, row in substances().items():
        known = known_mass(row["cas"].split(";")[0]) if row["formula"] else None
        if known is not None:
            (agree if apart(mass(row["formula"]), known) < 2 * ABRIDGED else differ).add(key)
    assert len(agree) >= 350
    assert differ == set(ANOTHER_FORM)


def known_mass(cas: str) -> float | None:
    try:
        return float(MW(cas)) if cas else None
    except ValueError:
        return None


@pytest.mark.parametrize(
    "key",
    [
        key
        for key, row in substances().items()
        if row["water_of_hydration_moles"] and row["water_mass_fraction"]
    ],
)
def test_that_the_water_of_a_hydrate_follows_from_its_formula(key):
    row = substances()[key]
    water = Decimal(row["water_of_hydration_moles"]) * mass("H2O") / mass(row["formula"])
    assert water == pytest.approx(Decimal(row["water_mass_fraction"]), abs=Decimal("0.0001"))
    held = element_counts(row["formula"])
    assert held["O"] >= Decimal(row["water_of_hydration_moles"])


@pytest.mark.parametrize("row", rows("salt_forms.csv"), ids=lambda row: row["salt_key"])
def test_that_moles_in_a_gram_follow_from_assay_and_formula(row):
    salt = next(salt for salt in rows("salts.csv") if salt["key"] == row["salt_key"])
    assert Decimal(salt["assay_pct_w_w_as_sold"]) / 100 == Decimal(row["assay_fraction"])
    millimoles = Decimal(row["assay_fraction"]) * 1000 / mass(salt["formula_as_counted"])
    assert apart(millimoles, row["mmol_per_g_as_sold"]) < ABRIDGED
    printed_twice = Decimal(salt["mmol_formula_per_g_as_sold"])
    assert apart(printed_twice, row["mmol_per_g_as_sold"]) < Decimal("1e-5")


def factor_from_formulas(row: dict[str, str]) -> Decimal | None:
    """Work a factor out of molar masses, or None where no formula leads to it."""
    whole, part = substances()[row["covers"]], substances()[row["counts_as"]]
    if row["covers"] == row["counts_as"]:
        return Decimal(1)
    if not whole["formula"] or not part["formula"]:
        return None
    if whole["parent"] == row["counts_as"]:
        moles = Decimal(whole["moles_of_parent_per_mole"])
    else:
        moles = Decimal(json.loads(whole["counts_as"])[row["counts_as"]])
    return moles * mass(part["formula"]) / mass(whole["formula"])


def factors() -> tuple[dict[str, str], ...]:
    return tuple(row for row in rows("limit_substances.csv") if row["factor"])


def test_that_factors_of_limits_follow_from_formulas():
    named = COUNTED_ONE_TO_ONE | NOMINAL | {"silver_citrate"}
    worked_out = [row for row in factors() if row["covers"] not in named]
    wrong = []
    for row in worked_out:
        factor = factor_from_formulas(row)
        if factor is None or apart(factor, row["factor"]) > ABRIDGED:
            wrong.append((row["covers"], row["counts_as"], row["factor"], factor))
    assert wrong == []
    converted = {
        (row["covers"], row["counts_as"]) for row in worked_out if row["factor"] != "1.000000"
    }
    assert (len(worked_out), len(converted)) == (1663, 99)


def test_that_factors_without_a_formula_are_the_nominal_contents():
    nominal = [
        row for row in factors() if row["covers"] in NOMINAL and row["counts_as"] == "aluminium"
    ]
    assert {row["covers"] for row in nominal} == NOMINAL
    for row in nominal:
        contents = json.loads(substances()[row["covers"]]["nominal_fractions"], parse_float=Decimal)
        assert Decimal(row["factor"]) == contents[row["counts_as"]]


def test_that_members_of_a_class_count_one_to_one():
    for row in factors():
        if row["covers"] in COUNTED_ONE_TO_ONE:
            assert Decimal(row["factor"]) == 1


def test_that_silver_citrate_is_counted_as_the_mixture_of_the_annex():
    silver = 3 * mass("Ag") / mass(substances()["silver_citrate"]["formula"])
    for row in factors():
        if row["covers"] == "silver_citrate" and row["counts_as"] != "silver_citrate":
            assert apart(silver / SILVER_OF_THE_MIXTURE, row["factor"]) < ABRIDGED


def test_that_a_factor_is_missing_only_where_nothing_is_to_be_converted():
    for row in rows("limit_substances.csv"):
        if not row["factor"]:
            is_no_content = row["basis_kind"] == "not a content limit"
            assert is_no_content or row["covers"].startswith("aluminium_zirconium"), row


# Printed conversions: Annex V preamble practice for acids and salts; 0.546 and 0.872 for vitamin
# A in Reg. (EU) 2024/996; 0.674 for sulfur dioxide; 1.3397 for sorbate (150.218 / 112.128).
@pytest.mark.parametrize(
    ("covers", "counts_as", "printed"),
    [
        ("sodium_benzoate", "benzoic_acid", "0.8475"),
        ("potassium_sorbate", "sorbic_acid", "0.7464"),
        ("sodium_dehydroacetate", "dehydroacetic_acid", "0.8844"),
        ("methylparaben", "p_hydroxybenzoic_acid", "0.9078"),
        ("retinyl_acetate", "retinol", "0.872"),
        ("retinyl_palmitate", "retinol", "0.546"),
        ("sodium_metabisulfite", "sulfur_dioxide", "0.674"),
        ("chlorhexidine_digluconate", "chlorhexidine", "0.5630"),
        ("zinc_pca", "zinc", "0.2033"),
        ("citric_acid_monohydrate", "citric_acid", "0.9143"),
        ("dmdm_hydantoin", "formaldehyde", "0.3191"),
        ("potassium_hydroxide", "sodium_hydroxide", "0.7129"),
    ],
)
def test_that_known_conversions_are_met(covers, counts_as, printed):
    found = {
        row["factor"]
        for row in factors()
        if (row["covers"], row["counts_as"]) == (covers, counts_as)
    }
    assert len(found) == 1
    assert Decimal(found.pop()) == pytest.approx(Decimal(printed), abs=Decimal("0.0003"))
