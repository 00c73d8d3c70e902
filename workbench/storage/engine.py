"""The connection to a studio file, and how careful it is."""

from __future__ import annotations

import sqlite3
from os import W_OK, access
from pathlib import Path

from sqlalchemy import Connection, Engine, create_engine, event
from sqlalchemy.pool import QueuePool

BUSY_SECONDS = 5.0
_BEGIN = "studio_begin"


def connect(
    path: Path, *, read_only: bool = False, timeout: float = BUSY_SECONDS
) -> sqlite3.Connection:
    """Open an existing SQLite file; transactions are begun by hand."""
    connection = sqlite3.connect(
        f"{path.resolve().as_uri()}?{_mode(path, read_only=read_only)}",
        uri=True,
        timeout=timeout,
        isolation_level=None,
        check_same_thread=False,
    )
    if read_only:
        connection.execute("PRAGMA query_only = ON")
    return connection


def studio_engine(path: Path, *, read_only: bool = False, foreign_keys: bool = True) -> Engine:
    """Return the engine of a studio file."""

    def opened() -> sqlite3.Connection:
        connection = connect(path, read_only=read_only)
        # REPLACE would slip past the triggers that keep a record append-only.
        connection.execute("PRAGMA recursive_triggers = ON")
        connection.execute(f"PRAGMA foreign_keys = {'ON' if foreign_keys else 'OFF'}")
        connection.execute("PRAGMA synchronous = FULL")
        return connection

    engine = create_engine("sqlite://", creator=opened, poolclass=QueuePool)
    event.listen(engine, "begin", _begin)
    return engine


def for_writing(engine: Engine) -> Engine:
    """Return the engine that takes the write lock at the start of a transaction.

    A transaction that only takes it at its first write can be refused half-way.
    """
    return engine.execution_options(**{_BEGIN: "IMMEDIATE"})


def _begin(connection: Connection) -> None:
    mode = connection.get_execution_options().get(_BEGIN, "DEFERRED")
    connection.exec_driver_sql(f"BEGIN {mode}")


def _mode(path: Path, *, read_only: bool) -> str:
    # A reader that may not write leaves SQLite's shared memory lying beside the file, and on a
    # medium that cannot be written it cannot even lay it there.
    if not read_only or (access(path, W_OK) and access(path.parent, W_OK)):
        return "mode=rw"
    has_log = path.with_name(f"{path.name}-wal").exists()
    return "mode=ro" if has_log else "mode=ro&immutable=1"
