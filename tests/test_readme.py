from __future__ import annotations

import json
import re
from pathlib import Path

import jsonschema
import pytest

from workbench import paths
from workbench.__main__ import COMMANDS
from workbench.cli.parser import build_parser

ROOT = Path(__file__).resolve().parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")
CI_RUN = (ROOT / ".ci" / "run").read_text(encoding="utf-8")
SCHEMA = json.loads((paths.resources() / "schema" / "formula-1.schema.json").read_text("utf-8"))


def blocks(language: str) -> list[str]:
    return re.findall(rf"```{language}\n(.*?)```", README, re.DOTALL)


def test_that_the_formula_document_shown_is_one():
    (shown,) = blocks("json")
    jsonschema.validate(json.loads(shown), SCHEMA)


def listed(row: str) -> set[str]:
    match = re.search(rf"^\| {re.escape(row)} \| (.*) \|$", README, re.MULTILINE)
    assert match is not None
    return set(match[1].split(", "))


@pytest.mark.parametrize("field", ["exposure", "area", "users", "form"])
def test_that_the_values_listed_are_those_of_the_schema(field):
    assert listed(f"`{field}`") == set(SCHEMA["properties"][field]["enum"])


def test_that_the_product_types_listed_are_those_of_the_schema():
    assert listed("`product_type`") == set(SCHEMA["$defs"]["product_type"]["enum"])


def test_that_the_markets_listed_are_those_of_the_schema():
    assert listed("`markets`") == set(SCHEMA["properties"]["markets"]["items"]["enum"])


@pytest.mark.parametrize("command", COMMANDS)
def test_that_each_command_is_shown_with_options_it_has(command):
    shown = re.search(rf"^\| `formulation-workbench {command} ([^`]*)`", README, re.MULTILINE)
    assert shown is not None
    known = build_parser().format_help() + _help_of(command)
    for option in re.findall(r"--[a-z]+", shown[1]):
        assert option in known


def _help_of(command: str) -> str:
    for action in build_parser()._actions:
        if isinstance(action.choices, dict):
            return action.choices[command].format_help()
    raise AssertionError(command)


def test_that_the_libraries_listed_are_those_the_build_installs():
    (listed_here,) = (block for block in blocks("sh") if "apt-get" in block)
    packages = set(re.findall(r"\blib[a-z0-9.-]+", listed_here))
    block = re.search(r'qt_packages="(.*?)"', CI_RUN, re.DOTALL)
    assert block is not None
    assert packages == set(block[1].split())
