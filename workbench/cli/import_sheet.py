"""Bringing an old sheet into a studio, with a report of what was read and what not."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

from workbench import paths
from workbench.errors import WorkbenchError
from workbench.formula.old_sheet import Grid, SheetFormula
from workbench.formula.old_sheet_lines import formula_of_sheet
from workbench.formula.old_sheet_names import NameMatch
from workbench.formula.old_sheet_reading import read_formula
from workbench.formula.old_sheet_tables import Table, tables_in
from workbench.storage.name_matching import NameMatching
from workbench.storage.opening import open_studio
from workbench.storage.sheet_files import read_sheets
from workbench.words.catalogue import Words, load_words
from workbench.words.sheets import report_lines


def run(asked: argparse.Namespace) -> int:
    """Print what was read; store it and print its key where nothing is doubtful or all accepted."""
    words = load_words(paths.resources() / "words")
    grid, table, others = _chosen(words, asked.file, asked.table)
    read = read_formula(grid, table, others)
    read = replace(read, title=asked.name or read.title or grid.name)
    with open_studio(asked.studio) as studio:
        matching = NameMatching(studio)
        matches = {row.row: matching(row.name, row.inci, row.cas) for row in read.rows}
        for line in report_lines(words, read, matches):
            sys.stdout.write(f"{line}\n")
        doubts = _doubts(read, matches)
        if doubts and not asked.accept:
            sys.stdout.flush()
            raise _error(words, "doubtful", file=asked.file.name, count=doubts)
        keys = {
            row: found.best.key
            for row, found in matches.items()
            if found.is_sure and found.best is not None
        }
        formula = formula_of_sheet(
            read, keys, name=read.title, phase_name=words.say("sheet-cli-phase")
        )
        key = studio.take_in(formula, {}, {})
    sys.stdout.write(f"{key}\n")
    return 0


def _chosen(words: Words, file: Path, number: int | None) -> tuple[Grid, Table, tuple[Table, ...]]:
    """Return the formula that is asked for, and the others on its sheet."""
    found = [(grid, table) for grid in read_sheets(file) for table in tables_in(grid)]
    if not found:
        raise _error(words, "no-table", file=file.name)
    if number is None and len(found) > 1:
        names = tuple(
            f"{place} {table.title or grid.name}" for place, (grid, table) in enumerate(found, 1)
        )
        raise _error(words, "many", file=file.name, count=len(found), names=names[:12])
    if number is not None and not 1 <= number <= len(found):
        raise _error(words, "no-such-table", file=file.name, count=len(found), asked=str(number))
    grid, table = found[(number or 1) - 1]
    others = tuple(one for other, one in found if other is grid and one is not table)
    return grid, table, others


def _doubts(read: SheetFormula, matches: Mapping[int, NameMatch]) -> int:
    """Return how many things are to be confirmed."""
    rows = sum(row.doubt is not None or not matches[row.row].is_sure for row in read.rows)
    lost = sum(cell.reason_id == "sheet-calculation" for cell in read.unread)
    return rows + lost + sum(remark.is_doubtful for remark in read.remarks)


def _error(words: Words, code: str, /, **values: str | int | tuple[str, ...]) -> WorkbenchError:
    return WorkbenchError(
        words.say(f"sheet-cli-{code}", **values), words.say(f"sheet-cli-{code}-remedy", **values)
    )
