from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tests.chemistry.acids import acids
from workbench.chemistry.acid_base import solve
from workbench.chemistry.acid_base_arrays import gathered
from workbench.chemistry.acid_base_many import shares_many, solved
from workbench.chemistry.system import OutOfRange, Solution, StrongIon, dissolved

PURE_ACIDS = ("lactic", "citric", "glycolic", "benzoic", "phosphoric", "acetic", "salicylic", "pca")
KEYS = sorted(set(acids()) - {"phytic"})
amounts = st.floats(min_value=-5.0, max_value=-0.7).map(lambda power: 10.0**power)


@st.composite
def solutions(draw):
    keys = draw(st.lists(st.sampled_from(KEYS), max_size=5, unique=True))
    totals = tuple((acids()[key], draw(amounts)) for key in keys)
    low = sum(acid.charges[-1] * amount for acid, amount in totals)
    high = sum(acid.charges[0] * amount for acid, amount in totals)
    charge = draw(st.floats(min_value=low - 0.05, max_value=high + 0.05))
    salt = draw(st.one_of(st.just(0.0), amounts))
    ions = (StrongIon(1, salt + max(-charge, 0.0)), StrongIon(-1, salt + max(charge, 0.0)))
    return Solution(totals, ions, draw(st.sampled_from((0.0, 0.5, 3.0))))


def answered(mixture):
    try:
        return solve(mixture)
    except OutOfRange:
        assume(False)
        raise


@given(solutions())
def test_that_the_charges_balance(mixture):
    answer = answered(mixture)
    assert answer.residual < 1e-9
    assert -2.0 < answer.ph < 16.0
    assert 0.0 <= answer.ionic_strength <= 2.0


@given(solutions())
def test_that_ionic_strength_and_shares_belong_to_each_other(mixture):
    answer = answered(mixture)
    ions = sum(ion.charge**2 * ion.molality for ion in mixture.strong)
    for (acid, amount), shares in zip(mixture.totals, answer.shares, strict=True):
        assert sum(shares) == pytest.approx(1.0)
        ions += amount * sum(z * z * part for z, part in zip(acid.charges, shares, strict=True))
    free = 2 * answer.ionic_strength - ions
    assert free > -1e-7 * answer.ionic_strength


@given(solutions(), st.sampled_from(PURE_ACIDS), amounts)
def test_that_more_acid_never_raises_the_ph(mixture, key, more):
    before = answered(mixture)
    added = answered(replace(mixture, totals=(*mixture.totals, (acids()[key], more))))
    assume(added.ionic_strength <= 1.0)
    assert added.ph <= before.ph + 1e-9


@given(solutions(), amounts)
def test_that_lye_never_lowers_the_ph(mixture, more):
    before = answered(mixture)
    after = answered(replace(mixture, strong=(*mixture.strong, StrongIon(1, more))))
    assume(after.ionic_strength <= 1.0)
    assert after.ph >= before.ph - 1e-9


@given(solutions(), st.floats(min_value=1e-4, max_value=1e4))
def test_that_a_larger_batch_has_the_same_ph(mixture, times):
    batch = dissolved(
        [(acid, amount * times) for acid, amount in mixture.totals],
        [StrongIon(ion.charge, ion.molality * times) for ion in mixture.strong],
        mixture.neutral * times,
        times,
    )
    assert answered(batch).ph == pytest.approx(answered(mixture).ph, abs=1e-7)


@given(solutions())
def test_that_the_order_of_the_materials_does_not_matter(mixture):
    turned = replace(mixture, totals=mixture.totals[::-1], strong=mixture.strong[::-1])
    assert answered(turned).ph == pytest.approx(answered(mixture).ph, abs=1e-7)


@settings(max_examples=40)
@given(st.lists(solutions(), min_size=1, max_size=12))
def test_that_the_array_form_gives_the_same_answers(mixtures):
    ph, ionic = solved(gathered(mixtures))
    for mixture, found, strength in zip(mixtures, ph.tolist(), ionic.tolist(), strict=True):
        try:
            answer = solve(mixture)
        except OutOfRange:
            assert math.isnan(found)
            continue
        assert found == pytest.approx(answer.ph, abs=1e-6)
        assert strength == pytest.approx(answer.ionic_strength, abs=1e-6)


@settings(max_examples=40)
@given(solutions())
def test_that_the_array_form_gives_the_same_shares(mixture):
    answer = answered(mixture)
    ph, ionic = solved(gathered([mixture]))
    for (acid, _), shares in zip(mixture.totals, answer.shares, strict=True):
        assert shares_many(acid, ph, ionic)[:, 0].tolist() == pytest.approx(shares, abs=1e-6)
