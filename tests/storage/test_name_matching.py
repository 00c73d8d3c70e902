"""What names on a sheet mean, in a studio with the shipped ingredients.

That these names mean these materials is common knowledge of the trade; INCI names and CAS numbers
are those of the shipped tables.
"""

from __future__ import annotations

import pytest

from tests.builders import make_ingredient
from workbench.formula.old_sheet_names import Sureness
from workbench.storage.name_matching import NameMatching


@pytest.fixture
def matching(studio) -> NameMatching:
    return NameMatching(studio)


@pytest.mark.parametrize(
    ("name", "inci", "cas", "key", "sureness"),
    [
        ("Shea butter", "", "", "shea_butter", Sureness.EXACT),
        ("SHEA  BUTTER", "", "", "shea_butter", Sureness.EXACT),
        ("Glycerin", "", "", "glycerin", Sureness.INCI),
        ("Butyrospermum parkii butter", "", "", "shea_butter", Sureness.INCI),
        ("the butter", "Butyrospermum Parkii Butter", "", "shea_butter", Sureness.INCI),
        ("my humectant", "", "56-81-5", "glycerin", Sureness.CAS),
        ("Jojoba oil", "", "", "jojoba_oil", Sureness.FOLDED),
        ("Shea butter (refined)", "", "", "shea_butter", Sureness.FOLDED),
        ("Distilled water", "", "", "water", Sureness.OTHER_NAME),
        ("water", "", "", "water", Sureness.OTHER_NAME),
        ("Glycerol", "", "", "glycerin", Sureness.OTHER_NAME),
        ("Emulsifier", "PEG-100 Stearate (and) Glyceryl Stearate", "", "glyceryl_stearate_peg100",
         Sureness.INCI),
        ("Sunflower oil (high oleic)", "", "8001-25-0", "olive_oil", None),
    ],
)  # fmt: skip
def test_that_a_name_is_found_and_said_how(matching, name, inci, cas, key, sureness):
    found = matching(name, inci, cas)
    assert key in {one.key for one in found.candidates}
    if sureness is not None:
        assert found.best is not None
        assert (found.best.key, found.sureness, found.is_sure) == (key, sureness, True)


@pytest.mark.parametrize(
    ("name", "inci"),
    [
        ("Citric acid", ""),  # anhydrous or monohydrate
        ("Sunflower oil", "Helianthus Annuus Seed Oil"),  # linoleic or high-oleic
        ("Vit E", ""),
        ("Xantham gum", ""),
        ("Lactic acid", ""),  # the shelf has it as an 80 % solution only
        ("Vitamin E", ""),  # itself or its acetate
    ],
)
def test_that_nothing_is_chosen_where_several_fit_or_one_only_nearly(matching, name, inci):
    found = matching(name, inci)
    assert not found.is_sure
    assert found.candidates


def test_that_a_name_and_an_inci_name_that_say_different_things_are_doubtful(matching):
    found = matching("Shea butter", "Cera Alba")
    assert not found.is_sure
    assert {one.key for one in found.candidates} == {"shea_butter", "beeswax"}


def test_that_an_inci_name_that_two_share_is_decided_by_the_name(matching):
    found = matching("High-oleic sunflower oil", "Helianthus Annuus Seed Oil")
    assert found.is_sure
    assert found.best is not None
    assert found.best.key == "sunflower_oil_ho"


@pytest.mark.parametrize("name", ["zzyzx qqqq", "%%%", "", "9" * 300, "'; DROP TABLE x", "\u202e"])
def test_that_what_means_nothing_is_said_to_mean_nothing(matching, name):
    found = matching(name)
    assert not found.is_sure
    assert found.sureness in (Sureness.NONE, Sureness.CLOSE)


def test_that_the_maker_s_own_ingredients_are_found(studio):
    studio.ingredients.add_own(make_ingredient("gorse_wax", name="Gorse wax", inci="Gorse Cera"))
    found = NameMatching(studio)("gorse WAX")
    assert found.is_sure
    assert found.best is not None
    assert found.best.key == "gorse_wax"
