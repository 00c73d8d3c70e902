"""What could come onto a line as rows of a list: each with why, and with what differs."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from workbench.checks.swap_effect import ph_asked_without
from workbench.formula.candidate_values import Candidate
from workbench.storage.folding import folded
from workbench.ui.models.column import Column
from workbench.ui.models.value_table import ValueTableModel
from workbench.words.rework import reason_text

if TYPE_CHECKING:
    from workbench.formula.shelf import Shelf
    from workbench.ui.places.desk.work import DeskWork
    from workbench.words.catalogue import Words

CANDIDATE = "candidate"
MOST = 40
MOST_HITS = 20


@dataclass(frozen=True, slots=True)
class CandidateRow:
    """Hold one material that could come; `why` and `differs` are read and painted as they are.

    `beside` stands at the right of the name: that it is a stock, that it is on hand.
    `ratio_kind` is how its amount is found at first, empty where the first of its ratios serves.
    """

    key: str
    name: str
    why: str = ""
    differs: str = ""
    beside: str = ""
    on_hand: bool = False
    ratio_kind: str = ""

    @property
    def said(self) -> str:
        """The row as it is read out."""
        parts = (self.name, self.beside, self.why, self.differs)
        return ". ".join(part for part in parts if part)


def candidate_model(words: Words) -> ValueTableModel[CandidateRow]:
    """Return an empty model of candidates."""
    return ValueTableModel(
        (
            Column[CandidateRow](
                CANDIDATE,
                words.say("swap-candidates"),
                text=lambda row: row.name,
                look=lambda row: row,
                accessible=lambda row: row.said,
                tip=lambda row: "\n".join(part for part in (row.why, row.differs) if part),
            ),
        ),
        lambda row: row.key,
    )


class CandidateSource:
    """Find what could come onto a line: the ranked ones, and whatever else is typed."""

    def __init__(self, work: DeskWork) -> None:
        """Take the work whose studio is searched."""
        self._work = work
        self._ranked: tuple[CandidateRow, ...] = ()

    def rank(self, line_id: int) -> None:
        """Rank what could take the place of what is on a line."""
        work = self._work
        line = work.formula.line(line_id)
        asked = ph_asked_without(line_id, work.assessment.ph_windows)
        purpose = line.purpose or work.shelf.purpose(line.ingredient)
        found = work.studio.candidates(line.ingredient, purpose=purpose, ph=asked, most=MOST)
        self._ranked = tuple(
            candidate_row(one, work.shelf, work.words) for one in found if one.key != work.key
        )

    def rows(self, typed: str) -> tuple[CandidateRow, ...]:
        """Return the ranked rows that fit what is typed, then what else is called like it."""
        asked = folded(typed)
        if not asked:
            return self._ranked
        fitting = [row for row in self._ranked if asked in folded(row.name)]
        known = {row.key for row in fitting} | {self._work.key}
        return (*fitting, *(row for row in self._hits(typed) if row.key not in known))

    def _hits(self, typed: str) -> tuple[CandidateRow, ...]:
        search, words = self._work.studio.search, self._work.words
        there = {hit.key for hit in search(typed, MOST_HITS, on_hand=True)}
        ranked = {row.key: row for row in self._ranked}
        return tuple(
            ranked.get(hit.key)
            or CandidateRow(
                hit.key,
                hit.name,
                why="" if hit.is_stock else hit.inci,
                beside=_beside(words, is_stock=hit.is_stock, on_hand=hit.key in there),
                on_hand=hit.key in there,
            )
            for hit in search(typed, MOST_HITS)
        )


def candidate_row(candidate: Candidate, shelf: Shelf, words: Words) -> CandidateRow:
    """Return a candidate as a row."""
    why = [reason for reason in candidate.why if reason.code != "why-on-hand"]
    reasons = tuple(reason_text(reason, shelf, words) for reason in why)
    differing = tuple(reason_text(reason, shelf, words) for reason in candidate.differs)
    row = CandidateRow(
        candidate.key,
        candidate.name,
        why=_sentence("; ".join(reasons)),
        beside=_beside(words, is_stock=candidate.is_stock, on_hand=candidate.on_hand),
        on_hand=candidate.on_hand,
        ratio_kind=candidate.ratio.kind,
    )
    if not differing:
        return row
    return replace(row, differs=words.say("swap-but", differs="; ".join(differing)))


def _sentence(text: str) -> str:
    return text[:1].upper() + text[1:]


def _beside(words: Words, *, is_stock: bool, on_hand: bool) -> str:
    parts = (
        words.say("sheet-stock") if is_stock else "",
        words.say("swap-on-hand") if on_hand else "",
    )
    return ", ".join(part for part in parts if part)
