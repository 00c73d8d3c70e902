from decimal import Decimal
from functools import cache

import pytest

from tests.builders import make_formula
from workbench import paths
from workbench.checks.opened import opened
from workbench.checks.ph_values import PhEstimate
from workbench.checks.preservative_values import PhBasis, Reason
from workbench.checks.preservatives import preservative_shares
from workbench.formula.absent import Absent
from workbench.formula.shelf import shelf_of
from workbench.storage.reference.shipped import Shipped

NO_PH = Absent("absent-ph")


@cache
def shipped():
    return Shipped(paths.resources() / "reference")


def shares(*entries, ph=NO_PH, stocks=None, **changes):
    formula = make_formula(*entries, **changes)
    shelf = shipped().shelf
    if stocks:
        shelf = shelf_of(shelf.ingredients, stocks, shelf.substances)
    known = opened(formula, shelf)
    found = preservative_shares(
        formula, known.parts, known.items, shelf.substances, shipped().rules, ph
    )
    return {share.substance: share for share in found}


def at(ph, ionic_strength=0.0):
    return PhEstimate(ph, ph, ph, ionic_strength, "good")


def test_that_a_salt_counts_as_its_acid():
    # By molar mass: 0.5 g potassium sorbate is 0.3732 g sorbic acid.
    sorbic = shares(("water*", "0"), ("potassium_sorbate", "0.5"), ph=at(5.5))["sorbic_acid"]
    assert sorbic.percent == Decimal("0.5")
    assert sorbic.as_acid_percent is not None
    assert round(sorbic.as_acid_percent, 4) == Decimal("0.3732")
    assert sorbic.carriers == ("potassium_sorbate",)
    assert sorbic.undissociated_share is not None
    assert sorbic.undissociated_share.estimate == pytest.approx(15.40, abs=0.005)


def test_that_a_calcium_salt_counts_both_its_acids():
    # Ca(C6H7O2)2: 2 x 112.1268 / 262.3157 = 0.8549.
    facts = shipped().rules.preservation
    assert facts.forms["calcium_sorbate"].moles == 2


def test_that_crystal_water_is_no_acid():
    # 1 g of citric acid monohydrate is 0.9143 g of citric acid: 192.1235 / 210.1388.
    substances = shipped().substances
    hydrate, acid = substances["citric_acid_monohydrate"], substances["citric_acid"]
    assert hydrate.molar_mass is not None
    assert acid.molar_mass is not None
    assert round(acid.molar_mass / hydrate.molar_mass, 4) == Decimal("0.9143")


def test_that_a_dose_quoted_without_the_salt_factor_is_set_right():
    # 0.7 % sodium benzoate at pH 5 is often quoted as 0.10 % acid; with the factor it is 0.081 %.
    benzoic = shares(("water*", "0"), ("sodium_benzoate", "0.7"), ph=at(5.0))["benzoic_acid"]
    assert benzoic.undissociated_percent is not None
    assert benzoic.undissociated_percent.estimate == pytest.approx(0.0815, abs=0.0005)


def test_that_the_salt_in_the_water_moves_the_share():
    # Benzoic acid at pH 5.0 and 0.1 mol/kg: 11.07 %, Davies.
    benzoic = shares(("water*", "0"), ("sodium_benzoate", "0.5"), ph=at(5.0, 0.1))["benzoic_acid"]
    assert benzoic.undissociated_share is not None
    assert benzoic.undissociated_share.estimate == pytest.approx(11.07, abs=0.01)
    assert benzoic.ph_basis is PhBasis.ESTIMATE


def test_that_the_interval_of_the_ph_becomes_one_of_the_share():
    ph = PhEstimate(4.8, 5.0, 5.2, 0.0, "fair")
    share = shares(("water*", "0"), ("sodium_benzoate", "0.5"), ph=ph)["benzoic_acid"]
    found = share.undissociated_share
    assert found is not None
    assert found.low < found.estimate < found.high
    assert found.high == pytest.approx(
        20.15 + 0.4, abs=0.5
    )  # 1 / (1 + 10^(4.8 - 4.202)), pKa +-0.01


def test_that_the_window_wanted_stands_in_for_a_ph_and_says_so():
    window = (Decimal("4.5"), Decimal("5.5"))
    share = shares(("water*", "0"), ("sodium_benzoate", "0.5"), target_ph=window)["benzoic_acid"]
    assert share.ph_basis is PhBasis.TARGET
    assert share.undissociated_share is not None
    # Ideal shares at the ends of the window are 33.49 and 4.79 %; salt can only lower them.
    assert 0.9 * 4.79 > share.undissociated_share.low > 0.7 * 4.79
    assert share.undissociated_share.high == pytest.approx(33.49, abs=0.6)


def test_that_no_share_is_made_up_without_any_ph():
    share = shares(("water*", "0"), ("sodium_benzoate", "0.5"))["benzoic_acid"]
    assert share.undissociated_percent is None
    assert share.water_phase_percent is None
    assert share.ph_basis is None
    assert share.not_modelled is Reason.NO_PH


def test_that_the_ph_of_a_wanted_level_is_told():
    # pKa + log10(0.4237 / 0.05 - 1) = 4.202 + 0.874 at no ionic strength.
    share = shares(("water*", "0"), ("sodium_benzoate", "0.5"), ph=at(5.0))["benzoic_acid"]
    assert share.wanted is not None
    assert share.wanted.level == Decimal("0.05")
    assert share.ph_for_wanted == pytest.approx(5.076, abs=0.001)


def test_that_no_ph_is_told_where_all_of_the_acid_is_too_little():
    share = shares(("water*", "0"), ("sodium_benzoate", "0.05"), ph=at(4.0))["benzoic_acid"]
    assert share.ph_for_wanted is None


