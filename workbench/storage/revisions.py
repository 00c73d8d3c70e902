"""Which step this program's studios stand at, known without loading the migrations."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

# The mark in the file's header ("FWst"); the first migration writes it.
APPLICATION_ID = 0x46577374


@dataclass(frozen=True, slots=True)
class Migrations:
    """Hold where the migrations are and which one is the last; ids are numbers of four digits."""

    folder: Path
    head: str


MIGRATIONS = Migrations(folder=Path(__file__).parent / "migrations", head="0002")
