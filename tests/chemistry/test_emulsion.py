from decimal import Decimal

import pytest

from workbench.chemistry.emulsion import as_supplied, mean_hlb, share_of_first


def blend(*parts):
    return mean_hlb([(Decimal(mass), Decimal(hlb)) for mass, hlb in parts])


def test_that_the_required_hlb_of_a_published_oil_phase_is_met():
    # OCL 2022 (ocl210096), formulation F1: printed 10.33; 351.25 / 34 = 10.331. F5: 9.72.
    first = blend(("1.5", "12"), ("7.5", "11.5"), ("7.5", "3.8"), ("12.5", "15"), ("5", "6.2"))
    assert round(first, 3) == Decimal("10.331")
    fifth = blend(("1.5", "12"), ("10", "11.5"), ("10", "3.8"), ("10.5", "15"), ("5", "6.2"))
    assert round(fifth, 2) == Decimal("9.72")


@pytest.mark.parametrize(("a", "b", "hlb"), [("9", "1", "13.93"), ("8", "2", "12.86")])
def test_that_a_published_blend_has_its_hlb(a, b, hlb):
    # Polysorbate 80 (15.0) with sorbitan oleate (4.3): PMC4137601, table 2.
    assert blend((a, "15.0"), (b, "4.3")) == Decimal(hlb)


@pytest.mark.parametrize(
    ("wanted", "first", "second", "percent"),
    [
        ("12", "15.0", "4.3", "71.96"),  # PMC3969497, table 1: 72.0 / 28.0
        ("10", "16.7", "4.3", "45.97"),  # printed 46.0 / 54.0
        ("14.5", "3.8", "18.8", "28.67"),  # printed 28.67 / 71.33
    ],
)
def test_that_two_emulsifiers_are_shared_out_as_published(wanted, first, second, percent):
    found = share_of_first(Decimal(wanted), Decimal(first), Decimal(second))
    assert found is not None
    assert round(found, 2) == Decimal(percent)


@pytest.mark.parametrize("wanted", ["4.2", "15.1"])
def test_that_no_blend_reaches_beyond_its_two_emulsifiers(wanted):
    assert share_of_first(Decimal(wanted), Decimal("15.0"), Decimal("4.3")) is None
    assert share_of_first(Decimal(wanted), Decimal(8), Decimal(8)) is None


def test_that_a_worked_oil_phase_gives_its_blend():
    # 10 g at 7, 4 g at 11.5, 4 g at 15.5, 2 g at 8: 9.70; polysorbate 60 / sorbitan stearate.
    required = blend(("10", "7"), ("4", "11.5"), ("4", "15.5"), ("2", "8"))
    assert required == Decimal("9.7")
    share = share_of_first(required, Decimal("14.9"), Decimal("4.7"))
    assert share is not None
    assert round(share, 2) == Decimal("49.02")


def test_that_a_published_sum_that_does_not_add_up_is_not_repeated():
    # A hobby example adds 0.067 x 5 as 0.5025; the parts give 8.192 only with 0.335.
    parts = ["1.336", "1.750", "1.750", "0.7705", "1.55", "0.5025", "0.198"]
    assert sum(map(Decimal, parts)) + Decimal("0.067") * 5 == Decimal("8.192")


def test_that_nothing_has_no_hlb():
    assert mean_hlb([]) is None


@pytest.mark.parametrize(
    ("active", "strength", "supplied"),
    [("10", "29", "34.48"), ("5", "36", "13.89"), ("3", "52", "5.77")],
)
def test_that_active_matter_is_found_in_the_material_as_supplied(active, strength, supplied):
    # A published shampoo of 18 % active: 34.48 + 13.89 + 5.77 % as supplied.
    assert round(as_supplied(Decimal(active), Decimal(strength)), 2) == Decimal(supplied)
