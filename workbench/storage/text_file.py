"""Reading a file whole, and writing one so that it is the old one or the new one, never half."""

from __future__ import annotations

from pathlib import Path

from workbench.storage.files_beside import flush_folder, flush_to_disk, temporary
from workbench.storage.sentences import refusal


def read_bytes_file(path: Path, most: int) -> bytes:
    """Return the bytes of a file; one more than `most` where it holds more.

    Raises
    ------
    WorkbenchError
        If it is missing, a folder, or cannot be read.
    """
    try:
        if path.is_dir():
            raise refusal("document-directory", file=path.name)
        with path.open("rb") as file:
            return file.read(most + 1)
    except FileNotFoundError as error:
        raise refusal("document-missing", file=path.name) from error
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise refusal("document-unreadable", file=path.name, reason=reason) from error


def write_text_file(path: Path, text: str) -> None:
    """Write a text as UTF-8 with line feeds, in place of what was there."""
    write_bytes_file(path, text.encode("utf-8"))


def write_bytes_file(path: Path, content: bytes) -> None:
    """Write bytes in place of what was there.

    Raises
    ------
    WorkbenchError
        If the folder is missing or the file cannot be written; what was there stays.
    """
    made = temporary(path)
    try:
        if path.is_dir():
            raise refusal("write-directory", file=path.name)
        if not path.parent.is_dir():
            raise refusal("no-folder", file=path.name, folder=str(path.parent))
        target = path.resolve()
        made = temporary(target)
        made.write_bytes(content)
        flush_to_disk(made)
        made.replace(target)
        flush_folder(target.parent)
    except OSError as error:
        made.unlink(missing_ok=True)
        raise refusal(
            "write-failed", detail=str(error), file=path.name, reason=error.strerror or "unknown"
        ) from error
