"""A change of the draft tried out: what it would give, before anything is changed."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING

from workbench.checks.assess import assess
from workbench.checks.swap_effect import SwapEffect, effect_between
from workbench.formula.edits import EditRefused
from workbench.formula.line_change import Rework
from workbench.formula.scope import scope_of
from workbench.formula.shelf import Shelf
from workbench.formula.stocks import stock_inside, stock_solute
from workbench.formula.substitute import swap_rework
from workbench.formula.swaps import BY_ACTIVE, TYPED, Ratio, ratios
from workbench.formula.totals import WHOLE
from workbench.words.rework import refusal_text

if TYPE_CHECKING:
    from workbench.ui.places.desk.work import DeskWork

# What is carried in and no line gives way for: the maker may let it stand.
MAY_STAND = frozenset({"swap-carried-locked", "swap-carried-short", "swap-carried-no-line"})


@dataclass(frozen=True, slots=True)
class Trial:
    """Hold a change tried out: what it gives, or in words why it cannot be.

    `may_stand` tells that the change is possible once what is carried in may stand.
    """

    rework: Rework | None
    shelf: Shelf
    refusal: str = ""
    may_stand: bool = False


def tried(make: Callable[[], Rework], shelf: Shelf, work: DeskWork) -> Trial:
    """Try a change out."""
    try:
        return Trial(make(), shelf)
    except EditRefused as refused:
        said = refusal_text(refused, shelf, work.words)
        return Trial(None, shelf, said, may_stand=refused.reason_id in MAY_STAND)


class SwapTrials:
    """Try swaps on one line of the draft; the shelf of each candidate is read once."""

    def __init__(self, work: DeskWork, line_id: int) -> None:
        """Take the work and the line."""
        self._work = work
        self._line = line_id
        self._formula = work.formula
        self._shelves: dict[str, Shelf] = {}

    def shelf(self, key: str) -> Shelf:
        """Return the shelf of the draft with a candidate on it."""
        if key not in self._shelves:
            also = frozenset({key})
            self._shelves[key] = self._work.studio.shelf_for(self._formula, also=also)
        return self._shelves[key]

    def ratios(self, key: str) -> tuple[Ratio, ...]:
        """Return by how much a candidate can come, the ratio to suggest first."""
        now = self._formula.line(self._line).ingredient
        found = ratios(now, key, self.shelf(key), self._work.studio.swaps)
        of_solute = self._of_solute(now, key)
        if of_solute is not None:
            found = (of_solute, *(ratio for ratio in found if ratio.kind != BY_ACTIVE))
        return (*found, Ratio(TYPED, Decimal(1)))

    def first_kind(self, wish: str, offered: tuple[Ratio, ...]) -> str:
        """Return the ratio to begin with: the wish, but never a stock mass for mass."""
        is_stock = self._formula.line(self._line).ingredient in self._work.shelf.stocks
        kinds = [ratio.kind for ratio in offered]
        return wish if wish in kinds and not is_stock else kinds[0]

    def _of_solute(self, now: str, key: str) -> Ratio | None:
        """Return the ratio that keeps the pure matter a stock on the line is made for."""
        shelf = self.shelf(key)
        if now not in shelf.stocks or key in shelf.stocks or not shelf.knows(now):
            return None
        solute = stock_solute(now, shelf)
        if not solute or not shelf.knows(key) or shelf.strength(key) <= 0:
            return None
        share = stock_inside(now, shelf)[solute] / WHOLE
        return Ratio(BY_ACTIVE, share * shelf.strength(solute) / shelf.strength(key))

    def swap(self, key: str, factor: Decimal, *, stands: bool) -> Trial:
        """Try a candidate at so many parts for one part of what is there."""
        shelf = self.shelf(key)

        def make() -> Rework:
            return swap_rework(self._formula, self._line, key, factor, shelf, stands=stands)

        return tried(make, shelf, self._work)

    def effect(self, trial: Trial) -> SwapEffect | None:
        """Return everything that differs; None where the change is refused."""
        if trial.rework is None:
            return None
        work, after = self._work, trial.rework.formula
        scope = scope_of(self._formula, work.clock().date())
        new = assess(after, trial.shelf, scope, work.rules)
        return effect_between((self._formula, work.assessment), (after, new))
