"""A formula as the cells of a sheet, in the form in which a sheet is read back."""

from __future__ import annotations

from decimal import Decimal

from workbench.formula.formula import Formula
from workbench.formula.shelf import Shelf
from workbench.formula.totals import totals

REST = "rest"
HEADINGS = ("Phase", "Ingredient", "INCI", "% w/w", "Notes")
_GUARD = "'"
_BEGINS = ("=", "+", "-", "@", "\t", "\r", "\n", "|", "\uff1d", "\uff0b", "\uff0d", "\uff20")


def guarded(text: str) -> str:
    """Return a cell that no spreadsheet takes for a calculation.

    Notes
    -----
    An apostrophe goes before what begins with =, +, -, @, a tab or a line break, and before
    apostrophes that stand before these, so that `unguarded` gives exactly the text back.

    >>> guarded("=1+1")
    "'=1+1"
    """
    return _GUARD + text if _is_risky(text) else text


def unguarded(text: str) -> str:
    """Return a cell without the apostrophe that makes it harmless.

    >>> unguarded("'=1+1")
    '=1+1'
    """
    return text[1:] if text.startswith(_GUARD) and _is_risky(text[1:]) else text


def sheet_rows(formula: Formula, shelf: Shelf) -> tuple[tuple[str, ...], ...]:
    """Return the cells of a formula: its name, headings, a row for each line, and the total.

    Parameters
    ----------
    formula
        The formula; with a batch mass its masses in grams are given too.
    shelf
        Names and label names of what it uses.
    """
    sums = totals(formula)
    rows: list[tuple[str, ...]] = [("Formula", formula.name), (), HEADINGS]
    for phase in formula.phases:
        for line in phase.lines:
            percent = REST if line.percent is None else _plain(line.percent)
            rows.append(
                (
                    phase.name,
                    shelf.name(line.ingredient),
                    _inci(shelf, line.ingredient),
                    percent,
                    line.note,
                )
            )
    rows.append(("", "Total", "", _plain(sums.percent), ""))
    return tuple(tuple(guarded(text) for text in row) for row in rows)


def _inci(shelf: Shelf, key: str) -> str:
    return shelf.ingredients[key].inci if key in shelf.ingredients else ""


def _plain(value: Decimal) -> str:
    return format(value, "f")


def _is_risky(text: str) -> bool:
    return text.lstrip(_GUARD + " ").startswith(_BEGINS) or text.startswith(_BEGINS)
