"""The command `worksheet`: the worksheet of a batch as PDF."""

from __future__ import annotations

import argparse
import sys
from dataclasses import replace
from datetime import datetime

from workbench.bench.batch import BatchOrder
from workbench.cli.asked_formula import asked_formula
from workbench.documents.making import worksheet_bytes
from workbench.documents.sheet import Paper
from workbench.documents.worksheet_content import Print, StudioBlock
from workbench.errors import WorkbenchError
from workbench.storage.opening import open_studio
from workbench.storage.text_file import write_bytes_file


def run(asked: argparse.Namespace) -> int:
    """Write the worksheet and print where it is."""
    found = asked_formula(asked.file, asked.studio)
    if asked.batch is not None:
        plan = replace(found.formula.plan, batch_mass=asked.batch)
        found = replace(found, formula=replace(found.formula, plan=plan))
    assessment = found.assessed(found.scope())
    if assessment.batch_g is None:
        raise WorkbenchError(
            f"'{asked.file.name}' gives no batch mass, so there are no grams to weigh.",
            'Add --batch "500 g", or a plan to the document.',
        )
    today = datetime.now().astimezone().date()
    paper = Paper[asked.paper.upper()]
    order = BatchOrder("", found.words.say("make-draft-label"), assessment.batch_g, today)
    made = Print(_studio_block(asked), found.words, found.rules.accept_bands)
    pdf = worksheet_bytes(order, found.formula, found.shelf, assessment, made, paper)
    write_bytes_file(asked.out, pdf)
    sys.stdout.write(f"{asked.out}\n")
    return 0


def _studio_block(asked: argparse.Namespace) -> StudioBlock:
    if asked.studio is None:
        return StudioBlock("", "")
    with open_studio(asked.studio, read_only=True) as studio:
        settings, logo = studio.settings.load(), studio.settings.logo()
    return StudioBlock(settings.name, settings.contact, logo)
