"""Where in a JSON text something stands; only asked once it is known to be there."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from dataclasses import dataclass

_TOKEN = re.compile(r'"(?:[^"\\]|\\.)*"|[{}\[\]:,]|[^\s"{}\[\]:,]+')


@dataclass(frozen=True, slots=True)
class Place:
    """Hold a line and a column, both from 1."""

    line: int
    column: int


def place_at(text: str, index: int) -> Place:
    """Return the line and column of an index into a text."""
    line_start = text.rfind("\n", 0, index) + 1
    return Place(text.count("\n", 0, index) + 1, index - line_start + 1)


def place_of_text(text: str, wanted: str) -> Place:
    """Return where a bare word or number stands outside of strings."""
    found = (start for token, start in _tokens(text) if token == wanted)
    return place_at(text, next(found, 0))


def place_of_depth(text: str, depth: int) -> Place:
    """Return the bracket that opens the first level past a depth."""
    level = 0
    for token, start in _tokens(text):
        if token in "{[":
            level += 1
            if level > depth:
                return place_at(text, start)
        elif token in "}]":
            level -= 1
    return place_at(text, 0)


def place_of_duplicate(text: str, wanted: str) -> Place:
    """Return where a key stands that its object has already."""
    open_objects: list[set[str] | None] = []
    last: tuple[str, int] = ("", 0)
    for token, start in _tokens(text):
        if token == "{":
            open_objects.append(set())
        elif token == "[":
            open_objects.append(None)
        elif token in "}]":
            open_objects.pop()
        elif token == ":" and open_objects:
            keys = open_objects[-1]
            key = str(json.loads(last[0]))
            if keys is not None and key in keys and key == wanted:
                return place_at(text, last[1])
            if keys is not None:
                keys.add(key)
        last = (token, start)
    return place_at(text, 0)


def _tokens(text: str) -> Iterator[tuple[str, int]]:
    return ((found.group(), found.start()) for found in _TOKEN.finditer(text))