def test_that_without_oil_the_water_holds_all_of_it():
    share = shares(("water*", "0"), ("phenoxyethanol", "0.9"))["phenoxyethanol"]
    assert share.as_acid_percent is None
    assert share.undissociated_share is None
    assert share.water_phase_percent is not None
    assert share.water_phase_percent.estimate == pytest.approx(0.9, abs=1e-9)
    assert share.not_modelled is None


def test_that_paraffin_leaves_more_in_the_water_than_a_seed_oil():
    # Bean 1972, Table VII: methylparaben in liquid paraffin 0.02, in soya oil 7.5.
    paraffin = shares(("water*", "0"), ("methylparaben", "0.1"), ("mineral_oil", "20"), ph=at(5.0))
    soya = shares(("water*", "0"), ("methylparaben", "0.1"), ("soybean_oil", "20"), ph=at(5.0))
    high = paraffin["methylparaben"].water_phase_percent
    low = soya["methylparaben"].water_phase_percent
    assert high is not None
    assert low is not None
    assert high.low > 0.1 > low.high
    assert low.low < low.estimate + 1e-12 <= low.high


def test_that_only_the_acid_and_not_its_ion_goes_into_the_oil():
    # 0.5 % sodium benzoate, ideal, pH 5, phi 0.25, K 5: 0.0621 % in the water, 0.0582 without oil.
    share = shares(("water*", "0"), ("sodium_benzoate", "0.5"), ("almond_oil", "18.5"), ph=at(5.0))
    water = share["benzoic_acid"].water_phase_percent
    assert water is not None
    assert water.low < 0.0625 < water.high
    assert water.estimate == pytest.approx(0.0625, abs=0.001)


def test_that_a_known_emulsifier_binds_and_an_unknown_one_is_told():
    bound = shares(
        ("water*", "0"),
        ("methylparaben", "0.2"),
        ("almond_oil", "19"),
        ("polysorbate_80", "2.3"),
        ph=at(5.0),
    )["methylparaben"]
    # k 0.71 per %: 3 % w/v in the water phase would give R 3.13 and 0.0500 % w/v at phi 0.25.
    assert bound.not_modelled is None
    assert bound.water_phase_percent is not None
    assert 0.045 < bound.water_phase_percent.estimate < 0.065
    other = shares(
        ("water*", "0"),
        ("methylparaben", "0.2"),
        ("almond_oil", "19"),
        ("ceteareth_20", "2.3"),
        ph=at(5.0),
    )["methylparaben"]
    assert other.not_modelled is Reason.NO_BINDING_DATA
    assert other.water_phase_percent is not None
    assert other.water_phase_percent.estimate > bound.water_phase_percent.estimate


def test_that_an_oil_without_figures_gives_no_concentration():
    share = shares(("water*", "0"), ("benzyl_alcohol", "0.8"), ("dimethicone", "10"))
    assert share["benzyl_alcohol"].water_phase_percent is None
    assert share["benzyl_alcohol"].not_modelled is Reason.NO_OIL_DATA


def test_that_a_little_oil_of_unknown_kind_only_widens_the_span():
    plain = shares(("water*", "0"), ("phenoxyethanol", "0.9"), ("almond_oil", "20"))
    mixed = shares(
        ("water*", "0"), ("phenoxyethanol", "0.9"), ("almond_oil", "17"), ("cetyl_alcohol", "3")
    )
    wide, narrow = (found["phenoxyethanol"].water_phase_percent for found in (mixed, plain))
    assert wide is not None
    assert narrow is not None
    assert wide.high - wide.low > narrow.high - narrow.low


def test_that_water_holds_no_more_than_it_dissolves():
    # Methylparaben: 0.24 % w/v, Bean 1972 Table VIII.
    share = shares(("water*", "0"), ("methylparaben", "0.4"), ph=at(5.0))["methylparaben"]
    assert share.is_capped
    assert share.water_phase_percent is not None
    assert share.water_phase_percent.estimate == pytest.approx(0.24, abs=0.001)


def test_that_what_a_stock_carries_is_counted_with_the_rest():
    stock = make_formula(
        ("water*", "0"), ("xanthan_gum", "1"), ("sodium_benzoate", "0.5"), product_type="stock"
    )
    share = shares(
        ("water*", "0"),
        ("gum", "40"),
        ("sodium_benzoate", "0.3"),
        ph=at(5.0),
        stocks={"gum": stock},
    )["benzoic_acid"]
    assert share.percent == Decimal("0.5")
    assert share.lines == (2, 3)


def test_that_a_formula_without_water_has_no_water_phase():
    share = shares(("almond_oil", "99"), ("phenoxyethanol", "1"))["phenoxyethanol"]
    assert share.water_phase_percent is None
    assert share.not_modelled is Reason.NO_WATER
    acid = shares(("almond_oil", "99"), ("benzoic_acid", "1"), ph=at(5.0))["benzoic_acid"]
    assert acid.undissociated_percent is None


def test_that_a_line_of_unknown_contents_leaves_the_water_phase_open():
    share = shares(("water*", "0"), ("mystery", "5"), ("phenoxyethanol", "1"))["phenoxyethanol"]
    assert share.not_modelled is Reason.UNKNOWN_LINES
    assert share.water_phase_percent is None


def test_that_a_preservative_no_table_knows_is_named_and_nothing_is_computed():
    share = shares(("water*", "0"), ("leuconostoc_radish_ferment", "3", "preservative"))
    (found,) = share.values()
    assert found.not_modelled is Reason.NO_ACID_DATA
    assert found.lines == (2,)
    assert found.water_phase_percent is None


def test_that_a_formula_without_preservative_has_no_share():
    assert shares(("water*", "0"), ("glycerin", "5")) == {}
