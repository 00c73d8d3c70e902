"""The command `export`: a formula of a studio to a document file or a sheet."""

from __future__ import annotations

import argparse
import sys

from workbench.cli import export_sheet
from workbench.storage.formula_document import write_document
from workbench.storage.opening import open_studio
from workbench.storage.sheet_files import is_sheet_file


def run(asked: argparse.Namespace) -> int:
    """Write the self-contained document and print where it is."""
    if is_sheet_file(asked.out):
        return export_sheet.run(asked)
    with open_studio(asked.studio, read_only=True) as studio:
        formula, _ = studio.formulas.draft(studio.formulas.find(asked.name))
        write_document(asked.out, formula, studio.shelf_for(formula))
    sys.stdout.write(f"{asked.out}\n")
    return 0
