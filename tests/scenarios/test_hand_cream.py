"""Acceptance scenario "Hushlark Hand Cream", every number, by document, command and session.

The figures are those of the scenario; the formulas behind them: rest = 100 - sum of the others;
needed mass = (n + retains) x fill x density / (1 - hold-up); least weighable = d / 5 %, the
sensitivity over acceptable error taught in compounding (USP 1176: 6 mg / 5 % = 120 mg).
"""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest

from tests.builders import make_formula, make_shelf
from workbench import cli, paths
from workbench.checks.assess import assess
from workbench.checks.assessment import Assessment
from workbench.checks.finding import Severity, TakeFromLine
from workbench.formula.composition import composition
from workbench.formula.document import document_data
from workbench.formula.edits import EditRefused, with_percent, with_rest_line
from workbench.formula.formula import Formula, Plan
from workbench.formula.rebalance import scaled_to_whole
from workbench.formula.scale import column_grams
from workbench.formula.scope import scope_of
from workbench.formula.totals import totals
from workbench.storage.reference.shipped import Shipped
from workbench.ui.session import Session

SHIPPED = Shipped(paths.resources() / "reference")
DAY = date(2026, 11, 25)
LINES = (
    ("water", "69.10"),
    ("glycerin", "5.00"),
    ("disodium_edta", "0.20"),
    ("xanthan_gum", "0.25"),
    ("cct", "10.00"),
    ("shea_butter", "6.00"),
    ("glyceryl_stearate_se", "4.00"),
    ("cetyl_alcohol", "2.50"),
    ("panthenol_d", "1.00"),
    ("tocopherol", "0.20"),
    ("phenoxyethanol_ehg", "0.90"),
    ("fragrance_compound", "0.40"),
    ("lactic_acid_80", "0.30"),
)
PACKS = Plan(
    batch_mass=Decimal(710),
    units=12,
    fill=Decimal(50),
    density=Decimal("0.97"),
    hold_up_percent=Decimal(4),
    retains=2,
)
COLUMN = "491.67 35.50 1.42 1.78 71.00 42.60 28.40 17.75 7.10 1.42 6.39 2.84 2.13"


def pasted(plan: Plan = PACKS) -> Formula:
    """Return the thirteen lines as pasted: 99.85 %, no rest line."""
    return make_formula(*LINES, plan=plan, product_type="cream", area="hand")


def repaired(plan: Plan = PACKS) -> Formula:
    """Return the formula after the repair, water taking the rest."""
    return with_rest_line(pasted(plan), 1)


def assessed(formula: Formula) -> Assessment:
    """Assess against the shipped tables."""
    return assess(formula, SHIPPED.shelf, scope_of(formula, DAY), SHIPPED.rules)


def figures(formula: Formula) -> dict[str, object]:
    """Return the figures by key."""
    return {figure.key: figure.value for figure in assessed(formula).figures}


