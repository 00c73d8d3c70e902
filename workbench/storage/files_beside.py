"""Files around a studio: temporary ones, the log SQLite keeps beside it, names that are free."""

from __future__ import annotations

import os
from pathlib import Path
from threading import get_ident

_SIDECARS = ("-wal", "-shm", "-journal")


def temporary(path: Path) -> Path:
    """Return a name in the same folder, of this thread alone, for a file that is not finished."""
    return path.with_name(f".{os.getpid()}-{get_ident()}.new")


def sidecars(path: Path) -> tuple[Path, ...]:
    """Return the files that SQLite may keep beside a database."""
    return tuple(path.with_name(path.name + ending) for ending in _SIDECARS)


def free_name(path: Path) -> Path:
    """Return a path that nothing has: the one given, or with a number before its ending."""
    place = 1
    candidate = path
    while candidate.exists():
        place += 1
        candidate = path.with_name(f"{path.stem}-{place}{path.suffix}")
    return candidate


def publish(made: Path, path: Path) -> None:
    """Give a finished file its name at once, and never over another file.

    Raises
    ------
    FileExistsError
        If the name was taken meanwhile.
    """
    flush_to_disk(made)
    try:
        os.link(made, path)
    except FileExistsError:
        raise
    except OSError:  # a file system without links
        if path.exists():
            raise FileExistsError(path) from None
        made.replace(path)
    made.unlink(missing_ok=True)
    flush_folder(path.parent)


def discard(made: Path) -> None:
    """Remove a file that was not finished, and what SQLite kept beside it."""
    made.unlink(missing_ok=True)
    discard_sidecars(made)


def discard_sidecars(path: Path) -> None:
    """Remove what SQLite kept beside a database that is gone, or it would be read into the next."""
    for leftover in sidecars(path):
        leftover.unlink(missing_ok=True)


def flush_to_disk(path: Path) -> None:
    """Wait until the content of a file is on the disk."""
    with path.open("rb+") as file:
        os.fsync(file.fileno())


def flush_folder(folder: Path) -> None:
    """Wait until the names of a folder are on the disk, where a folder can be asked."""
    if os.name == "nt":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
