import json
import shutil
from functools import cache

import pytest

from workbench import paths
from workbench.errors import WorkbenchError
from workbench.storage.reference.emulsion import load_densities, load_emulsion
from workbench.storage.reference.preservation import load_preservation
from workbench.storage.reference.rows import read_rows

REFERENCE = paths.resources() / "reference"
LOADERS = (load_preservation, load_emulsion, load_densities)


@cache
def facts():
    return load_preservation(REFERENCE)


@pytest.fixture
def folder(tmp_path):
    for file in REFERENCE.glob("*.csv"):
        shutil.copy(file, tmp_path)
    return tmp_path


def loaded(folder):
    return [load(folder) for load in LOADERS]


def test_that_every_form_gives_the_acid_its_ions_name():
    ions = {
        row["key"]: json.loads(row["ions"] or "{}")
        for row in read_rows(REFERENCE, "substances.csv")
    }
    acids = {key: form for key, form in facts().forms.items() if form.acid}
    assert len(acids) > 40
    assert {key: ions[key][form.acid] for key, form in acids.items()} == {
        key: form.moles for key, form in acids.items()
    }


def test_that_what_acts_is_a_form_of_itself():
    forms = facts().forms
    for form in forms.values():
        assert forms[form.active].active == form.active
        assert forms[form.active].moles == 1
        assert forms[form.active].acid == form.acid


def test_that_every_figure_belongs_to_something_that_acts():
    active = {form.active for form in facts().forms.values()}
    assert set(facts().partitions) <= active
    assert set(facts().bindings) <= active
    assert set(facts().solubilities) <= active
    assert set(facts().wanted) <= active


def test_that_partition_figures_are_for_classes_that_oils_have():
    classes = set(facts().oil_classes.values())
    assert {name for known in facts().partitions.values() for name in known} <= classes


def test_that_paraffin_takes_up_less_than_a_vegetable_oil():
    # Bean 1972, Table VII, and Bean et al. 1965, Table I: two to four powers of ten apart.
    for substance in ("methylparaben", "propylparaben", "butylparaben", "chlorocresol"):
        known = facts().partitions[substance]
        assert known["hydrocarbon"].high < known["triglyceride"].low


@pytest.mark.parametrize(
    ("substance", "oil", "value"),
    [
        ("methylparaben", "hydrocarbon", 0.02),
        ("methylparaben", "triglyceride", 7.5),
        ("propylparaben", "hydrocarbon", 0.50),
        ("propylparaben", "triglyceride", 80.0),
        ("butylparaben", "hydrocarbon", 3.0),
        ("butylparaben", "triglyceride", 280.0),
        ("chlorocresol", "hydrocarbon", 1.53),
        ("chlorocresol", "triglyceride", 116.7),
    ],
)
def test_that_published_coefficients_lie_in_their_span(substance, oil, value):
    # Bean, J. Soc. Cosmet. Chem. 23 (1972) 715; Bean et al., 16 (1965) 18.
    known = facts().partitions[substance][oil]
    assert known.low <= value <= known.high


def test_that_octanol_is_no_class_of_oil():
    assert "octanol" not in {name for known in facts().partitions.values() for name in known}


def test_that_every_wanted_level_says_where_it_comes_from():
    assert all(wanted.source and wanted.confidence for wanted in facts().wanted.values())


@pytest.mark.parametrize(
    ("table", "old", "new", "line", "reason"),
    [
        (
            "partition.csv",
            "methylparaben,hydrocarbon,0.02",
            "methylparaben,hydrocarbon,x",
            2,
            "no number",
        ),
        (
            "partition.csv",
            "methylparaben,hydrocarbon,0.02",
            "methylparaben,hydrocarbon,9",
            2,
            "do not rise",
        ),
        (
            "partition.csv",
            "methylparaben,hydrocarbon,0.02",
            "methylparaben,,0.02",
            2,
            "oil_class is empty",
        ),
        (
            "partition.csv",
            "methylparaben,hydrocarbon,0.02",
            "methylparaben,hydrocarbon,-1",
            2,
            "not over 0",
        ),
        (
            "partition.csv",
            "methylparaben,hydrocarbon,0.02",
            "methylparaben,hydrocarbon,NaN",
            2,
            "no number",
        ),
        (
            "partition.csv",
            "methylparaben,hydrocarbon,",
            "more,methylparaben,hydrocarbon,",
            2,
            "cells",
        ),
        ("preservative_levels.csv", "benzoic_acid,undissociated", "benzoic_acid,guess", 2, "basis"),
        ("preservative_forms.csv", ",1,salicylic", ",1,unheard", 2, "acids_bases.csv"),
        (
            "preservative_forms.csv",
            "salicylic_acid,salicylic_acid,1,",
            "salicylic_acid,salicylic_acid,1.5,",
            2,
            "whole",
        ),
        ("binding.csv", ",0.71,", ",,", 2, "k_per_percent is empty"),
        ("solubility.csv", "benzoic_acid,0.29", "benzoic_acid,0.99", 2, "do not rise"),
        ("required_hlb.csv", "mineral_oil,10,", "mineral_oil,ten,", 2, "low"),
        ("density_classes.csv", "dissolved-solid,1.2", "dissolved-solid,3", 2, "do not rise"),
        ("density.csv", "water,,15,0.99910", "water,,15,", 2, "density_g_mL is empty"),
    ],
)
def test_that_a_malformed_row_is_refused_by_file_line_and_reason(
    folder, table, old, new, line, reason
):
    file = folder / table
    text = file.read_text(encoding="utf-8")
    assert old in text
    file.write_text(text.replace(old, new, 1), encoding="utf-8")
    with pytest.raises(WorkbenchError) as refused:
        loaded(folder)
    assert table in refused.value.what
    assert f"line {line}" in refused.value.what
    assert reason in refused.value.detail
    assert refused.value.remedy
