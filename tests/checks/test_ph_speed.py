"""The pH, its reasons and all doses of a large draft are worked out on every change."""

from __future__ import annotations

import time
from dataclasses import replace
from decimal import Decimal

import pytest

from tests.builders import make_formula
from tests.checks.chemistry_shelf import rules, shelf
from workbench.checks.adjusters import adjuster_doses
from workbench.checks.ph import chemistry_situation, ph_estimate
from workbench.formula.formula import Formula

LINES, ROUNDS = 60, 40
MOST_SECONDS = 0.0045


def sixty_lines() -> Formula:
    """Return a formula of ordinary lines of the shipped shelf, water as the rest."""
    keys = [key for key in shelf().ingredients if key != "water" and not key.startswith("pure_")]
    step = len(keys) // (LINES - 1)
    entries = [("water*", "0"), *((key, "1.00") for key in keys[::step][: LINES - 1])]
    return replace(make_formula(*entries), target_ph=(Decimal(5), Decimal("5.5")))


@pytest.mark.speed
def test_that_ph_and_doses_of_sixty_lines_take_no_noticeable_time():
    formula = sixty_lines()
    took = []
    for _ in range(ROUNDS):
        begun = time.process_time()
        situation = chemistry_situation(formula, shelf(), rules())
        ph_estimate(situation)
        adjuster_doses(formula, situation, shelf())
        took.append(time.process_time() - begun)
    assert min(took) < MOST_SECONDS
