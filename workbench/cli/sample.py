"""The command `sample`: the sample studio and its formulas in a folder."""

from __future__ import annotations

import argparse
import sys

from workbench import paths
from workbench.storage.sample import build_sample
from workbench.storage.studio_file import utc_now


def run(asked: argparse.Namespace) -> int:
    """Write the sample and say where it is."""
    studio = build_sample(paths.sample_db(), asked.folder, utc_now)
    sys.stdout.write(f"{studio}\n")
    return 0
