from __future__ import annotations

import os
import sqlite3
import threading
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pytest

from workbench.errors import WorkbenchError
from workbench.storage.backup import backup, integrity, restore
from workbench.storage.check import check_studio
from workbench.storage.opening import open_studio


def names(path: Path) -> list[str]:
    studio = open_studio(path, read_only=True)
    found = [entry.name for entry in studio.formulas.entries()]
    studio.close()
    return found


def test_that_a_backup_of_an_open_studio_is_whole_and_one_file(studio, gel, tmp_path):
    studio.formulas.create("Gel", gel)
    out = tmp_path / "kept" / "monday.bak"
    out.parent.mkdir()
    backup(studio.path, out)
    assert [file.name for file in out.parent.iterdir()] == ["monday.bak"]
    assert check_studio(out).is_whole
    assert names(out) == ["Gel"]


def test_that_a_backup_made_while_another_writes_is_one_state(studio, gel, tmp_path):
    key = studio.formulas.create("Gel", gel)
    stop = threading.Event()
    counters = [1]

    def write() -> None:
        while not stop.is_set():
            changed = replace(gel, name="Gel", pack=f"pack {counters[-1]}")
            counters.append(studio.formulas.save_draft(key, changed, counters[-1]))

    writer = threading.Thread(target=write)
    writer.start()
    try:
        for place in range(10):
            out = tmp_path / f"{place}.bak"
            backup(studio.path, out)
            assert check_studio(out).is_whole
            copy = open_studio(out, read_only=True)
            draft, counter = copy.formulas.draft(key)
            copy.close()
            assert counter == 1 or draft.pack == f"pack {counter - 1}"
    finally:
        stop.set()
        writer.join()
    assert len(counters) > 1


def test_that_a_backup_writes_over_nothing(studio_path, tmp_path):
    out = tmp_path / "monday.bak"
    out.write_text("kept")
    with pytest.raises(WorkbenchError, match=r"already a file 'monday\.bak'"):
        backup(studio_path, out)
    assert out.read_text() == "kept"
    with pytest.raises(WorkbenchError, match="already a file"):
        backup(studio_path, studio_path)


def test_that_a_backup_needs_its_folder_and_a_studio(studio_path, tmp_path):
    with pytest.raises(WorkbenchError, match="there is no folder"):
        backup(studio_path, tmp_path / "away" / "x.bak")
    with pytest.raises(WorkbenchError, match="no studio at"):
        backup(tmp_path / "missing.studio", tmp_path / "x.bak")
    (tmp_path / "letter.studio").write_text("Dear aunt " * 20)
    with pytest.raises(WorkbenchError, match="not a studio"):
        backup(tmp_path / "letter.studio", tmp_path / "x.bak")
    assert not (tmp_path / "x.bak").exists()


def test_that_a_damaged_studio_is_not_taken_for_a_backup(studio_path, tmp_path):
    content = bytearray(studio_path.read_bytes())
    content[40_000:90_000] = os.urandom(50_000)
    studio_path.write_bytes(content)
    with pytest.raises(WorkbenchError):
        backup(studio_path, tmp_path / "x.bak")
    assert [file.name for file in tmp_path.iterdir()] == [studio_path.name]


def test_that_damage_only_the_copy_shows_is_found_too(studio_path, tmp_path):
    with closing(sqlite3.connect(studio_path)) as connection:  # too large to be read first
        connection.execute("INSERT INTO settings VALUES ('large', hex(randomblob(4000000)))")
        connection.commit()
        (page,) = connection.execute(
            "SELECT rootpage FROM sqlite_master WHERE name = 'search_entries'"
        ).fetchone()
    with studio_path.open("r+b") as file:
        file.seek((page - 1) * 4096)
        file.write(os.urandom(4096))
    with pytest.raises(WorkbenchError, match=r"copy of 'pebblewick\.studio' is not whole"):
        backup(studio_path, tmp_path / "x.bak")
    assert [file.name for file in tmp_path.iterdir()] == [studio_path.name]


def test_that_restoring_brings_the_former_state_back_and_keeps_the_present(studio, gel, tmp_path):
    studio.formulas.create("Old gel", gel)
    backup(studio.path, tmp_path / "monday.bak")
    studio.formulas.create("New gel", gel)
    studio.close()
    kept = restore(tmp_path / "monday.bak", studio.path)
    assert names(studio.path) == ["Old gel"]
    assert kept == studio.path.with_name("pebblewick.studio.before-restore.bak")
    assert names(kept) == ["New gel", "Old gel"]
    again = restore(kept, studio.path)
    assert names(studio.path) == ["New gel", "Old gel"]
    assert again.name == "pebblewick.studio.before-restore-2.bak"


def test_that_restoring_works_where_no_studio_is(studio_path, tmp_path):
    assert restore(studio_path, tmp_path / "new.studio") is None
    open_studio(tmp_path / "new.studio").close()


def test_that_restoring_replaces_a_damaged_studio(studio, gel, tmp_path):
    studio.formulas.create("Gel", gel)
    backup(studio.path, tmp_path / "monday.bak")
    studio.close()
    studio.path.write_bytes(b"SQLite format 3\0" + os.urandom(5000))
    kept = restore(tmp_path / "monday.bak", studio.path)
    assert names(studio.path) == ["Gel"]
    assert kept.read_bytes()[16:].strip()


def test_that_a_log_left_behind_does_not_flow_into_the_restored_studio(studio, gel, tmp_path):
    studio.formulas.create("Old gel", gel)
    backup(studio.path, tmp_path / "monday.bak")
    studio.formulas.create("New gel", gel)
    log = studio.path.with_name(studio.path.name + "-wal")
    left = log.read_bytes()
    studio.close()
    studio.path.unlink()
    log.write_bytes(left)
    restore(tmp_path / "monday.bak", studio.path)
    assert names(studio.path) == ["Old gel"]


def test_that_a_studio_in_use_is_not_replaced(studio, gel, tmp_path):
    backup(studio.path, tmp_path / "monday.bak")
    studio.formulas.create("Gel", gel)
    with pytest.raises(WorkbenchError, match="open elsewhere"):
        restore(tmp_path / "monday.bak", studio.path)
    assert [entry.name for entry in studio.formulas.entries()] == ["Gel"]
    assert not list(tmp_path.glob("*.new*"))


def test_that_only_a_whole_studio_is_restored(studio_path, tmp_path):
    (tmp_path / "letter.bak").write_text("Dear aunt " * 20)
    before = studio_path.read_bytes()
    with pytest.raises(WorkbenchError, match="not a studio"):
        restore(tmp_path / "letter.bak", studio_path)
    with pytest.raises(WorkbenchError, match="no studio at"):
        restore(tmp_path / "missing.bak", studio_path)
    with pytest.raises(WorkbenchError, match="from itself"):
        restore(studio_path, studio_path)
    assert studio_path.read_bytes() == before


def test_that_integrity_names_what_is_wrong(studio_path):
    assert integrity(studio_path) == ()
    with closing(sqlite3.connect(studio_path)) as connection:
        connection.execute("PRAGMA writable_schema = ON")
        connection.execute("UPDATE sqlite_master SET rootpage = 3 WHERE name = 'supplies'")
        connection.commit()
    assert integrity(studio_path) != ()
