"""A studio file: transactions for reading and for writing, and nothing else."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from workbench.storage.engine import for_writing, studio_engine
from workbench.storage.failures import told
from workbench.storage.sentences import refusal

if TYPE_CHECKING:
    from sqlalchemy import Connection

Clock = Callable[[], datetime]


def utc_now() -> datetime:
    """Return the instant of now."""
    return datetime.now(UTC)


class StudioFile:
    """Give the repositories their transactions; each is one unit and ends whole or not at all."""

    def __init__(self, path: Path, *, read_only: bool = False, clock: Clock = utc_now) -> None:
        """Take the file; it is opened at the first transaction."""
        self.path = path
        self.read_only = read_only
        self.clock = clock
        self._engine = studio_engine(path, read_only=read_only)
        self._writer = for_writing(self._engine)

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """Open a transaction that sees one state, while others may write."""
        with told(self.path), self._engine.connect() as connection, connection.begin():
            yield connection

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        """Open a transaction that writes; it is undone when anything is raised in it."""
        if self.read_only:
            raise refusal("opened-for-reading", file=self.path.name)
        with told(self.path), self._writer.connect() as connection, connection.begin():
            yield connection

    def close(self) -> None:
        """Close every connection; the last one folds the write-ahead log into the file."""
        self._engine.dispose()
