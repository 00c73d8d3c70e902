"""What a file is, before it is opened as a studio."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from dataclasses import dataclass
from enum import Enum
from pathlib import Path

from workbench.storage.engine import connect
from workbench.storage.failures import primary_code, told
from workbench.storage.revisions import APPLICATION_ID, Migrations
from workbench.storage.sentences import refusal

# Layout of a SQLite file's header: https://www.sqlite.org/fileformat.html#the_database_header
_MAGIC = b"SQLite format 3\x00"
_HEADER_BYTES = 100
_DAMAGE_CODES = (11, 26)
# A whole file this small is read through in a few milliseconds; a larger one by `check-studio`.
_CHECKED_AT_OPENING = 4_000_000


class Verdict(Enum):
    """Say what a file is to this program."""

    NEW = "new"
    CURRENT = "current"
    OLDER = "older"
    NEWER = "newer"
    FOREIGN = "foreign"
    DAMAGED = "damaged"


@dataclass(frozen=True, slots=True)
class Look:
    """Hold a verdict, the revision the file stands at, and a technical detail."""

    verdict: Verdict
    revision: str = ""
    detail: str = ""


def look(path: Path, migrations: Migrations) -> Look:
    """Tell what a path holds; nothing is changed.

    Raises
    ------
    WorkbenchError
        If it is a folder, is empty, cannot be read, or is locked.
    """
    header = _header(path)
    if header is None:
        return Look(Verdict.NEW)
    if not is_studio_header(header):
        return Look(Verdict.FOREIGN)
    if header[:16] != _MAGIC:
        return Look(Verdict.DAMAGED, detail="the file header is damaged")
    return _opened(path, migrations)


def is_studio_header(header: bytes) -> bool:
    """Tell whether the first 100 bytes of a file carry a studio's mark."""
    mark = header[68:72] == APPLICATION_ID.to_bytes(4, "big")
    return len(header) == _HEADER_BYTES and mark


def file_header(path: Path) -> bytes:
    """Return the first 100 bytes of a file."""
    with path.open("rb") as file:
        return file.read(_HEADER_BYTES)


def _header(path: Path) -> bytes | None:
    try:
        if path.is_dir():
            raise refusal("directory", file=path.name)
        if not path.exists():
            return None
        if not path.is_file():
            raise refusal("not-a-file", file=path.name)
        header = file_header(path)
    except OSError as error:
        raise refusal("cannot-open", detail=str(error), file=path.name) from error
    if not header:
        raise refusal("empty", file=path.name)
    return header


def _opened(path: Path, migrations: Migrations) -> Look:
    with told(path):
        try:
            return _inside(path, migrations)
        except sqlite3.DatabaseError as error:
            # The plain code means that the table of the revision is gone.
            if primary_code(error) in (*_DAMAGE_CODES, sqlite3.SQLITE_ERROR):
                return Look(Verdict.DAMAGED, detail=str(error))
            raise


def _inside(path: Path, migrations: Migrations) -> Look:
    with closing(connect(path, read_only=True)) as connection:
        row = connection.execute("SELECT version_num FROM alembic_version").fetchone()
        revision = str(row[0]) if row else ""
        if path.stat().st_size <= _CHECKED_AT_OPENING:
            found = connection.execute("PRAGMA quick_check(1)").fetchone()[0]
            if found != "ok":
                return Look(Verdict.DAMAGED, revision, str(found))
    if not revision:
        return Look(Verdict.DAMAGED, detail="no revision is recorded")
    if revision == migrations.head:
        return Look(Verdict.CURRENT, revision)
    return Look(Verdict.OLDER if revision < migrations.head else Verdict.NEWER, revision)
