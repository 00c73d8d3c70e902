"""Writing a formula of a studio as a sheet."""

from __future__ import annotations

import argparse
import sys

from workbench.formula.sheet_export import sheet_rows
from workbench.storage.opening import open_studio
from workbench.storage.sheet_files import write_sheet


def run(asked: argparse.Namespace) -> int:
    """Write the sheet and print where it is."""
    with open_studio(asked.studio, read_only=True) as studio:
        formula, _ = studio.formulas.draft(studio.formulas.find(asked.name))
        rows = sheet_rows(formula, studio.shelf_for(formula))
    write_sheet(asked.out, formula.name, rows)
    sys.stdout.write(f"{asked.out}\n")
    return 0
