"""How far a weighing may be off, from the table."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from pathlib import Path
from types import MappingProxyType

from workbench.storage.reference.rows import amount, read_rows


def load_bands(folder: Path) -> Mapping[str, Decimal | None]:
    """Return the accept band of each kind of line [% of its target]; None where there is none."""
    rows = read_rows(folder, "accept_bands.csv")
    return MappingProxyType({row["key"]: amount(row["value"]) for row in rows})
