"""Read the table of swaps."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

from workbench.formula.swaps import Swap
from workbench.storage.reference.rows import read_rows

SWAPS_FILE = "swaps.csv"


def load_swaps(folder: Path) -> tuple[Swap, ...]:
    """Return the swaps of the shipped table, in its order.

    Raises
    ------
    WorkbenchError
        If the table cannot be read.
    """
    return tuple(
        Swap(
            from_key=row["from_key"],
            to_key=row["to_key"],
            rule=row["ratio_rule"],
            factor=Decimal(row["factor"]),
            note=row["note"],
            source=row["source"],
            confidence=row["confidence"],
        )
        for row in read_rows(folder, SWAPS_FILE)
    )
