from __future__ import annotations

import os
import shutil
import sqlite3
from contextlib import closing
from dataclasses import replace

import pytest

from workbench.errors import WorkbenchError
from workbench.storage.backup import backup
from workbench.storage.check import check_studio
from workbench.storage.opening import open_studio

NAMES = [f"Gel number {place}" for place in range(1, 10)]


@pytest.fixture
def full(studio, gel):
    """A closed studio with nine formulas, each with a long note so that they fill pages."""
    for name in NAMES:
        noted = gel.with_line(replace(gel.line(2), note=name * 400))
        studio.formulas.create(name, noted)
    studio.close()
    return studio.path


def page_of(path, table: str) -> int:
    with closing(sqlite3.connect(path)) as connection:
        found = connection.execute("SELECT rootpage FROM sqlite_master WHERE name = ?", (table,))
        return found.fetchone()[0]


def spoil(path, page: int) -> None:
    with path.open("r+b") as file:
        file.seek((page - 1) * 4096)
        file.write(os.urandom(4096))


def refused(path) -> WorkbenchError:
    before = path.read_bytes()
    with pytest.raises(WorkbenchError) as caught:
        open_studio(path)
    assert path.read_bytes() == before
    return caught.value


def test_that_a_damaged_studio_says_what_can_be_read_and_which_backup_is_whole(full):
    backup(full, full.with_name("pebblewick-tuesday.bak"))
    os.utime(full.with_name("pebblewick-tuesday.bak"), (1, 1))
    spoil(full, page_of(full, "search_entries"))
    shutil.copy(full, full.with_name("pebblewick-newer.bak"))
    error = refused(full)
    assert "is damaged; 9 formulas can still be read (Gel number 1" in error.what
    assert "and 3 more" in error.what
    assert "'pebblewick-tuesday.bak' beside it is whole" in error.remedy


def test_that_damage_without_a_backup_says_so(full):
    spoil(full, page_of(full, "search_entries"))
    (full.parent / "pebblewick.bak").write_text("no studio at all")
    assert "No whole backup lies beside it" in refused(full).remedy


def test_that_a_studio_cut_short_is_damaged(full):
    with full.open("r+b") as file:
        file.truncate(full.stat().st_size // 2)
    assert "is damaged" in refused(full).what


def test_that_a_large_studio_cut_short_is_damaged(full):
    with closing(sqlite3.connect(full)) as connection:  # too large to be read through at opening
        connection.execute("UPDATE formulas SET draft = draft || hex(randomblob(4000000))")
        connection.commit()
    with full.open("r+b") as file:
        file.truncate(full.stat().st_size - 4096)
    assert "is damaged" in refused(full).what


def test_that_a_studio_whose_first_bytes_are_gone_is_damaged(full):
    with full.open("r+b") as file:
        file.write(bytes(16))
    assert "is damaged" in refused(full).what


def test_that_a_studio_without_its_revision_is_damaged(full):
    with closing(sqlite3.connect(full)) as connection:
        connection.execute("DROP TABLE alembic_version")
    error = refused(full)
    assert "9 formulas can still be read" in error.what


def test_that_a_studio_without_readable_formulas_says_so(full):
    spoil(full, page_of(full, "formulas"))
    spoil(full, 1 + page_of(full, "formulas"))
    assert "is damaged" in refused(full).what


def test_that_a_damaged_studio_cannot_be_checked_as_whole(full):
    spoil(full, page_of(full, "search_entries"))
    with pytest.raises(WorkbenchError, match="is damaged"):
        check_studio(full)


def test_that_damage_met_while_working_is_told(full):
    studio = open_studio(full)
    spoil(full, page_of(full, "settings"))
    with pytest.raises(WorkbenchError, match="is damaged"):
        studio.settings.load()
    studio.close()


def test_that_a_whole_studio_is_reported_with_its_counts(studio, gel, shipped_count):
    key = studio.formulas.create("Gel", gel)
    version = studio.versions.make_version(
        key, "First", studio.formulas.entries()[0].edited_at, studio.shelf_for(gel)
    )
    report = check_studio(studio.path)
    assert report.is_whole
    assert (report.formulas, report.versions, report.batches) == (1, 1, 0)
    assert report.ingredients == shipped_count
    assert version.number == 1


def edited(path, statement: str) -> tuple[str, ...]:
    with closing(sqlite3.connect(path)) as connection:
        for trigger in ("versions_refuse_update", "versions_refuse_delete"):
            connection.execute(f"DROP TRIGGER {trigger}")
        connection.execute(statement)
        connection.commit()
    return check_studio(path).problems


@pytest.mark.parametrize(
    ("statement", "said"),
    [
        ("UPDATE formulas SET draft = '{'", "The formula 'Gel' cannot be read"),
        ("UPDATE formulas SET draft = '[]'", "The formula 'Gel' cannot be read"),
        ("UPDATE formulas SET draft = '{\"name\": 7}'", "The formula 'Gel' cannot be read"),
        ("UPDATE ingredients SET facts = '{\"use_min\": \"much\"}' WHERE key = 'water'", "'water'"),
        ("UPDATE versions SET facts = '{}'", "Version 1 of 'Gel' cannot be read"),
        (
            'UPDATE versions SET facts = replace(facts, \'"fraction":"1"\', \'"fraction":"x"\')',
            "Version 1",
        ),
        ("UPDATE versions SET document = 'x'", "Version 1 of 'Gel' cannot be read"),
        ("DELETE FROM formulas", "A row of the table 'formula_uses' refers to one of 'formulas'"),
    ],
)
def test_that_a_check_names_what_cannot_be_read(studio, gel, statement, said):
    key = studio.formulas.create("Gel", gel)
    when = studio.formulas.entries()[0].edited_at
    studio.versions.make_version(key, "First", when, studio.shelf_for(gel))
    studio.close()
    problems = edited(studio.path, statement)
    assert problems
    assert any(said in problem for problem in problems), problems


def test_that_one_unreadable_draft_leaves_the_others_alone(studio, gel):
    studio.formulas.create("Bad", gel)
    good = studio.formulas.create("Good", gel)
    with closing(sqlite3.connect(studio.path)) as connection:
        connection.execute("UPDATE formulas SET draft = '{}' WHERE key = 'bad'")
        connection.commit()
    with pytest.raises(WorkbenchError, match="'Bad' cannot be read"):
        studio.formulas.draft("bad")
    assert studio.formulas.draft(good)[0].name == "Good"
    assert len(studio.formulas.entries()) == 2
