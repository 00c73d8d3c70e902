"""The one place where a database failure becomes a sentence."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from sqlalchemy.exc import DBAPIError

from workbench.errors import WorkbenchError
from workbench.storage.sentences import refusal

# SQLite's primary result codes (https://www.sqlite.org/rescode.html) that are the world's doing.
_CODES = {
    3: "cannot-open",
    5: "locked",
    6: "locked",
    8: "read-only",
    10: "not-written",
    11: "found-damaged",
    13: "full",
    14: "cannot-open",
    23: "cannot-open",
    26: "found-damaged",
}
_PRIMARY = 0xFF


@contextmanager
def told(path: Path) -> Iterator[None]:
    """Turn what SQLite says about a file into a WorkbenchError; our own mistakes pass through."""
    try:
        yield
    except DBAPIError as error:
        known = known_failure(error.orig, path)
        if known is None:
            raise
        raise known from error
    except sqlite3.Error as error:
        known = known_failure(error, path)
        if known is None:
            raise
        raise known from error


def known_failure(error: BaseException | None, path: Path) -> WorkbenchError | None:
    """Return the refusal a SQLite error stands for, or None when the fault is the program's."""
    code = _CODES.get(primary_code(error))
    return None if code is None else refusal(code, detail=str(error), file=path.name)


def primary_code(error: BaseException | None) -> int:
    """Return SQLite's primary result code of an error, 0 when it carries none."""
    code = getattr(error, "sqlite_errorcode", 0)
    return code & _PRIMARY if isinstance(code, int) else 0
