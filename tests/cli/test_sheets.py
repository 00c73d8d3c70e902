from __future__ import annotations

import csv
import shutil
from decimal import Decimal
from pathlib import Path

import pytest
from openpyxl import load_workbook

from workbench import cli
from workbench.storage.opening import open_studio

SHEET = """Formula,Hush lotion,,
Phase,Ingredient,%,Notes
A,Distilled water,to 100,
A,Glycerin,5,
B,Shea butter,3.5,melt first
,Total,100,
"""


def bring_in(sheet: Path, studio: Path, *words: str) -> int:
    return cli.main(["import", str(sheet), "--studio", str(studio), *words])


def written(folder: Path, text: str, name: str = "old.csv") -> Path:
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return path


def test_that_a_plain_sheet_is_stored_and_its_report_printed(tmp_path, studio, capsys):
    assert bring_in(written(tmp_path, SHEET), studio) == 0
    report = capsys.readouterr().out
    assert "Every cell was read." in report
    assert report.endswith("\nhush-lotion\n")
    with open_studio(studio, read_only=True) as opened:
        formula, _ = opened.formulas.draft("hush-lotion")
    assert [(line.ingredient, line.percent, line.note) for line in formula.lines()] == [
        ("water", None, ""),
        ("glycerin", Decimal(5), ""),
        ("shea_butter", Decimal("3.5"), "melt first"),
    ]
    assert [phase.name for phase in formula.phases] == ["A", "B"]


def test_that_a_doubtful_sheet_is_refused_in_one_sentence_until_it_is_accepted(
    tmp_path, studio, capsys
):
    sheet = written(tmp_path, SHEET.replace("5,", "2-3 %,", 1).replace("Shea", "Shoe"))
    assert bring_in(sheet, studio) == 2
    said = capsys.readouterr()
    assert "is a range" in said.out
    assert said.err.count("\n") == 1
    assert "2 things in 'old.csv' are doubtful" in said.err
    with open_studio(studio, read_only=True) as opened:
        assert opened.formulas.entries() == ()
    assert bring_in(sheet, studio, "--accept") == 0
    with open_studio(studio, read_only=True) as opened:
        formula, _ = opened.formulas.draft("hush-lotion")
    # What was not sure keeps its own name and stands at 0: nothing was chosen for the maker.
    assert [(line.ingredient, line.percent) for line in formula.lines()][1:] == [
        ("glycerin", Decimal(0)),
        ("Shoe butter", Decimal("3.5")),
    ]


def test_that_one_of_several_formulas_has_to_be_chosen(tmp_path, studio, capsys):
    sheet = written(tmp_path, SHEET + ",,,\n" + SHEET.replace("Hush", "Rush"))
    assert bring_in(sheet, studio) == 2
    assert "2 formulas (1 Hush lotion and 2 Rush lotion)" in capsys.readouterr().err
    assert bring_in(sheet, studio, "--table", "3") == 2
    assert bring_in(sheet, studio, "--table", "2", "--name", "Rushing") == 0
    assert capsys.readouterr().out.endswith("rushing\n")


@pytest.mark.parametrize("text", ["no formula here,at all\n", "", "=cmd()\n"])
def test_that_a_sheet_without_a_formula_is_refused(tmp_path, studio, capsys, text):
    assert bring_in(written(tmp_path, text), studio) == 2
    assert capsys.readouterr().err.count("\n") == 1


def test_that_another_ending_is_still_a_formula_document(tmp_path, studio, capsys):
    assert bring_in(written(tmp_path, "{}", "a.formula.json"), studio) == 2
    assert "document" in capsys.readouterr().err


@pytest.fixture(scope="module")
def sample_file(tmp_path_factory) -> Path:
    """The sample studio, closed; copy it before use."""
    folder = tmp_path_factory.mktemp("made") / "sample"
    assert cli.main(["sample", str(folder)]) == 0
    return folder / "pebblewick.studio"


@pytest.fixture
def sample(sample_file, tmp_path) -> Path:
    """A sample studio of this test's own."""
    return Path(shutil.copy(sample_file, tmp_path / "sample.studio"))


def core(formula) -> list[tuple]:
    """Return what a sheet holds of a formula; steps and settings are not on it."""
    return [
        (phase.name, line.ingredient, line.percent, line.note)
        for phase in formula.phases
        for line in phase.lines
    ]


@pytest.mark.parametrize("ending", ["csv", "tsv", "xlsx"])
def test_that_an_exported_sheet_gives_the_same_formula_again(sample, tmp_path, capsys, ending):
    with open_studio(sample, read_only=True) as opened:
        names = {entry.key: entry.name for entry in opened.formulas.entries()}
    assert len(names) > 5
    for key, name in names.items():
        sheet = tmp_path / f"{key}.{ending}"
        assert cli.main(["export", name, "--studio", str(sample), "--out", str(sheet)]) == 0
        capsys.readouterr()
        assert bring_in(sheet, sample) == 0, capsys.readouterr()
        new = capsys.readouterr().out.split()[-1]
        with open_studio(sample, read_only=True) as opened:
            before, _ = opened.formulas.draft(key)
            after, _ = opened.formulas.draft(new)
        assert after.name == before.name
        assert core(after) == core(before)


def test_that_exported_cells_that_begin_as_a_calculation_are_harmless(tmp_path, studio, capsys):
    risky = SHEET.replace("melt first", "'=HYPERLINK(1)").replace("Hush lotion", "'@Hush")
    assert bring_in(written(tmp_path, risky), studio) == 0
    for ending in ("csv", "tsv", "xlsx"):
        out = tmp_path / f"o.{ending}"
        assert cli.main(["export", "@Hush", "--studio", str(studio), "--out", str(out)]) == 0
        if ending == "xlsx":
            cells = [cell for row in load_workbook(out).active.iter_rows() for cell in row]
            assert not any(cell.data_type == "f" for cell in cells)
            texts = [str(cell.value) for cell in cells if cell.value is not None]
        else:
            mark = "\t" if ending == "tsv" else ","
            text = out.read_text(encoding="utf-8-sig")
            texts = [one for row in csv.reader(text.splitlines(), delimiter=mark) for one in row]
        assert "'=HYPERLINK(1)" in texts
        assert not any(text.startswith(("=", "+", "-", "@", "\t", "\r")) for text in texts)
