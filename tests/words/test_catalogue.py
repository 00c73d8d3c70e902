"""Every code a pure room can give has its sentence."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

from workbench import paths
from workbench.words.catalogue import load_words

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
