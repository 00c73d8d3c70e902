"""What an edit does to the lines of a sheet: percents and ingredients before and after."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from workbench.formula.formula import Formula
from workbench.formula.totals import totals


@dataclass(frozen=True, slots=True)
class LineChange:
    """Hold one line before and after an edit [% w/w as supplied].

    `ingredient` and `percent` are as before, None where the line is new; `to_ingredient` and
    `to_percent` as after, None where it is gone.
    """

    line: int
    ingredient: str | None
    to_ingredient: str | None
    percent: Decimal | None
    to_percent: Decimal | None

    @property
    def by(self) -> Decimal:
        """Return what the line gains [% w/w], negative where it loses."""
        return (self.to_percent or Decimal(0)) - (self.percent or Decimal(0))

    @property
    def is_swap(self) -> bool:
        """Tell whether the line holds another ingredient afterwards."""
        return None not in (self.ingredient, self.to_ingredient) and (
            self.ingredient != self.to_ingredient
        )


@dataclass(frozen=True, slots=True)
class Rework:
    """Hold an edit of several lines before it is applied: the formula it gives, and what changes.

    `stands` are preservatives that what comes in carries and no line could give way for.
    """

    formula: Formula
    changes: tuple[LineChange, ...]
    stands: tuple[Standing, ...] = ()


@dataclass(frozen=True, slots=True)
class Standing:
    """Hold what is carried in beside a line of the same kind: ingredient key and % w/w too much.

    `is_locked` tells that such a line is there and locked.
    """

    ingredient: str
    percent: Decimal
    is_locked: bool = False


def line_changes(before: Formula, after: Formula) -> tuple[LineChange, ...]:
    """Return the lines whose ingredient or shown percent differs, gone ones last."""
    old, new = totals(before).percents, totals(after).percents
    was = {line.id: line.ingredient for line in before.lines()}
    now = {line.id: line.ingredient for line in after.lines()}
    return tuple(
        LineChange(key, was.get(key), now.get(key), old.get(key), new.get(key))
        for key in (*now, *(key for key in was if key not in now))
        if was.get(key) != now.get(key) or old.get(key) != new.get(key)
    )


def reworked(before: Formula, after: Formula, stands: tuple[Standing, ...] = ()) -> Rework:
    """Return an edit with what it changes."""
    return Rework(after, line_changes(before, after), stands)
