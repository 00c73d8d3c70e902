"""One view of before and after, against the shipped tables."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

from tests.builders import make_formula
from workbench import paths
from workbench.checks.assess import assess
from workbench.checks.ph_windows import PhWindow, PhWindows
from workbench.checks.swap_effect import (
    SwapEffect,
    effect_between,
    ph_asked_without,
    stock_effect,
    swap_effect,
)
from workbench.formula.edits import with_percent
from workbench.formula.formula import Formula, Plan
from workbench.formula.scope import scope_of
from workbench.formula.shelf import Price, Shelf, shelf_of
from workbench.formula.substitute import swapped
from workbench.storage.reference.shipped import Shipped

SHIPPED = Shipped(paths.resources() / "reference")
DAY = date(2026, 11, 25)


def shelf(**prices: str) -> Shelf:
    """Return the shipped shelf, with prices a kilogram."""
    known = {key: Price(Decimal(price), "EUR") for key, price in prices.items()}
    return shelf_of(SHIPPED.ingredients, {}, SHIPPED.substances, known, SHIPPED.balances)


def gel(**changes: object) -> Formula:
    """Return a preserved gel, water taking the rest."""
    usual = {
        "product_type": "gel",
        "plan": Plan(batch_mass=Decimal(100)),
        "target_ph": (Decimal("5.0"), Decimal("5.5")),
    }
    return make_formula(
        ("water*", ""),
        ("glycerin", "4"),
        ("xanthan_gum", "0.5"),
        ("phenoxyethanol_ehg", "1"),
        **(usual | changes),
    )


def effect(before: Formula, after: Formula, on: Shelf | None = None) -> SwapEffect:
    """Return what a change does."""
    return swap_effect(before, after, on or shelf(), scope_of(before, DAY), SHIPPED.rules)


def test_that_nothing_changed_has_no_effect() -> None:
    found = effect(gel(), gel())
    assert found.difference.is_empty
    assert (found.figures, found.declarations, found.windows, found.gone, found.new) == ((),) * 5
    assert not any(each.reads_otherwise for each in found.unchanged)


def test_that_another_humectant_changes_the_declaration_by_one_name() -> None:
    after = swapped(gel(), 2, "propanediol", Decimal(1), shelf())
    found = effect(gel(), after)
    assert [(each.market, each.added, each.removed, each.moved) for each in found.declarations] == [
        ("EU", ("Propanediol",), ("Glycerin",), ())
    ]


def test_that_names_that_change_places_are_told() -> None:
    found = effect(gel(), with_percent(gel(), 4, Decimal(5)))
    assert set(found.declarations[0].moved) == {"Glycerin", "Phenoxyethanol"}


def test_that_a_level_brought_under_the_cap_is_a_finding_gone() -> None:
    # Phenoxyethanol 1.0 % is Regulation (EC) 1223/2009, Annex V, entry 29.
    over = with_percent(gel(), 4, Decimal("1.35"))
    found = effect(over, gel())
    assert "phenoxyethanol" in {each.values_of("substance") for each in found.gone}
    back = effect(gel(), over)
    assert "phenoxyethanol" in {each.values_of("substance") for each in back.new}


def test_that_a_finding_that_stays_tells_that_its_figure_moved() -> None:
    over, further = (with_percent(gel(), 4, Decimal(percent)) for percent in ("1.35", "1.5"))
    stays = [
        each
        for each in effect(over, further).unchanged
        if each.before.values_of("substance") == "phenoxyethanol"
    ]
    assert stays
    assert all(each.reads_otherwise for each in stays)


def test_that_a_finding_about_another_material_on_the_line_is_another_finding() -> None:
    over = with_percent(gel(), 3, Decimal(4))
    after = swapped(over, 3, "sclerotium_gum", Decimal(1), shelf())
    found = effect(over, after)
    both = {each.before.about for each in found.unchanged}
    assert not any({"xanthan_gum", "sclerotium_gum"} & set(about) for about in both)


def test_that_cost_is_compared_only_where_every_price_is_known() -> None:
    after = swapped(gel(), 2, "propanediol", Decimal(1), shelf())
    prices = {"water": "0", "glycerin": "4", "xanthan_gum": "20", "phenoxyethanol_ehg": "30"}
    assert effect(gel(), after, shelf(**prices)).cost_by is None
    known = effect(gel(), after, shelf(propanediol="9", **prices))
    assert known.cost_by == Decimal("0.02")
    assert {each.key: each.by for each in known.figures}["cost-batch"] == Decimal("0.02")


def test_that_the_ph_ladder_tells_which_window_came() -> None:
    after = swapped(gel(), 4, "benzyl_alcohol_dha", Decimal("0.9"), shelf())
    found = effect(gel(), after)
    names = [
        (each.before and each.before.name, each.after and each.after.name) for each in found.windows
    ]
    assert (None, "benzyl_alcohol_dha") in names
    assert ("phenoxyethanol_ehg", None) in names


def test_that_two_assessed_versions_are_compared_on_the_facts_of_their_own_day() -> None:
    formula = gel()
    other = shelf_of(
        {
            **SHIPPED.ingredients,
            "glycerin": replace(SHIPPED.ingredients["glycerin"], use_max=Decimal(3)),
        },
        {},
        SHIPPED.substances,
    )
    scope = scope_of(formula, DAY)
    first = assess(formula, shelf(), scope, SHIPPED.rules)
    second = assess(formula, other, scope, SHIPPED.rules)
    found = effect_between((formula, first), (formula, second))
    assert found.difference.is_empty
    assert [each.about for each in found.new if each.about == ("glycerin",)] == [("glycerin",)]


def test_that_a_changed_stock_shows_its_effect_on_a_draft_before_anything_is_saved() -> None:
    stock = make_formula(("niacinamide", "10"), ("water*", ""), product_type="stock")
    other = make_formula(("panthenol_d", "10"), ("water*", ""), product_type="stock")
    on = shelf_of(SHIPPED.ingredients, {"s": stock}, SHIPPED.substances)
    draft = make_formula(("water*", ""), ("s", "20"), product_type="toner")
    found = stock_effect(draft, on, ("s", other), scope_of(draft, DAY), SHIPPED.rules)
    assert found.difference.is_empty
    assert found.declarations[0].added == ("Panthenol",)
    assert found.declarations[0].removed == ("Niacinamide",)


def test_that_the_ph_asked_for_leaves_the_line_itself_out() -> None:
    windows = PhWindows(
        rows=(
            PhWindow("target", "", Decimal(5), Decimal("5.5")),
            PhWindow("preservative", "acid", Decimal(3), Decimal("5.2"), lines=(4,)),
        )
    )
    assert ph_asked_without(4, windows) == (5, Decimal("5.5"))
    assert ph_asked_without(1, windows) == (5, Decimal("5.2"))
    assert ph_asked_without(4, PhWindows()) is None
