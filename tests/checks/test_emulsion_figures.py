from decimal import Decimal
from functools import cache

import pytest

from tests.builders import make_formula, make_ingredient, make_shelf
from workbench import paths
from workbench.checks.emulsion_figures import emulsion_figures
from workbench.checks.figures import figures_of
from workbench.checks.opened import opened
from workbench.formula.absent import Absent
from workbench.formula.shelf import shelf_of
from workbench.storage.reference.shipped import Shipped
from workbench.words.catalogue import load_words

HAND_CREAM = (
    ("water*", "0"),
    ("glycerin", "5"),
    ("disodium_edta", "0.2"),
    ("xanthan_gum", "0.25"),
    ("cct", "10"),
    ("shea_butter", "6"),
    ("glyceryl_stearate_se", "4"),
    ("cetyl_alcohol", "2.5"),
    ("panthenol_75", "1"),
    ("tocopherol", "0.2"),
    ("phenoxyethanol_ehg", "0.9"),
    ("fragrance_compound", "0.4"),
    ("lactic_acid_80", "0.3"),
)
WORKED = (
    ("water*", "0"),
    ("sunflower_oil", "10"),
    ("ipm", "4"),
    ("cetyl_alcohol", "4"),
    ("shea_butter", "2"),
    ("polysorbate_60", "2.45"),
    ("sorbitan_stearate", "2.55"),
)


@cache
def shipped():
    return Shipped(paths.resources() / "reference")


def figures(*entries, shelf=None, **changes):
    formula = make_formula(*entries, **changes)
    shelf = shelf or shipped().shelf
    found = emulsion_figures(formula, opened(formula, shelf).items, shelf, shipped().rules)
    return {figure.key: figure for figure in found}


def values(figure):
    return dict(figure.values)


def test_that_a_published_formulation_has_its_required_hlb():
    # OCL 2022 (ocl210096), F1, printed 10.33; there the monostearate counts with the oils.
    parts = {
        "wax": ("1.5", "12"),
        "ester": ("7.5", "11.5"),
        "stearate": ("7.5", "3.8"),
        "acid": ("12.5", "15"),
        "seed": ("5", "6.2"),
    }
    shelf = make_shelf(
        *(
            make_ingredient(key, solubility="oil", required_hlb=Decimal(hlb))
            for key, (_, hlb) in parts.items()
        ),
        make_ingredient("maker", hlb=Decimal(11), functions=("emulsifier-oil-in-water",)),
    )
    found = figures(
        ("water*", "0"),
        ("maker", "5"),
        *((key, percent) for key, (percent, _) in parts.items()),
        shelf=shelf,
    )
    assert found["required-hlb"].value == Decimal("10.3")


def test_that_the_oils_of_a_worked_example_want_what_the_blend_gives():
    # Worked: required 9.70; 2.45 g polysorbate 60 with 2.55 g sorbitan stearate, share 0.4902.
    found = figures(*WORKED)
    assert found["required-hlb"].value == Decimal("9.7")
    assert found["blend-hlb"].value == Decimal("9.7")
    told = values(found["blend-hlb"])
    assert (told["meeting"], told["share"], told["gap"]) == ("two", Decimal(49), Decimal(0))
    assert told["first"] == "Polysorbate 60"


def test_that_a_required_hlb_is_shown_as_a_span_of_at_least_one_each_way():
    required = figures(*WORKED)["required-hlb"]
    told = values(required)
    assert told["low"] <= required.value - 1
    assert told["high"] >= required.value + 1


def test_that_an_oil_with_differing_tables_widens_the_span():
    # Caprylic/capric triglyceride: 5 to 11 circulate.
    told = values(figures(*HAND_CREAM)["required-hlb"])
    assert told["high"] - told["low"] > 4


def test_that_oils_without_a_value_are_named_and_their_share_told():
    # The hand cream: tocopherol 0.2 and fragrance 0.4 of 19.1 % oils have no value.
    told = values(figures(*HAND_CREAM)["required-hlb"])
    assert told["counted"] == Decimal(97)
    assert "tocopherol" in str(told["left-out"])
    assert told["is-whole"] == "no"


def test_that_one_emulsifier_is_no_blend_to_be_shared_out():
    told = values(figures(*HAND_CREAM)["blend-hlb"])
    assert told["meeting"] == "open"
    assert told["gap"] == Decimal("-1.9")


def test_that_two_emulsifiers_that_cannot_meet_the_oils_are_told_so():
    found = figures(
        ("water*", "0"),
        ("stearic_acid", "20"),
        ("sorbitan_stearate", "3"),
        ("glyceryl_stearate", "2"),
    )
    assert values(found["blend-hlb"])["meeting"] == "none"


def test_that_an_emulsifier_without_hlb_is_named():
    found = figures(
        ("water*", "0"), ("almond_oil", "20"), ("emulsifying_wax_nf", "4"), ("ceteareth_20", "1")
    )
    told = values(found["blend-hlb"])
    assert told["counted"] == Decimal(20)
    assert told["left-out"]
    assert told["meeting"] == "open"


def test_that_oils_without_emulsifier_have_no_hlb_figure():
    assert figures(("almond_oil", "100")) == {}


