"""A studio's own rules of the trade, used by `assess`; a bad one is told and stops nothing."""

from __future__ import annotations

import json
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from workbench.cli import main
from workbench.storage.opening import create_studio

RULE = {
    "key": "honey-and-clay",
    "severity": "caution",
    "when": "has [key honey] >= 5 and has [function clay]",
    "message": "Our honey masks ferment.",
    "why": "Clay takes the preservative.",
    "source": "batch notes",
    "confidence": "memory",
    "fires": {"honey": "6", "kaolin": "20"},
    "quiet": {"honey": "2", "kaolin": "20"},
}
MASK = {
    "format": "formulation-workbench/formula",
    "format_version": 1,
    "name": "Sandpiper mask",
    "product_type": "clay-mask",
    "exposure": "rinse-off",
    "markets": ["EU"],
    "phases": [
        {
            "name": "All",
            "lines": [
                {"ingredient": "water", "percent": "rest"},
                {"ingredient": "kaolin", "percent": "20"},
                {"ingredient": "honey", "percent": "6"},
                {"ingredient": "phenoxyethanol_ehg", "percent": "0.9"},
            ],
        }
    ],
}


@pytest.fixture
def studio(tmp_path: Path) -> Path:
    path = tmp_path / "rules.studio"
    with create_studio(path) as made:
        made.own_rules.save(json.dumps(RULE))
    return path


@pytest.fixture
def mask(tmp_path: Path) -> Path:
    path = tmp_path / "mask.formula.json"
    path.write_text(json.dumps(MASK), encoding="utf-8")
    return path


def said(capsys: pytest.CaptureFixture[str], *options: str) -> tuple[str, str]:
    assert main(["assess", *options]) in (0, 1)
    told = capsys.readouterr()
    return told.out, told.err


def test_that_a_rule_of_the_studio_speaks(
    studio: Path, mask: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert RULE["message"] not in said(capsys, str(mask))[0]
    out, err = said(capsys, str(mask), "--studio", str(studio))
    assert RULE["message"] in out
    assert err == ""


def test_that_a_rule_that_cannot_be_used_is_told_and_the_others_speak(
    studio: Path, mask: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    with closing(sqlite3.connect(studio)) as file:
        file.execute("insert into own_rules values ('broken', '{', 1)")
        file.commit()
    out, err = said(capsys, str(mask), "--studio", str(studio))
    assert RULE["message"] in out
    assert "'broken'" in err
    assert len(err.strip().splitlines()) == 1
