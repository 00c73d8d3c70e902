from __future__ import annotations

import ast
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
PACKAGE = ROOT / "workbench"
PURE_ROOMS = ("chemistry", "formula", "checks", "bench")

BANNED_CALLS = {"open", "print", "input", "__import__", "eval", "exec", "compile", "breakpoint"}
BANNED_METHODS = {"now", "utcnow", "today"}

MOST_LINES = {
    "chemistry": 300,
    "formula": 300,
    "checks": 300,
    "bench": 300,
    "storage": 350,
    "documents": 300,
    "ui": 400,
}
MOST_LINES_ELSEWHERE = 300
MOST_LINES_OF_TESTS = 500


def outside_world(source: str) -> list[str]:
    """Return what a source calls that reaches a file, a screen or a clock."""
    found = []
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Name) and node.id in BANNED_CALLS:
            found.append(f"line {node.lineno}: {node.id}")
        elif isinstance(node, ast.Attribute) and node.attr in BANNED_METHODS:
            found.append(f"line {node.lineno}: .{node.attr}")
    return found


def pure_files() -> list[Path]:
    return [file for room in PURE_ROOMS for file in sorted((PACKAGE / room).rglob("*.py"))]


def named(files: list[Path]) -> list[object]:
    return [pytest.param(file, id=file.relative_to(ROOT).as_posix()) for file in files]


@pytest.mark.parametrize("file", named(pure_files()))
def test_that_pure_rooms_reach_no_file_screen_or_clock(file):
    assert outside_world(file.read_text(encoding="utf-8")) == []


@pytest.mark.parametrize(
    "source",
    [
        "open('x')",
        "print(1)",
        "__import__('os')",
        "reader = open",
        "datetime.now()",
        "datetime.datetime.utcnow()",
        "date.today()",
        "from datetime import datetime as d\nd.now()",
        "stamp = field(default_factory=datetime.now)",
    ],
)
def test_that_reaching_outside_is_seen(source):
    assert outside_world(source) != []


@pytest.mark.parametrize("source", ["date(2026, 1, 1)", "opened = True", "day.isoformat()"])
def test_that_dates_as_arguments_are_allowed(source):
    assert outside_world(source) == []


def test_that_every_pure_room_is_looked_at():
    assert {file.relative_to(PACKAGE).parts[0] for file in pure_files()} == set(PURE_ROOMS)


def most_lines(file: Path) -> int:
    if not file.is_relative_to(PACKAGE):
        return MOST_LINES_OF_TESTS
    return MOST_LINES.get(file.relative_to(PACKAGE).parts[0], MOST_LINES_ELSEWHERE)


@pytest.mark.parametrize(
    "file", named([*sorted(PACKAGE.rglob("*.py")), *sorted((ROOT / "tests").rglob("*.py"))])
)
def test_that_files_stay_small_enough_to_read(file):
    assert len(file.read_text(encoding="utf-8").splitlines()) <= most_lines(file)
