"""The window checks with the maker's own rules too, and tells of one it cannot use."""

from __future__ import annotations

import json
import sqlite3
from contextlib import closing

import pytest

from tests.builders import make_formula
from workbench import paths
from workbench.app import compose
from workbench.storage.opening import create_studio, open_studio
from workbench.ui.theme import Appearance, SchemeChoice
from workbench.words.catalogue import load_words

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


@pytest.fixture
def studio_path(tmp_path):
    path = tmp_path / "masks.studio"
    with create_studio(path) as studio:
        studio.own_rules.save(json.dumps(RULE))
        mask = make_formula(("water*", "0"), ("kaolin", "20"), ("honey", "6"))
        studio.formulas.create("Sandpiper mask", mask)
    with closing(sqlite3.connect(path)) as file:
        file.execute("insert into own_rules values ('broken', '{', 1)")
        file.commit()
    return path


def test_that_an_own_rule_speaks_and_a_broken_one_is_told(studio_path, qtbot):
    appearance = Appearance(paths.resources(), SchemeChoice.LIGHT)
    appearance.apply()
    words = load_words(paths.resources() / "words")
    window = compose(open_studio(studio_path), appearance, words)
    qtbot.addWidget(window)
    said = [found.values_of("message") for found in window.work.assessment.findings]
    assert RULE["message"] in said
    assert "'broken'" in window.work.notices.text
    window.close()
