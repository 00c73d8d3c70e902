from dataclasses import replace
from decimal import Decimal

import pytest

from tests.builders import make_formula
from workbench import paths
from workbench.formula.scale import column_grams, exact_grams
from workbench.formula.weighability import (
    Balance,
    dilution,
    least_weighable,
    smallest_batch,
    strict_least_weighable,
    weighed,
    weighing_error,
)
from workbench.storage.reference.limits import load_rules

RULES = load_rules(paths.resources() / "reference").weighing


def balance(readability, capacity="3000", deviation=None):
    return Balance(
        "test", Decimal(readability), Decimal(capacity), Decimal(deviation) if deviation else None
    )


@pytest.mark.parametrize(
    ("readability", "tolerance", "least"),
    [
        # USP general chapter 41, text valid from August 2019: 2 max(s, 0.41 d) / tolerance.
        ("0.01", "0.10", "8.2"),
        ("0.01", "1", "0.82"),
        ("0.01", "5", "0.164"),
        ("0.1", "0.10", "82"),
        ("0.1", "0.5", "16.4"),
        ("0.001", "0.10", "0.82"),
        ("1", "2", "41"),
    ],
)
def test_that_the_pharmacopoeia_s_least_weight_follows_its_rule(readability, tolerance, least):
    rules = replace(RULES, strict_tolerance_percent=Decimal(tolerance))
    assert strict_least_weighable(balance(readability), rules) == Decimal(least)


def test_that_the_shipped_rule_is_the_one_of_a_tenth_of_a_percent():
    assert strict_least_weighable(balance("0.01"), RULES) == Decimal("8.2")


def test_that_the_balance_s_own_scatter_counts_once_it_is_larger():
    # 2000 s at 0.10 %: s 0.005 g asks for 10 g, s 0.003 g is under 0.41 d.
    assert strict_least_weighable(balance("0.01", deviation="0.005"), RULES) == 10
    assert strict_least_weighable(balance("0.01", deviation="0.003"), RULES) == Decimal("8.2")


@pytest.mark.parametrize(
    ("readability", "least"), [("0.01", "0.20"), ("0.006", "0.120"), ("0.1", "2")]
)
def test_that_the_usual_least_weight_is_sensitivity_over_error(readability, least):
    # As taught in compounding after USP 1176: 6 mg / 0.05 = 120 mg; 20 d at 5 %.
    assert least_weighable(balance(readability), RULES) == Decimal(least)


@pytest.mark.parametrize(
    ("mass", "readability", "percent"),
    [
        ("1.42", "0.01", "0.7"),
        ("1.42", "0.1", "7.0"),
        ("0.12", "0.01", "8.3"),
        ("0.06", "0.01", "16.7"),
    ],
)
def test_that_the_error_of_a_line_is_readability_over_mass(mass, readability, percent):
    # The hand cream: 1.42 g is 0.7 % off on a 0.01 g balance and 7 % on a 0.1 g one.
    assert round(weighing_error(Decimal(mass), balance(readability)), 1) == Decimal(percent)


def test_that_the_finest_balance_that_carries_the_mass_is_taken():
    fine, coarse = balance("0.01", "200"), balance("0.1", "3000")
    on = {mass: weighed(Decimal(mass), (coarse, fine), RULES) for mass in ("150", "500", "5000")}
    assert [found.balance for found in on.values() if found] == [fine, coarse, coarse]


def test_that_a_trace_is_diluted_or_the_batch_made_larger():
    # 60 g trial of the hand cream: 0.12 g of a 0.2 % line; 10 % dilution, or 100 g.
    least = least_weighable(balance("0.01"), RULES)
    assert dilution(Decimal("0.12"), least, (10, 100)) == 10
    assert dilution(Decimal("0.001"), least, (10, 100)) is None
    assert smallest_batch(Decimal("0.2"), least, Decimal(10)) == 100


WORKED = [
    (
        "250",
        "0.1",
        "68.37 12.25 6.0 4.5 3.4 2.6 1.0 0.9 0.5 0.3 0.18",
        "170.9 30.6 15.0 11.3 8.5 6.5 2.5 2.3 1.3 0.7 0.4",
    ),
    ("100", "0.1", "33.333 33.333 33.334", "33.3 33.3 33.4"),
    (
        "30",
        "0.01",
        "81.15 5 4 3.35 3 2 1 0.3 0.2",
        "24.35 1.50 1.20 1.00 0.90 0.60 0.30 0.09 0.06",
    ),
    ("73.5", "0.1", "70.45 15.55 8.25 3.75 1.1 0.9", "51.8 11.4 6.1 2.7 0.8 0.7"),
]


@pytest.mark.parametrize(("batch", "step", "percents", "grams"), WORKED)
def test_that_a_weigh_list_adds_up_by_the_largest_remainder(batch, step, percents, grams):
    # Worked by hand: whole divisions, what is left to the largest fractions, ties to the larger.
    formula = make_formula(*((f"line_{i}", share) for i, share in enumerate(percents.split())))
    column = column_grams(formula, Decimal(batch), Decimal(step))
    assert [str(mass) for mass in column.values()] == grams.split()
    assert sum(column.values()) == Decimal(batch)


def test_that_naive_rounding_would_have_missed_the_batch():
    formula = make_formula(*((f"line_{i}", share) for i, share in enumerate(WORKED[0][2].split())))
    naive = sum(round(mass, 1) for mass in exact_grams(formula, Decimal(250)).values())
    assert naive == Decimal("249.8")