def test_that_the_rule_of_a_quarter_stays_a_figure_of_its_own():
    # The hand cream: oils 19.1 %, emulsifier 4.0 %, 20.9 % of the oils; a quarter would be 4.8.
    formula = make_formula(*HAND_CREAM)
    found = figures_of(opened(formula, shipped().shelf), shipped().rules, Absent("absent-no-price"))
    keys = {figure.key: figure for figure in found}
    told = values(keys["emulsifier-of-oils"])
    assert keys["emulsifier-of-oils"].value == Decimal("20.9")
    assert (told["oils"], told["emulsifier"], told["wanted"]) == (
        Decimal("19.1"),
        Decimal("4"),
        Decimal("4.8"),
    )
    assert {"required-hlb", "blend-hlb", "density"} <= set(keys)


def test_that_active_surfactant_adds_up_by_charge():
    # A published shampoo: 34.48 % of a 29 %, 13.89 % of a 36 % and 5.77 % of a 52 % material
    # bring 10 + 5 + 3 = 18 % active matter.
    shelf = make_shelf(
        make_ingredient("a", functions=("surfactant-anionic",), active_percent=Decimal(29)),
        make_ingredient("b", functions=("surfactant-amphoteric",), active_percent=Decimal(36)),
        make_ingredient("c", functions=("surfactant-nonionic",), active_percent=Decimal(52)),
    )
    found = figures(("water*", "0"), ("a", "34.48"), ("b", "13.89"), ("c", "5.77"), shelf=shelf)
    figure = found["surfactant-active"]
    assert figure.value == pytest.approx(Decimal(18), abs=Decimal("0.01"))
    told = values(figure)
    assert [round(Decimal(told[name]), 1) for name in ("anionic", "amphoteric", "nonionic")] == [
        10,
        5,
        3,
    ]
    assert told["cationic"] == 0


def test_that_a_shampoo_is_held_beside_its_usual_band():
    # Sarcosinate 6.0 + betaine 4.5 + glucoside 4.0 = 14.5 %, usual 10 to 15 % for a shampoo.
    shelf = make_shelf(
        make_ingredient(
            "sarcosinate", functions=("surfactant-anionic",), active_percent=Decimal(30)
        ),
        make_ingredient(
            "betaine", functions=("surfactant-amphoteric",), active_percent=Decimal(30)
        ),
        make_ingredient(
            "glucoside", functions=("surfactant-nonionic",), active_percent=Decimal(50)
        ),
    )
    found = figures(
        ("water*", "0"),
        ("sarcosinate", "20"),
        ("betaine", "15"),
        ("glucoside", "8"),
        shelf=shelf,
        product_type="shampoo",
    )["surfactant-active"]
    assert found.value == Decimal("14.50")
    assert (values(found)["low"], values(found)["high"]) == (Decimal(10), Decimal(15))
    assert values(found)["band"] == "yes"


def test_that_a_product_without_a_band_shows_none():
    found = figures(("water*", "0"), ("decyl_glucoside_50", "5"), product_type="toner")
    assert values(found["surfactant-active"])["band"] == "no"


def test_that_salts_are_counted_dry_against_the_thickener_they_may_thin():
    # 4 % of a 60 % sodium lactate solution: 2.4 % salt, and carbomer does not stand it.
    found = figures(("water*", "0"), ("carbomer", "0.4"), ("sodium_lactate_60", "4"))[
        "electrolytes"
    ]
    assert found.value == Decimal("2.40")
    assert values(found)["names"] == "Carbomer"


def test_that_too_little_salt_to_matter_names_no_thickener():
    # Bench judgement of the table: 1 % of salt; the hand cream holds 0.2 % of a chelator.
    told = values(figures(*HAND_CREAM)["electrolytes"])
    assert (told["touchy"], told["names"]) == ("no", "")


def test_that_crystal_water_is_no_salt():
    # Magnesium sulfate heptahydrate holds 51.2 % water, or the anhydrous salt none.
    found = figures(("water*", "0"), ("xanthan_gum", "0.5"), ("magnesium_sulfate", "10"))
    item = shipped().shelf.ingredients["magnesium_sulfate"]
    dry = sum((part.fraction - part.water for part in item.composition), Decimal(0))
    assert found["electrolytes"].value == (10 * dry).quantize(Decimal("0.01"))


def test_that_a_stock_is_opened():
    stock = make_formula(
        ("water*", "0"), ("carbomer", "1"), ("sodium_chloride", "2"), product_type="stock"
    )
    shelf = shelf_of(shipped().shelf.ingredients, {"gel": stock}, shipped().shelf.substances)
    found = figures(("water*", "0"), ("gel", "50"), shelf=shelf)
    assert found["electrolytes"].value == Decimal("1.00")


def test_that_plain_water_and_humectant_give_no_figure():
    assert figures(("water*", "0"), ("glycerin", "5")) == {}


@pytest.mark.parametrize(
    "entries",
    [
        HAND_CREAM,
        WORKED,
        (
            ("water*", "0"),
            ("stearic_acid", "20"),
            ("sorbitan_stearate", "3"),
            ("glyceryl_stearate", "2"),
        ),
        (("water*", "0"), ("carbomer", "0.4"), ("sodium_lactate_60", "4"), ("capb_30", "9")),
    ],
)
@pytest.mark.parametrize("product_type", ["shampoo", "toner"])
def test_that_every_figure_can_be_said(entries, product_type):
    words = load_words(paths.resources() / "words")
    for figure in figures(*entries, product_type=product_type).values():
        said = words.say(f"figure-{figure.key}", **dict(figure.values))
        assert said
        assert "$" not in said
        assert words.say(f"unit-{figure.unit}", value="1", **dict(figure.values))
