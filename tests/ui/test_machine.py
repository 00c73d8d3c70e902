"""Settings of the machine: read leniently, stored whole."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from workbench.ui.machine import Machine, load_machine, save_machine


def test_that_settings_come_back_as_stored(tmp_path: Path) -> None:
    file = tmp_path / "deep" / "machine.json"
    machine = Machine("dark", 1.2, "/home/pebblewick", ("ingredient", "percent", "note"))
    save_machine(file, machine)
    assert load_machine(file) == machine


def test_that_keys_of_another_version_are_kept(tmp_path: Path) -> None:
    file = tmp_path / "machine.json"
    file.write_text('{"later": [1]}', encoding="utf-8")
    save_machine(file, Machine())
    assert json.loads(file.read_text(encoding="utf-8"))["later"] == [1]


@pytest.mark.parametrize(
    "text",
    [
        "",
        "[]",
        "{",
        '{"scheme": "pink"}',
        '{"text_size": "big"}',
        '{"folder": 3}',
        '{"scheme": []}',
        '{"sheet_columns": 3}',
    ],
)
def test_that_what_makes_no_sense_is_as_by_default(tmp_path: Path, text: str) -> None:
    file = tmp_path / "machine.json"
    file.write_text(text, encoding="utf-8")
    assert load_machine(file) == Machine()


def test_that_a_folder_that_cannot_be_made_loses_nothing_else(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    save_machine(tmp_path / "file" / "machine.json", Machine())
    assert load_machine(tmp_path / "file" / "machine.json") == Machine()
