"""The command `backup`: a whole copy of a studio."""

from __future__ import annotations

import argparse
import sys

from workbench.storage.backup import backup


def run(asked: argparse.Namespace) -> int:
    """Copy the studio and print where the copy is."""
    backup(asked.studio, asked.out)
    sys.stdout.write(f"{asked.out}\n")
    return 0
