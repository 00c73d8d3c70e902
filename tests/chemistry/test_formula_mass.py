from __future__ import annotations

from decimal import Decimal

import pytest

from workbench.chemistry.formula_mass import element_counts, molar_mass

# IUPAC 2021, abridged (Prohaska et al., Pure Appl. Chem. 2022, 94, 573).
WEIGHTS = {
    "Al": Decimal("26.982"),
    "C": Decimal("12.011"),
    "Ca": Decimal("40.078"),
    "Cl": Decimal("35.45"),
    "Co": Decimal("58.933"),
    "Cu": Decimal("63.546"),
    "Fe": Decimal("55.845"),
    "H": Decimal("1.0080"),
    "K": Decimal("39.098"),
    "Mg": Decimal("24.305"),
    "N": Decimal("14.007"),
    "Na": Decimal("22.990"),
    "O": Decimal("15.999"),
    "S": Decimal("32.06"),
}


# Molar masses as printed in the CRC Handbook of Chemistry and Physics, physical constants of
# inorganic and organic compounds.
@pytest.mark.parametrize(
    ("formula", "printed"),
    [
        pytest.param("H2O", "18.015", id="water"),
        pytest.param("NaCl", "58.443", id="two-letter symbols"),
        pytest.param("C6H8O7", "192.124", id="citric acid"),
        pytest.param("C6H8O7·H2O", "210.138", id="citric acid monohydrate"),
        pytest.param("MgSO4·7H2O", "246.474", id="heptahydrate"),
        pytest.param("MgSO4.7H2O", "246.474", id="heptahydrate with a full stop"),
        pytest.param("CuSO4•5H2O", "249.685", id="pentahydrate with a bullet"),
        pytest.param("CaSO4·0.5H2O", "145.149", id="hemihydrate"),
        pytest.param("Ca(OH)2", "74.093", id="parentheses"),
        pytest.param("Al2(SO4)3", "342.151", id="parentheses after a count"),
        pytest.param("K4[Fe(CN)6]", "368.343", id="parentheses in brackets"),
        pytest.param("KAl(SO4)2·12H2O", "474.388", id="alum"),
        pytest.param("Co", "58.933", id="cobalt, not carbon and oxygen"),
        pytest.param("CO", "28.010", id="carbon monoxide, not cobalt"),
        pytest.param("(NH4)2SO4", "132.140", id="parentheses first"),
    ],
)
def test_that_a_molar_mass_is_the_printed_one(formula, printed):
    # Abridged weights of chlorine (35.45) and sulfur (32.06) lie up to 16 in 100 000 below
    # those of the printed table; no formula here is all chlorine or sulfur.
    assert molar_mass(formula, WEIGHTS) == pytest.approx(Decimal(printed), rel=Decimal("1e-4"))


@pytest.mark.parametrize(
    ("ion", "neutral"),
    [
        ("NH4+", "NH4"),
        ("Mg+2", "Mg"),
        ("SO4-2", "SO4"),
        ("SO4^2-", "SO4"),
        ("[Fe(CN)6]^3-", "Fe(CN)6"),
        ("NO3-", "NO3"),
    ],
)
def test_that_a_charge_weighs_nothing(ion, neutral):
    assert molar_mass(ion, WEIGHTS) == molar_mass(neutral, WEIGHTS)


def test_that_atoms_are_counted_through_parentheses_and_hydrate_water():
    assert element_counts("KAl(SO4)2·12H2O") == {"K": 1, "Al": 1, "S": 2, "O": 20, "H": 24}


def test_that_the_order_of_symbols_does_not_matter():
    assert element_counts("HOCH2CH2OH") == element_counts("C2H6O2")


@pytest.mark.parametrize(
    "text",
    ["", "  ", "h2o", "H2O)", "(H2O", "H2O·", "·H2O", "2", "H2 O", "H2O!", "()", "C6H8O7..H2O"],
)
def test_that_what_is_no_formula_is_refused(text):
    with pytest.raises(ValueError, match=r"formula|parenthesis"):
        molar_mass(text, WEIGHTS)


def test_that_an_element_without_a_weight_is_named():
    with pytest.raises(ValueError, match="Xx, Zz"):
        molar_mass("C2Zz3Xx", WEIGHTS)
