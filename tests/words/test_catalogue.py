"""Every code a pure room can give has its sentence."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest
from fluent.runtime import FluentBundle, FluentResource

from workbench import paths
from workbench.words.catalogue import Words, load_words
from workbench.words.numbers import NumberStyle

ROOT = Path(__file__).resolve().parents[2] / "workbench"
WORDS = load_words(paths.resources() / "words")
PATTERNS = {
    "Finding": ("{}", "{}-detail"),
    "Remedy": ("{}",),
    "EditRefused": ("{}",),
    "Absent": ("{}",),
}


def codes(call: str) -> Iterator[str]:
    """Yield the first argument of each call of a name, where it is written out."""
    for room in ("formula", "checks", "bench", "chemistry"):
        for file in sorted((ROOT / room).glob("*.py")):
            for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
                if not isinstance(node, ast.Call) or getattr(node.func, "id", "") != call:
                    continue
                first = node.args[0] if node.args else None
                for part in ast.walk(first) if first is not None else ():
                    if isinstance(part, ast.Constant) and isinstance(part.value, str):
                        yield part.value


@pytest.mark.parametrize("call", PATTERNS)
def test_that_every_code_has_its_messages(call: str) -> None:
    found = set(codes(call))
    assert found
    missing = [
        pattern.format(code)
        for code in sorted(found)
        for pattern in PATTERNS[call]
        if not WORDS.has(pattern.format(code))
    ]
    assert missing == []


def test_that_a_list_reads_as_one() -> None:
    assert WORDS.listed(()) == ""
    assert WORDS.listed(("a",)) == "a"
    assert WORDS.listed(("a", "b", "c")) == "a, b and c"


def test_that_an_unknown_message_is_a_bug() -> None:
    with pytest.raises((KeyError, LookupError)):
        WORDS.say("no-such-message")


def test_that_a_missing_value_is_a_bug() -> None:
    with pytest.raises(ValueError, match="total-short"):
        WORDS.say("total-short")


def test_that_entries_read_one_by_one_are_those_of_the_whole_files() -> None:
    # The whole files read by the Fluent parser itself are the measure.
    bundle = FluentBundle(["en"])
    for file in sorted((paths.resources() / "words" / "en").glob("*.ftl")):
        bundle.add_resource(FluentResource(file.read_text(encoding="utf-8")))
    whole = {*bundle._messages, *(f"-{name}" for name in bundle._terms)}
    assert len(whole) > 1000
    assert [name for name in sorted(whole) if not WORDS.has(name)] == []


def test_that_an_entry_may_speak_of_another_of_any_file() -> None:
    words = Words(["inner = water", "outer = { inner } and oil"], "en", NumberStyle.POINT)
    assert words.say("outer") == "water and oil"


def test_that_an_id_given_twice_is_refused() -> None:
    with pytest.raises(ValueError, match="twice"):
        Words(["one = a", "one = b"], "en", NumberStyle.POINT)
