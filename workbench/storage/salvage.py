"""What a damaged studio still gives, and which backup beside it is whole."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from workbench.errors import WorkbenchError
from workbench.storage.backup import integrity
from workbench.storage.engine import connect
from workbench.storage.inspection import Look, Verdict, file_header, is_studio_header, look
from workbench.storage.revisions import Migrations
from workbench.storage.sentences import sentence

_ENDINGS = (".bak", ".backup", ".studio")
_MOST_LOOKED_AT = 30
_MOST_NAMED = 6


@dataclass(frozen=True, slots=True)
class ReadableFormula:
    """Hold a formula that can still be read: its name and its document as JSON text."""

    name: str
    document: str


def damage_report(path: Path, found: Look, migrations: Migrations) -> WorkbenchError:
    """Return the refusal of a damaged studio: what can be read, which backup is whole."""
    readable = readable_formulas(path)
    whole = whole_backup(path, migrations)
    what = (
        sentence(
            "storage-damaged",
            file=path.name,
            count=len(readable),
            names=tuple(item.name for item in readable[:_MOST_NAMED]),
            more=max(len(readable) - _MOST_NAMED, 0),
        )
        if readable
        else sentence("storage-damaged-nothing", file=path.name)
    )
    remedy = (
        sentence("storage-damaged-no-backup")
        if whole is None
        else sentence("storage-damaged-backup", backup=whole.name)
    )
    return WorkbenchError(what, remedy, found.detail)


def readable_formulas(path: Path) -> tuple[ReadableFormula, ...]:
    """Return the formulas that can still be read from a file, row by row."""
    found: list[ReadableFormula] = []
    try:
        with closing(connect(path, read_only=True)) as connection:
            last = connection.execute("SELECT max(id) FROM formulas").fetchone()[0] or 0
            for row_id in range(1, last + 1):
                found.extend(_row(connection, row_id))
    except sqlite3.DatabaseError:
        return tuple(found)
    return tuple(found)


def whole_backup(path: Path, migrations: Migrations) -> Path | None:
    """Return the newest file beside a studio that is a whole copy of a studio, or None."""
    beside = [
        file
        for file in path.parent.iterdir()
        if file.suffix in _ENDINGS and file.name.startswith(path.stem) and file != path
    ]
    newest_first = sorted(beside, key=lambda file: file.stat().st_mtime, reverse=True)
    for file in newest_first[:_MOST_LOOKED_AT]:
        if _is_whole(file, migrations):
            return file
    return None


def _is_whole(file: Path, migrations: Migrations) -> bool:
    try:
        if not file.is_file() or not is_studio_header(file_header(file)):
            return False
        verdict = look(file, migrations).verdict
        return verdict in (Verdict.CURRENT, Verdict.OLDER) and not integrity(file)
    except (OSError, sqlite3.Error, WorkbenchError):
        return False


def _row(connection: sqlite3.Connection, row_id: int) -> list[ReadableFormula]:
    query = "SELECT name, draft FROM formulas WHERE id = ?"
    try:
        row = connection.execute(query, (row_id,)).fetchone()
    except sqlite3.DatabaseError:
        return []
    return [] if row is None else [ReadableFormula(str(row[0]), str(row[1]))]
