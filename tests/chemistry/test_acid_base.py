from __future__ import annotations

import math

import pytest

from tests.chemistry.acids import (
    IDEAL,
    acids,
    in_100_g,
    shipped_rows,
    solution,
    truth_rows,
)
from workbench.chemistry.acid_base import _nested, solve
from workbench.chemistry.activity import DAVIES
from workbench.chemistry.speciation import problem_of
from workbench.chemistry.system import AcidBase, OutOfRange, Solution, StrongIon, dissolved

MEASURED = [row for row in truth_rows("ph_of_solutions.tsv") if row["model"] == "measured"]
IDEAL_ROWS = [row for row in truth_rows("ph_of_solutions.tsv") if row["model"] == "ideal"]
MIXTURES = truth_rows("ph_of_mixtures.tsv")


def named(rows):
    return [pytest.param(row, id=f"{row['check']}: {row[list(row)[1]]}") for row in rows]


def undissociated(answer, mixture, key):
    place = [acid.key for acid, _ in mixture.totals].index(key)
    return 100 * answer.shares[place][0]


# Each row of the table names its source.
@pytest.mark.parametrize("row", named(IDEAL_ROWS))
def test_that_textbook_examples_come_out_without_activities(row):
    found = solve(solution(row["solution"]), IDEAL).ph
    assert found == pytest.approx(float(row["ph"]), abs=float(row["tolerance"]))


@pytest.mark.parametrize("row", named(MEASURED))
def test_that_measured_standards_come_out(row):
    found = solve(solution(row["solution"])).ph
    assert found == pytest.approx(float(row["ph"]), abs=float(row["tolerance"]))


@pytest.mark.parametrize("row", named(MEASURED))
def test_that_a_model_without_activities_misses_the_measured_standards(row):
    found = solve(solution(row["solution"]), IDEAL).ph
    assert abs(found - float(row["ph"])) > float(row["tolerance"])


# NBS/NIST primary standard 1.679 (from memory). Its oxalic constants are those of Martell & Smith,
# 1.252 and 4.266 (from memory); the shipped ones, of the NEA, give 1.730.
def test_that_the_tetroxalate_standard_comes_out_with_the_constants_it_was_made_with():
    oxalic = AcidBase("oxalic", (1.252, 4.266), 0)
    mixture = Solution(((oxalic, 0.1),), (StrongIon(1, 0.05),))
    assert solve(mixture).ph == pytest.approx(1.679, abs=0.02)


# Stock PHREEQC, as the rows say; with neutral species left at gamma 1 the fifth would be 3.696.
@pytest.mark.parametrize("row", named(MIXTURES))
def test_that_mixtures_of_the_trade_come_out(row):
    found = solve(in_100_g(row["grams_in_100_g"])).ph
    assert found == pytest.approx(float(row["ph"]), abs=float(row["tolerance"]))


def test_that_uncharged_species_without_activity_would_be_seen():
    davies_ions_only = type(DAVIES)(0.5092, 0.3, 0.0, 0.0, 13.995)
    found = solve(in_100_g("glycolic 5; Na 0.5 of glycolic"), davies_ions_only).ph
    assert found == pytest.approx(3.696, abs=0.005)


# PHREEQC, stock phreeqc.dat at 25 °C, with the constants of the shipped table.
@pytest.mark.parametrize(
    ("grams", "key", "percent"),
    [
        ("citric 0.1; sodium_benzoate 0.5", "benzoic", 23.5),
        ("citric 0.25; sodium_benzoate 0.5; potassium_sorbate 0.2", "benzoic", 31.1),
        ("citric 0.25; sodium_benzoate 0.5; potassium_sorbate 0.2", "sorbic", 62.0),
    ],
)
def test_that_the_undissociated_share_of_preservatives_comes_out(grams, key, percent):
    mixture = in_100_g(grams)
    assert undissociated(solve(mixture), mixture, key) == pytest.approx(percent, abs=0.3)


def at_ph(key, ph, ionic, activity):
    """Return the undissociated percent of a trace of acid in a salt solution held at a pH."""
    acid = acids()[key]
    strong = StrongIon(1, ionic), StrongIon(-1, ionic)
    low, high = 0.0, 0.01  # strong acid or base, by halves, until the pH is the one wanted
    buffer = AcidBase("buffer", (ph,), 0)
    for _ in range(60):
        middle = 0.5 * (low + high)
        extra = (*strong, StrongIon(1, middle))
        mixture = Solution(((buffer, 0.01), (acid, 1e-9)), extra)
        low, high = (middle, high) if solve(mixture, activity).ph < ph else (low, middle)
    return undissociated(solve(mixture, activity), mixture, key)


# Henderson–Hasselbalch by hand: 100 / (1 + 10^(pH - pKa)) with 4.202 and 4.76.
@pytest.mark.parametrize(
    ("key", "ph", "percent"), [("benzoic", 5.0, 13.74), ("sorbic", 5.5, 15.40)]
)
def test_that_the_undissociated_share_at_a_ph_is_the_ideal_one(key, ph, percent):
    assert at_ph(key, ph, 0.05, IDEAL) == pytest.approx(percent, abs=0.01)


# By hand: 100 / (1 + 10^(5.0 - 4.202 + 0.1071)), 0.1071 being -log10 gamma of an ion at I = 0.1
# and the acid left at gamma 1. The buffer brings the last 0.0055 of the ionic strength.
def test_that_salt_lowers_the_undissociated_share():
    ions_only = type(DAVIES)(0.5092, 0.3, 0.0, 0.0, 13.995)
    found = at_ph("benzoic", 5.0, 0.0945, ions_only)
    assert found == pytest.approx(11.07, abs=0.02)


