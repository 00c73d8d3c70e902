from __future__ import annotations

import contextlib
import json
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from workbench.errors import WorkbenchError
from workbench.storage.formula_file import parse_formula_text, read_formula_text

GOOD = '{"format": "formulation-workbench/formula", "format_version": 1, "percent": 4.00}'


def written(tmp_path, content: bytes | str):
    path = tmp_path / "gel.formula.json"
    path.write_bytes(content.encode() if isinstance(content, str) else content)
    return path


def refused(path) -> WorkbenchError:
    before = path.read_bytes() if path.is_file() else None
    with pytest.raises(WorkbenchError) as caught:
        read_formula_text(path)
    assert (path.read_bytes() if path.is_file() else None) == before
    assert caught.value.what.endswith(".")
    assert caught.value.remedy.endswith(".")
    return caught.value


def test_that_numbers_keep_the_digits_they_are_written_with(tmp_path):
    data = read_formula_text(written(tmp_path, GOOD))
    assert str(data["percent"]) == "4.00"
    assert isinstance(data["percent"], Decimal)
    assert data["format_version"] == 1


@pytest.mark.parametrize("start", [b"", b"\xef\xbb\xbf"], ids=["plain", "with a byte order mark"])
def test_that_utf8_is_read(tmp_path, start):
    assert read_formula_text(written(tmp_path, start + '{"name": "Crème"}'.encode())) == {
        "name": "Crème"
    }


@pytest.mark.parametrize(
    ("content", "said"),
    [
        pytest.param(b"", "is empty", id="empty"),
        pytest.param(b" \n\t", "is empty", id="blank"),
        pytest.param(b"[" * 5_000_001, "larger than 5 MB", id="too large"),
        pytest.param(b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR", "is not text", id="a picture"),
        pytest.param('{"a": 1}'.encode("utf-16"), "not UTF-8 text (line 1)", id="utf-16"),
        pytest.param(b'{"a":\n "cr\xe8me"}', "not UTF-8 text (line 2)", id="latin-1"),
        pytest.param("{", "line 1, column 2: expecting property name", id="cut short"),
        pytest.param('{"a": 1,\n "b": 2,\n}', "at line 3, column 1", id="a comma too many"),
        pytest.param('{"a": 1}\n{"b": 2}', "line 2, column 1: extra data", id="two objects"),
        pytest.param("{'a': 1}", "line 1, column 2", id="single quotes"),
        pytest.param('{"a": "line\nbreak"}', "invalid control character", id="a bare line break"),
        pytest.param("[1, 2]", "one JSON object in curly brackets", id="a list"),
        pytest.param('"text"', "one JSON object in curly brackets", id="a text"),
        pytest.param("null", "one JSON object in curly brackets", id="null"),
        pytest.param("Dear aunt", "not valid JSON at line 1, column 1", id="a letter"),
        pytest.param('{"a": 1,\n  "a": 2}', "says 'a' twice in the same place (line 2, column 3)",
                     id="twice"),
        pytest.param(
            '{"a": {"b": 1}, "c": [{"b": 1}, {"b": 1, "a": 0,\n "\\u0062": 2}]}',
            "says 'b' twice in the same place (line 2, column 2)",
            id="twice inside",
        ),
        pytest.param('{"note": "NaN",\n "a": NaN}', "'NaN' at line 2, column 7", id="nan"),
        pytest.param('{"a": Infinity}', "'Infinity' at line 1, column 7", id="infinity"),
        pytest.param('{"a": [-Infinity]}', "'-Infinity' at line 1, column 8", id="minus infinity"),
        pytest.param('{"a": 1e99999999999999999999}', "is not a number", id="endless exponent"),
        pytest.param('{"a": ' + "9" * 5000 + "}", "a number of 5000 characters", id="long number"),
        pytest.param('{"a": 0.' + "3" * 60 + "}", "a number of 62 characters", id="long fraction"),
        pytest.param('{"a": ' + "[" * 50 + "]" * 50 + "}", "more than 40 deep", id="deep"),
        pytest.param('{"a": ' * 45 + "1" + "}" * 45, "40 deep (line 1, column 241)",
                     id="deep objects"),
        pytest.param("[" * 100_000, "more than 40 deep (line 1, column 41)", id="very deep"),
        pytest.param('{"a": "\\ud800"}', "a character that is no text", id="half a character"),
        pytest.param('{"\\u0000": 1}', "a character that is no text", id="nothing as a key"),
    ],
)  # fmt: skip
def test_that_what_is_no_document_is_refused_with_its_place(tmp_path, content, said):
    assert said in refused(written(tmp_path, content)).what


def test_that_a_huge_but_written_number_is_left_to_the_reader_of_its_meaning(tmp_path):
    assert read_formula_text(written(tmp_path, '{"a": 1e400}')) == {"a": Decimal("1e400")}


def test_that_a_missing_file_and_a_folder_are_told_apart(tmp_path):
    assert "There is no file" in refused(tmp_path / "missing.formula.json").what
    assert "is a folder" in refused(tmp_path).what


def test_that_a_file_that_may_not_be_read_is_told(tmp_path, as_ordinary_user):
    path = written(tmp_path, GOOD)
    path.chmod(0)
    with as_ordinary_user(), pytest.raises(WorkbenchError, match="cannot be read"):
        read_formula_text(path)


@given(
    st.recursive(
        st.none()
        | st.booleans()
        | st.integers(-(10**9), 10**9)
        | st.text(st.characters(exclude_categories=("Cs",), exclude_characters="\0")),
        lambda inner: (
            st.lists(inner, max_size=3)
            | st.dictionaries(
                st.text(st.characters(exclude_categories=("Cs",), exclude_characters="\0")), inner
            )
        ),
        max_leaves=10,
    )
)
def test_that_whatever_json_says_is_read_as_said(inner):
    assert parse_formula_text(json.dumps({"a": inner}), "x") == {"a": inner}


@given(st.text(max_size=40) | st.text('{}[]":,1e.- \nNaN', max_size=40))
def test_that_any_text_is_read_or_refused_in_words(text):
    with contextlib.suppress(WorkbenchError):
        assert isinstance(parse_formula_text(text, "x"), dict)
