"""The catalogue: message id and values in, one sentence out."""

from __future__ import annotations

import re
from decimal import Decimal
from pathlib import Path
from typing import TYPE_CHECKING

from fluent.runtime import FluentBundle, FluentResource

from workbench.words.numbers import NumberStyle, decimal_text

if TYPE_CHECKING:
    from collections.abc import Iterable

WordValue = str | int | Decimal | tuple[str, ...]


# Fluent refuses to place a text of more than 2,500 signs in a sentence.
LONGEST_VALUE = 2000
_ENTRY = re.compile(r"^(?:(-?[a-zA-Z][\w-]*)[ ]*=|#)", re.MULTILINE)
_REFERENCE = re.compile(r"\{\s*(-?[a-zA-Z][\w-]*)")
_KEPT = 4000
"""So many sentences are kept as made; the same ones are asked for after every edit."""


class Words:
    """Make sentences in one language and one number style."""

    def __init__(self, sources: Iterable[str], language: str, style: NumberStyle) -> None:
        """Take the Fluent sources of a language; an id that is there twice raises ValueError.

        An entry is parsed when it is first said: a start says a few hundred of thousands.
        """
        self.language = language
        self.style = style
        self._said: dict[tuple[object, ...], str] = {}
        self._bundle = FluentBundle([language], use_isolating=False)
        self._unread: dict[str, str] = {}
        self._ids: set[str] = set()
        for source in sources:
            self._index(source)

    def _index(self, source: str) -> None:
        starts = [*_ENTRY.finditer(source)]
        for place, start in enumerate(starts):
            end = starts[place + 1].start() if place + 1 < len(starts) else len(source)
            name = start.group(1)
            if not name:  # a comment parts two entries
                continue
            if name in self._ids:
                raise ValueError(f"{name} is in the catalogue twice")
            self._ids.add(name)
            self._unread[name] = source[start.start() : end]

    def _read(self, name: str) -> None:
        """Parse an entry, and those its text refers to."""
        source = self._unread.pop(name, None)
        if source is None:
            return
        self._bundle.add_resource(FluentResource(source), allow_overrides=False)
        for other in _REFERENCE.findall(source):
            self._read(other)

    def has(self, message_id: str) -> bool:
        """Tell whether the catalogue knows a message."""
        return message_id in self._ids

    def say(self, message_id: str, /, **values: WordValue) -> str:
        """Return the sentence of a message.

        Raises
        ------
        KeyError
            If the message is unknown.
        ValueError
            If a value it needs is missing.
        """
        # The kind of a value counts too: 1 and Decimal(1) are equal, and may read differently.
        key = (message_id, self.style, *values.items(), *map(type, values.values()))
        said = self._said.get(key)
        if said is None:
            if len(self._said) >= _KEPT:
                self._said.clear()
            said = self._said[key] = self._made(message_id, values)
        return said

    def _made(self, message_id: str, values: dict[str, WordValue]) -> str:
        self._read(message_id)
        message = self._bundle.get_message(message_id)
        if message.value is None:
            raise KeyError(message_id)
        text, errors = self._bundle.format_pattern(message.value, self._filled(values))
        if errors:
            raise ValueError(f"{message_id}: {errors}")
        return str(text)

    def number(self, value: Decimal, places: int | None = None) -> str:
        """Return a number as text in this number style, to a number of places if given."""
        return decimal_text(value, self.style, places)

    def listed(self, items: tuple[str, ...]) -> str:
        """Return items as a list in words: a, b and c."""
        *head, tail = items or ("",)
        return self.say("list-and", head=", ".join(head), tail=tail) if head else tail

    def _filled(self, values: dict[str, WordValue]) -> dict[str, str | int]:
        filled: dict[str, str | int] = {}
        for name, value in values.items():
            if isinstance(value, Decimal):
                filled[name] = self.number(value)
            elif isinstance(value, tuple):
                filled[name] = _cut(self.listed(value))
            elif isinstance(value, str):
                filled[name] = _cut(value)
            else:
                filled[name] = value
        return filled


def _cut(text: str) -> str:
    return text if len(text) <= LONGEST_VALUE else text[: LONGEST_VALUE - 1] + "…"


def load_words(folder: Path, language: str = "en", style: NumberStyle = NumberStyle.POINT) -> Words:
    """Read every catalogue file of a language under resources/words."""
    files = sorted((folder / language).glob("*.ftl"))
    return Words([file.read_text(encoding="utf-8") for file in files], language, style)
