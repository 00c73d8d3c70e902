"""Solutions whose pH is printed: the interval has to meet the printed range.

Figures from monographs of pharmacopoeias and excipient handbooks, from memory.
"""

from __future__ import annotations

import pytest

from tests.builders import make_formula
from tests.checks.chemistry_shelf import rules, shelf
from workbench.checks.ph import chemistry_situation, ph_estimate
from workbench.checks.ph_values import PhEstimate


@pytest.mark.parametrize(
    ("key", "percent", "low", "high"),
    [
        ("citric_acid", "1", 2.1, 2.3),
        ("ascorbic_acid", "5", 2.1, 2.6),
        ("tartaric_acid", "0.75", 2.1, 2.5),
        ("glycolic_acid_70", "7", 1.7, 2.0),
        ("disodium_edta", "5", 4.0, 5.5),
        ("salicylic_acid", "2", 2.3, 2.5),  # saturated
        ("benzoic_acid", "1", 2.7, 2.9),  # saturated
        ("niacinamide", "5", 6.0, 7.5),
        ("sodium_lactate_60", "10", 6.5, 8.5),
        ("sodium_bicarbonate", "0.84", 8.2, 8.6),
        ("arginine", "10", 10.5, 12.0),
        ("triethanolamine_99", "1.5", 10.3, 10.7),
        ("pure_tromethamine", "5", 10.0, 11.5),
        ("sodium_hydroxide", "0.1", 12.0, 12.6),
        ("potassium_cocoate", "10", 9.5, 10.5),
        ("hydrosol_rose", "95", 4.0, 6.5),
        ("aloe_juice", "95", 3.5, 5.0),
        ("sodium_ascorbyl_phosphate", "3", 9.0, 10.0),
        ("sodium_stearoyl_lactylate", "2", 4.5, 6.5),
        ("potassium_cetyl_phosphate", "1", 6.0, 9.0),
        ("sodium_cocoamphoacetate", "10", 8.0, 9.5),
        ("tranexamic_acid", "5", 7.0, 8.0),
    ],
)
def test_that_the_interval_meets_the_printed_range(key, percent, low, high):
    formula = make_formula(("water*", "0"), (key, percent))
    found = ph_estimate(chemistry_situation(formula, shelf(), rules()))
    assert isinstance(found, PhEstimate)
    assert found.low <= high
    assert found.high >= low
    assert found.high - found.low < 4.5
