from __future__ import annotations

import math

import numpy as np
import pytest

from tests.chemistry.acids import IDEAL, acids, in_100_g, solution
from workbench.chemistry.acid_base import solve
from workbench.chemistry.acid_base_arrays import gathered
from workbench.chemistry.acid_base_many import shares_many, solve_many, solved
from workbench.chemistry.system import Solution, StrongIon


def test_that_rows_stand_in_the_order_given():
    ph, ionic = solve_many((acids()["lactic"],), np.array([[0.1], [0.01]]))
    alone = [solve(solution("lactic 0.1")), solve(solution("lactic 0.01"))]
    assert ph.tolist() == pytest.approx([answer.ph for answer in alone], abs=1e-6)
    assert ionic.tolist() == pytest.approx([answer.ionic_strength for answer in alone], abs=1e-6)


def test_that_strong_ions_and_uncharged_solutes_are_counted():
    totals, lye = np.array([[0.05], [0.05]]), np.array([[0.08, 0.01], [0.08, 0.01]])
    ph, _ = solve_many((acids()["lactic"],), totals, (1, -1), lye, np.array([0.0, 4.0]))
    expected = [
        solve(solution("lactic 0.05; Na 0.08; Cl 0.01")).ph,
        solve(
            Solution(((acids()["lactic"], 0.05),), (StrongIon(1, 0.08), StrongIon(-1, 0.01)), 4.0)
        ).ph,
    ]
    assert ph.tolist() == pytest.approx(expected, abs=1e-6)


def test_that_an_acid_no_row_has_changes_nothing():
    both = tuple(acids()[key] for key in ("lactic", "benzoic"))
    ph, _ = solve_many(both, np.array([[0.1, 0.0]]))
    assert ph[0] == pytest.approx(solve(solution("lactic 0.1")).ph, abs=1e-6)


def test_that_a_row_without_its_acid_is_water():
    ph, _ = solve_many((acids()["citric"],), np.array([[0.1], [0.0]]))
    assert ph[1] == pytest.approx(13.995 / 2, abs=1e-3)


def test_that_a_row_out_of_range_is_absent_and_the_others_are_not():
    ph, ionic = solved(gathered([solution("lactic 0.1; Na 2.5; Cl 2.4"), solution("lactic 0.1")]))
    assert (math.isnan(ph[0]), math.isnan(ionic[0])) == (True, True)
    assert ph[1] == pytest.approx(solve(solution("lactic 0.1")).ph, abs=1e-6)


def test_that_a_row_on_which_newton_wanders_is_answered_too():
    mixtures = [solution("phytic 0.401; Na 0.53424"), solution("phytic 0.01; Na 0.02")]
    ph, _ = solved(gathered(mixtures))
    assert ph.tolist() == pytest.approx([solve(mixture).ph for mixture in mixtures], abs=1e-6)


def test_that_acid_beyond_every_ph_is_absent():
    ph, _ = solve_many((acids()["sulfuric"],), np.array([[300.0], [0.1]]))
    assert (math.isnan(ph[0]), math.isnan(ph[1])) == (True, False)


def test_that_no_solutions_have_no_answers():
    ph, ionic = solve_many((acids()["lactic"],), np.zeros((0, 1)))
    assert (len(ph), len(ionic)) == (0, 0)


def test_that_the_activity_model_given_is_the_one_used():
    ph, _ = solve_many(
        (acids()["lactic"],), np.array([[0.1]]), (1,), np.array([[0.05]]), 0.0, IDEAL
    )
    assert ph[0] == pytest.approx(solve(solution("lactic 0.1; Na 0.05"), IDEAL).ph, abs=1e-6)


def test_that_solutions_of_different_acids_are_gathered():
    mixtures = [in_100_g("citric 1; sodium_benzoate 0.5"), in_100_g("lactic 2; arginine 2.5")]
    ph, _ = solved(gathered(mixtures))
    assert ph.tolist() == pytest.approx([solve(mixture).ph for mixture in mixtures], abs=1e-6)


def test_that_shares_are_given_for_each_row():
    mixtures = [in_100_g("citric 0.1; sodium_benzoate 0.5"), in_100_g("sodium_benzoate 0.5")]
    shares = shares_many(acids()["benzoic"], *solved(gathered(mixtures)))
    assert shares.shape == (2, 2)
    # PHREEQC, stock phreeqc.dat at 25 °C, with the constants of the shipped table.
    assert 100 * shares[0, 0] == pytest.approx(23.5, abs=0.3)
    assert shares[0, 1] < 0.001


def test_that_the_engine_loads_no_arrays_before_they_are_needed(run_python):
    code = """
import sys
import workbench.chemistry.acid_base, workbench.chemistry.titration
print("numpy" in sys.modules)
"""
    assert run_python("-c", code).stdout.strip() == "False"
