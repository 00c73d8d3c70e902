"""Which columns of the sheet are shown, in which order and how wide."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from workbench.ui.places.desk.cell_paint import MARGIN
from workbench.ui.places.desk.columns import (
    ALWAYS,
    COST,
    FIXED,
    GRAMS,
    INCI,
    INGREDIENT,
    KEYS,
    MARK,
    NOTE,
    PERCENT,
    PURE,
    PURPOSE,
    RANGE,
    USUAL,
)
from workbench.ui.places.desk.columns import MARGIN as MARGIN_KEY

WIDTHS = {
    MARGIN_KEY: MARGIN,
    MARK: 38,
    PURPOSE: 108,
    PERCENT: 84,
    PURE: 84,
    GRAMS: 78,
    RANGE: 160,
    COST: 62,
    INCI: 180,
    NOTE: 170,
}
LEAST_NAME, EASY_NAME = 170, 220
# What goes first where there is too little room; what the maker has added stays, and scrolls.
_DISPENSABLE = (PURPOSE, COST, RANGE)


def chosen_columns(stored: Iterable[str]) -> tuple[str, ...]:
    """Return the columns to show in their order, made good where the stored names make no sense.

    Nothing stored is the usual columns; ingredient and percent are always among them.
    """
    known = [key for key in dict.fromkeys(stored) if key in KEYS and key not in FIXED]
    if not known:
        return USUAL
    missing = [key for key in ALWAYS if key not in known and key not in FIXED]
    return (*missing, *known)


def order_of(chosen: tuple[str, ...]) -> tuple[str, ...]:
    """Return every column in its visual order: the fixed ones, the chosen, the hidden."""
    hidden = [key for key in KEYS if key not in FIXED and key not in chosen]
    return (*FIXED, *chosen, *hidden)


def with_column(chosen: tuple[str, ...], key: str, *, shown: bool) -> tuple[str, ...]:
    """Return the columns with one of them shown, in its usual place, or hidden."""
    if not shown:
        return tuple(one for one in chosen if one != key or one in ALWAYS)
    if key in chosen:
        return chosen
    before = [one for one in KEYS[: KEYS.index(key)] if one in chosen]
    place = max((chosen.index(one) + 1 for one in before), default=0)
    return (*chosen[:place], key, *chosen[place:])


def with_moved(chosen: tuple[str, ...], key: str, step: int) -> tuple[str, ...]:
    """Return the columns with one of them a place further left (-1) or right (+1)."""
    if key not in chosen:
        return chosen
    at = chosen.index(key)
    to = at + step
    if not 0 <= to < len(chosen):
        return chosen
    moved = list(chosen)
    moved.insert(to, moved.pop(at))
    return tuple(moved)


def widths_for(
    chosen: tuple[str, ...],
    room: int,
    px: Callable[[float], int],
    empty: frozenset[str] = frozenset(),
) -> dict[str, int]:
    """Return the width of each column that has room; the name takes what the others leave."""
    widths = {key: px(WIDTHS[key]) for key in (*FIXED, *chosen) if key != INGREDIENT}
    least, easy = px(LEAST_NAME), px(EASY_NAME)
    order = sorted(_DISPENSABLE, key=lambda key: key not in empty)
    for key in order:
        # An empty column is no loss; one with figures goes only when names cannot be read.
        if sum(widths.values()) + (easy if key in empty else least) > room:
            widths.pop(key, None)
    widths[INGREDIENT] = max(room - sum(widths.values()), least)
    return widths
