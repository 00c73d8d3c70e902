"""Files that belong to an ingredient, kept inside the studio: data sheets, certificates."""

from __future__ import annotations

import mimetypes
from dataclasses import dataclass
from datetime import datetime
from hashlib import sha256
from pathlib import Path

from sqlalchemy import Connection, delete, func, insert, select

from workbench.errors import WorkbenchError
from workbench.storage.schema import AttachmentRow
from workbench.storage.sentences import refusal
from workbench.storage.studio_file import StudioFile
from workbench.storage.text_file import write_bytes_file

DATA_SHEET, CERTIFICATE, OTHER = "data-sheet", "certificate", "other"
KINDS = (DATA_SHEET, CERTIFICATE, OTHER)
MEGABYTE = 1_000_000
LARGEST = 25 * MEGABYTE
"""The most one file may hold [bytes]; the studio is copied whole at every backup."""
_PLAIN = "application/octet-stream"


@dataclass(frozen=True, slots=True)
class Attachment:
    """Hold what is known of one file without its content; `size` in bytes."""

    id: int
    ingredient: str
    kind: str
    file_name: str
    media_type: str
    added_at: datetime
    digest: str
    size: int


class Attachments:
    """Keep the files; one is added or taken out, and never changed."""

    def __init__(self, file: StudioFile) -> None:
        """Take the file they are in."""
        self._file = file

    def of(self, ingredient: str) -> tuple[Attachment, ...]:
        """Return the files of an ingredient, the oldest first."""
        query = _LISTED.where(AttachmentRow.ingredient == ingredient).order_by(AttachmentRow.id)
        with self._file.reading() as connection:
            return tuple(Attachment(*row) for row in connection.execute(query))

    def add(self, ingredient: str, path: Path, kind: str) -> Attachment:
        """Copy a file into the studio.

        Raises
        ------
        WorkbenchError
            If it cannot be read, is empty or too large, or this ingredient has it already.
        """
        content = _read(path)
        digest = sha256(content).hexdigest()
        media_type = mimetypes.guess_type(path.name)[0] or _PLAIN
        with self._file.writing() as connection:
            same = connection.scalar(
                select(AttachmentRow.file_name).where(
                    AttachmentRow.ingredient == ingredient, AttachmentRow.digest == digest
                )
            )
            if same is not None:
                raise refusal("attachment-twice", file=path.name, same=same)
            added = connection.execute(
                insert(AttachmentRow).values(
                    ingredient=ingredient,
                    kind=kind if kind in KINDS else OTHER,
                    file_name=path.name,
                    media_type=media_type,
                    added_at=self._file.clock(),
                    digest=digest,
                    content=content,
                )
            )
            row = connection.execute(_LISTED.where(AttachmentRow.id == added.lastrowid)).one()
            return Attachment(*row)

    def put_back(self, file: Attachment, content: bytes) -> None:
        """Put a file back that was taken out, as it was."""
        with self._file.writing() as connection:
            connection.execute(
                insert(AttachmentRow).values(
                    id=file.id,
                    ingredient=file.ingredient,
                    kind=file.kind,
                    file_name=file.file_name,
                    media_type=file.media_type,
                    added_at=file.added_at,
                    digest=file.digest,
                    content=content,
                )
            )

    def content(self, attachment_id: int) -> bytes:
        """Return the bytes of a file, or refuse what is no longer as it was added.

        Raises
        ------
        WorkbenchError
            If there is none, or its bytes are not those its digest was made of.
        """
        query = select(AttachmentRow.content, AttachmentRow.digest, AttachmentRow.file_name)
        with self._file.reading() as connection:
            row = connection.execute(query.where(AttachmentRow.id == attachment_id)).one_or_none()
        if row is None:
            raise refusal("no-such-attachment")
        if sha256(row.content).hexdigest() != row.digest:
            raise refusal("attachment-damaged", file=row.file_name)
        return bytes(row.content)

    def write_to(self, attachment_id: int, path: Path) -> None:
        """Write a file of the studio to a place of the maker's choice, whole or not at all."""
        write_bytes_file(path, self.content(attachment_id))

    def delete(self, attachment_id: int) -> None:
        """Take a file out of the studio."""
        with self._file.writing() as connection:
            connection.execute(delete(AttachmentRow).where(AttachmentRow.id == attachment_id))


def drop_attachments(connection: Connection, ingredient: str) -> None:
    """Take out every file of an ingredient."""
    connection.execute(delete(AttachmentRow).where(AttachmentRow.ingredient == ingredient))


def _read(path: Path) -> bytes:
    try:
        if not path.is_file():
            raise refusal("attachment-not-a-file", file=path.name)
        size = path.stat().st_size
        if size > LARGEST:
            raise _too_large(path, size)
        with path.open("rb") as file:
            content = file.read(LARGEST + 1)
    except OSError as error:
        reason = error.strerror or "unknown"
        raise refusal(
            "attachment-unreadable", detail=str(error), file=path.name, reason=reason
        ) from error
    if not content:
        raise refusal("attachment-empty", file=path.name)
    if len(content) > LARGEST:
        raise _too_large(path, len(content))
    return content


def _too_large(path: Path, size: int) -> WorkbenchError:
    return refusal(
        "attachment-too-large",
        file=path.name,
        size=-(-size // MEGABYTE),
        most=LARGEST // MEGABYTE,
    )


_LISTED = select(
    AttachmentRow.id,
    AttachmentRow.ingredient,
    AttachmentRow.kind,
    AttachmentRow.file_name,
    AttachmentRow.media_type,
    AttachmentRow.added_at,
    AttachmentRow.digest,
    func.length(AttachmentRow.content),
)
