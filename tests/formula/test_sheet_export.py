from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.builders import make_formula, make_shelf
from workbench.formula.sheet_export import guarded, sheet_rows, unguarded

# Signs that make a spreadsheet take a cell for a calculation, and their wide forms (OWASP, CSV
# injection, from memory).
RISKY = ["=", "+", "-", "@", "\t", "\r", "\n", "\uff1d", "\uff0b", "\uff0d", "\uff20"]


@pytest.mark.parametrize("sign", RISKY)
@pytest.mark.parametrize("before", ["", " ", "'", "''"])
def test_that_no_cell_begins_as_a_calculation(sign, before):
    written = guarded(f"{before}{sign}cmd|' /C calc'!A0")
    assert written.startswith("'")
    assert unguarded(written) == f"{before}{sign}cmd|' /C calc'!A0"


@given(st.text())
def test_that_a_harmless_cell_is_read_back_as_it_was(text):
    assert unguarded(guarded(text)) == text
    assert not guarded(text).startswith(tuple(RISKY))


@pytest.mark.parametrize("text", ["4.00", "rest", "Shea butter", "", "'tis", "C12-15 alkane"])
def test_that_a_plain_cell_stays_as_it_is(text):
    assert guarded(text) == text


def test_that_every_exported_cell_is_harmless():
    formula = make_formula(("=cmd", "4"), ("water*", ""), name="@home")
    cells = [text for row in sheet_rows(formula, make_shelf("water")) for text in row]
    assert "'=cmd" in cells
    assert "'@home" in cells
    assert not any(text.startswith(tuple(RISKY)) for text in cells)


def test_that_a_sheet_has_a_row_for_each_line_and_the_total():
    rows = sheet_rows(make_formula(("glycerin", "4.00"), ("water*", "")), make_shelf("glycerin"))
    assert [row[1:4:2] for row in rows[3:]] == [("Glycerin", "4.00"), ("Water", "rest"),
                                               ("Total", "100")]  # fmt: skip
