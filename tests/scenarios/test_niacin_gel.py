"""Acceptance scenario "Quillmoss Niacin Gel": a stock, a diluted active, a double preservative.

The figures are those of the scenario; the formulas behind them: stock = powder / strength;
carried preservative = stock x its share; direct water falls by the stock's water; needed mass =
(n + retains) x fill x density / (1 - hold-up). The cap of 1.0 % phenoxyethanol is Regulation
(EC) 1223/2009, Annex V, entry 29; the order of names is its Article 19(1)(g), and for the US
21 CFR 701.3(f).
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from tests.builders import make_formula, make_ingredient
from workbench import paths
from workbench.checks.assess import assess
from workbench.checks.assessment import Assessment
from workbench.checks.finding import Severity
from workbench.checks.swap_effect import swap_effect
from workbench.formula.composition import composition
from workbench.formula.edits import with_percent
from workbench.formula.formula import Formula, Plan
from workbench.formula.scale import column_grams, needed_mass
from workbench.formula.scope import scope_of
from workbench.formula.shelf import shelf_of
from workbench.formula.stocks import stock_inside, with_powder, with_stock
from workbench.formula.totals import totals
from workbench.storage.reference.shipped import Shipped

SHIPPED = Shipped(paths.resources() / "reference")
DAY = date(2026, 11, 25)
GUM_STOCK, CITRIC = "gum_stock", "citric_10"
STOCKS = {
    GUM_STOCK: make_formula(
        ("xanthan_gum", "1.00"),
        ("phenoxyethanol_ehg", "1.00"),
        ("water", "98.00"),
        name="Xanthan stock 1 %",
        product_type="stock",
    ),
    CITRIC: make_formula(
        ("citric_acid", "10"), ("water", "90"), name="Citric acid 10 %", product_type="stock"
    ),
}
# The design counts glycerin as pure; the shipped grade holds half a per cent of water.
GLYCERIN = make_ingredient("glycerin", {"glycerin": "1"}, functions=("humectant",))
SHELF = shelf_of(
    {**SHIPPED.ingredients, "glycerin": GLYCERIN},
    STOCKS,
    SHIPPED.substances,
    balances=SHIPPED.balances,
)
WATER, GLYCERIN_LINE, NIACINAMIDE, PANTHENOL, GUM, BLEND, ACID = range(1, 8)
PACKS = Plan(
    batch_mass=Decimal(825),
    units=24,
    fill=Decimal(30),
    density=Decimal("1.02"),
    hold_up_percent=Decimal(3),
    retains=2,
)


def with_powders() -> Formula:
    """Return the design: everything neat but the panthenol, water taking the rest."""
    return make_formula(
        ("water*", ""),
        ("glycerin", "4"),
        ("niacinamide", "4"),
        ("panthenol_75", "1.3333"),
        ("xanthan_gum", "0.35"),
        ("phenoxyethanol_ehg", "1.00"),
        (f"{CITRIC}+", "1.00"),
        plan=PACKS,
        product_type="serum",
        area="face",
        markets=("EU", "US"),
    )


def stocked() -> Formula:
    """Return the design after "use stock" on the line of the gum."""
    return with_stock(with_powders(), GUM, GUM_STOCK, SHELF)


def assessed(formula: Formula) -> Assessment:
    """Assess against the shipped tables."""
    return assess(formula, SHELF, scope_of(formula, DAY), SHIPPED.rules)


def test_that_the_packs_ask_for_the_mass_of_the_scenario() -> None:
    figures = {figure.key: figure.value for figure in assessed(with_powders()).figures}
    assert figures["filled-mass"] == Decimal("795.6")
    assert figures["needed-mass"] == Decimal("820.2")
    needed = needed_mass(replace(PACKS, batch_mass=None))
    assert needed is not None
    assert needed < PACKS.batch_mass


def test_that_the_stock_takes_the_place_of_the_gum_with_every_percent() -> None:
    percents = totals(stocked()).percents
    assert percents[GUM] == Decimal("35.00")
    assert percents[PANTHENOL] == Decimal("1.3333")
    assert percents[BLEND] == Decimal("0.65")
    assert percents[WATER] == Decimal("54.0167")
    assert percents[ACID] == Decimal("1.00")
    assert totals(stocked()).percent == 100


def test_that_the_column_of_grams_is_that_of_the_scenario() -> None:
    column = column_grams(stocked(), Decimal(825), Decimal("0.01"))
    assert column[GUM] == Decimal("288.75")
    assert column[PANTHENOL] == Decimal("11.00")
    assert column[BLEND] == Decimal("5.36")
    assert column[WATER] == Decimal("445.64")
    assert column[ACID] == Decimal("8.25")
    assert sum(column.values()) == Decimal("825.00")


def test_that_pure_matter_stays_what_it_was() -> None:
    before = composition(with_powders(), SHELF)
    after = composition(stocked(), SHELF)
    assert set(before.substances) == set(after.substances)
    for substance, percent in before.substances.items():
        assert abs(after.substances[substance] - percent) <= Decimal("0.0001"), substance
    assert before.water == pytest.approx(after.water)


def test_that_the_exploded_water_and_pure_levels_are_those_of_the_scenario() -> None:
    parts = composition(stocked(), SHELF)
    assert round(parts.water, 2) == Decimal("89.55")
    assert parts.substances["xanthan_gum"] == Decimal("0.35")
    assert parts.substances["phenoxyethanol"] == Decimal("0.90")
    assert round(parts.substances["panthenol"], 2) == Decimal("1.00")


def test_that_forgetting_the_preservative_of_the_stock_is_a_stop() -> None:
    forgotten = with_percent(stocked(), BLEND, Decimal("1.00"))
    found = [
        each
        for each in assessed(forgotten).findings
        if each.severity is Severity.STOP and each.values_of("substance") == "phenoxyethanol"
    ]
    assert [each.value for each in found] == [Decimal("1.215")]
    assert found[0].limit == Decimal("1.0")
    blend = stock_inside(GUM_STOCK, SHELF)["phenoxyethanol_ehg"] * Decimal("0.35") + Decimal(1)
    assert blend == Decimal("1.35")


def test_that_with_the_top_up_nothing_is_over_the_cap() -> None:
    found = assessed(stocked()).findings
    assert not [each for each in found if each.values_of("substance") == "phenoxyethanol"]


def test_that_the_names_stand_in_the_order_of_the_scenario() -> None:
    label = assessed(stocked()).label
    european = label.declaration("EU")
    assert european is not None
    first, *others = european.names
    assert first == "Aqua"
    assert set(others[:2]) == {"Glycerin", "Niacinamide"}
    assert others[2] == "Panthenol"
    assert others[3:] == ["Phenoxyethanol", "Xanthan Gum", "Ethylhexylglycerin", "Citric Acid"]
    assert {entry.percent for entry in european.entries[1:3]} == {Decimal(4)}


def test_that_one_per_cent_exactly_is_free_in_the_us_only() -> None:
    label = assessed(stocked()).label
    european, american = label.declaration("EU"), label.declaration("US")
    assert european is not None
    assert american is not None
    assert sum(entry.is_under_one for entry in european.entries) == 4
    assert sum(entry.is_under_one for entry in american.entries) == 5


def test_that_back_to_powder_gives_the_design_again() -> None:
    back = with_powder(stocked(), GUM, SHELF)
    assert totals(back).percents[GUM] == Decimal("0.35")
    assert totals(back).percents[BLEND] == Decimal("1.00")
    assert back == with_powders()
    assert composition(back, SHELF).substances == composition(with_powders(), SHELF).substances


def test_that_before_and_after_show_the_same_product() -> None:
    formula = with_powders()
    effect = swap_effect(formula, stocked(), SHELF, scope_of(formula, DAY), SHIPPED.rules)
    assert effect.declarations == ()
    assert [each.kinds for each in effect.difference.lines] == [
        ("percent",),
        ("swapped", "percent"),
        ("percent",),
    ]
    assert effect.before.totals.percent == effect.after.totals.percent == 100
