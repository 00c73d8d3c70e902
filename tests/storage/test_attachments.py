from __future__ import annotations

import sqlite3
from contextlib import closing

import pytest

from workbench.errors import WorkbenchError
from workbench.storage.attachments import CERTIFICATE, DATA_SHEET, LARGEST
from workbench.storage.backup import backup
from workbench.storage.check import check_studio
from workbench.storage.opening import open_studio

SHEET = b"%PDF-1.4 invented data sheet"


@pytest.fixture
def sheet(tmp_path):
    path = tmp_path / "Glycerin sheet.pdf"
    path.write_bytes(SHEET)
    return path


def test_that_a_file_is_kept_in_the_studio(studio, sheet):
    added = studio.attachments.add("glycerin", sheet, DATA_SHEET)
    sheet.unlink()
    assert studio.attachments.of("glycerin") == (added,)
    assert studio.attachments.of("water") == ()
    assert (added.file_name, added.kind, added.size) == (
        "Glycerin sheet.pdf",
        DATA_SHEET,
        len(SHEET),
    )
    assert added.media_type == "application/pdf"
    assert studio.attachments.content(added.id) == SHEET


def test_that_a_kept_file_is_written_out_as_it_was(studio, sheet, tmp_path):
    added = studio.attachments.add("glycerin", sheet, DATA_SHEET)
    out = tmp_path / "out.pdf"
    out.write_bytes(b"former")
    studio.attachments.write_to(added.id, out)
    assert out.read_bytes() == SHEET


def test_that_a_file_taken_out_is_gone(studio, sheet):
    added = studio.attachments.add("glycerin", sheet, CERTIFICATE)
    studio.attachments.delete(added.id)
    assert studio.attachments.of("glycerin") == ()
    with pytest.raises(WorkbenchError, match="no longer in the studio"):
        studio.attachments.content(added.id)


def test_that_the_same_file_is_kept_once(studio, sheet):
    studio.attachments.add("glycerin", sheet, CERTIFICATE)
    with pytest.raises(WorkbenchError, match="kept with this ingredient already"):
        studio.attachments.add("glycerin", sheet, DATA_SHEET)
    studio.attachments.add("water", sheet, DATA_SHEET)


def test_that_a_file_over_25_megabytes_is_refused_in_words(studio, tmp_path):
    large = tmp_path / "large.bin"
    with large.open("wb") as file:
        file.truncate(LARGEST + 1)
    with pytest.raises(WorkbenchError, match=r"'large\.bin' has 26 MB.* may have 25 MB"):
        studio.attachments.add("glycerin", large, CERTIFICATE)
    assert studio.attachments.of("glycerin") == ()


def test_that_an_empty_file_and_a_folder_are_refused(studio, tmp_path):
    (tmp_path / "empty.pdf").write_bytes(b"")
    for name in ("empty.pdf", ".", "missing.pdf"):
        with pytest.raises(WorkbenchError):
            studio.attachments.add("glycerin", tmp_path / name, CERTIFICATE)


def test_that_a_file_that_rotted_in_the_studio_is_not_given_out(studio, studio_path, sheet):
    added = studio.attachments.add("glycerin", sheet, DATA_SHEET)
    with closing(sqlite3.connect(studio_path)) as connection, connection:
        connection.execute("UPDATE attachments SET content = ?", (b"other",))
    with pytest.raises(WorkbenchError, match="not as it was when it was added"):
        studio.attachments.content(added.id)
    (problem,) = check_studio(studio_path).problems
    assert "'Glycerin sheet.pdf'" in problem


def test_that_a_backup_holds_the_files(studio, studio_path, sheet, tmp_path):
    added = studio.attachments.add("glycerin", sheet, DATA_SHEET)
    copy = tmp_path / "copy.studio"
    backup(studio_path, copy)
    with open_studio(copy) as copied:
        assert copied.attachments.content(added.id) == SHEET
