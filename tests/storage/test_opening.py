from __future__ import annotations

import os
import shutil
import socket
import sqlite3
import sys
from contextlib import closing

import pytest

from workbench.errors import WorkbenchError
from workbench.storage.engine import connect
from workbench.storage.inspection import Verdict
from workbench.storage.opening import create_studio, open_studio


def refused(path, **how) -> WorkbenchError:
    before = path.read_bytes() if path.is_file() else None
    with pytest.raises(WorkbenchError) as caught:
        open_studio(path, **how)
    assert (path.read_bytes() if path.is_file() else None) == before
    assert caught.value.what.endswith(".")
    assert caught.value.remedy.endswith(".")
    return caught.value


def test_that_a_new_studio_holds_the_shipped_ingredients_and_finds_them(studio, shipped_count):
    assert len(studio.ingredients.names()) == shipped_count > 400
    assert studio.search("glycerin")[0].key == "glycerin"
    assert studio.reference_set


def test_that_creating_leaves_one_file(tmp_path):
    create_studio(tmp_path / "mine.studio").close()
    assert [file.name for file in tmp_path.iterdir()] == ["mine.studio"]


def test_that_opening_creates_only_when_asked(tmp_path):
    path = tmp_path / "mine.studio"
    assert "no studio" in refused(path).what
    assert not path.exists()
    studio = open_studio(path, create=True)
    assert studio.found.verdict is Verdict.NEW
    studio.close()


def test_that_creating_writes_over_nothing(tmp_path):
    path = tmp_path / "letter.txt"
    path.write_text("Dear aunt")
    with pytest.raises(WorkbenchError, match=r"already a file 'letter\.txt'"):
        create_studio(path)
    assert path.read_text() == "Dear aunt"


def test_that_creating_needs_its_folder(tmp_path):
    with pytest.raises(WorkbenchError, match="there is no folder"):
        create_studio(tmp_path / "away" / "mine.studio")


def test_that_a_failed_creation_leaves_nothing(tmp_path):
    with pytest.raises(FileNotFoundError):  # a program without its tables is broken, not the world
        create_studio(tmp_path / "mine.studio", tmp_path / "no tables")
    assert list(tmp_path.iterdir()) == []


def test_that_a_current_studio_opens(studio_path):
    studio = open_studio(studio_path)
    assert (studio.found.verdict, studio.found.backup, studio.found.news) == (
        Verdict.CURRENT,
        None,
        "",
    )
    studio.close()


@pytest.mark.parametrize(
    "name", ["50% off.studio", "what?.studio", "a#b&mode=memory.studio", "ø é.studio"]
)
def test_that_a_studio_may_have_any_name(studio_path, tmp_path, name):
    path = tmp_path / name
    shutil.copy(studio_path, path)
    studio = open_studio(path)
    assert studio.search("glycerin")
    studio.close()
    create_studio(tmp_path / f"new {name}").close()


def test_that_a_newer_studio_is_refused(studio_path):
    with closing(sqlite3.connect(studio_path)) as other:
        other.execute("UPDATE alembic_version SET version_num = '0917'")
        other.commit()
    error = refused(studio_path)
    assert "newer version of this program" in error.what
    assert "0917" in error.what


@pytest.mark.parametrize(
    "content", [b"Dear aunt, " * 50, b"{}", bytes(5000), b"PK\x03\x04" + bytes(200)]
)
def test_that_other_files_are_refused(tmp_path, content):
    path = tmp_path / "letter.studio"
    path.write_bytes(content)
    assert "is not a studio of this program" in refused(path).what


def test_that_another_database_is_refused(tmp_path):
    path = tmp_path / "music.studio"
    with closing(sqlite3.connect(path)) as other:
        other.execute("CREATE TABLE formulas (id INTEGER)")
    assert "is not a studio of this program" in refused(path).what


def test_that_an_empty_file_is_refused(tmp_path):
    path = tmp_path / "mine.studio"
    path.touch()
    assert "is empty" in refused(path).what
    assert "is empty" in refused(path, create=True).what


def test_that_a_folder_is_refused(tmp_path):
    assert "is a folder" in refused(tmp_path).what


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes with names here")
def test_that_a_pipe_is_refused_without_waiting_for_it(tmp_path):
    os.mkfifo(tmp_path / "pipe.studio")
    assert "not an ordinary file" in refused(tmp_path / "pipe.studio").what


@pytest.mark.skipif(not hasattr(socket, "AF_UNIX"), reason="no sockets with names here")
def test_that_a_socket_is_refused(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)  # names of sockets are short
    with closing(socket.socket(socket.AF_UNIX)) as ear:
        ear.bind("s.studio")
        assert "not an ordinary file" in refused(tmp_path / "s.studio").what


def test_that_a_file_nobody_may_read_is_refused(studio_path, as_ordinary_user):
    studio_path.chmod(0o000)
    with as_ordinary_user(), pytest.raises(WorkbenchError, match="cannot be opened"):
        open_studio(studio_path)


def test_that_a_file_that_may_not_be_written_opens_for_reading_only(
    studio_path, gel, as_ordinary_user
):
    studio_path.chmod(0o444)
    before = studio_path.read_bytes()
    with as_ordinary_user():
        studio = open_studio(studio_path)
        assert studio.read_only
        assert "may only be read, not written" in studio.found.news
        assert studio.search("glycerin")
        with pytest.raises(WorkbenchError, match="open for reading only"):
            studio.formulas.create("Gel", gel)
        studio.close()
    assert studio_path.read_bytes() == before


def test_that_a_folder_that_may_not_be_written_is_named(studio_path, as_ordinary_user):
    studio_path.chmod(0o666)
    with as_ordinary_user():
        studio = open_studio(studio_path)
        assert studio.read_only
        assert "folder where you may not write" in studio.found.news
        studio.close()


def test_that_reading_only_changes_not_one_byte(studio_path, gel):
    before = studio_path.read_bytes()
    studio = open_studio(studio_path, read_only=True)
    with pytest.raises(WorkbenchError, match="open for reading only"):
        studio.formulas.create("Gel", gel)
    studio.close()
    assert studio_path.read_bytes() == before


def test_that_a_locked_studio_is_told_in_words(studio_path):
    with closing(connect(studio_path)) as other:
        other.execute("PRAGMA locking_mode = EXCLUSIVE")
        other.execute("BEGIN EXCLUSIVE")
        other.execute("DELETE FROM balances")
        assert "is being written by another program" in refused_while_locked(studio_path).what


def refused_while_locked(path) -> WorkbenchError:
    with pytest.raises(WorkbenchError) as caught:
        open_studio(path)
    return caught.value


def test_that_a_current_studio_opens_without_alembic(studio_path, run_python):
    program = (
        "import sys; from pathlib import Path\n"
        "from workbench.storage.opening import open_studio\n"
        "studio = open_studio(Path(sys.argv[1])); studio.formulas.entries()\n"
        "print('alembic' in sys.modules)"
    )
    ended = run_python("-c", program, str(studio_path))
    assert (ended.stdout.strip(), ended.stderr) == ("False", "")
    assert sys.executable
