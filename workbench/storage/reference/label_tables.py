"""Everything the label and the microbial pre-screen rest on, read as one value."""

from __future__ import annotations

from pathlib import Path

from workbench.checks.label_rules import Labelling
from workbench.storage.reference.allergens import allergens_by_substance, load_allergens
from workbench.storage.reference.labelling import (
    load_market_labels,
    load_risks,
    load_solutes,
    load_usual_warnings,
)


def load_labelling(folder: Path) -> Labelling:
    """Return the label rules of the reference set.

    Raises
    ------
    WorkbenchError
        A row of one of the tables is malformed or stands twice.
    """
    allergens = load_allergens(folder)
    return Labelling(
        markets=load_market_labels(folder),
        allergens=allergens,
        allergens_by_substance=allergens_by_substance(allergens),
        warnings=load_usual_warnings(folder),
        risks=load_risks(folder),
        solutes=load_solutes(folder),
    )
