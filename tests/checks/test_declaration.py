"""The ingredient list by market: names, order, the 1 % rule, what is merged and what is last."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from tests.builders import make_formula, make_ingredient, make_scope, make_shelf
from workbench import paths
from workbench.checks.carried import carried
from workbench.checks.declaration import declarations
from workbench.checks.label_values import Declaration
from workbench.formula.composition import composition
from workbench.formula.formula import Formula
from workbench.formula.shelf import Shelf, shelf_of
from workbench.formula.totals import totals
from workbench.storage.reference.shipped import Shipped

SHIPPED = Shipped(paths.resources() / "reference")
LABELLING = SHIPPED.rules.labelling


def listed_in(
    formula: Formula, shelf: Shelf, *markets: str, **scope: object
) -> dict[str, Declaration]:
    found = declarations(
        composition(formula, shelf),
        shelf,
        make_scope(markets=markets or ("EU",), **scope),
        LABELLING,
        carried(formula, shelf, totals(formula)),
    )
    return {each.market: each for each in found}


def shipped_with(**stocks: Formula) -> Shelf:
    return shelf_of(SHIPPED.ingredients, stocks, SHIPPED.substances)


def listed(*lines: tuple[str, ...], market: str = "EU", **scope: object) -> Declaration:
    return listed_in(make_formula(*lines), SHIPPED.shelf, market, **scope)[market]


XANTHAN_STOCK = make_formula(
    ("water*", "0"), ("xanthan_gum", "1.00"), ("phenoxyethanol_ehg", "1.00"), product_type="stock"
)
CITRIC_STOCK = make_formula(("water*", "0"), ("citric_acid", "10"), product_type="stock")
GEL_LINES = (
    ("water*", "0"),
    ("xanthan-stock", "35.00"),
    ("glycerin", "4.00"),
    ("niacinamide", "4.00"),
    ("panthenol_75", "1.3333"),
    ("phenoxyethanol_ehg", "0.65"),
    ("citric-10+", "1.00"),
)
GEL_SHELF = shipped_with(**{"xanthan-stock": XANTHAN_STOCK, "citric-10": CITRIC_STOCK})
GEL = make_formula(*GEL_LINES, product_type="gel")


# trade-notes, second scenario: the gel from a stock, a diluted active and two carriers of one
# preservative. Glycerin and niacinamide tie at 4 % pure; the shipped glycerin holds 0.5 % water.
def test_that_the_gel_is_declared_in_the_order_worked_out_by_hand() -> None:
    names = listed_in(GEL, GEL_SHELF)["EU"].names
    assert names[0] == "Aqua"
    assert set(names[1:3]) == {"Glycerin", "Niacinamide"}
    assert names[3:] == (
        "Panthenol",
        "Phenoxyethanol",
        "Xanthan Gum",
        "Ethylhexylglycerin",
        "Citric Acid",
    )


# trade-notes, second scenario: panthenol is exactly 1.00 %. EU: "below 1 %" (Reg. (EC) 1223/2009
# Art. 19(1)(g)), US: "not more than 1 %" (21 CFR 701.3(f)); checks-regulatory C18.
@pytest.mark.parametrize(("market", "free"), [("EU", 4), ("UK", 4), ("US", 5)])
def test_that_exactly_one_percent_is_free_in_the_us_only(market: str, free: int) -> None:
    found = listed_in(GEL, GEL_SHELF, market)[market]
    assert sum(entry.is_under_one for entry in found.entries) == free
    assert len(found.entries) - found.first_free == free


def test_that_the_preservative_of_a_stock_counts_once_at_its_share() -> None:
    found = listed_in(GEL, GEL_SHELF)["EU"]
    entry = next(each for each in found.entries if each.name == "Phenoxyethanol")
    # trade-notes: 0.35 % carried by the stock and 0.65 % neat, 90 % of it phenoxyethanol
    assert entry.percent == Decimal("0.9")
    assert entry.lines == (2, 6)


def test_that_all_water_is_one_entry() -> None:
    found = listed_in(GEL, GEL_SHELF)["EU"]
    water = found.entries[0]
    assert water.lines == (1, 2, 3, 5, 7)
    # trade-notes says 89.55 with glycerin taken as pure; 0.02 more comes with it here
    assert water.percent.quantize(Decimal("0.01")) == Decimal("89.57")


def test_that_adjuster_held_back_is_marked() -> None:
    entries = listed_in(GEL, GEL_SHELF)["EU"].entries
    assert [entry.name for entry in entries if entry.is_held_back] == ["Citric Acid"]


# trade-notes, fifth scenario: the shampoo as designed and as made on 1218.6 g.
@pytest.mark.parametrize(
    ("betaine", "glucoside", "panthenol"),
    [("15.0", "8.0", "1.0"), ("16.248", "7.861", "0.985")],
    ids=["as designed", "as made"],
)
def test_that_the_shampoo_is_declared_as_worked_out_by_hand(
    betaine: str, glucoside: str, panthenol: str
) -> None:
    found = listed(
        ("water*", "0"),
        ("sodium_lauroyl_sarcosinate_30", "20.0"),
        ("capb_30", betaine),
        ("decyl_glucoside_50", glucoside),
        ("glycerin", "3.0"),
        ("panthenol_d", panthenol),
        ("phenoxyethanol_ehg", "0.90"),
        ("fragrance_compound", "0.50"),
        exposure="rinse-off",
        product_type="shampoo",
    )
    assert found.names[:5] == (
        "Aqua",
        "Sodium Lauroyl Sarcosinate",
        "Cocamidopropyl Betaine",
        "Decyl Glucoside",
        "Glycerin",
    )
    assert {"Panthenol", "Phenoxyethanol", "Parfum"} <= set(found.names[5:])
    panthenol_entry = next(entry for entry in found.entries if entry.name == "Panthenol")
    assert panthenol_entry.is_under_one is (panthenol == "0.985")


# 21 CFR 701.3 and the notes on it: "Parfum" or "Aqua" alone are no US names.
def test_that_each_market_has_its_own_names() -> None:
    lines = (("water*", "0"), ("shea_butter", "3"), ("fragrance_compound", "0.2"))
    assert listed(*lines).names == ("Aqua", "Butyrospermum Parkii Butter", "Parfum")
    assert listed(*lines, market="US").names == (
        "Water",
        "Butyrospermum Parkii (Shea) Butter",
        "Fragrance",
    )


def test_that_scent_on_the_lips_is_aroma() -> None:
    lines = (("castor_oil", "99"), ("fragrance_compound", "1"))
    assert listed(*lines, area="lip").names[-1] == "Aroma"
    assert listed(*lines, area="lip", market="US").names[-1] == "Flavor"


def test_that_an_oil_used_for_something_else_keeps_its_name() -> None:
    scent = listed(("water*", "0"), ("eo_tea_tree", "1.5"))
    active = listed(("water*", "0"), ("eo_tea_tree", "1.5", "active"))
    assert "Parfum" in scent.names
    assert "Melaleuca Alternifolia Leaf Oil" in active.names
    assert "Parfum" not in active.names


# Reg. (EC) 1223/2009 Art. 19(1)(g): colourants after the other ingredients.
def test_that_colourants_come_last_whatever_their_percent() -> None:
    shelf = make_shelf(
        make_ingredient("red", {"iron": "1"}, functions=("colourant",)),
        "oil",
        "tocopherol",
        substances={
            key: replace(SHIPPED.substances["ci_77491"], key=key, inci=inci, inci_us="")
            for key, inci in {"iron": "CI 77491"}.items()
        },
    )
    formula = make_formula(("oil", "69.8"), ("red", "30"), ("tocopherol", "0.2"))
    assert listed_in(formula, shelf)["EU"].names == ("Oil", "Tocopherol", "CI 77491")


def test_that_several_iron_oxides_are_one_name_in_the_us() -> None:
    keys = [key for key in ("iron_oxide_red", "iron_oxide_yellow") if key in SHIPPED.ingredients]
    assert len(keys) == 2
    found = listed(("castor_oil*", "0"), *((key, "1") for key in keys), market="US")
    assert found.names.count("Iron Oxides") == 1
    assert found.entries[-1].percent == Decimal(2)


def test_that_a_nano_material_is_marked_where_the_market_asks() -> None:
    zinc = make_ingredient("zinc", {"zinc_oxide": "1"}, tags=("nano",))
    shelf = make_shelf(zinc)
    formula = make_formula(("water*", "0"), ("zinc", "5"))
    found = listed_in(formula, shelf, "EU", "US")
    assert "Zinc Oxide (nano)" in found["EU"].names
    assert "Zinc Oxide" in found["US"].names


def test_that_a_grade_that_may_be_nano_is_asked_for() -> None:
    found = listed(("water*", "0"), ("zinc_oxide", "5"))
    assert "declaration-nano" in {note.id for note in found.notes}


# Weight when added: crystal water belongs to the salt that was weighed (composition_long.csv is
# the table for labels).
def test_that_crystal_water_stays_with_its_salt() -> None:
    found = listed(("castor_oil*", "0"), ("citric_acid_monohydrate", "0.5"))
    assert found.names == ("Ricinus Communis Seed Oil", "Citric Acid")
    assert found.entries[-1].percent == Decimal("0.5")


def test_that_salt_and_hydrate_of_one_name_are_one_entry() -> None:
    found = listed(("water*", "0"), ("citric_acid", "0.3"), ("citric_acid_monohydrate", "0.4"))
    citric = [entry for entry in found.entries if entry.name == "Citric Acid"]
    assert [entry.percent for entry in citric] == [Decimal("0.7")]
    assert len(citric[0].substances) == 2


def test_that_acid_and_base_are_both_named_as_added() -> None:
    found = listed(("water*", "0"), ("citric_acid", "0.5"), ("sodium_hydroxide_10", "1"))
    assert {"Citric Acid", "Sodium Hydroxide"} <= set(found.names)
    assert "declaration-as-added" in {note.id for note in found.notes}


def test_that_a_line_nothing_is_known_of_makes_the_list_not_whole() -> None:
    found = listed(("water*", "0"), ("moonstone", "5"))
    assert not found.is_whole
    assert found.names == ("Aqua",)
    assert found.notes[0].lines == (2,)


def test_that_what_no_label_lists_is_left_out() -> None:
    undeclared = {key for key, each in SHIPPED.substances.items() if not each.is_declared}
    carriers = [
        key
        for key, item in SHIPPED.ingredients.items()
        if undeclared & {part.substance for part in item.composition}
    ]
    assert carriers
    for key in carriers:
        entries = listed(("water*", "0"), (key, "5")).entries
        assert not undeclared & {name for entry in entries for name in entry.substances}


def test_that_equal_contents_keep_the_order_of_the_sheet() -> None:
    shelf = make_shelf("zinnia", "aster", "oil")
    formula = make_formula(("oil", "94"), ("zinnia", "3"), ("aster", "3"))
    assert listed_in(formula, shelf)["EU"].names == ("Oil", "Zinnia", "Aster")


def test_that_one_list_is_made_for_each_market_in_its_order() -> None:
    found = listed_in(GEL, GEL_SHELF, "UK", "US", "EU")
    assert list(found) == ["UK", "US", "EU"]


def test_that_every_shipped_ingredient_gives_a_name_in_every_market() -> None:
    for key in SHIPPED.ingredients:
        for found in listed_in(make_formula((key, "100")), SHIPPED.shelf, "EU", "US").values():
            assert found.names, key
            assert all(names.strip() for names in found.names), key
