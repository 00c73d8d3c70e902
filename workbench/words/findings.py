"""Findings, remedies and figures in words, with the names of the shelf."""

from __future__ import annotations

from collections.abc import Iterable

from workbench.checks.finding import Finding, Remedy, Value
from workbench.formula.shelf import Shelf
from workbench.words.catalogue import Words

_KEYS = ("ingredient", "line")


def named(values: Iterable[tuple[str, Value]], shelf: Shelf) -> dict[str, Value]:
    """Return values with ingredient keys turned into the names the maker knows."""
    return {
        name: shelf.name(value) if name in _KEYS and isinstance(value, str) else value
        for name, value in values
    }


def title(found: Finding, shelf: Shelf, words: Words) -> str:
    """Return the headline of a finding."""
    return words.say(found.code, **named(found.values, shelf))


def detail(found: Finding, shelf: Shelf, words: Words) -> str:
    """Return the sentence or two below it."""
    return words.say(f"{found.code}-detail", **named(found.values, shelf))


def remedy_text(remedy: Remedy, shelf: Shelf, words: Words) -> str:
    """Return what a remedy does."""
    return words.say(remedy.code, **named(remedy.values, shelf))
