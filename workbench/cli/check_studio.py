"""The command `check-studio`: whether a studio is whole."""

from __future__ import annotations

import argparse
import sys

from workbench import paths
from workbench.storage.check import check_studio
from workbench.words.catalogue import load_words


def run(asked: argparse.Namespace) -> int:
    """Print what is in the studio and what is wrong with it; return 1 if anything is."""
    report = check_studio(asked.studio)
    words = load_words(paths.resources() / "words")
    lines = [
        words.say(
            "check-counts",
            formulas=report.formulas,
            versions=report.versions,
            batches=report.batches,
            ingredients=report.ingredients,
        ),
        *report.problems,
        words.say("check-whole" if report.is_whole else "check-not-whole"),
    ]
    sys.stdout.write("\n".join(lines) + "\n")
    return 0 if report.is_whole else 1
