"""Percent totals: the rest line resolved, phase subtotals, what is missing to 100."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from types import MappingProxyType

from workbench.formula.formula import Formula

WHOLE = Decimal(100)


@dataclass(frozen=True, slots=True)
class Totals:
    """Hold the sums of a formula, in per cent w/w.

    Parameters
    ----------
    percent : Decimal
        Sum of all lines, the rest line included as it is shown.
    rest : Decimal or None
        What the rest line takes; negative when the others exceed 100; None without one.
    short : Decimal
        100 minus the total; zero with a rest line that can hold the rest.
    percents : mapping of int to Decimal
        Percent of every line by its id.
    phases : mapping of int to Decimal
        Subtotal of every phase by its id.
    """

    percent: Decimal
    rest: Decimal | None
    short: Decimal
    percents: Mapping[int, Decimal]
    phases: Mapping[int, Decimal]

    @property
    def is_whole(self) -> bool:
        """Tell whether the formula adds up to exactly 100 with no negative rest."""
        return self.percent == WHOLE and (self.rest is None or self.rest >= 0)


def totals(formula: Formula) -> Totals:
    """Add up a formula, letting the rest line take 100 minus all others.

    Notes
    -----
    The rest may come out negative; it is reported so and never clamped.
    """
    others = sum((line.percent for line in formula.lines() if line.percent is not None), Decimal(0))
    rest = None if formula.rest_line is None else WHOLE - others
    percents: dict[int, Decimal] = {}
    phases: dict[int, Decimal] = {}
    for phase in formula.phases:
        subtotal = Decimal(0)
        for line in phase.lines:
            value = line.percent if line.percent is not None else WHOLE - others
            percents[line.id] = value
            subtotal += value
        phases[phase.id] = subtotal
    total = others if rest is None else WHOLE
    return Totals(
        percent=total,
        rest=rest,
        short=WHOLE - total,
        percents=MappingProxyType(percents),
        phases=MappingProxyType(phases),
    )
