from __future__ import annotations

from decimal import Decimal

from workbench.formula.old_sheet import Amount, Grid, place_text
from workbench.formula.old_sheet_lines import formula_of_sheet
from workbench.formula.old_sheet_reading import read_formula
from workbench.formula.old_sheet_tables import tables_in


def grid(*rows: str) -> Grid:
    cells = [row.split("|") for row in rows]
    width = max(map(len, cells))
    return Grid("Sheet", tuple(tuple(row + [""] * (width - len(row))) for row in cells))


def read(*rows: str, chosen: dict[int, Amount] | None = None, **how):
    sheet = grid(*rows)
    tables = tables_in(sheet)
    return read_formula(sheet, tables[0], tables[1:], chosen, **how)


def test_that_a_choice_takes_the_doubt_away_and_counts():
    rows = ("Ingredient|%", "Water|to 100", "Glycerin|2-3 %")
    doubt = read(*rows).rows[1].doubt
    assert doubt is not None
    after = read(*rows, chosen={2: doubt.choices[-1]})
    assert (after.rows[1].percent, after.rows[1].doubt) == (Decimal(3), None)
    assert not after.is_doubtful


def test_that_a_chosen_mass_changes_the_percents_of_all():
    rows = ("Ingredient|g", "Olive oil|75", "Beeswax|1/2 oz")
    before = read(*rows)
    assert before.rows[0].percent == Decimal(100)
    doubt = before.rows[1].doubt
    assert doubt is not None
    after = read(*rows, chosen={2: Amount(mass_g=Decimal(25))})
    assert [row.percent for row in after.rows] == [Decimal(75), Decimal(25)]


def test_that_masses_become_percents_that_add_up_to_exactly_a_hundred():
    rows = read("Ingredient|g", *(f"Oil {number}|{number}" for number in range(1, 8))).rows
    assert sum(row.percent for row in rows if row.percent is not None) == Decimal(100)


def test_that_percent_and_mass_that_agree_within_rounding_are_no_doubt():
    # 1.42 g of 710 g is 0.2 %, 4.26 g is 0.6 %.
    found = read("Ingredient|%|g", "Water|99.2|704.32", "Wax|0.6|4.26", "Gum|0.2|1.42")
    assert not found.is_doubtful
    assert found.batch_g == Decimal("710.00")


def test_that_a_total_that_does_not_agree_is_told_and_doubtful():
    found = read("Ingredient|%", "Water|70", "Glycerin|5", "Total|100")
    assert [one.code for one in found.remarks if one.is_doubtful] == [
        "sheet-total-differs",
        "sheet-not-whole",
    ]


def test_that_numbers_without_a_unit_are_only_taken_for_masses_with_a_question():
    assert any(
        one.code == "sheet-unit-assumed" and one.is_doubtful
        for one in read("Ingredient|Amount", "Water|350", "Oil|150").remarks
    )


def test_that_a_number_of_two_readings_is_not_decided_by_the_maker_s_country():
    for decimal_comma in (True, False):
        found = read("Ingredient|g", "Water|1,234", "Oil|5", decimal_comma=decimal_comma)
        assert found.rows[0].doubt is not None
        assert found.rows[0].doubt.reason_id == "sheet-two-readings"


def test_that_the_formula_keeps_phases_notes_and_the_mass_as_it_was_written():
    found = read("Phase|Item|Weight (oz)|Notes", "Water phase|Water|3|warm", "Oils|Olive oil|1|")
    made = formula_of_sheet(found, {1: "water"}, name="Balm", phase_name="A")
    assert [(phase.name, phase.kind) for phase in made.phases] == [
        ("Water phase", "water"),
        ("Oils", "oil"),
    ]
    assert [(line.ingredient, line.percent, line.note) for line in made.lines()] == [
        ("water", Decimal(75), "3 oz; warm"),
        ("Olive oil", Decimal(25), "1 oz"),
    ]
    assert made.plan.batch_mass == Decimal("113.398092500")


def test_that_places_are_named_as_spreadsheets_do():
    assert [place_text(at) for at in ((0, 0), (6, 1), (9, 25), (0, 26), (2, 701), (2, 702))] == [
        "A1",
        "B7",
        "Z10",
        "AA1",
        "ZZ3",
        "AAA3",
    ]
