"""The command `import`: a formula document, or a sheet, into a studio."""

from __future__ import annotations

import argparse
import sys

from workbench import paths
from workbench.cli import import_sheet
from workbench.storage.formula_document import load_document
from workbench.storage.opening import open_studio
from workbench.storage.reference.shipped import Shipped
from workbench.storage.sheet_files import is_sheet_file


def run(asked: argparse.Namespace) -> int:
    """Store the formula and what it brings, and print its key."""
    if is_sheet_file(asked.file):
        return import_sheet.run(asked)
    document = load_document(asked.file, Shipped(paths.resources() / "reference"))
    with open_studio(asked.studio) as studio:
        key = studio.take_in(document.formula, document.stocks, document.ingredients)
    sys.stdout.write(f"{key}\n")
    return 0
