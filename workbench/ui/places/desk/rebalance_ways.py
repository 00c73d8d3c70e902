"""The ways to rebalance a sheet, for the line of the cursor and the lines that are chosen."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import TYPE_CHECKING

from workbench.formula import rebalance_groups as groups
from workbench.formula.edits import EditRefused, to_percent_step
from workbench.formula.line_change import Rework
from workbench.formula.totals import WHOLE, totals
from workbench.ui.places.desk.rework_way import Asked, Make, Way

if TYPE_CHECKING:
    from collections.abc import Iterator

    from workbench.formula.formula import Formula
    from workbench.ui.places.desk.work import DeskWork

_TWO = 2


def rebalance_ways(work: DeskWork, line_id: int, chosen: frozenset[int]) -> tuple[Way, ...]:
    """Return every way, those that need a line only where there is one."""
    ways = _Ways(work)
    found = [ways.over_all()]
    if line_id:
        found = [*ways.of_line(line_id), *found, *ways.of_phase(line_id)]
        found.append(ways.of_group(chosen or frozenset({line_id})))
        found.append(ways.of_two(chosen))
    undo = work.words.say
    return tuple(replace(way, undo=undo("rebalance-undo", way=way.text)) for way in found)


class _Ways:
    def __init__(self, work: DeskWork) -> None:
        self._work = work
        self._say = work.words.say
        self._sums = totals(work.formula)

    def of_line(self, line_id: int) -> Iterator[Way]:
        """Yield that a line takes the rest from now on, or what is short once."""
        line = self._work.formula.line(line_id)
        name = self._work.shelf.name(line.ingredient)
        if not line.is_rest:
            text = self._say("rebalance-way-rest", line=name)
            yield self._way(text, lambda formula, _asked: groups.rested(formula, line_id))
        text = self._say("rebalance-way-short", line=name)
        yield self._way(text, lambda formula, _asked: groups.taken(formula, line_id))

    def over_all(self) -> Way:
        """Return the scaling of every unlocked line."""
        return self._way(
            self._say("rebalance-way-all"), lambda formula, _asked: groups.scaled(formula)
        )

    def of_phase(self, line_id: int) -> Iterator[Way]:
        """Yield the scaling within the phase of a line, to 100 in all or to a level."""
        phase = self._work.formula.phase_of(line_id)
        yield self._way(
            self._say("rebalance-way-phase", phase=phase.name),
            lambda formula, _asked: groups.scaled_within_phase(formula, phase.id),
        )
        yield replace(
            self._way(
                self._say("rebalance-way-phase-to", phase=phase.name),
                lambda formula, asked: groups.phase_to(formula, phase.id, asked.numbers[0]),
            ),
            inputs=((self._say("rebalance-level"), self._sums.phases[phase.id]),),
        )

    def of_group(self, chosen: frozenset[int]) -> Way:
        """Return the scaling of the chosen lines to a level of pure matter."""
        shelf = self._work.shelf
        lines = [line for line in self._work.formula.lines() if line.id in chosen]
        active = sum(
            (
                self._sums.percents[line.id] * shelf.strength(line.ingredient) / WHOLE
                for line in lines
                if shelf.knows(line.ingredient)
            ),
            Decimal(0),
        )
        name = shelf.name(lines[0].ingredient)
        return replace(
            self._way(
                self._say("rebalance-way-group", count=len(lines), line=name),
                lambda formula, asked: groups.group_to_active(
                    formula, chosen, asked.numbers[0], shelf
                ),
            ),
            inputs=((self._say("rebalance-active"), to_percent_step(active)),),
        )

    def of_two(self, chosen: frozenset[int]) -> Way:
        """Return the ratio between two lines; it says that two are needed where they are not."""
        lines = [line for line in self._work.formula.lines() if line.id in chosen]
        if len(lines) != _TWO:
            return self._way(self._say("rebalance-way-ratio-none"), _refused)
        shelf = self._work.shelf
        pair = (lines[0].id, lines[1].id)
        first, second = (shelf.name(line.ingredient) for line in lines)

        def make(formula: Formula, asked: Asked) -> Rework:
            one, other = asked.numbers
            return groups.lines_to_ratio(formula, pair, (one, other), shelf, asked.keep)

        return replace(
            self._way(self._say("rebalance-way-ratio", first=first, second=second), make),
            inputs=(
                (self._say("rebalance-first", name=first), self._sums.percents[pair[0]]),
                (self._say("rebalance-second", name=second), self._sums.percents[pair[1]]),
            ),
            keeps=(
                (groups.KEEP_SUM, self._say("rebalance-keep-sum")),
                (groups.KEEP_FIRST, first),
                (groups.KEEP_SECOND, second),
            ),
        )

    def _way(self, text: str, make: Make) -> Way:
        return Way(text, "", make, self._work.shelf)


def _refused(_formula: Formula, _asked: Asked) -> Rework:
    raise EditRefused("rebalance-two-lines")
