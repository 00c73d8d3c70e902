"""Swap: another material on a line, with the water and preservative it brings made up for."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal

from workbench.formula.edits import EditRefused
from workbench.formula.exchange import Incoming, exchanged
from workbench.formula.formula import Formula, Line
from workbench.formula.line_change import Rework, reworked
from workbench.formula.shelf import Shelf
from workbench.formula.stocks import powder_rework, stock_inside, stock_rework
from workbench.formula.totals import WHOLE, totals

PRESERVATIVE = "preservative"
NOTHING = Decimal(0)
_NEARLY = Decimal("0.000001")


def swapped(formula: Formula, line_id: int, to_key: str, ratio: Decimal, shelf: Shelf) -> Formula:
    """Put another material on a line, `ratio` parts of it for one part of what is there.

    Raises
    ------
    EditRefused
        If a line is locked or holds too little to give way, or the rest cannot take the
        difference.
    """
    return swap_rework(formula, line_id, to_key, ratio, shelf).formula


def swap_rework(
    formula: Formula,
    line_id: int,
    to_key: str,
    ratio: Decimal,
    shelf: Shelf,
    *,
    stands: bool = False,
) -> Rework:
    """Return a swap with all it changes.

    Parameters
    ----------
    formula, line_id
        The line that changes, in its formula.
    to_key : str
        The ingredient or stock that comes.
    ratio : Decimal
        Parts by mass as supplied for one part of what goes [-].
    shelf : Shelf
        Where both are known.
    stands : bool
        Whether carried preservative that no line can give way for may stand beside it.

    Notes
    -----
    A stock for just as much of its powder, or the other way round, is the exact change from
    powder to stock: everything the stock holds finds its own line.
    """
    line = formula.line(line_id)
    if not ratio.is_finite() or ratio <= 0:
        raise EditRefused("swap-no-ratio", ratio=ratio)
    if _is_whole_share(to_key, line.ingredient, 1 / ratio, shelf):
        return stock_rework(formula, line_id, to_key, shelf, stands=stands)
    if _is_whole_share(line.ingredient, to_key, ratio, shelf):
        return powder_rework(formula, line_id, shelf, to_key)
    if line.is_rest and ratio != 1:
        raise EditRefused("swap-rest-by-mass", line=line.ingredient)
    percent = totals(formula).percents[line_id] * ratio
    carries = carried_along(formula, line, Incoming(to_key, percent), shelf)
    after, left = exchanged(
        formula, line_id, Incoming(to_key, percent, carries), shelf, stands=stands
    )
    return reworked(formula, after, left)


def _is_whole_share(stock_key: str, solute: str, share: Decimal, shelf: Shelf) -> bool:
    if stock_key not in shelf.stocks or not shelf.knows(stock_key):
        return False
    held = stock_inside(stock_key, shelf).get(solute, NOTHING) / WHOLE
    return held > 0 and abs(share - held) <= _NEARLY * held


def carried_along(
    formula: Formula, line: Line, incoming: Incoming, shelf: Shelf
) -> Mapping[str, Decimal]:
    """Return how much of each preservative of the sheet a swap brings in [% w/w of the formula].

    Notes
    -----
    A material carries a preservative as far as it holds all of that preservative's substances
    in its proportions: the least of c_i / v_i over them. What is a preservative itself
    carries none. Lines that are locked are no part of the comparison: they never move, so
    what is carried beside them is counted by the checks.
    """
    if _is_preservative(line.ingredient, line.purpose, shelf):
        return {}
    if _is_preservative(incoming.key, "", shelf):
        return {}
    old = _matter(line.ingredient, totals(formula).percents[line.id], shelf)
    new = _matter(incoming.key, incoming.percent, shelf)
    carries: dict[str, Decimal] = {}
    for key in _preservatives(formula, line.id, shelf):
        by = _drawn(new, key, shelf) - _drawn(old, key, shelf)
        if by:
            carries[key] = by
    return carries


def _preservatives(formula: Formula, without: int, shelf: Shelf) -> tuple[str, ...]:
    """Return the preservatives that can give way; those of most substances first."""
    keys = dict.fromkeys(
        line.ingredient
        for line in formula.lines()
        if line.id != without
        and not (line.locked or line.is_rest)
        and _is_preservative(line.ingredient, line.purpose, shelf)
    )
    return tuple(sorted(keys, key=lambda key: -len(shelf.parts(key))))


def _is_preservative(key: str, purpose: str, shelf: Shelf) -> bool:
    item = shelf.ingredients.get(key)
    return purpose == PRESERVATIVE or (item is not None and PRESERVATIVE in item.functions)


def _matter(key: str, percent: Decimal, shelf: Shelf) -> dict[str, Decimal]:
    sums: dict[str, Decimal] = {}
    for part in shelf.parts(key):
        sums[part.substance] = sums.get(part.substance, NOTHING) + part.fraction * percent
    return sums


def _drawn(matter: dict[str, Decimal], key: str, shelf: Shelf) -> Decimal:
    """Draw as much of a preservative from a matter as is in it, and return how much."""
    holds = [part for part in shelf.parts(key) if part.fraction > 0]
    most = min(
        (matter.get(part.substance, NOTHING) / part.fraction for part in holds), default=NOTHING
    )
    for part in holds if most > 0 else ():
        matter[part.substance] -= most * part.fraction
    return most
