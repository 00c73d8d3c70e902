from decimal import Decimal

import pytest

from workbench import paths
from workbench.chemistry.density import (
    interpolated,
    mass_of,
    mixture_density,
    volume_in_water,
    volume_of,
    weighed_density,
)
from workbench.storage.reference.emulsion import load_densities

FACTS = load_densities(paths.resources() / "reference")


@pytest.mark.parametrize(
    ("celsius", "density"), [(20, 0.99821), (25, 0.99705), (22.5, 0.997655), (40, 0.99222)]
)
def test_that_water_has_the_density_of_the_table(celsius, density):
    # IAPWS-95 at 101325 Pa: 0.99821 at 20 °C, 0.99705 at 25 °C.
    assert interpolated(FACTS.water, celsius) == pytest.approx(density, abs=1e-9)


def test_that_no_density_is_read_beyond_the_table():
    assert interpolated(FACTS.water, 14.9) is None
    assert interpolated(FACTS.water, 40.1) is None
    assert interpolated((), 20) is None


def test_that_half_glycerol_weighs_as_its_table_says():
    # Lange, 15th ed., Table 5.13, as true density at 20 °C: 1.1263; 100 ml weigh 112.6 g.
    density = interpolated(FACTS.solutions["glycerin"], 50)
    assert density == pytest.approx(1.1263, abs=1e-9)
    assert round(mass_of(Decimal(100), Decimal(str(density))), 1) == Decimal("112.6")


def test_that_a_solution_is_rebuilt_from_the_volume_of_its_solute():
    # Volumes of pure glycerol and water would give 1.114 and not the 1.1263 of the table.
    solute = volume_in_water(1.1263, 50, 0.99821)
    assert mixture_density([(50, 1 / 0.99821), (50, solute)]) == pytest.approx(1.1263)
    assert mixture_density([(50, 1 / 0.99821), (50, 1 / 1.2613)]) == pytest.approx(1.1144, abs=1e-4)
    assert mixture_density([]) is None


@pytest.mark.parametrize(
    ("empty", "filled", "water_filled", "celsius", "density"),
    [
        ("40.00", "139.705", "139.705", 25, "0.997"),  # water itself
        ("40.00", "152.63", "139.82", 20, "1.126"),  # 112.63 g of half glycerol to 99.82 of water
        ("52.30", "102.10", "103.60", 22, "0.969"),  # 49.8 / 51.3 of 0.99777
    ],
)
def test_that_a_bottle_weighed_three_times_gives_the_density(
    empty, filled, water_filled, celsius, density
):
    # rho = (filled - empty) / (water-filled - empty) x water density at its temperature.
    water = Decimal(str(interpolated(FACTS.water, celsius)))
    found = weighed_density(Decimal(empty), Decimal(filled), Decimal(water_filled), water)
    assert round(found, 3) == Decimal(density)


@pytest.mark.parametrize(("filled", "water_filled"), [("40", "90"), ("90", "40"), ("30", "90")])
def test_that_an_empty_bottle_gives_no_density(filled, water_filled):
    with pytest.raises(ValueError, match="empty"):
        weighed_density(Decimal(40), Decimal(filled), Decimal(water_filled), Decimal("0.998"))


def test_that_mass_and_volume_lead_back_to_each_other():
    mass = mass_of(Decimal(50), Decimal("0.97"))
    assert mass == Decimal("48.50")
    assert volume_of(mass, Decimal("0.97")) == Decimal(50)
    with pytest.raises(ValueError, match="density"):
        volume_of(Decimal(50), Decimal(0))
