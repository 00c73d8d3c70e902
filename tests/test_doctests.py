from __future__ import annotations

import doctest
import importlib
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
ROOMS = ("chemistry", "formula", "checks", "bench", "units", "words", "storage", "documents")


def modules_with_examples() -> list[str]:
    return [
        ".".join(file.relative_to(ROOT).with_suffix("").parts)
        for room in ROOMS
        for file in sorted((ROOT / "workbench" / room).rglob("*.py"))
        if ">>> " in file.read_text(encoding="utf-8")
    ]


@pytest.mark.parametrize("name", modules_with_examples())
def test_that_the_examples_in_docstrings_are_true(name):
    failed, tried = doctest.testmod(importlib.import_module(name))
    assert tried > 0
    assert failed == 0
