from __future__ import annotations

import re
from decimal import Decimal

import pytest

from workbench import paths
from workbench.formula import old_sheet
from workbench.formula.old_sheet import Amount, Doubt, Remark, SheetFormula, SheetRow, UnreadCell
from workbench.formula.old_sheet_names import Candidate, NameMatch, Sureness
from workbench.words.catalogue import load_words
from workbench.words.sheets import report_lines, row_text

ROOM = paths.resources().parent / "workbench"
WORDS = load_words(paths.resources() / "words")
CODES = (*old_sheet.REASONS, *old_sheet.DOUBTS, *old_sheet.REMARKS)
VALUES = {"said": "99", "found": "100", "unit": "%", "total": "99", "kind": "share", "count": "2"}


@pytest.mark.parametrize("code", CODES)
def test_that_every_reason_doubt_and_remark_has_its_sentence(code):
    said = WORDS.say(code, text="2-3", **VALUES)
    assert said.endswith(".")


def test_that_every_code_the_readers_use_is_listed():
    used = set()
    readers = [*(ROOM / "formula").glob("old_sheet_*.py"), ROOM / "storage" / "sheet_files.py"]
    for file in readers:
        used |= set(
            re.findall(r'(?<!refusal\()"(sheet-[a-z-]+)"', file.read_text(encoding="utf-8"))
        )
    assert used == set(CODES)


@pytest.mark.parametrize("sureness", list(Sureness))
def test_that_every_sureness_can_be_told(sureness):
    row = SheetRow(3, "Shea", Decimal(2), "2 %")
    match = NameMatch(sureness, (Candidate("shea_butter", "Shea butter"),))
    assert "Shea butter" in row_text(WORDS, row, match)


def test_that_the_report_tells_lines_doubts_choices_and_what_was_not_read():
    doubt = Doubt("sheet-range", (Amount(percent=Decimal(2)), Amount(percent=Decimal(3))))
    read = SheetFormula(
        title="Moss gel",
        rows=(SheetRow(3, "Glycerin", Decimal(0), "2-3 %", doubt=doubt),),
        used={},
        unread=(UnreadCell((6, 1), "buy jars", "sheet-outside"),),
        remarks=(Remark("sheet-not-whole", values=(("total", Decimal("99.5")),)),),
        total=Decimal(0),
    )
    report = list(report_lines(WORDS, read, {3: NameMatch(Sureness.NONE)}))
    assert report[0] == 'Read as "Moss gel": 1 line.'
    assert "row 4: Glycerin" in report[1]
    assert "It could be 2.00 % or 3.00 %." in report[1]
    assert "99.5" in report[2]
    assert report[-1] == '  B7 "buy jars": it stands outside the formula.'


def test_that_what_a_sheet_holds_cannot_steer_the_terminal():
    row = SheetRow(0, "\x1b[31mred\u202e", Decimal(1), "1")
    assert "\x1b" not in row_text(WORDS, row, None)
    assert "\u202e" not in row_text(WORDS, row, None)
