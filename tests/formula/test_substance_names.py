from __future__ import annotations

import pytest

from workbench import paths
from workbench.formula.substance import Substance
from workbench.formula.substance_names import SubstanceNames
from workbench.storage.reference.tables import load_names, load_substances

REFERENCE = paths.resources() / "reference"


@pytest.fixture(scope="module")
def names():
    return SubstanceNames(load_substances(REFERENCE), load_names(REFERENCE))


# 56-81-5 is glycerol (CAS Common Chemistry, from memory)
@pytest.mark.parametrize("typed", ["glycerin", "Glycerin", "  GLYCERIN ", "56-81-5"])
def test_that_a_substance_is_found_by_key_label_name_and_number(names, typed):
    assert names.find(typed) == "glycerin"


@pytest.mark.parametrize("typed", ["", "gly", "Moonflower Milk", "0-00-0"])
def test_that_nothing_is_guessed(names, typed):
    assert names.find(typed) is None


def test_that_a_number_that_two_share_names_neither():
    twins = {
        "a": Substance("a", "A", cas=("50-00-0",)),
        "b": Substance("b", "B", cas=("50-00-0",)),
    }
    assert SubstanceNames(twins, {}).find("50-00-0") is None


def test_that_suggestions_begin_with_what_begins_so(names):
    assert names.suggestions("linalo")[0] == "Linalool"
    assert "Linalool" in names.suggestions("linalol")
    assert names.suggestions("g") == ()
    assert names.suggestions("zzqx") == ()


def test_that_a_word_inside_a_name_is_suggested_too(names):
    assert any("Benzoate" in label for label in names.suggestions("benzoate"))


def test_that_a_label_is_the_text_itself_where_no_table_has_it(names):
    assert names.label("glycerin") == "Glycerin"
    assert names.label("Moonflower Milk") == "Moonflower Milk"
