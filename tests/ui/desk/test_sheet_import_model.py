"""What is asked of an old sheet, and what becomes of the answers."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest

from workbench.formula.old_sheet import Amount
from workbench.formula.old_sheet_columns import Kind
from workbench.formula.old_sheet_names import Candidate, NameMatch, Sureness
from workbench.paths import resources
from workbench.storage.sheet_files import is_sheet_file, read_sheets, sheets_of
from workbench.ui.places.desk.paste_matching import Confidence, Fate, Match
from workbench.ui.places.desk.sheet_import_model import SheetImport, answered
from workbench.ui.places.desk.sheet_import_options import RowOptions
from workbench.words.catalogue import load_words

KNOWN = {"Water": "water", "Glycerin": "glycerin", "Shea butter": "shea_butter"}

WORDS = load_words(resources() / "words")
UNLISTED = ("unlisted", WORDS.say("sheet-import-unlisted"))


def match(name, _inci, _cas):
    if name in KNOWN:
        return NameMatch(Sureness.EXACT, (Candidate(KNOWN[name], name),))
    return NameMatch(Sureness.CLOSE, (Candidate("xanthan_gum", "Xanthan gum"),))


def opened(text, **more):
    state = SheetImport("old.csv", sheets_of(text.encode(), "old.csv"), decimal_comma=False)
    state.take(answered(state.asked(), match))
    return state


def again(state):
    state.take(answered(state.asked(), match))
    return state


PERCENTS = "Ingredient,%\nWater,q.s.\nGlycerin,4\nGum,0.3\nShea butter,1-2\n"


def test_that_a_sure_name_is_taken_and_a_doubtful_one_stays_open():
    seen = opened(PERCENTS).seen()
    assert [one.becomes.key for one in seen] == ["water", "glycerin", "", "shea_butter"]
    assert [one.is_name_open for one in seen] == [False, False, True, False]
    assert [one.is_amount_open for one in seen] == [False, False, False, True]


def test_that_each_decision_takes_one_thing_off_what_is_open():
    state = opened(PERCENTS)
    assert state.open_count() == 2
    state.choose(3, Match(Fate.LINE, "xanthan_gum", "Xanthan gum", Confidence.CHOSEN))
    assert state.open_count() == 1
    state.choose_amount(4, Amount(percent=Decimal(2)))
    assert again(state).open_count() == 0
    lines = list(state.formula("Old", "A").lines())
    assert [(line.ingredient, line.percent) for line in lines] == [
        ("water", None),
        ("glycerin", Decimal(4)),
        ("xanthan_gum", Decimal("0.3")),
        ("shea_butter", Decimal(2)),
    ]


@pytest.mark.parametrize("fate", [Fate.OUT, Fate.UNLISTED])
def test_that_a_row_can_be_left_out_or_kept_by_its_name(fate):
    state = opened(PERCENTS)
    state.choose(3, Match(fate, confidence=Confidence.CHOSEN))
    keys = [line.ingredient for line in state.formula("Old", "A").lines()]
    assert ("Gum" in keys) == (fate is Fate.UNLISTED)
    assert [row.name for row in state.left_out()] == (["Gum"] if fate is Fate.OUT else [])
    assert state.open_count() == 1


def test_that_every_filled_cell_is_read_or_told_of():
    state = opened("Lotion,,\nIngredient,%,Cost\nWater,96,1\nGlycerin,4,2\nnice and light,,\n")
    told = {cell.at for cell in state.unread()} | set(state.answer.read.used)
    assert told == set(state.grid.filled())


def test_that_a_sheet_without_a_formula_tells_every_cell_until_its_columns_are_chosen():
    text = "Dream,Water\nsun,Glycerin\n"
    state = opened(text)
    assert not state.seen()
    assert not state.is_found
    assert {cell.text for cell in state.unread()} == {"Dream", "Water", "sun", "Glycerin"}
    state.set_column(1, Kind.NAME, "")
    assert [one.becomes.key for one in again(state).seen()] in (["water", "glycerin"], [])
    told = {cell.at for cell in state.unread()} | set(state.answer.read.used)
    assert told == set(state.grid.filled())


def test_that_a_column_can_be_said_to_be_something_else():
    state = opened("Ingredient,Trial,%\nWater,90,96\nGlycerin,10,4\n")
    assert state.seen()[1].row.percent == Decimal(4)
    state.set_column(2, Kind.OTHER, "")
    state.set_column(1, Kind.PERCENT, "%")
    assert again(state).seen()[1].row.percent == Decimal(10)


def test_that_only_one_column_holds_the_names():
    state = opened("Ingredient,Label,%\nx,Water,96\ny,Glycerin,4\n")
    state.set_column(1, Kind.NAME, "")
    assert state.column(0).kind is Kind.OTHER
    assert [one.row.name for one in again(state).seen()] == ["Water", "Glycerin"]


def test_that_the_decimal_mark_can_be_chosen_where_both_are_possible():
    state = opened('Ingredient,g\nWater,"1,234"\nGlycerin,"2,468"\n')
    state.set_mark(",")
    assert [one.row.mass_g for one in again(state).seen()] == [Decimal("1.234"), Decimal("2.468")]
    state.set_mark(".")
    assert [one.row.mass_g for one in again(state).seen()] == [Decimal(1234), Decimal(2468)]


def test_that_a_recipe_by_weight_keeps_its_mass_as_the_plan():
    state = opened("Ingredient,oz\nWater,9\nGlycerin,1\n")
    formula = state.formula("Old", "A")
    # 1 oz avoirdupois is 28.349523125 g (international yard and pound agreement of 1959).
    assert formula.plan.batch_mass == Decimal("283.49523125")
    assert [line.percent for line in formula.lines()] == [Decimal(90), Decimal(10)]


def test_that_a_typed_amount_is_per_cent_or_grams_as_the_sheet_is():
    assert opened(PERCENTS).typed_amount("2.5").percent == Decimal("2.5")
    by_weight = opened("Ingredient,g\nWater,90\nGlycerin,10\n")
    assert by_weight.typed_amount("2.5").mass_g == Decimal("2.5")
    assert by_weight.typed_amount("some") is None


def test_that_several_formulas_are_offered_and_the_others_are_told_of():
    one = "Balm one\nIngredient,%\nWater,96\nGlycerin,4\n"
    two = "Balm two\nIngredient,%\nWater,50\nShea butter,50\n"
    state = opened(f"{one}\n{two}")
    assert [state.title_of(place) for place in range(len(state.tables))] == ["Balm one", "Balm two"]
    assert "sheet-other-table" in {cell.reason_id for cell in state.unread()}
    state.choose_table(1)
    assert [one.becomes.key for one in again(state).seen()] == ["water", "shea_butter"]
    told = {cell.at for cell in state.unread()} | set(state.answer.read.used)
    assert told == set(state.grid.filled())


def test_that_a_doubt_about_the_whole_is_open_until_it_is_looked_at():
    state = opened("Ingredient,Amount\nWater,60\nGlycerin,7\n")
    codes = [code for code, _ in state.doubts()]
    assert codes
    before = state.open_count()
    state.confirm(codes[0], is_confirmed=True)
    assert state.open_count() == before - 1
    state.confirm(codes[0], is_confirmed=False)
    assert state.open_count() == before


FOLDER = Path(__file__).parents[2] / "sheets_in"
NO_SHEETS = {"picture.csv"}
SHEETS = sorted(
    path for path in FOLDER.rglob("*") if is_sheet_file(path) and path.name not in NO_SHEETS
)


@pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.name)
def test_that_every_table_of_a_sheet_can_be_decided_to_the_end(path):
    state = SheetImport(path.name, read_sheets(path), decimal_comma=False)
    for place in range(len(state.tables)):
        state.choose_table(place)
        options = RowOptions(again(state), WORDS, lambda _text, _limit: ())
        told = {cell.at for cell in state.unread()} | set(state.answer.read.used)
        assert set(state.grid.filled()) <= told
        for one in state.seen():
            if one.is_name_open:
                options.take_name(one.row.row, *UNLISTED)
            if one.is_amount_open:
                options.take_amount(one.row.row, "keep")
        for code, _values in again(state).doubts():
            state.confirm(code, is_confirmed=True)
        assert state.open_count() == 0, [one for one in state.seen() if one.is_open]
        made = state.formula("Old", "A")
        assert len(list(made.lines())) == len(state.seen())
