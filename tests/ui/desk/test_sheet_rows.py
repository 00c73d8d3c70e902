"""What the rows of the sheet say."""

from __future__ import annotations

import json
from dataclasses import replace
from decimal import Decimal

import pytest

from tests.ui.desk.panels import formula_of, make_parts, theme
from workbench.formula.formula import Line, Phase, Step
from workbench.paths import resources
from workbench.ui.places.desk.columns import sheet_columns
from workbench.ui.places.desk.mass_column import segments_of
from workbench.ui.places.desk.rows import Kind, letter_of, rows_of
from workbench.ui.places.desk.sheet import SheetView
from workbench.units import REASONS


@pytest.fixture
def work(tmp_path):
    parts = make_parts(tmp_path)
    parts.work.open(parts.lotion)
    return parts.work


def rows_for(work, formula):
    work.session.load(formula)
    return rows_of(work.formula, work.assessment, work.shelf, work.words)


def test_that_a_head_carries_letter_steps_and_subtotals(work):
    steps = (Step("heat", Decimal(75), Decimal(20)),)
    phase = Phase(3, "Oils", "oil", steps, (Line(9, "shea_butter", Decimal(4)),))
    head = rows_for(work, replace(work.formula, phases=(*work.formula.phases, phase)))[5]
    assert (head.kind, head.letter, head.name) == (Kind.HEAD, "B", "Oils")
    assert head.secondary == "heat to 75 °C, hold 20 min"
    assert (head.percent, head.grams) == ("4.00", "40.00")


@pytest.mark.parametrize(
    ("percents", "alarm"),
    [(("50", "49.85"), "short 0.15 %"), (("50", "50.3"), "over 0.30 %"), (("50", "50"), "")],
)
def test_that_the_total_says_in_words_what_is_missing(work, percents, alarm):
    formula = formula_of(*zip(("water", "glycerin"), percents, strict=True))
    total = rows_for(work, formula)[-2]
    assert total.kind is Kind.TOTAL
    assert total.alarm == alarm


def test_that_a_rest_below_nothing_is_an_excess_and_not_clamped(work):
    rows = rows_for(work, formula_of(("water", "rest"), ("glycerin", "60"), ("shea_butter", "43")))
    assert rows[1].percent == "-3.00"
    assert rows[-2].alarm == "over 3.00 %"


def test_that_decimals_meet_by_padding_the_shorter_figures(work):
    rows = rows_for(work, formula_of(("water", "rest"), ("glycerin", "0.1525")))
    assert [(row.percent, row.pad) for row in rows[1:3]] == [("99.8475", 0), ("0.1525", 0)]
    assert (rows[-2].percent, rows[-2].pad) == ("100.00", 2)


def test_that_letters_go_on_after_z():
    assert [letter_of(place) for place in (0, 25, 26, 27)] == ["A", "Z", "AA", "AB"]


def test_that_a_cell_is_read_out_with_all_that_marks_it(work):
    rows = rows_for(work, formula_of(("water", "rest"), ("glycerin", "4")))
    marked = replace(rows[2], severity="caution", told="no preservative", is_locked=True)
    columns = {column.key: column for column in sheet_columns(work.words, lambda *_: False)}
    assert columns["percent"].cell(marked).accessible == (
        "Vegetable glycerin 99.5 %, percent, 4.00, phase A Water phase, "
        "caution: no preservative, locked"
    )


def test_that_every_purpose_and_every_refusal_has_words(work):
    vocabulary = json.loads((resources() / "reference" / "vocab.json").read_text())
    wanted = [f"function-{name}" for name in vocabulary["functions"]] + list(REASONS)
    assert [message for message in wanted if not work.words.has(message)] == []


def test_that_an_edit_repaints_only_what_it_changes(work, qtbot):
    sheet = SheetView(work, theme())
    qtbot.addWidget(sheet)
    work.session.load(formula_of(("water", "50"), ("glycerin", "40"), ("shea_butter", "10")))
    told = []
    sheet.model().dataChanged.connect(
        lambda first, last, _roles: told.extend(range(first.row(), last.row() + 1))
    )
    work.session.edit("lock", lambda one: one.with_line(replace(one.line(2), locked=True)))
    assert set(told) == {2}


def test_that_a_sheet_without_lines_is_headed_and_can_be_typed_into(work, qtbot):
    rows = rows_for(work, replace(work.formula, phases=()))
    assert [row.kind for row in rows] == [Kind.TOTAL, Kind.NEW]


def test_that_the_mass_column_stands_to_scale_and_never_below_nothing(work):
    work.session.load(formula_of(("water", "rest"), ("glycerin", "25")))
    water, glycerin = segments_of(work.formula, work.assessment.totals)
    assert (water.top, water.bottom, glycerin.bottom) == (0, 0.75, 1)
    work.session.load(formula_of(("water", "rest"), ("glycerin", "100"), ("shea_butter", "100")))
    first, second = segments_of(work.formula, work.assessment.totals)
    assert (first.bottom, second.bottom) == (0.5, 1)


def test_that_the_mass_column_names_each_phase_once_and_says_it_in_words(work, qtbot):
    oils = Phase(2, "Oil phase", "oil", lines=(Line(9, "shea_butter", Decimal(20)),))
    first = formula_of(("glycerin", "25"), ("water", "rest"))
    work.session.load(replace(first, phases=(*first.phases, oils)))
    segments = segments_of(work.formula, work.assessment.totals)
    assert [(one.line, one.letter) for one in segments] == [(1, ""), (2, "A"), (9, "B")]
    sheet = SheetView(work, theme())
    qtbot.addWidget(sheet)
    assert sheet.mass.accessibleDescription() == ("A: Water phase, 80.00 %\nB: Oil phase, 20.00 %")


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("scale", [1.0, 2.0])
def test_that_two_hundred_lines_and_very_long_names_are_painted(work, qtbot, scheme, scale):
    long = "x" * 200
    lines = [(long if place == 1 else "glycerin", "0.4") for place in range(200)]
    work.session.load(formula_of(*lines))
    sheet = SheetView(work, theme(scheme, scale))
    qtbot.addWidget(sheet)
    sheet.resize(900, 600)
    sheet.show()
    assert not sheet.grab().isNull()
    assert len(sheet.rows) == 203
