from __future__ import annotations

import re
from pathlib import Path

import pytest

from workbench import paths
from workbench.storage.sentences import refusal

STORAGE = Path(__file__).resolve().parents[2] / "workbench" / "storage"
CATALOGUE = "\n".join(
    (paths.resources() / "words" / "en" / name).read_text(encoding="utf-8")
    for name in ("storage.ftl", "sheets.ftl", "compatibility.ftl")
)
# The faults inside a document have a catalogue and tests of their own.
SOURCE = "\n".join(
    file.read_text(encoding="utf-8")
    for file in sorted(STORAGE.rglob("*.py"))
    if file.name != "formula_document.py"
)

TOLD = set(re.findall(r"^storage-([a-z0-9-]+) =", CATALOGUE, re.MULTILINE))
RAISED = {
    *re.findall(r'refusal\(\s*"([a-z0-9-]+)"', SOURCE),
    *(f"document-{code}" for code in re.findall(r'_at\(\s*"([a-z0-9-]+)"', SOURCE)),
    *re.findall(r'^    \d+: "([a-z-]+)",$', SOURCE, re.MULTILINE),
}
VALUES = dict.fromkeys(
    [
        "file",
        "folder",
        "revision",
        "backup",
        "reason",
        "name",
        "key",
        "number",
        "users",
        "keys",
        "where",
        "names",
        "line",
        "column",
        "text",
        "near",
        "limit",
        "digits",
        "same",
        "most",
        "size",
        "rule",
    ],
    "thing",
)

# Why a rule is not used is said by the end of a sentence, not by a word.
SENTENCES = {"own-rule": {"reason": "it is no rule."}}


@pytest.mark.parametrize("code", sorted(RAISED))
def test_that_every_refusal_says_what_happened_and_what_helps(code):
    error = refusal(code, **VALUES | SENTENCES.get(code, {}))
    for said in (error.what, error.remedy):
        assert said.endswith(".")
        assert said.count(". ") == 0, "one sentence each"


def test_that_no_sentence_is_left_over():
    plain = set(re.findall(r'sentence\(\s*"storage-([a-z0-9-]+)"', SOURCE))
    assert {code for code in TOLD if not code.endswith("-remedy")} == RAISED | plain
    assert {code.removesuffix("-remedy") for code in TOLD if code.endswith("-remedy")} == RAISED
