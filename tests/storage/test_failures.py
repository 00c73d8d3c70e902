from __future__ import annotations

import sqlite3
import sys
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pytest
from sqlalchemy.exc import IntegrityError, OperationalError

from workbench.errors import WorkbenchError
from workbench.storage.engine import connect
from workbench.storage.failures import known_failure, told
from workbench.storage.opening import open_studio
from workbench.storage.studio_file import StudioFile

# What SQLite's documentation says each code means: https://www.sqlite.org/rescode.html
CODES = [
    (sqlite3.SQLITE_BUSY, "being written by another program"),
    (sqlite3.SQLITE_BUSY_SNAPSHOT, "being written by another program"),
    (sqlite3.SQLITE_LOCKED, "being written by another program"),
    (sqlite3.SQLITE_FULL, "disk is full"),
    (sqlite3.SQLITE_IOERR_WRITE, "disk reported an error"),
    (sqlite3.SQLITE_IOERR_FSYNC, "disk reported an error"),
    (sqlite3.SQLITE_READONLY, "may only be read"),
    (sqlite3.SQLITE_READONLY_DBMOVED, "may only be read"),
    (sqlite3.SQLITE_CORRUPT, "is damaged"),
    (sqlite3.SQLITE_NOTADB, "is damaged"),
    (sqlite3.SQLITE_CANTOPEN, "cannot be opened"),
    (sqlite3.SQLITE_PERM, "cannot be opened"),
    (sqlite3.SQLITE_AUTH, "cannot be opened"),
]


def sqlite_error(code: int) -> sqlite3.OperationalError:
    error = sqlite3.OperationalError("as SQLite says it")
    error.sqlite_errorcode = code
    return error


@pytest.mark.parametrize(("code", "said"), CODES)
def test_that_a_failure_of_the_world_is_told_in_words(code, said):
    error = known_failure(sqlite_error(code), Path("pebblewick.studio"))
    assert said in error.what
    assert "pebblewick.studio" in error.what
    assert error.remedy
    assert error.detail == "as SQLite says it"


@pytest.mark.parametrize(
    "code", [sqlite3.SQLITE_ERROR, sqlite3.SQLITE_MISUSE, sqlite3.SQLITE_CONSTRAINT, 0]
)
def test_that_a_mistake_of_the_program_is_not_blamed_on_the_world(code):
    error = sqlite_error(code)
    with pytest.raises(sqlite3.OperationalError), told(Path("x")):
        raise error
    with pytest.raises(OperationalError), told(Path("x")):
        raise OperationalError("SELECT", {}, error)


def test_that_the_cause_is_kept():
    error = sqlite_error(sqlite3.SQLITE_FULL)
    with pytest.raises(WorkbenchError) as caught, told(Path("x")):
        raise OperationalError("INSERT", {}, error)
    assert isinstance(caught.value.__cause__, OperationalError)


def test_that_a_broken_rule_of_the_tables_is_a_mistake_of_the_program(studio):
    file = StudioFile(studio.path)
    with pytest.raises(IntegrityError), file.writing() as connection:
        connection.exec_driver_sql("INSERT INTO formula_uses VALUES (4711, 'water')")
    file.close()


def test_that_a_full_disk_keeps_what_was_stored_before(studio, gel):
    key = studio.formulas.create("Gel", gel)
    before = studio.formulas.draft(key)
    large = gel.with_line(replace(gel.line(2), note="x" * 3_000_000))
    with studio._file.writing() as connection:
        pages = connection.exec_driver_sql("PRAGMA page_count").scalar()
    studio._file._engine.dispose()
    capped = studio._file._engine.raw_connection()
    capped.execute(f"PRAGMA max_page_count = {pages + 10}")  # holds for this connection, now pooled
    capped.close()
    with pytest.raises(WorkbenchError, match="disk is full"):
        studio.formulas.save_draft(key, large, 1)
    assert studio.formulas.draft(key) == before


@pytest.mark.skipif(sys.platform == "win32", reason="no limit on file sizes here")
def test_that_a_disk_that_takes_no_more_keeps_what_was_stored_before(studio, gel, run_python):
    key = studio.formulas.create("Gel", gel)
    studio.close()
    most = studio.path.stat().st_size + 100_000
    program = f"""
import resource, signal, sys
from dataclasses import replace
from pathlib import Path
from workbench.errors import WorkbenchError
from workbench.storage.opening import open_studio
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
resource.setrlimit(resource.RLIMIT_FSIZE, ({most}, {most}))
studio = open_studio(Path(sys.argv[1]))
formula, counter = studio.formulas.draft("{key}")
try:
    for place in range(1000):
        changed = formula.with_line(replace(formula.line(2), note=str(place) * 50_000))
        counter = studio.formulas.save_draft("{key}", changed, counter)
except WorkbenchError as error:
    print(counter, error)
"""
    ended = run_python("-c", program, str(studio.path))
    assert ended.stderr == ""
    counter, said = ended.stdout.split(" ", 1)
    assert "disk" in said
    again = open_studio(studio.path)
    assert again.formulas.draft(key)[1] == int(counter)
    again.close()


def test_that_writing_waits_for_another_writer_and_then_says_so(studio, gel):
    key = studio.formulas.create("Gel", gel)
    with closing(connect(studio.path)) as other:
        other.execute("BEGIN IMMEDIATE")
        assert studio.formulas.draft(key)[0].name == "Gel"  # reading does not wait
        with pytest.raises(WorkbenchError, match="did not finish in time"):
            studio.formulas.save_draft(key, gel, 1)
        other.execute("ROLLBACK")
    assert studio.formulas.save_draft(key, gel, 1) == 2


def test_that_a_studio_that_is_careful_stays_so_on_every_connection(studio):
    with studio._file.reading() as one, studio._file.reading() as other:
        for connection in (one, other):
            asked = {
                name: connection.exec_driver_sql(f"PRAGMA {name}").scalar()
                for name in ("journal_mode", "synchronous", "foreign_keys", "busy_timeout")
            }
            assert asked == {
                "journal_mode": "wal",
                "synchronous": 2,  # FULL
                "foreign_keys": 1,
                "busy_timeout": 5000,
            }


def test_that_a_writer_takes_its_turn_before_it_reads(studio):
    # Taking it only at the first write, two writers that have both read could not both finish.
    with (
        studio._file.writing(),
        closing(connect(studio.path, timeout=0)) as other,
        pytest.raises(sqlite3.OperationalError, match="locked"),
    ):
        other.execute("BEGIN IMMEDIATE")
