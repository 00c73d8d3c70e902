"""The rows of the list of versions: the draft first, then the versions, newest first."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from workbench.formula.versions import same_design
from workbench.storage.versions import VersionEntry
from workbench.ui.models.value_table import Column
from workbench.ui.places.desk.work import DeskWork
from workbench.words.catalogue import Words

DRAFT = 0
"""Stands for the draft among the numbers of versions, which begin with 1."""
NUMBER, DATE, REASON, BATCHES, MARK = range(5)


@dataclass(frozen=True, slots=True)
class VersionRow:
    """Hold one row: the number, the texts, and whether it is marked to compare with."""

    number: int
    name: str
    date: str
    reason: str
    batches: int = 0
    is_marked: bool = False


def version_name(number: int, words: Words) -> str:
    """Return what a version, or the draft, is called."""
    return words.say("versions-number", number=number) if number else words.say("versions-draft")


def read_rows(work: DeskWork, marked: int | None) -> tuple[VersionRow, ...]:
    """Return the draft and the versions of the open formula.

    Raises
    ------
    WorkbenchError
        If the studio cannot be read.
    """
    words = work.words
    entries = work.studio.versions.entries(work.key)
    made = Counter(batch.version for batch in work.studio.batches.of_formula(work.key))
    draft = VersionRow(
        DRAFT,
        words.say("versions-draft"),
        words.say("versions-now"),
        draft_state(work, entries),
        is_marked=marked == DRAFT,
    )
    rows = (
        VersionRow(
            entry.number,
            version_name(entry.number, words),
            entry.made_at.astimezone().strftime("%Y-%m-%d %H:%M"),
            entry.reason,
            made[entry.number],
            is_marked=marked == entry.number,
        )
        for entry in reversed(entries)
    )
    return (draft, *rows)


def draft_state(work: DeskWork, entries: tuple[VersionEntry, ...]) -> str:
    """Return whether the draft differs from the latest version."""
    if not entries:
        return work.words.say("versions-draft-first")
    latest = entries[-1].number
    is_same = same_design(work.formula, work.studio.versions.get(work.key, latest).formula)
    message = "versions-draft-same" if is_same else "versions-draft-changed"
    return work.words.say(message, number=latest)


def version_columns(words: Words) -> tuple[Column[VersionRow], ...]:
    """Return the columns: which, when, why, how often made, and the mark."""
    say = words.say
    mark = say("versions-column-mark")
    return (
        Column(
            "version",
            say("versions-column-version"),
            text=lambda row: row.name,
            accessible=lambda row: ", ".join(
                part
                for part in (row.name, row.date, row.reason, mark if row.is_marked else "")
                if part
            ),
        ),
        Column("date", say("versions-column-date"), text=lambda row: row.date),
        Column(
            "reason",
            say("versions-column-reason"),
            text=lambda row: row.reason,
            tip=lambda row: row.reason,
        ),
        Column(
            "batches",
            say("versions-column-batches"),
            text=lambda row: str(row.batches) if row.batches else "",
            is_numeric=True,
        ),
        Column(
            "mark",
            mark,
            text=lambda row: say("versions-marked") if row.is_marked else "",
            look=lambda row: row.is_marked,
        ),
    )
