from __future__ import annotations

import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from workbench.errors import WorkbenchError
from workbench.storage.backup import backup, restore
from workbench.storage.check import check_studio
from workbench.storage.inspection import Verdict
from workbench.storage.opening import create_studio, open_studio
from workbench.storage.revisions import MIGRATIONS, Migrations
from workbench.storage.studio_file import StudioFile

HEAD = MIGRATIONS.head
LATER = f"{int(HEAD) + 1:04}"
STEP = '''"""Give formulas a colour."""
import sqlalchemy as sa
from alembic import op
revision = "{later}"
down_revision = "{head}"
def upgrade():
{body}
'''
GOOD = """\
    with op.batch_alter_table("formulas") as table:
        table.add_column(sa.Column("colour", sa.Text(), nullable=False, server_default="plain"))
        table.alter_column("name", nullable=True)"""
RAISES = """\
    op.create_table("a", sa.Column("id", sa.Integer(), primary_key=True))
    op.execute("UPDATE formulas SET name = 'gone'")
    raise RuntimeError("the second half fails")"""
ORPHANS = """\
    op.execute("INSERT INTO formula_uses (formula_id, ingredient) VALUES (4711, 'water')")"""
FILLS = """\
    op.execute("PRAGMA max_page_count = 1")
    op.execute("CREATE TABLE big AS SELECT randomblob(900000) AS b")"""


@pytest.fixture
def later(tmp_path):
    """The migrations of a later program: those of today and one more step."""

    def make(body: str) -> Migrations:
        folder = tmp_path / "later 100%" / "migrations"
        shutil.copytree(MIGRATIONS.folder, folder, ignore=shutil.ignore_patterns("__pycache__"))
        step = STEP.format(body=body, head=HEAD, later=LATER)
        (folder / "versions" / f"r{LATER}_colour.py").write_text(step)
        return Migrations(folder=folder, head=LATER)

    return make


def names_in(path: Path) -> list[str]:
    with closing(sqlite3.connect(path)) as connection:
        return [row[0] for row in connection.execute("SELECT name FROM formulas")]


def tables_in(path: Path) -> set[str]:
    with closing(sqlite3.connect(path)) as connection:
        found = connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'")
        return {row[0] for row in found}


@pytest.fixture
def old_path(studio_path, gel):
    studio = open_studio(studio_path)
    key = studio.formulas.create("Oat & quince gel", gel)
    studio.versions.make_version(
        key, "First", studio.formulas.entries()[0].edited_at, studio.shelf_for(gel)
    )
    studio.close()
    return studio_path


def test_that_an_older_studio_is_backed_up_and_brought_up_to_date(old_path, later, gel):
    studio = open_studio(old_path, migrations=later(GOOD))
    assert studio.found.verdict is Verdict.OLDER
    assert studio.found.backup == old_path.with_name(f"pebblewick.studio.{HEAD}.bak")
    assert f"pebblewick.studio.{HEAD}.bak" in studio.found.news
    assert studio.formulas.draft("oat-quince-gel")[0] == gel
    assert studio.versions.numbers("oat-quince-gel") == (1,)
    assert [entry.key for entry in studio.formulas.used_in("glycerin")] == ["oat-quince-gel"]
    studio.close()
    with closing(sqlite3.connect(old_path)) as connection:
        assert connection.execute("SELECT colour FROM formulas").fetchall() == [("plain",)]
    assert check_studio(studio.found.backup).is_whole  # it still stands at the former step
    assert names_in(studio.found.backup) == ["Oat & quince gel"]


def test_that_an_upgraded_studio_opens_as_current_the_next_time(old_path, later):
    program = later(GOOD)
    open_studio(old_path, migrations=program).close()
    again = open_studio(old_path, migrations=program)
    assert (again.found.verdict, again.found.backup) == (Verdict.CURRENT, None)
    again.close()


def test_that_a_second_upgrade_backup_gets_a_name_of_its_own(old_path, later):
    old_path.with_name(f"pebblewick.studio.{HEAD}.bak").write_text("kept")
    studio = open_studio(old_path, migrations=later(GOOD))
    assert studio.found.backup.name == f"pebblewick.studio.{HEAD}-2.bak"
    studio.close()
    assert old_path.with_name(f"pebblewick.studio.{HEAD}.bak").read_text() == "kept"


def test_that_an_upgrade_that_fails_half_way_changes_nothing(old_path, later):
    with pytest.raises(RuntimeError, match="second half"):
        open_studio(old_path, migrations=later(RAISES))
    assert names_in(old_path) == ["Oat & quince gel"]
    assert "a" not in tables_in(old_path)
    open_studio(old_path).close()


def test_that_an_upgrade_that_leaves_orphans_is_undone(old_path, later):
    with pytest.raises(WorkbenchError, match="refer to others that are missing"):
        open_studio(old_path, migrations=later(ORPHANS))
    assert check_studio(old_path).is_whole


def test_that_a_disk_full_in_an_upgrade_changes_nothing(old_path, later):
    with pytest.raises(WorkbenchError, match="disk is full"):
        open_studio(old_path, migrations=later(FILLS))
    assert check_studio(old_path).is_whole


def test_that_an_older_studio_is_not_upgraded_for_reading_only(old_path, later):
    before = old_path.read_bytes()
    with pytest.raises(WorkbenchError, match="has to be brought up to date"):
        open_studio(old_path, read_only=True, migrations=later(GOOD))
    assert old_path.read_bytes() == before


def test_that_a_new_studio_runs_through_every_step(tmp_path, later):
    program = later(GOOD)
    studio = create_studio(tmp_path / "new.studio", migrations=program)
    studio.close()
    with closing(sqlite3.connect(tmp_path / "new.studio")) as connection:
        assert connection.execute("SELECT version_num FROM alembic_version").fetchone() == (LATER,)


def test_that_an_older_studio_can_be_checked_backed_up_and_restored(old_path, later, tmp_path):
    program = later(GOOD)
    assert check_studio(old_path, migrations=program).is_older
    backup(old_path, tmp_path / "copy.bak", migrations=program)
    restore(tmp_path / "copy.bak", tmp_path / "again.studio", migrations=program)
    open_studio(tmp_path / "again.studio", migrations=program).close()
    assert names_in(tmp_path / "again.studio") == ["Oat & quince gel"]


def test_that_two_windows_may_upgrade_one_after_the_other(old_path, later):
    program = later(GOOD)
    open_before = StudioFile(old_path)  # a window of this program that has not closed
    with open_before.reading() as connection:
        connection.exec_driver_sql("SELECT count(*) FROM formulas").fetchone()
    open_studio(old_path, migrations=program).close()
    open_before.close()
    open_studio(old_path, migrations=program).close()
