"""The maker's own rules: kept as written, refused in words, never in the way of opening."""

from __future__ import annotations

import json
import sqlite3
from contextlib import closing
from dataclasses import replace

import pytest

from workbench.errors import WorkbenchError
from workbench.storage.opening import open_studio

ROW = {
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


def text(**changes) -> str:
    return json.dumps({**ROW, **changes}, indent=1)


def refusal_of(studio, written: str, counter: int = 0) -> str:
    with pytest.raises(WorkbenchError) as refused:
        studio.own_rules.save(written, counter)
    assert refused.value.remedy
    return refused.value.what


def test_that_a_rule_is_kept_as_it_was_written_and_used(studio):
    saved = studio.own_rules.save(text())
    assert (saved.key, saved.counter) == ("honey-and-clay", 1)
    assert studio.own_rules.written() == (saved,)
    [rule] = studio.own_rules.read().rules
    assert rule.is_own
    assert rule.message == ROW["message"]


def test_that_a_rule_may_speak_of_an_own_ingredient(studio):
    honey = studio.ingredients.get(["honey"])["honey"]
    studio.ingredients.add_own(replace(honey, key="heather_honey"))
    studio.own_rules.save(
        text(
            when="has [key heather_honey]",
            fires={"heather_honey": "5"},
            quiet={"honey": "5"},
        )
    )
    assert len(studio.own_rules.read().rules) == 1


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"when": "has [key hony]"}, "'hony' is not known here."),
        ({"when": "has key honey"}, "'key' is not understood there."),
        ({"severity": "stop"}, "its severity is 'stop'"),
        ({"key": "benzene"}, "another rule is called 'benzene'."),
        ({"fires": {"honey": "1", "kaolin": "1"}}, "its own example 'fires'"),
        ({"quiet": {"honey": "9", "kaolin": "1"}}, "its own example 'quiet'"),
    ],
)
def test_that_a_bad_rule_is_refused_in_words(studio, changes, said):
    assert said in refusal_of(studio, text(**changes))
    assert studio.own_rules.written() == ()


def test_that_what_is_no_rule_at_all_is_refused_with_its_line(studio):
    assert "look at line 2" in refusal_of(studio, '{"key":\n oops}')


def test_that_a_rule_is_changed_over_its_own_state_only(studio):
    saved = studio.own_rules.save(text())
    again = studio.own_rules.save(text(message="They ferment."), saved.counter)
    assert again.counter == 2
    assert "another window" in refusal_of(studio, text(message="No."), saved.counter)
    assert "another rule" in refusal_of(studio, text())


def test_that_a_rule_is_removed(studio):
    studio.own_rules.save(text())
    studio.own_rules.remove("honey-and-clay")
    assert studio.own_rules.written() == ()


def test_that_a_studio_with_a_bad_rule_opens_and_tells(studio_path):
    with closing(sqlite3.connect(studio_path)) as file, file:
        file.execute("insert into own_rules values ('broken', '{', 1)")
        file.execute("insert into own_rules values (?, ?, 1)", (ROW["key"], text()))
    with open_studio(studio_path) as studio:
        read = studio.own_rules.read()
        assert [rule.key for rule in read.rules] == ["honey-and-clay"]
        [refused] = read.refused
        assert refused.what.startswith("Your rule 'broken' is not used: ")
        studio.own_rules.remove("broken")
        assert studio.own_rules.read().refused == ()
