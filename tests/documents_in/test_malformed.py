from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.documents_in.malformed import GOOD, MALFORMED, Place, put, text_of
from workbench import cli
from workbench.storage.opening import create_studio

pytestmark = pytest.mark.usefixtures("one_reading_of_the_tables")

FILE = "oat-gel.formula.json"
OPENING = "formulation-workbench: "
ODD_VALUES = (
    None,
    True,
    "",
    " ",
    -1,
    1.5,
    10**30,
    "1e-999999999",
    "NaN",
    "rest",
    [],
    {},
    [[]],
    {"": None},
    "x" * 6000,
    "\u202e\ufffe",
    "\u0660",
    ["EU", 5],
)


def places(value: object, here: Place = ()) -> Iterator[Place]:
    """Yield every place below a value."""
    if isinstance(value, dict | list):
        for step, inner in value.items() if isinstance(value, dict) else enumerate(value):
            yield (*here, step)
            yield from places(inner, (*here, step))


def everything_in(folder: Path) -> dict[str, tuple[bytes, int]]:
    return {
        str(path.relative_to(folder)): (path.read_bytes(), path.stat().st_mtime_ns)
        for path in folder.rglob("*")
        if path.is_file()
    }


def told_about(content: bytes, folder: Path, capsys: pytest.CaptureFixture[str]) -> str:
    """Assess a file of this content; return the one sentence, having checked all else."""
    path = folder / FILE
    path.write_bytes(content)
    before = everything_in(folder)
    code = cli.main(["assess", str(path), "--json"])
    shown = capsys.readouterr()
    assert code == 2
    assert shown.out == ""
    assert everything_in(folder) == before
    return shown.err


def test_that_the_document_they_are_made_from_is_right(tmp_path, capsys):
    path = tmp_path / FILE
    path.write_bytes(text_of(GOOD))
    assert cli.main(["assess", str(path)]) == 0
    assert capsys.readouterr().err == ""


@pytest.mark.parametrize("case", MALFORMED)
def test_that_a_malformed_document_is_refused_in_one_line_that_names_what_and_where(
    case, tmp_path, capsys
):
    content, named = MALFORMED[case]
    told = told_about(content, tmp_path, capsys)
    assert told.startswith(OPENING)
    assert told.count("\n") == 1
    assert told.endswith(".\n")
    assert FILE in told
    for name in named:
        assert name in told


@pytest.mark.parametrize("case", MALFORMED)
def test_that_the_sentence_is_plain_english_and_short(case, tmp_path, capsys):
    told = told_about(MALFORMED[case][0], tmp_path, capsys).removeprefix(OPENING).rstrip("\n")
    assert told.isprintable()
    assert len(told) <= 300
    what, remedy = told.rstrip(".").rsplit(". ", 1)
    assert what, remedy
    for jargon in (
        "Traceback",
        "Error",
        "Decimal(",
        "None",
        "storage-",
        "$",
        "type string",
        "array",
    ):
        assert jargon not in told


def test_that_a_malformed_document_is_not_imported(tmp_path, capsys):
    studio = tmp_path / "mine.studio"
    create_studio(studio).close()
    path = tmp_path / FILE
    path.write_bytes(MALFORMED["percent of letters"][0])
    before = studio.read_bytes()
    assert cli.main(["import", str(path), "--studio", str(studio)]) == 2
    assert "phase 1, line 2, percent" in capsys.readouterr().err
    assert studio.read_bytes() == before


def test_that_a_folder_and_a_file_that_is_not_there_are_refused(tmp_path, capsys):
    for path in (tmp_path, tmp_path / "nowhere.formula.json"):
        assert cli.main(["assess", str(path)]) == 2
        told = capsys.readouterr().err
        assert told.count("\n") == 1
        assert path.name in told


@pytest.mark.parametrize("place", list(places(GOOD)), ids=lambda place: "-".join(map(str, place)))
def test_that_an_odd_value_in_any_place_is_read_or_refused_in_one_line(place, tmp_path, capsys):
    path = tmp_path / FILE
    for value in ODD_VALUES:
        path.write_bytes(put(place, value))
        code = cli.main(["assess", str(path)])
        told = capsys.readouterr().err
        assert (code, told.count("\n")) in ((0, 0), (1, 0), (2, 1)), (value, told)
        assert told.rstrip("\n").isprintable()
        assert len(told) <= 500
