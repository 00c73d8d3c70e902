"""Pasted text read as lines."""

from __future__ import annotations

from decimal import Decimal

import pytest

from tests.builders import make_formula
from workbench.formula.edits import EditRefused
from workbench.formula.pasted import read_pasted
from workbench.formula.pasted_guess import COMMA, POINT, Role, guessed, mark_of
from workbench.formula.pasted_lines import Entry, pasted_into
from workbench.formula.tab_text import cells_of, tab_text
from workbench.formula.totals import totals

# Thirteen lines as a maker with decimal commas has them in a spreadsheet.
HAND_CREAM = """water\t69,10
glycerin\t5,00
chelator\t0,20
xanthan\t0,25
C8/C10 triglyceride\t10,00
shea\t6,00
glyceryl stearate SE\t4,00
cetyl alcohol\t2,50
panthenol\t1,00
tocopherol\t0,20
phenoxyethanol/ethylhexylglycerin\t0,90
fragrance\t0,40
lactic acid 80 %\t0,30
"""


def read(text, *, decimal_comma=False, mark=None):
    cells = cells_of(text)
    reading = guessed(cells, decimal_comma=decimal_comma)
    return read_pasted(cells, reading, mark or reading.mark or POINT)


def rows(text, **how):
    return [(row.name, row.percent) for row in read(text, **how).rows]


def test_that_thirteen_lines_with_decimal_commas_add_up_to_what_was_written():
    pasted = read(HAND_CREAM)
    assert len(pasted.rows) == 13
    assert pasted.total == Decimal("99.85")
    assert pasted.rows[0].percent == Decimal("69.10")
    assert pasted.rows[-1].name == "lactic acid 80 %"
    assert not pasted.unread
    assert not any(row.fault for row in pasted.rows)


@pytest.mark.parametrize(
    "text",
    [
        pytest.param("Water\t60\r\nGlycerin\t40\r\n", id="windows-line-ends"),
        pytest.param("Water\t60\t\t\nGlycerin\t40\t\t\n\t\t\t\n", id="empty-columns-and-rows"),
        pytest.param("Water\t60 %\nGlycerin\t40%", id="percent-signs"),
        pytest.param("Ingredient\t% w/w\nWater\t60\nGlycerin\t40", id="header"),
        pytest.param("Raw material\tWeight %\nWater\t60\nGlycerin\t40", id="weight-percent"),
        pytest.param("%\tName\n60\tWater\n40\tGlycerin", id="amount-first"),
        pytest.param('"Water"\t60\n"Glycerin"\t"40"', id="quoted"),
        pytest.param("Water;60\nGlycerin;40", id="semicolons"),
        pytest.param("Water  60 %\nGlycerin: 40 %", id="plain-lines"),
        pytest.param("60% Water\n40% Glycerin", id="plain-lines-amount-first"),
        pytest.param("Water\t0.6\nGlycerin\t0.4", id="shares-of-one"),
        pytest.param("Water\t300 g\nGlycerin\t200 g", id="grams-with-unit"),
        pytest.param("Name\tGrams\nWater\t300\nGlycerin\t200", id="grams-by-heading"),
        pytest.param("Name\tg\t%\nWater\t300\t60\nGlycerin\t200\t40", id="both"),
        pytest.param("Name\tWeight (oz)\nWater\t3\nGlycerin\t2", id="ounces"),
        pytest.param("Water\u00a0\t60\u00a0%\nGlycerin\t40 %", id="hard-spaces"),
    ],
)
def test_that_many_ways_of_writing_it_give_the_same_lines(text):
    assert rows(text) == [("Water", Decimal(60)), ("Glycerin", Decimal(40))]


def test_that_masses_become_percents_that_add_up_exactly():
    pasted = read("Name\tg\na\t1\nb\t1\nc\t1")
    assert pasted.is_of_mass
    assert pasted.total == Decimal(100)
    assert sorted(row.percent for row in pasted.rows) == [
        Decimal("33.3333"),
        Decimal("33.3333"),
        Decimal("33.3334"),
    ]


def test_that_masses_for_a_draft_with_a_batch_are_part_of_it():
    cells = cells_of("Name\tg\na\t5\nb\t1200")
    reading = guessed(cells, decimal_comma=False)
    pasted = read_pasted(cells, reading, POINT, Decimal(1000))
    assert [(row.percent, row.fault) for row in pasted.rows] == [
        (Decimal("0.5"), ""),
        (Decimal(0), "pasted-outside"),
    ]


def test_that_a_cell_with_tab_break_and_quotes_is_one_cell():
    assert cells_of('"a\tb"\t"said ""so"""\t5\n"two\nlines"\tx\t6') == (
        ("a b", 'said "so"', "5"),
        ("two lines", "x", "6"),
    )


