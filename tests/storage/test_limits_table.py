"""The limit tables as they are read: counts, scopes, factors."""

from __future__ import annotations

import csv
import shutil
import time
from collections import Counter
from datetime import date
from decimal import Decimal

import pytest

from workbench import paths
from workbench.checks.rules import Authority, Verdict
from workbench.errors import WorkbenchError
from workbench.storage.reference.limits import load_limits, load_rules, read_limit_rows

FOLDER = paths.resources() / "reference"
ROWS = read_limit_rows(FOLDER)


def raw(name):
    with (FOLDER / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def test_that_every_row_has_its_kind():
    # Counted in limits.csv with a spreadsheet's filter: a silent change of the table shows here.
    assert Counter(row.authority for row in ROWS) == {
        Authority.LAW: 386,
        Authority.INFORMATION: 37,
        Authority.ADVICE: 27,
        Authority.FUTURE_LAW: 15,
        Authority.RAW_MATERIAL: 12,
        Authority.LABELLING: 9,
        Authority.LAW_BY_CLAIM: 3,
    }


def test_that_every_jurisdiction_has_its_rows():
    counts = Counter(row.jurisdiction for row in ROWS)
    assert counts == {"EU": 252, "UK": 206, "CIR": 20, "US-guidance": 11}


def test_that_every_row_says_where_it_comes_from():
    assert all(row.source and row.confidence in {"read", "memory"} for row in ROWS)


def test_that_every_substance_row_reaches_a_limit():
    rows = raw("limit_substances.csv")
    own = sum(row["role"] == "own" for row in rows)
    assert sum(len(row.factors) for row in ROWS) == own == 1081
    groups = sum(row["role"].startswith("group:") for row in rows)
    assert sum(len(row.group_factors) for row in ROWS) == groups == 846


def test_that_only_two_rows_speak_of_a_product_and_not_of_a_substance():
    without = {row.substance for row in ROWS if not row.factors}
    assert without == {"suntanning_no_sunscreen", "safety_not_substantiated"}


def test_that_the_specificity_of_every_row_is_the_one_the_table_states():
    stated = [int(row["specificity"]) for row in raw("limit_scopes.csv")]
    assert [row.specificity for row in ROWS] == stated


def test_that_a_salt_is_counted_by_its_molar_mass():
    # C17: 56.105 / 39.997, standard atomic weights: 7.014 % KOH is 5 % as NaOH.
    [row] = [row for row in ROWS if row.index == 256]
    factor = row.factors["potassium_hydroxide"]
    assert factor is not None
    assert Decimal(5) / factor == pytest.approx(Decimal("7.0137"), rel=Decimal("0.002"))


def test_that_alternatives_and_doubts_are_read():
    # Row 171, salicylic acid in body lotion: three further scopes, three doubtful readings.
    row = ROWS[171]
    assert len(row.alternatives) == 3
    assert len(row.doubt) == 3
    assert row.alternatives[0].allowed["area"] == {"eye"}
    assert row.alternatives[0].excluded["users"] == {"toddler-1-2", "infant-0"}
    assert (row.when_excluded, row.when_outside) == (Verdict.BANNED, Verdict.CHECK)


def test_that_a_row_can_set_a_requirement_on_the_ph():
    # Annex III entry 15a: as a pH adjuster, the product stays below pH 11.
    row = ROWS[244]
    assert (row.ph_max, row.ph_max_strict, row.maximum) == (Decimal(11), True, None)


def test_that_what_must_stay_below_is_marked():
    strict = {row.substance for row in ROWS if row.is_strict}
    assert strict == {
        "cyclopentasiloxane_d5",
        "cyclohexasiloxane_d6",
        "microplastics",
    }


def test_that_limits_are_found_by_every_substance_they_count():
    limits = load_limits(FOLDER)
    assert {row.substance for row in limits["cetrimonium_chloride"]} >= {
        "cetrimonium_chloride",
        "alkyltrimonium_preservative",
    }


def test_that_the_set_has_a_name_a_day_and_its_weighing_figures():
    rules = load_rules(FOLDER)
    assert rules.reference_set == "2026-11"
    assert rules.dated == date(2026, 11, 25)
    # USP general chapter 41: 2 x max(s, 0.41 d) within 0.10 %; 820 d at best.
    weighing = rules.weighing
    assert weighing.strict_factor * weighing.least_deviation_divisions == Decimal("0.82")
    assert weighing.strict_tolerance_percent == Decimal("0.10")
    assert weighing.allowed_error_percent == 5
    assert (rules.figures["dilution_fold_small"], rules.figures["dilution_fold_large"]) == (10, 100)


def test_that_rules_with_the_same_rows_are_equal_whatever_was_asked_before():
    one, other = load_rules(FOLDER), load_rules(FOLDER)
    one.judged.clear()
    assert one == other


def test_that_tables_of_different_sets_are_refused_in_words(tmp_path):
    for name in ("limits.csv", "limit_scopes.csv", "limit_substances.csv"):
        shutil.copy(FOLDER / name, tmp_path / name)
    scopes = (tmp_path / "limit_scopes.csv").read_text(encoding="utf-8")
    (tmp_path / "limit_scopes.csv").write_text(
        scopes.replace("benzoic_acid,EU,", "other_acid,EU,", 1), encoding="utf-8"
    )
    with pytest.raises(WorkbenchError, match="do not belong together"):
        read_limit_rows(tmp_path)


@pytest.mark.speed
def test_that_the_rules_load_quickly():
    times = []
    for _ in range(5):
        started = time.process_time()
        load_rules(FOLDER)
        times.append(time.process_time() - started)
    assert min(times) <= 0.12, times
