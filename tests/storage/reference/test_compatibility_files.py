"""The files of rules: a wrong, doubled or malformed row stops with file, line and reason."""

from __future__ import annotations

import json
import re
import shutil
from pathlib import Path

import pytest

from workbench import paths
from workbench.checks.compatibility_examples import example_fault
from workbench.errors import WorkbenchError
from workbench.storage.reference.compatibility import RuleBook, load_compatibility, own_rule
from workbench.storage.reference.shipped import Shipped

RULES = paths.resources() / "rules"
SOUND = {
    "key": "one",
    "severity": "note",
    "when": "has [tag soap]",
    "message": "Soap.",
    "why": "It is one.",
    "source": "bench",
    "confidence": "memory",
    "fires": {"potassium_cocoate": "10"},
    "quiet": {"glycerin": "3"},
}


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A reference folder with the words of rules, and beside it rules without any topic."""
    reference = tmp_path / "reference"
    reference.mkdir()
    for name in ("vocab.json", "ingredients.csv", "swaps.csv"):
        shutil.copy(paths.resources() / "reference" / name, reference)
    (tmp_path / "rules").mkdir()
    for name in ("clashes.json", "product-ph.json"):
        shutil.copy(RULES / name, tmp_path / "rules")
    return reference


def written(folder: Path, *rows: dict[str, object]) -> None:
    lines = ",\n".join(json.dumps(row) for row in rows)
    text = f'{{"title": "x",\n "rules": [\n{lines}\n]}}\n'
    (folder.parent / "rules" / "topic.json").write_text(text, encoding="utf-8")


def load(folder: Path):
    return load_compatibility(RuleBook(folder))


def refused(folder: Path) -> str:
    with pytest.raises(WorkbenchError) as refusal:
        load(folder)
    return refusal.value.detail


def test_that_a_sound_row_is_read(folder):
    written(folder, SOUND)
    known, windows = load(folder)
    assert [rule.key for rule in known.rules] == ["one"]
    assert {window.key for window in windows} >= {"leave-on-skin", "cleanser"}


@pytest.mark.parametrize(
    ("change", "reason"),
    [
        ({"severity": "stop"}, "rule-severity-wrong: stop"),
        ({"confidence": "sure"}, "rule-confidence-wrong: sure"),
        ({"why": " "}, "rule-field-empty: why"),
        ({"colour": "red"}, "rule-field-surplus: colour"),
        ({"when": "has [tag soup]"}, "rule-word-unknown: soup"),
        ({"when": "has [key glycerine]"}, "rule-word-unknown: glycerine"),
        ({"when": "has [function soap]"}, "rule-word-unknown: soap"),
        ({"when": "exposure sometimes"}, "rule-word-unknown: sometimes"),
        ({"when": "spectrum-lacks virus"}, "rule-word-unknown: virus"),
        ({"when": "has [tag soap"}, "rule-ends-early"),
        ({"fires": {}}, "rule-example-wrong"),
        ({"fires": {"nothing_known": "1"}}, "rule-word-unknown: nothing_known"),
        ({"fires": {"glycerin": "a lot"}}, "rule-number-missing: a lot"),
        ({"quiet": {"glycerin": "-1"}}, "rule-number-missing: -1"),
        ({"remedy": {"add": "glycerin"}}, "rule-remedy-wrong"),
    ],
)
def test_that_a_wrong_row_stops_with_file_line_and_reason(folder, change, reason):
    written(folder, SOUND, {**SOUND, "key": "two", "when": "has [tag paraben]", **change})
    assert refused(folder) == f"topic.json:4: {reason}"


def test_that_a_missing_field_is_named(folder):
    written(folder, {name: value for name, value in SOUND.items() if name != "source"})
    assert refused(folder) == "topic.json:3: rule-field-missing: source"


def test_that_a_row_that_stands_twice_stops(folder):
    written(folder, SOUND, {**SOUND, "when": "has [tag paraben]"})
    assert refused(folder) == "topic.json:4: 'key one' stands already at topic.json:3"
    written(folder, SOUND, {**SOUND, "key": "two"})
    assert refused(folder).startswith("topic.json:4: 'when has [tag soap]' stands already")


def test_that_a_broken_file_stops_at_its_line(folder):
    (folder.parent / "rules" / "topic.json").write_text('{"rules": [\n{"key": }]}', "utf-8")
    assert refused(folder).startswith("topic.json:2: ")


def test_that_a_wrong_product_window_stops(folder):
    file = folder.parent / "rules" / "product-ph.json"
    text = file.read_text("utf-8")
    line = text[: text.index('"low": "5"')].count("\n") + 1
    file.write_text(text.replace('"low": "5"', '"low": "sour"'), "utf-8")
    assert refused(folder).startswith(f"product-ph.json:{line}: ")


def test_that_every_clash_of_the_vocabulary_is_defined_but_for_conditions():
    words = json.loads((paths.resources() / "reference" / "vocab.json").read_text("utf-8"))
    wanted = {
        code
        for code, entry in words["incompatibility_codes"].items()
        if entry["type"] != "condition"
    }
    assert set(RuleBook(paths.resources() / "reference").clashes) == wanted


def test_that_swaps_know_the_window_of_what_comes_in():
    swaps = {(s.from_key, s.to_key): s for s in RuleBook(paths.resources() / "reference").swaps}
    swap = swaps["ascorbic_acid", "sodium_ascorbyl_phosphate"]
    # ingredients.csv: ascorbyl phosphates want pH 6 or higher.
    assert (str(swap.low), str(swap.high)) == ("6", "7.5")


def test_that_the_example_of_the_guide_is_a_rule():
    guide = (RULES / "README.md").read_text("utf-8")
    [text] = re.findall(r"```json\n(.*?)```", guide, re.DOTALL)
    shipped = Shipped(paths.resources() / "reference")
    rule = own_rule(RuleBook(paths.resources() / "reference"), text, frozenset())
    assert example_fault(rule, shipped.ingredients) == ""