def command(
    formula: Formula, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> tuple[int, dict]:
    """Run `assess --json` on the document of a formula."""
    file = tmp_path / "hushlark.formula.json"
    file.write_text(json.dumps(document_data(formula, SHIPPED.shelf)), encoding="utf-8")
    code = cli.main(["assess", str(file), "--json", "--date", "2026-11-25"])
    return code, json.loads(capsys.readouterr().out)


def test_that_the_pasted_lines_are_short_by_0_15() -> None:
    assert totals(pasted()).percent == Decimal("99.85")
    assert totals(pasted()).short == Decimal("0.15")


def test_that_one_step_takes_the_difference_and_undo_gives_it_back() -> None:
    session: Session[Formula] = Session(pasted())
    found = next(item for item in assessed(session.value).findings if item.code == "total-short")
    remedy = next(item for item in found.remedies if isinstance(item.action, TakeFromLine))
    session.edit("repair", remedy.action.applied)
    assert session.value.line(1).percent == Decimal("69.25")
    assert totals(session.value).percent == Decimal("100.00")
    session.stack.undo()
    assert session.value.line(1).percent == Decimal("69.10")


def test_that_twelve_packs_and_two_retains_need_707_3_g() -> None:
    found = figures(repaired())
    assert found["filled-mass"] == Decimal("679.0")
    assert found["needed-mass"] == Decimal("707.3")


def test_that_the_column_foots_to_710() -> None:
    column = column_grams(repaired(), Decimal(710), Decimal("0.01"))
    assert " ".join(str(value) for value in column.values()) == COLUMN
    assert sum(column.values()) == Decimal("710.00")


def test_that_the_chelator_goes_on_the_fine_balance() -> None:
    edta = assessed(repaired()).line(3).weighability
    assert edta is not None
    assert edta.balance.readability == Decimal("0.01")
    assert round(edta.error_percent, 1) == Decimal("0.7")  # on the 0.1 g balance it is 7 %


def test_that_a_60_g_trial_offers_a_dilution_or_100_g() -> None:
    trial = repaired(Plan(batch_mass=Decimal(60)))
    coarse = {
        item.lines[0]: dict(item.values)
        for item in assessed(trial).findings
        if item.code == "weigh-coarse"
    }
    assert {3, 10} <= coarse.keys()  # chelator and tocopherol
    edta = coarse[3]
    assert edta["mass"] == Decimal("0.12")
    assert edta["error"] == Decimal("8.3")
    assert edta["least"] == Decimal("0.2")
    assert edta["diluted"] == Decimal("1.2")
    assert edta["strength"] == Decimal(10)
    assert edta["diluted-error"] == Decimal("0.83")
    assert edta["batch"] == Decimal(100)


def test_that_oils_and_emulsifier_are_counted() -> None:
    found = {figure.key: figure for figure in assessed(repaired()).figures}
    assert found["oils"].value == Decimal("19.10")
    assert found["emulsifier-of-oils"].value == Decimal("20.9")
    assert dict(found["emulsifier-of-oils"].values)["wanted"] == Decimal("4.8")


def test_that_lactic_acid_is_counted_at_its_strength() -> None:
    assert assessed(repaired()).line(13).pure_percent == Decimal("0.24")


def test_that_the_command_says_the_same(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    code, data = command(pasted(), tmp_path, capsys)
    assert code == 1
    assert data["totals"]["percent"] == "99.85"
    assert "total-short" in [item["code"] for item in data["findings"]]
    code, data = command(repaired(), tmp_path, capsys)
    assert code == 0
    assert data["totals"] == {"percent": "100.00", "mass_g": "710.00"}
    assert " ".join(line["mass_g"] for line in data["lines"]) == COLUMN
    assert data["lines"][12]["pure_percent"] == "0.24"
    assert data["ph"]["low"] < data["ph"]["estimate"] < data["ph"]["high"]
    assert data["declaration"][:2] == ["Aqua", "Caprylic/Capric Triglyceride"]


@pytest.mark.parametrize("batch", ["30", "50", "60", "100", "200"])
def test_that_four_percent_of_a_batch_is_four_hundredths_of_it(batch: str) -> None:
    # Community measuring table 95/4/1; its 60 g slip of 2.00 g is 2.40 g.
    formula = make_formula(("water", "95"), ("glycerin", "4"), ("preservative", "1"))
    column = column_grams(formula, Decimal(batch), Decimal("0.01"))
    assert column[2] == Decimal(batch) * 4 / 100
    assert sum(column.values()) == Decimal(batch)


@pytest.mark.parametrize(
    ("batch", "step", "percents", "column"),
    [
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
    ],
)
def test_that_without_a_rest_line_the_largest_remainders_round_up(
    batch: str, step: str, percents: str, column: str
) -> None:
    # Largest-remainder apportionment (Hamilton), worked by hand; ties to the larger target.
    formula = make_formula(*((f"i{n}", text) for n, text in enumerate(percents.split())))
    found = column_grams(formula, Decimal(batch), Decimal(step))
    assert list(found.values()) == [Decimal(text) for text in column.split()]


def test_that_a_stock_brings_its_water_and_its_preservative_once() -> None:
    # Common practice: 35 % of a 1 % gum stock is 0.35 % powder; 98 % of it is water.
    stock = make_formula(
        ("water*", "0"), ("xanthan", "1"), ("blend", "1", "preservative"), product_type="stock"
    )
    shelf = make_shelf("xanthan", "blend", stocks={"stock": stock})
    formula = make_formula(("water*", "0"), ("stock", "35"))
    found = composition(formula, shelf)
    assert found.substances["xanthan"] == Decimal("0.35")
    assert found.substances["blend"] == Decimal("0.35")
    assert found.water == Decimal("99.30")
    assert shelf.strength("stock") == Decimal(1)


def test_that_a_stock_inside_itself_is_told_and_not_followed() -> None:
    one = make_formula(("two", "100"), product_type="stock")
    two = make_formula(("one", "100"), product_type="stock")
    shelf = make_shelf(stocks={"one": one, "two": two})
    formula = make_formula(("water*", "0"), ("one", "5"))
    found = assess(formula, shelf, scope_of(formula, DAY), SHIPPED.rules).findings
    assert [item.code for item in found if item.severity is Severity.STOP] == ["stock-in-circle"]


def test_that_scaling_holds_locks_and_ends_at_100() -> None:
    formula = make_formula(("water", "60"), ("glycerin!", "7"), ("cct", "13.3333"))
    scaled = scaled_to_whole(formula)
    assert scaled.line(2).percent == Decimal(7)
    assert totals(scaled).percent == Decimal(100)


def test_that_a_locked_line_refuses_an_edit() -> None:
    formula = make_formula(("water*", "0"), ("glycerin!", "7"))
    with pytest.raises(EditRefused) as refused:
        with_percent(formula, 2, Decimal(5))
    assert refused.value.reason_id == "edit-line-locked"


def test_that_a_rest_below_nothing_is_told_with_its_size_and_not_clamped() -> None:
    formula = make_formula(("water*", "0"), ("glycerin", "60"), ("cct", "55.5"))
    found = next(item for item in assessed(formula).findings if item.code == "rest-negative")
    assert found.severity is Severity.STOP
    assert dict(found.values)["excess"] == Decimal("15.5")
    assert totals(formula).percents[1] == Decimal("-15.5")


def test_that_water_without_preservative_is_a_caution_and_no_stop() -> None:
    formula = make_formula(("water*", "0"), ("glycerin", "4"))
    found = next(item for item in assessed(formula).findings if item.code == "water-unpreserved")
    assert found.severity is Severity.CAUTION


def test_that_a_target_outside_a_preservatives_window_is_told() -> None:
    formula = make_formula(
        ("water*", "0"), ("sodium_benzoate", "0.4"), target_ph=(Decimal("5.8"), Decimal("6.4"))
    )
    found = next(item for item in assessed(formula).findings if item.code == "preservative-weak")
    window = next(one for one in found.workings if one.code == "preservative-working-window")
    assert dict(window.values)["ceiling"] == Decimal(5)
    inside = replace(formula, target_ph=(Decimal("4.2"), Decimal("4.8")))
    told = [item for item in assessed(inside).findings if item.code.startswith("ph-outside")]
    assert told == []


def test_that_a_substance_no_table_knows_is_told() -> None:
    shelf = make_shelf("glycerin", "moonflower", substances={})
    bare = replace(shelf, substances={"aqua": shelf.substances["aqua"]})
    formula = make_formula(("water*", "0"), ("moonflower", "2"))
    found = assess(formula, bare, scope_of(formula, DAY), SHIPPED.rules).findings
    assert [item.lines for item in found if item.code == "substance-unlisted"] == [(2,)]


def test_that_grams_keep_the_places_of_the_balance() -> None:
    column = column_grams(
        make_formula(("water*", "0"), ("cct", "20")), Decimal(500), Decimal("0.01")
    )
    assert [str(value) for value in column.values()] == ["400.00", "100.00"]
