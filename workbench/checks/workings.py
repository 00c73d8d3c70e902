"""The computation behind a limit finding, one line of it for each line of the formula."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal

from workbench.checks.finding import Working
from workbench.checks.limit_sums import Held
from workbench.formula.compare import significant
from workbench.formula.composition import Composition
from workbench.formula.shelf import Shelf


def limit_workings(
    held: Held, lines: Mapping[int, tuple[str, Decimal]], composition: Composition, shelf: Shelf
) -> tuple[Working, ...]:
    """Return how a content held against a limit comes about.

    Parameters
    ----------
    held : Held
        The row and what each line brings to it [% w/w on the row's basis].
    lines : mapping of int to (str, Decimal)
        Ingredient and percent as supplied of every line.
    composition : Composition
        What each line brings of each substance as itself [% w/w].
    shelf : Shelf
        Where substances have their names.
    """
    carried: dict[tuple[int, str], Decimal] = {}
    for share in composition.shares:
        place = (share.line, share.substance)
        carried[place] = carried.get(place, Decimal(0)) + share.percent
    told = tuple(
        _told(lines[line], carried[line, substance], amount, shelf.inci(substance))
        for line, substance, amount in held.amounts
        if line in lines and (line, substance) in carried
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
