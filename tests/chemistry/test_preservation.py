import pytest
from hypothesis import given
from hypothesis import strategies as st

from workbench.chemistry.preservation import (
    aqueous_concentration,
    mixed_partition,
    ph_for_undissociated,
    undissociated_fraction,
)

BENZOIC, SORBIC, DEHYDROACETIC, SALICYLIC, PROPIONIC = 4.202, 4.76, 5.27, 2.97, 4.874


@pytest.mark.parametrize(
    ("pka", "ph", "percent"), [(BENZOIC, 5.0, 13.74), (SORBIC, 5.5, 15.40), (SORBIC, 5.0, 36.53)]
)
def test_that_the_undissociated_share_is_that_of_henderson_and_hasselbalch(pka, ph, percent):
    # Computed from the pKa of the table: benzoic 4.202, sorbic 4.76 (CRC).
    assert round(100 * undissociated_fraction(ph, pka), 2) == percent


@pytest.mark.parametrize(
    ("pka", "percents"),
    [
        (DEHYDROACETIC, (100, 95, 65, 16, 2)),
        (4.18, (94, 61, 13, 1.5, 0)),
        (SORBIC, (98, 85, 37, 5.5, 0.6)),
        (SALICYLIC, (48, 9, 1, 0, 0)),
        (4.87, (99, 88, 43, 7, 1)),
    ],
)
def test_that_a_published_table_of_shares_is_met_within_a_point(pka, percents):
    # J. Cosmet. Sci. 56(5), p. 361: share at pH 3 to 7 with the pKa printed there.
    for ph, percent in zip((3, 4, 5, 6, 7), percents, strict=True):
        assert 100 * undissociated_fraction(ph, pka) == pytest.approx(percent, abs=1.0)


def test_that_salt_in_the_water_lowers_the_undissociated_share():
    # Benzoic acid at pH 5.0 and 0.1 mol/kg, Davies: 11.07 %; sorbic acid 31.0 %.
    assert 100 * undissociated_fraction(5.0, BENZOIC, 0.1) == pytest.approx(11.07, abs=0.01)
    assert 100 * undissociated_fraction(5.0, SORBIC, 0.1) == pytest.approx(31.0, abs=0.05)


def test_that_half_of_an_acid_is_undissociated_where_ph_is_its_pka():
    # J. Soc. Cosmet. Chem. 18(4), p. 211: 0.055 % benzoic acid at pH 4.2 is 0.027 % un-ionised.
    assert round(0.055 * undissociated_fraction(4.2, 4.2), 3) in (0.027, 0.028)
    assert 0.190 * undissociated_fraction(5.2, 4.2) == pytest.approx(0.019, abs=0.002)


@given(st.floats(2.0, 8.0), st.floats(2.0, 6.0), st.floats(0.0, 0.5), st.floats(0.01, 2.0))
def test_that_the_ph_for_a_wanted_level_gives_that_level(ph, pka, strength, acid):
    wanted = acid * undissociated_fraction(ph, pka, strength)
    if 1e-6 < wanted < 0.999 * acid:
        found = ph_for_undissociated(acid, wanted, pka, strength)
        assert found is not None
        assert acid * undissociated_fraction(found, pka, strength) == pytest.approx(wanted)


def test_that_no_ph_is_named_where_the_acid_is_less_than_wanted():
    assert ph_for_undissociated(0.04, 0.05, BENZOIC) is None
    assert ph_for_undissociated(0.04, 0.04, BENZOIC) is None


@pytest.mark.parametrize(
    ("phi", "printed"), [(0.2, 0.474), (1.0, 0.750), (2.5, 1.199), (5.0, 1.799), (10.0, 2.636)]
)
def test_that_phenol_in_liquid_paraffin_and_water_divides_as_published(phi, printed):
    # Bean et al., J. Soc. Cosmet. Chem. 16 (1965) 18: K 0.067, 0.4 % w/v overall.
    assert aqueous_concentration(0.4, phi, 0.067) == pytest.approx(printed, abs=0.0015)


@pytest.mark.parametrize(
    ("phi", "printed"), [(0.2, 0.197), (1.0, 0.068), (2.5, 0.048), (5.0, 0.0411), (10.0, 0.038)]
)
def test_that_chlorocresol_in_arachis_oil_and_water_divides_as_published(phi, printed):
    # The same table: K 116.7, 4.0 % w/v overall.
    assert aqueous_concentration(4.0, phi, 116.7) == pytest.approx(printed, abs=0.0006)


@pytest.mark.parametrize(
    ("phi", "printed"), [(0.11, 0.11), (0.25, 0.12), (0.43, 0.14), (0.66, 0.16), (1.0, 0.20)]
)
def test_that_methylparaben_in_liquid_paraffin_divides_as_published(phi, printed):
    # Bean, J. Soc. Cosmet. Chem. 23 (1972) 716, Table VIII: K 0.02, 0.1 % overall.
    assert aqueous_concentration(0.1, phi, 0.02) == pytest.approx(printed, abs=0.006)


def test_that_water_never_holds_more_than_it_dissolves():
    # The same table with 0.2 % overall prints 0.24 %, the solubility, where the sum gives more.
    assert aqueous_concentration(0.2, 1.0, 0.02) == pytest.approx(0.392, abs=0.001)
    assert aqueous_concentration(0.2, 1.0, 0.02, solubility=0.24) == 0.24


def test_that_an_emulsifier_binds_its_share():
    # 0.2 % methylparaben, K 7.5, phi 0.25; 3 % polysorbate 80 at k 0.71 gives R 3.13.
    assert aqueous_concentration(0.2, 0.25, 7.5) == pytest.approx(0.0870, abs=5e-5)
    assert aqueous_concentration(0.2, 0.25, 7.5, binding=3.13) == pytest.approx(0.0500, abs=5e-5)


def test_that_only_the_undissociated_acid_leaves_the_water():
    # 0.5 % sodium benzoate is 0.4238 % acid; pH 5.0: 0.0582 % in water alone, 0.0621 % in the
    # water of a lotion (phi 0.25, K 5). 0.3 % potassium sorbate at K 3: 0.0803 %.
    share = undissociated_fraction(5.0, BENZOIC)
    alone = aqueous_concentration(0.4238, 0.0, 5.0, undissociated=share)
    assert alone == pytest.approx(0.0582, abs=5e-5)
    lotion = aqueous_concentration(0.4238, 0.25, 5.0, undissociated=share)
    assert lotion == pytest.approx(0.0621, abs=5e-5)
    sorbate = aqueous_concentration(
        0.3 * 0.7464, 0.25, 3.0, undissociated=undissociated_fraction(5.0, SORBIC)
    )
    assert sorbate == pytest.approx(0.0803, abs=5e-5)


def test_that_nothing_uncharged_is_left_of_an_acid_that_is_wholly_ionised():
    assert aqueous_concentration(0.5, 0.25, 5.0, undissociated=0.0) == 0.0


def test_that_oils_weigh_in_by_their_volume():
    assert mixed_partition([(3.0, 0.02), (1.0, 7.5)]) == pytest.approx(1.89)
    assert mixed_partition([]) == 0.0


@given(st.floats(0.0, 10.0), st.floats(0.001, 300.0), st.floats(1.0, 30.0), st.floats(0.001, 1.0))
def test_that_oil_water_and_emulsifier_hold_all_there_is(phi, k, binding, share):
    water = aqueous_concentration(1.0, phi, k, binding, share)
    held = water * (k * phi + binding + (1 - share) / share)
    assert held == pytest.approx(phi + 1.0)
