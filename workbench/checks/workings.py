"""The computation behind a limit finding, one line of it for each line of the formula."""

from __future__ import annotations

from decimal import Decimal

from workbench.checks.finding import Working
from workbench.checks.limit_sums import Held
from workbench.checks.opened import Opened
from workbench.formula.compare import significant


def limit_workings(held: Held, known: Opened) -> tuple[Working, ...]:
    """Return how a content held against a limit comes about.

    Parameters
    ----------
    held : Held
        The row and what each line brings to it [% w/w on the row's basis].
    known : Opened
        The formula, and what each line brings of each substance as itself [% w/w].
    """
    wanted = {(line, substance) for line, substance, _ in held.amounts}
    carried: dict[tuple[int, str], Decimal] = {}
    for share in known.parts.shares:
        place = (share.line, share.substance)
        if place in wanted:
            carried[place] = carried.get(place, Decimal(0)) + share.percent
    lines = {line for line, _ in carried}
    named = {line.id: line.ingredient for line in known.formula.lines() if line.id in lines}
    told = tuple(
        _told(
            (named[line], known.sums.percents[line]),
            carried[line, substance],
            amount,
            known.shelf.inci(substance),
        )
        for line, substance, amount in held.amounts
        if (line, substance) in carried
    )
    if not told:
        return ()
    total = Working("working-sum", (("value", significant(held.value)), ("limit", held.limit)))
    return (*told, total)


def _told(line: tuple[str, Decimal], as_itself: Decimal, amount: Decimal, inci: str) -> Working:
    ingredient, percent = line
    is_counted_as_itself = significant(as_itself) == significant(amount)
    return Working(
        "working-carried" if is_counted_as_itself else "working-converted",
        (
            ("ingredient", ingredient),
            ("percent", percent),
            ("name", inci),
            ("as_itself", significant(as_itself)),
            ("amount", significant(amount)),
        ),
    )