def test_that_copied_text_comes_back_as_it_was():
    cells = (
        ("=SUM(A1)", "-x", "+y", "@z", "-3.00", "a\tb", '"q"'),
        ("1", "2", "3", "4", "5", "6", "7"),
    )
    text = tab_text(cells)
    assert text.startswith("'=SUM(A1)\t'-x\t'+y\t'@z\t-3.00\t")
    assert cells_of(text)[0] == ("=SUM(A1)", "-x", "+y", "@z", "-3.00", "a b", '"q"')


def test_that_phases_come_from_a_column_or_from_headings():
    by_column = read("Phase\tName\t%\nA\tWater\t60\nB\tOil\t40")
    by_heading = read("Phase A\nWater\t60\nOil phase:\nOil\t40")
    assert [row.phase for row in by_column.rows] == ["A", "B"]
    assert [row.phase for row in by_heading.rows] == ["Phase A", "Oil phase:"]


def test_that_what_becomes_no_line_is_kept_with_its_reason():
    pasted = read("Name\t%\nWater\t60\n\t5\nOil\tabc\nGum\t\nWax\t120\nTotal\t185")
    assert [(one.row, one.reason_id) for one in pasted.unread] == [
        (1, "pasted-header"),
        (3, "pasted-no-name"),
        (7, "pasted-total"),
    ]
    assert [(row.name, row.fault) for row in pasted.rows] == [
        ("Water", ""),
        ("Oil", "pasted-not-a-number"),
        ("Gum", "pasted-no-amount"),
        ("Wax", "pasted-outside"),
    ]


def test_that_a_mass_among_percents_is_told_and_not_taken_for_a_percent():
    pasted = read("Name\t%\nWater\t60\nOil\t20\nWax\t5 g")
    assert pasted.rows[2].fault == "pasted-wrong-unit"
    assert pasted.rows[2].percent == Decimal(0)


def test_that_one_line_can_take_the_rest_and_a_second_is_told():
    pasted = read("Name\t%\nWater\tq.s.\nOil\t20\nJuice\trest")
    assert pasted.rows[0].percent is None
    assert pasted.rows[2].fault == "pasted-second-rest"


@pytest.mark.parametrize(
    ("cells", "mark"),
    [
        ("a\t1,5\nb\t1,234", COMMA),
        ("a\t1.5\nb\t1,234", POINT),
        ("a\t0,125", COMMA),
        ("a\t1,234\nb\t2,345", None),
        ("a\t1.5\nb\t2,5", None),
        ("a\t5\nb\t6", POINT),
    ],
)
def test_that_the_decimal_mark_is_found_or_left_to_be_asked(cells, mark):
    assert mark_of(cells_of(cells), decimal_comma=False) == mark


def test_that_the_chosen_mark_decides_what_is_ambiguous():
    text = "Name\t%\na\t1,234\nb\t2,345"
    assert rows(text, mark=COMMA)[0] == ("a", Decimal("1.234"))
    assert read(text, mark=POINT).rows[0].fault == "pasted-outside"  # 1234 %


def test_that_roles_are_guessed_from_content_without_a_header():
    cells = cells_of("A\tWater\tAqua\t60\t300\nB\tOil\tOlea\t40\t200")
    assert guessed(cells, decimal_comma=False).roles == (
        Role.PHASE,
        Role.NAME,
        Role.IGNORE,
        Role.PERCENT,
        Role.GRAMS,
    )


def test_that_entries_replace_the_draft_or_follow_it():
    draft = make_formula(("water", "50"), ("glycerin", "5"))
    entries = [Entry("shea", Decimal(4), "Oils"), Entry("wax", Decimal(1), "Oils")]
    behind = pasted_into(draft, entries, 1, is_replacing=False, name="Phase A")
    instead = pasted_into(draft, entries, 1, is_replacing=True, name="Phase A")
    assert [phase.name for phase in behind.phases] == ["A", "Oils"]
    assert totals(behind).percent == Decimal(60)
    assert [(phase.name, len(phase.lines)) for phase in instead.phases] == [("Oils", 2)]
    assert len({line.id for line in behind.lines()}) == 4


def test_that_entries_without_a_phase_go_where_the_cursor_stands():
    draft = make_formula(("water", "50"))
    after = pasted_into(draft, [Entry("shea", Decimal(4))], 1, is_replacing=False, name="Phase A")
    assert [line.ingredient for line in after.phases[0].lines] == ["water", "shea"]


def test_that_a_phase_letter_means_the_phase_of_that_letter():
    draft = make_formula(("water", "50"))
    after = pasted_into(
        draft,
        [Entry("shea", Decimal(4), "A"), Entry("wax", Decimal(1), "B")],
        1,
        is_replacing=False,
        name="Phase A",
    )
    assert [[line.ingredient for line in phase.lines] for phase in after.phases] == [
        ["water", "shea"],
        ["wax"],
    ]


def test_that_a_second_rest_line_is_refused():
    draft = make_formula(("water*", "0"))
    with pytest.raises(EditRefused):
        pasted_into(draft, [Entry("juice", None)], 1, is_replacing=False, name="Phase A")
