from __future__ import annotations

import pytest

from workbench.chemistry.acid_base import solve
from workbench.chemistry.facts import AcidRange, ChemistryFacts, Gift, Spread, UnknownSolute
from workbench.chemistry.mixture import (
    TRACE,
    UNKNOWN,
    Material,
    mean_charge,
    mixture_of,
    typical_solution,
)
from workbench.chemistry.system import AcidBase, OutOfRange

ACETIC = AcidBase("acetic", (4.757,), 0)
CARBONIC = AcidBase("carbonic", (6.352, 10.329), 0)
FACTS = ChemistryFacts(
    gifts={
        "acetic_acid": Gift(((ACETIC, 0.01),)),
        "sodium_acetate": Gift(((ACETIC, 0.012),), ((1, 0.012),)),
        "soda": Gift(((CARBONIC, 0.012),), ((1, 0.012),)),
    },
    ranges={"acetic": AcidRange(0.02), "carbonic": AcidRange(0.02, stays_low=0.8)},
    reach={"default-powder": Spread(0.9, 1.0, 1.1), "weak": Spread(0.4, 0.5, 0.6)},
    unknown={
        "extract": UnknownSolute(ACETIC, Spread(1e-6, 2e-6, 5e-6), ions_per_mole=0.5),
        "lye": UnknownSolute(None, Spread(0.0, 1e-6, 2e-6), ions_per_mole=1.0),
        "pool": UnknownSolute(CARBONIC, Spread(0.0, 1e-8, 5e-8), is_trace=True),
    },
    figures={"trace_alkali": 0.02},
)


def test_that_a_material_gives_what_its_substances_hold():
    material = Material("vinegar", 100.0, (("acetic_acid", 0.05), ("water", 0.95)))
    portion = mixture_of((material,), 0.9, FACTS).portions[0]
    assert portion.gift.acids == ((ACETIC, pytest.approx(0.05)),)
    assert portion.spread == Spread(0.9, 1.0, 1.1)


def test_that_a_typical_strength_is_counted():
    material = Material("weak", 100.0, (("acetic_acid", 1.0),))
    solution = typical_solution(mixture_of((material,), 0.5, FACTS))
    assert dict(solution.totals)[ACETIC] == pytest.approx(100.0 * 0.01 * 0.5 / 0.5)


def test_that_an_extract_brings_its_acid_and_the_ions_it_came_with():
    mixture = mixture_of((Material("extract", 200.0, ()),), 1.0, FACTS)
    portion = mixture.portions[0]
    assert portion.kind == UNKNOWN
    assert portion.gift.acids == ((ACETIC, 200.0),)
    assert portion.gift.ions == ((1, 100.0),)
    assert portion.spread.typical == 2e-6


def test_that_leftover_lye_is_plain_alkali():
    portion = mixture_of((Material("lye", 100.0, ()),), 1.0, FACTS).portions[0]
    assert portion.gift.acids == ()
    assert portion.gift.ions == ((1, 100.0),)


def test_that_traces_lie_either_way_of_neutral():
    mixture = mixture_of((Material("pool", 1000.0, ()),), 1.0, FACTS)
    assert {portion.kind for portion in mixture.portions} == {TRACE}
    solution = typical_solution(mixture)
    assert sum(ion.charge * ion.molality for ion in solution.strong) == pytest.approx(0.0)


def test_that_gas_that_escapes_is_counted_halfway():
    material = Material("soda", 10.0, (("soda", 1.0),))
    solution = typical_solution(mixture_of((material,), 1.0, FACTS))
    assert dict(solution.totals)[CARBONIC] == pytest.approx(0.12 * 0.9)


def test_that_acids_and_charges_are_named_once():
    acid = mixture_of((Material("a", 10.0, (("acetic_acid", 1.0),)),), 1.0, FACTS)
    assert acid.acids == (ACETIC,)
    assert acid.charges == (-1, 1)


def test_that_without_water_there_is_no_solution():
    with pytest.raises(OutOfRange, match="ph-no-water"):
        typical_solution(mixture_of((Material("a", 10.0, (("acetic_acid", 1.0),)),), 0.0, FACTS))


@pytest.mark.parametrize("ph", [1.0, 3.0, 4.757, 7.0, 12.0])
def test_that_the_mean_charge_is_the_textbook_one(ph):
    # Henderson and Hasselbalch.
    assert mean_charge(ACETIC, ph) == pytest.approx(-1 / (1 + 10 ** (4.757 - ph)))


def test_that_an_extract_alone_stands_at_its_own_ph():
    ions = -mean_charge(ACETIC, 4.5)
    facts = ChemistryFacts(
        unknown={"extract": UnknownSolute(ACETIC, Spread(1e-5, 2e-5, 3e-5), ions)},
        ranges={"acetic": AcidRange(0.02)},
    )
    mixture = mixture_of((Material("extract", 500.0, ()),), 1.0, facts)
    assert solve(typical_solution(mixture)).ph == pytest.approx(4.5, abs=0.06)


@pytest.mark.parametrize("ends", [(0.5, 0.4, 0.6), (0.5, 0.6, 0.55), (-0.1, 0.0, 0.1)])
def test_that_a_range_that_does_not_rise_is_refused(ends):
    with pytest.raises(ValueError, match="rise"):
        Spread(*ends)
