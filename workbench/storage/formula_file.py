"""Reading a formula document from a file as plain data, whatever the file holds."""

from __future__ import annotations

import codecs
import json
from decimal import Decimal, InvalidOperation
from pathlib import Path

from workbench.errors import WorkbenchError
from workbench.storage.json_places import (
    Place,
    place_of_depth,
    place_of_duplicate,
    place_of_text,
)
from workbench.storage.sentences import refusal
from workbench.storage.text_file import read_bytes_file

MOST_BYTES = 5_000_000
MOST_DEPTH = 40
MOST_DIGITS = 40
_UTF16 = (codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)


def read_formula_text(path: Path) -> dict[str, object]:
    """Return the JSON object a formula document holds; numbers with a point are Decimal.

    Raises
    ------
    WorkbenchError
        If it cannot be read, is too large, is not text, or is not one JSON object; the
        sentence says where.
    """
    return parse_formula_text(_decoded(_content(path), path.name), path.name)


def parse_formula_text(text: str, file: str) -> dict[str, object]:
    """Return the JSON object a text holds; `file` names it in a refusal."""
    try:
        data = json.loads(
            text,
            object_pairs_hook=_unique,
            parse_constant=_no_number,
            parse_float=_decimal,
            parse_int=_whole,
        )
    except json.JSONDecodeError as error:
        reason = error.msg[:1].lower() + error.msg[1:]
        place = Place(error.lineno, error.colno)
        raise _at("not-json", place, file, reason=reason) from error
    except _Duplicate as error:
        place = place_of_duplicate(text, error.what)
        raise _at("duplicate", place, file, key=error.what[:60]) from error
    except _NotANumber as error:
        place = place_of_text(text, error.what)
        raise _at("not-a-number", place, file, text=error.what) from error
    except _LongNumber as error:
        raise _at(
            "long-number",
            place_of_text(text, error.what),
            file,
            digits=str(len(error.what)),
            limit=MOST_DIGITS,
        ) from error
    except RecursionError as error:
        raise _too_deep(text, file) from error
    if not isinstance(data, dict):
        raise refusal("document-not-object", file=file)
    _require_shallow_text(data, text, file)
    return data


class _Found(Exception):
    def __init__(self, what: str) -> None:
        super().__init__(what)
        self.what = what


class _Duplicate(_Found):
    pass


class _NotANumber(_Found):
    pass


class _LongNumber(_Found):
    pass


def _content(path: Path) -> bytes:
    content = read_bytes_file(path, MOST_BYTES)
    if len(content) > MOST_BYTES:
        limit = MOST_BYTES // 1_000_000
        raise refusal("document-too-large", file=path.name, limit=limit)
    if not content.strip():
        raise refusal("document-empty", file=path.name)
    return content


def _decoded(content: bytes, file: str) -> str:
    if content.startswith(_UTF16):
        raise refusal("document-not-utf8", file=file, line=1)
    if b"\x00" in content:
        raise refusal("document-binary", file=file)
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        raise refusal("document-not-utf8", file=file, line=line) from error


def _unique(pairs: list[tuple[str, object]]) -> dict[str, object]:
    found: dict[str, object] = {}
    for key, value in pairs:
        if key in found:
            raise _Duplicate(key)
        found[key] = value
    return found


def _no_number(text: str) -> object:
    raise _NotANumber(text)


def _decimal(text: str) -> Decimal:
    if len(text) > MOST_DIGITS:
        raise _LongNumber(text)
    try:
        return Decimal(text)
    except InvalidOperation:  # an exponent of twenty digits
        raise _NotANumber(text) from None


def _whole(text: str) -> int:
    if len(text) > MOST_DIGITS:
        raise _LongNumber(text)
    return int(text)


def _require_shallow_text(data: object, text: str, file: str) -> None:
    waiting = [(data, 1)]
    while waiting:
        value, depth = waiting.pop()
        if isinstance(value, str):
            _require_characters(value, file)
            continue
        if not isinstance(value, dict | list):
            continue
        if depth > MOST_DEPTH:
            raise _too_deep(text, file)
        if isinstance(value, dict):
            waiting.extend((key, depth) for key in value)
            waiting.extend((inner, depth + 1) for inner in value.values())
        else:
            waiting.extend((inner, depth + 1) for inner in value)


def _require_characters(value: str, file: str) -> None:
    # JSON can spell out halves of characters, which no file and no database can hold.
    if "\x00" not in value and not any("\ud800" <= char <= "\udfff" for char in value):
        return
    near = "".join(char for char in value if char.isprintable())[:30]
    raise refusal("document-bad-character", file=file, near=near)


def _too_deep(text: str, file: str) -> WorkbenchError:
    return _at("too-deep", place_of_depth(text, MOST_DEPTH), file, limit=MOST_DEPTH)


def _at(code: str, place: Place, file: str, **values: str | int) -> WorkbenchError:
    where = {"file": file, "line": str(place.line), "column": str(place.column)}
    return refusal(f"document-{code}", "", **where, **values)