def test_that_pure_water_is_neutral():
    assert solve(Solution()).ph == pytest.approx(13.995 / 2, abs=1e-3)


def test_that_shares_sum_to_one_and_follow_the_order_of_the_totals():
    answer = solve(solution("citric 0.05; benzoic 0.02; arginine 0.03"))
    assert [len(shares) for shares in answer.shares] == [4, 2, 4]
    assert [sum(shares) for shares in answer.shares] == pytest.approx([1.0, 1.0, 1.0])


def test_that_ionic_strength_counts_every_ion():
    answer = solve(Solution(strong=(StrongIon(1, 0.3), StrongIon(2, 0.1), StrongIon(-1, 0.5))))
    assert answer.ionic_strength == pytest.approx(0.5 * (0.3 + 4 * 0.1 + 0.5), rel=1e-5)


def test_that_an_absent_acid_has_shares_all_the_same():
    answer = solve(solution("lactic 0.1; benzoic 0"))
    assert sum(answer.shares[1]) == pytest.approx(1.0)


# PHREEQC manual: the activity of water is 1 - 0.017 times the molality of everything dissolved.
def test_that_uncharged_solutes_lower_the_hydroxide_of_a_lye():
    lye = Solution(strong=(StrongIon(1, 0.1),))
    thick = Solution(strong=(StrongIon(1, 0.1),), neutral=5.0)
    drop = math.log10((1 - 0.017 * 0.2) / (1 - 0.017 * 5.2))
    assert solve(thick).ph - solve(lye).ph == pytest.approx(drop, abs=1e-3)


@pytest.mark.parametrize(
    ("mixture", "reason"),
    [
        pytest.param(Solution(strong=(StrongIon(1, 2.5), StrongIon(-1, 2.5))), "ph-too-salty"),
        pytest.param(Solution(strong=(StrongIon(1, 60.0),)), "ph-too-salty"),
        pytest.param(Solution(strong=(StrongIon(1, 2.1),)), "ph-too-salty"),
        pytest.param(solution("citric 0.5; Na 1.45"), "ph-too-salty"),
        pytest.param(solution("sulfuric 50"), "ph-too-salty"),
    ],
)
def test_that_too_much_salt_is_refused(mixture, reason):
    with pytest.raises(OutOfRange) as caught:
        solve(mixture)
    assert caught.value.reason_id == reason
    assert caught.value.values["ionic_strength"] >= 2.0


@pytest.mark.parametrize("water_kg", [0.0, -0.1, math.nan])
def test_that_nothing_dissolves_without_water(water_kg):
    with pytest.raises(OutOfRange) as caught:
        dissolved([(acids()["lactic"], 0.1)], [], 0.0, water_kg)
    assert caught.value.reason_id == "ph-no-water"


def test_that_the_same_acid_from_two_materials_is_counted_together():
    citric = acids()["citric"]
    mixed = dissolved([(citric, 0.01), (citric, 0.02)], [StrongIon(1, 0.1)] * 2, 0.1, 0.5)
    assert mixed.totals[0][1] == pytest.approx(0.06)
    assert mixed.strong == (StrongIon(1, 0.4),)
    assert mixed.neutral == pytest.approx(0.2)


@pytest.mark.parametrize("amount", [-0.1, math.nan, math.inf])
def test_that_an_amount_that_is_none_is_a_bug(amount):
    with pytest.raises(ValueError, match="no amount"):
        Solution(((acids()["lactic"], amount),))
    with pytest.raises(ValueError, match="no amount"):
        StrongIon(1, amount)
    with pytest.raises(ValueError, match="no amount"):
        Solution(neutral=amount)


@pytest.mark.parametrize("pkas", [(4.0, 3.0), (math.nan,)])
def test_that_constants_out_of_order_are_a_bug(pkas):
    with pytest.raises(ValueError, match="pKa"):
        AcidBase("odd", pkas, 0)


@pytest.mark.parametrize("row", named(MEASURED))
def test_that_bracketing_alone_finds_the_same_root(row):
    mixture = solution(row["solution"])
    answer = solve(mixture)
    ph, ionic = _nested(problem_of(mixture, DAVIES))
    assert (ph, ionic) == pytest.approx((answer.ph, answer.ionic_strength), abs=1e-7)


def test_that_a_mixture_on_which_newton_wanders_is_bracketed():
    mixture = solution("phytic 0.401; kojic 0.0016; tris 0.0014; Na 0.53424")
    answer = solve(mixture)
    assert (answer.residual < 1e-9, answer.ionic_strength < 2.0) == (True, True)
    ph, ionic = _nested(problem_of(mixture, DAVIES))
    assert (ph, ionic) == pytest.approx((answer.ph, answer.ionic_strength), abs=1e-7)


@pytest.mark.parametrize("molality", [300.0, 3000.0])
def test_that_acid_beyond_every_ph_is_refused(molality):
    with pytest.raises(OutOfRange) as caught:
        solve(Solution(((acids()["sulfuric"], molality),)))
    assert caught.value.reason_id == "ph-no-root"


# PHREEQC through `pH_own_neutral01`: the model of the program on 71 mixtures, beside PHREEQC.
@pytest.mark.parametrize(
    "row", shipped_rows("phreeqc_mixtures.csv"), ids=lambda row: row["mixture"]
)
def test_that_the_shipped_mixtures_come_out_as_the_table_has_them(row):
    from tests.chemistry.mixtures import shipped_mixture

    answer = solve(shipped_mixture(row))
    assert answer.ph == pytest.approx(float(row["pH_own_neutral01"]), abs=0.001)
    assert answer.ionic_strength == pytest.approx(float(row["I_own"]), rel=0.03)
