"""The command `import`: a formula document into a studio."""

from __future__ import annotations

import argparse
import sys

from workbench import paths
from workbench.storage.formula_document import load_document
from workbench.storage.opening import open_studio
from workbench.storage.reference.shipped import Shipped


def run(asked: argparse.Namespace) -> int:
    """Store the formula and what it brings, and print its key."""
    document = load_document(asked.file, Shipped(paths.resources() / "reference"))
    with open_studio(asked.studio) as studio:
        key = studio.take_in(document.formula, document.stocks, document.ingredients)
    sys.stdout.write(f"{key}\n")
    return 0
