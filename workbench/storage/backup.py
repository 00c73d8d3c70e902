"""Copies of a studio: made while it is in use, checked before they count, and brought back."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

from workbench.errors import WorkbenchError
from workbench.storage.engine import connect
from workbench.storage.failures import primary_code, told
from workbench.storage.files_beside import (
    discard,
    discard_sidecars,
    free_name,
    publish,
    sidecars,
    temporary,
)
from workbench.storage.inspection import Look, Verdict, look
from workbench.storage.revisions import MIGRATIONS, Migrations
from workbench.storage.sentences import refusal

_ALLOWED = (Verdict.CURRENT, Verdict.OLDER)
_WAIT_TO_SWAP = 1.0


def backup(studio_path: Path, out: Path, *, migrations: Migrations = MIGRATIONS) -> None:
    """Copy a studio to a new file, even while it is open, and check the copy.

    Raises
    ------
    WorkbenchError
        If the source is no whole studio, the copy exists already, or it cannot be written.
    """
    _require_studio(studio_path, migrations)
    copy_database(studio_path, out)


def copy_database(source: Path, out: Path) -> None:
    """Copy a database in one state; the copy appears only once it is complete and whole."""
    _require_free(out)
    made = _checked_copy(source, out)
    try:
        publish(made, out)
    except FileExistsError as error:
        raise refusal("exists", file=out.name) from error
    except OSError as error:
        raise _write_failed(out, error) from error
    finally:
        discard(made)


def restore(
    backup_path: Path, studio_path: Path, *, migrations: Migrations = MIGRATIONS
) -> Path | None:
    """Put a backup in the place of a studio; return where the former state is kept.

    Raises
    ------
    WorkbenchError
        If the backup is no whole studio, or the studio is open in another window.
    """
    found = _require_studio(backup_path, migrations)
    if found.verdict is Verdict.NEWER:
        raise refusal("newer", file=backup_path.name, revision=found.revision)
    if backup_path.resolve() == studio_path.resolve():
        raise refusal("restore-itself", file=studio_path.name)
    if studio_path.is_dir():
        raise refusal("directory", file=studio_path.name)
    if not studio_path.parent.is_dir():
        raise refusal("no-folder", file=studio_path.name, folder=str(studio_path.parent))
    made = _checked_copy(backup_path, studio_path)
    try:
        kept = _set_aside(studio_path)
        publish(made, studio_path)
    except OSError as error:
        raise _write_failed(studio_path, error) from error
    finally:
        discard(made)
    return kept


def integrity(path: Path) -> tuple[str, ...]:
    """Return what SQLite finds wrong with the pages of a file, empty when it is whole."""
    with closing(connect(path, read_only=True)) as connection:
        try:
            rows = connection.execute("PRAGMA integrity_check(20)").fetchall()
        except sqlite3.DatabaseError as error:
            return (str(error),)
    return tuple(str(row[0]) for row in rows if row[0] != "ok")


def _require_studio(path: Path, migrations: Migrations) -> Look:
    found = look(path, migrations)
    if found.verdict is Verdict.NEW:
        raise refusal("missing", file=path.name)
    if found.verdict is Verdict.FOREIGN:
        raise refusal("foreign", file=path.name)
    if found.verdict is Verdict.DAMAGED:
        raise refusal("found-damaged", detail=found.detail, file=path.name)
    return found


def _require_free(out: Path) -> None:
    try:
        if out.exists():
            raise refusal("exists", file=out.name)
        if not out.parent.is_dir():
            raise refusal("no-folder", file=out.name, folder=str(out.parent))
    except OSError as error:  # a name too long for the disk
        raise _write_failed(out, error) from error


def _checked_copy(source: Path, out: Path) -> Path:
    made = temporary(out)
    discard(made)
    try:
        with told(source), closing(connect(source, read_only=True)) as old:
            _copy_into(old, made, out)
        wrong = integrity(made)
        if wrong:
            raise refusal("copy-not-whole", detail="; ".join(wrong), file=source.name)
    except OSError as error:
        discard(made)
        raise _write_failed(out, error) from error
    except BaseException:
        discard(made)
        raise
    return made


def _copy_into(old: sqlite3.Connection, made: Path, out: Path) -> None:
    with told(out), closing(sqlite3.connect(made, isolation_level=None)) as new:
        old.backup(new)
        # A copy is one file: it can lie on a medium that cannot be written.
        new.execute("PRAGMA journal_mode = DELETE")


def _set_aside(path: Path) -> Path | None:
    if not path.exists():
        discard_sidecars(path)
        return None
    _require_unused(path)
    kept = free_name(path.with_name(f"{path.name}.before-restore.bak"))
    for lying, ending in zip(
        (path, *sidecars(path)), ("", "-wal", "-shm", "-journal"), strict=True
    ):
        if lying.exists():
            lying.rename(kept.with_name(kept.name + ending))
    return kept


def _require_unused(path: Path) -> None:
    """Fold the log into the file, which SQLite does only for the one user of a file."""
    try:
        with closing(connect(path, timeout=_WAIT_TO_SWAP)) as connection:
            connection.execute("PRAGMA journal_mode = DELETE")
    except sqlite3.DatabaseError as error:
        if primary_code(error) in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED):
            raise refusal("in-use", detail=str(error), file=path.name) from error
        # Whatever else is wrong with it is the reason to bring a backup back.


def _write_failed(out: Path, error: OSError) -> WorkbenchError:
    reason = error.strerror or "unknown"
    return refusal("write-failed", detail=str(error), file=out.name, reason=reason)
