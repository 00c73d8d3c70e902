"""The sentences in which storage refuses."""

from __future__ import annotations

from functools import cache

from workbench import paths
from workbench.errors import WorkbenchError
from workbench.words.catalogue import Words, WordValue
from workbench.words.numbers import NumberStyle


def sentence(message_id: str, /, **values: WordValue) -> str:
    """Return one sentence of storage."""
    return _words().say(message_id, **values)


def refusal(code: str, /, detail: str = "", **values: WordValue) -> WorkbenchError:
    """Return the error of a code: what happened, and what helps, each one sentence."""
    return WorkbenchError(
        sentence(f"storage-{code}", **values),
        sentence(f"storage-{code}-remedy", **values),
        detail,
    )


@cache
def _words() -> Words:
    # Read at the first refusal only: a studio that opens well needs no catalogue.
    folder = paths.resources() / "words" / "en"
    names = ("common.ftl", "storage.ftl", "document.ftl", "compatibility.ftl", "sheets.ftl")
    sources = [(folder / name).read_text(encoding="utf-8") for name in names]
    return Words(sources, "en", NumberStyle.POINT)
