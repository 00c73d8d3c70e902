from __future__ import annotations

import os
import sys

import pytest

from workbench.errors import WorkbenchError
from workbench.storage.text_file import write_bytes_file, write_text_file


def test_that_a_text_is_written_as_utf8_and_leaves_nothing_beside(tmp_path):
    write_text_file(tmp_path / "a.json", "Crème\n")
    assert (tmp_path / "a.json").read_bytes() == "Crème\n".encode()
    assert os.listdir(tmp_path) == ["a.json"]  # noqa: PTH208


def test_that_what_was_there_is_replaced(tmp_path):
    path = tmp_path / "a.pdf"
    path.write_bytes(b"old and much longer")
    write_bytes_file(path, b"new")
    assert path.read_bytes() == b"new"


def test_that_a_link_stays_a_link(tmp_path):
    (tmp_path / "real").mkdir()
    link = tmp_path / "a.json"
    link.symlink_to(tmp_path / "real" / "b.json")
    write_text_file(link, "x")
    assert link.is_symlink()
    assert (tmp_path / "real" / "b.json").read_text() == "x"


@pytest.mark.parametrize(
    ("name", "said"),
    [("", "is a folder"), ("away/a.json", "no folder"), ("x" * 300, "could not be written")],
)
def test_that_what_cannot_be_written_is_told(tmp_path, name, said):
    with pytest.raises(WorkbenchError, match=said):
        write_text_file(tmp_path / name, "x")
    assert list(tmp_path.iterdir()) == []


@pytest.mark.skipif(sys.platform == "win32", reason="no limit on file sizes here")
def test_that_a_full_disk_keeps_what_was_there(tmp_path, run_python):
    path = tmp_path / "a.pdf"
    path.write_bytes(b"old")
    program = """
import resource, signal, sys
from pathlib import Path
from workbench.errors import WorkbenchError
from workbench.storage.text_file import write_bytes_file
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
resource.setrlimit(resource.RLIMIT_FSIZE, (10_000, 10_000))
try:
    write_bytes_file(Path(sys.argv[1]), bytes(50_000))
except WorkbenchError as error:
    print(error)
"""
    ended = run_python("-c", program, str(path))
    assert "'a.pdf' could not be written" in ended.stdout
    assert path.read_bytes() == b"old"
    assert [file.name for file in tmp_path.iterdir()] == ["a.pdf"]
