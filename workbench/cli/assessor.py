"""The command `assessor`: the sheet for a safety assessor as PDF."""

from __future__ import annotations

import argparse
import sys

from workbench.cli.asked_formula import asked_formula
from workbench.cli.studio_block import asked_studio_block
from workbench.documents.assessor_content import AssessorMaking, assessor_content
from workbench.documents.assessor_pdf import assessor_pdf
from workbench.documents.sheet import Paper
from workbench.storage.text_file import write_bytes_file


def run(asked: argparse.Namespace) -> int:
    """Write the sheet and print where it is."""
    found = asked_formula(asked.file, asked.studio)
    assessment = found.assessed(found.scope(on=asked.date))
    made = AssessorMaking(asked_studio_block(asked.studio), "", found.rules, found.words)
    content = assessor_content(found.formula, found.shelf, assessment, made)
    pdf = assessor_pdf(content, Paper[asked.paper.upper()], found.words)
    write_bytes_file(asked.out, pdf)
    sys.stdout.write(f"{asked.out}\n")
    return 0
