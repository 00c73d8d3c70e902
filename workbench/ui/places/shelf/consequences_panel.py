"""Formulas that would read differently when a fact changes: worked out, then listed."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from PySide6.QtWidgets import QVBoxLayout, QWidget

from workbench.checks.consequences import Difference, difference
from workbench.checks.rules import Rules
from workbench.formula.ingredient import Ingredient
from workbench.formula.scope import scope_of
from workbench.formula.shelf import Shelf
from workbench.storage.studio import Studio
from workbench.storage.where_used import Use
from workbench.ui.places.desk.work import DeskWork
from workbench.ui.places.shelf.fact_rows import FactGroup, ShownFact
from workbench.ui.theme import Theme
from workbench.words.catalogue import Words
from workbench.words.findings import title

_MOST_FINDINGS = 3
# What a maker reads; the sums behind them are told by these.
_TOLD = (
    "composition",
    "label",
    "figures",
    "ph",
    "ph_windows",
    "adjusters",
    "preservatives",
    "cost",
    "lines",
)


@dataclass(frozen=True, slots=True)
class Consequence:
    """Hold one formula that would read differently, with the shelf its findings are named by."""

    use: Use
    difference: Difference
    shelf: Shelf


@dataclass(frozen=True, slots=True)
class Consequences:
    """Hold what was looked through, and which of it would read differently."""

    used: int
    differing: tuple[Consequence, ...]


def consequences_of(studio: Studio, rules: Rules, item: Ingredient, today: date) -> Consequences:
    """Return which drafts would read differently with an ingredient changed."""
    uses = studio.ingredients.used_in(item.key)
    found = []
    for use in uses:
        formula, _ = studio.formulas.draft(use.key)
        shelf = studio.shelf_for(formula)
        differs = difference(formula, shelf, item, scope_of(formula, today), rules)
        if differs is not None:
            found.append(Consequence(use, differs, shelf))
    return Consequences(len(uses), tuple(found))


class ConsequencesPanel(QWidget):
    """List the formulas that would differ, and in what."""

    def __init__(self, work: DeskWork, theme: Theme) -> None:
        super().__init__()
        self._words = work.words
        self.setObjectName("shelf_consequences")
        heading = work.words.say("shelf-differs")
        self._group = FactGroup("consequences", heading, work.words, theme, is_listing=True)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self._group)
        self.hide()

    @property
    def facts(self) -> tuple[ShownFact, ...]:
        """The formulas that are listed, each with what differs."""
        return self._group.facts

    @property
    def texts(self) -> tuple[str, ...]:
        """The sentences around the list."""
        return self._group.texts

    def set_theme(self, theme: Theme) -> None:
        """Take the colours and sizes of another theme."""
        self._group.set_theme(theme)

    def show_consequences(self, found: Consequences) -> None:
        """List what was found."""
        rows = tuple(
            ShownFact(each.use.name, consequence_text(each, self._words))
            for each in found.differing
        )
        lead = self._words.say("shelf-differs-lead", used=found.used, differing=len(rows))
        foot = self._words.say("shelf-differs-foot") if rows else ""
        self._group.show_facts(rows, lead, foot)
        self.show()


def consequence_text(found: Consequence, words: Words) -> str:
    """Return in words what of a formula would differ."""
    differs = found.difference
    said: list[str] = []
    for code, findings in (("new", differs.new), ("gone", differs.gone)):
        for finding in findings[:_MOST_FINDINGS]:
            said.append(
                words.say(f"shelf-differs-{code}", title=title(finding, found.shelf, words))
            )
        if len(findings) > _MOST_FINDINGS:
            more = len(findings) - _MOST_FINDINGS
            said.append(words.say(f"shelf-differs-{code}-more", count=more))
    parts = [part for part in _TOLD if part in differs.parts]
    named = tuple(words.say("shelf-differs-part", part=part) for part in parts)
    if named:
        said.append(words.say("shelf-differs-parts", parts=named))
    return "\n".join(said) or words.say("shelf-differs-otherwise")
