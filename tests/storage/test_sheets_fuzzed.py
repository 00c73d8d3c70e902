"""Mutated sheets: each gives a result in which no cell is lost, or one sentence."""

from __future__ import annotations

import io
import random
import zipfile
from pathlib import Path

import pytest

from tests.builders import make_shelf
from workbench.errors import WorkbenchError
from workbench.formula.old_sheet_lines import formula_of_sheet
from workbench.formula.old_sheet_reading import read_formula
from workbench.formula.old_sheet_tables import tables_in
from workbench.formula.sheet_export import sheet_rows
from workbench.formula.totals import totals
from workbench.storage.sheet_files import sheets_of

FOLDER = Path(__file__).resolve().parents[1] / "sheets_in"
TEXTS = sorted(path for path in FOLDER.iterdir() if path.suffix in (".csv", ".tsv", ".txt"))
BOOKS = sorted(FOLDER.glob("*.xlsx"))
PARTS = 8
TEXT_SHEETS, BOOK_SHEETS = 225, 25  # in each part: 2,000 in all
ODD = [
    "=1+1", "-5", "1e999", "1,234", "9" * 60, "\u0661\u0662", "\u00bd", "1/0", "0/0 g", "to 0 g",
    "to 0", "ad 100 ml", "q.s.", "rest", "Total", "Phase A", "%", "g", "INCI", "Ingredient",
    "NaN", "Infinity", "\x00", "\ud7ff", "\u202e", "'", "''=", "'=x", '"', ";", ",,,,", "\t",
    "| |", "1 lb 2 oz", "5 drops", "2-3", "100", "0.0000001 %", "1000000000000 kg", "(5)",
    "1.2.3", "1 000,5", "\ufeff", "sep=;", "\r",
]  # fmt: skip


def mutated_text(source: random.Random, content: bytes) -> bytes:
    lines = content.decode("utf-8", "replace").split("\n")
    for _ in range(source.randint(1, 6)):
        at = source.randrange(len(lines))
        kind = source.randrange(7)
        if kind == 0:
            cells = lines[at].split(",")
            cells[source.randrange(len(cells))] = source.choice(ODD)
            lines[at] = ",".join(cells)
        elif kind == 1:
            old, new = source.choice(",;\t|"), source.choice(",;\t|")
            lines = [line.replace(old, new) for line in lines]
        elif kind == 2:
            lines.insert(at, lines[source.randrange(len(lines))])
        elif kind == 3 and len(lines) > 1:
            del lines[at]
        elif kind == 4:
            lines[at] += source.choice(ODD) * source.randint(1, 5)
        elif kind == 5:
            lines[at] = lines[at].replace(".", ",")
        else:
            lines[at] = lines[at][: source.randint(0, len(lines[at]))]
    return "\n".join(lines).encode("utf-8", "replace")


def mutated_bytes(source: random.Random, content: bytes) -> bytes:
    changed = bytearray(content)
    for _ in range(source.randint(1, 8)):
        at = source.randrange(len(changed))
        kind = source.randrange(3)
        if kind == 0:
            changed[at] = source.randrange(256)
        elif kind == 1:
            del changed[at : at + source.randint(1, 20)]
        else:
            changed[at:at] = source.randbytes(source.randint(1, 6))
        if not changed:
            changed = bytearray(b"x")
    return bytes(changed)


def mutated_book(source: random.Random, content: bytes) -> bytes:
    """Change bytes inside a part of a workbook and pack it again, so that its sums are right."""
    made = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(content)) as old, zipfile.ZipFile(made, "w") as new:
        names = old.namelist()
        target = source.choice(names)
        for name in names:
            part = old.read(name)
            new.writestr(name, mutated_bytes(source, part) if name == target else part)
    return made.getvalue()


def fuzzed(part: int):
    source = random.Random(7100 + part)
    texts = [path.read_bytes() for path in TEXTS]
    books = [path.read_bytes() for path in BOOKS]
    for _ in range(TEXT_SHEETS):
        how = mutated_text if source.random() < 0.7 else mutated_bytes
        yield how(source, source.choice(texts))
    for _ in range(BOOK_SHEETS):
        how = mutated_book if source.random() < 0.7 else mutated_bytes
        yield how(source, source.choice(books))


def read_whole(content: bytes) -> int:
    """Read a sheet and make a formula of everything in it; return how many formulas there are."""
    count = 0
    for grid in sheets_of(content, "fuzzed.csv"):
        tables = tables_in(grid)
        for table in tables:
            read = read_formula(grid, table, [one for one in tables if one is not table])
            told = {cell.at for cell in read.unread}
            assert set(grid.filled()) <= told | set(read.used)
            assert told.isdisjoint(read.used)
            made = formula_of_sheet(read, {}, name=read.title or "x", phase_name="A")
            assert sum(1 for _ in made.lines()) == len(read.rows)
            assert all(line.percent is None or 0 <= line.percent <= 100 for line in made.lines())
            totals(made)
            sheet_rows(made, make_shelf())
            count += 1
    return count


@pytest.mark.parametrize("part", range(PARTS))
def test_that_a_mutated_sheet_gives_a_result_or_one_sentence(part):
    formulas = 0
    told: list[WorkbenchError] = []
    for content in fuzzed(part):
        try:
            formulas += read_whole(content)
        except WorkbenchError as error:
            told.append(error)
    assert formulas > TEXT_SHEETS / 2
    assert told
    assert all(error.what and error.remedy and "\n" not in str(error) for error in told)
