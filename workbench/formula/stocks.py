"""Powder to stock and back on one line, the pure composition staying what it is."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass, replace
from decimal import Decimal

from workbench.formula.composition import composition
from workbench.formula.contents import CARRIER_PURPOSES
from workbench.formula.edits import EditRefused, to_percent_step
from workbench.formula.exchange import Incoming, exchanged, is_water
from workbench.formula.formula import Formula, Line, Step
from workbench.formula.line_change import Rework, reworked
from workbench.formula.line_moves import lines_put_in
from workbench.formula.materials import materials
from workbench.formula.shelf import Shelf, shelf_of
from workbench.formula.totals import WHOLE, totals

NOTHING = Decimal(0)
WETTING_FUNCTION = "humectant"
MOST_WATER_TO_WET = Decimal(5)
"""A liquid with more water than this swells the powder before it is wetted [% w/w]."""


def with_stock(formula: Formula, line_id: int, stock_key: str, shelf: Shelf) -> Formula:
    """Put a stock in the place of the powder on a line.

    Its water comes off the line of water, its preservative off the line of the same
    preservative, which is left as a top-up.

    Raises
    ------
    EditRefused
        If the stock does not hold what is on the line, a line that would have to give way is
        missing, locked or too small, or there is not enough water.
    """
    return stock_rework(formula, line_id, stock_key, shelf).formula


def stock_rework(
    formula: Formula, line_id: int, stock_key: str, shelf: Shelf, *, stands: bool = False
) -> Rework:
    """Return the change from powder to stock; `stands` lets what is carried too much stand."""
    line = formula.line(line_id)
    inside = stock_inside(stock_key, shelf)
    fraction = inside.get(line.ingredient, NOTHING) / WHOLE
    if fraction <= 0:
        raise EditRefused("stock-other-solute", ingredient=stock_key, line=line.ingredient)
    if line.is_rest:
        raise EditRefused("stock-on-rest", line=line.ingredient)
    percent = totals(formula).percents[line_id] / fraction
    carries = _scaled(inside, percent, without=line.ingredient)
    after, left = exchanged(
        formula, line_id, Incoming(stock_key, percent, carries), shelf, stands=stands
    )
    return reworked(formula, after, left)


def with_powder(formula: Formula, line_id: int, shelf: Shelf, solute: str = "") -> Formula:
    """Put the powder of a stock in its place; water and preservative go back to their lines."""
    return powder_rework(formula, line_id, shelf, solute).formula


def powder_rework(formula: Formula, line_id: int, shelf: Shelf, solute: str = "") -> Rework:
    """Return the change from stock to powder.

    Parameters
    ----------
    formula, line_id, shelf
        The line of the stock, in its formula, and where the stock is known.
    solute : str
        What stays on the line; empty for the largest part that is no carrier.

    Notes
    -----
    What the stock carries and the sheet has no unlocked line for gets one, below the powder.
    """
    line = formula.line(line_id)
    inside = stock_inside(line.ingredient, shelf)
    solute = solute or stock_solute(line.ingredient, shelf)
    if solute not in inside:
        raise EditRefused("stock-no-solute", ingredient=line.ingredient)
    if line.is_rest:
        raise EditRefused("stock-on-rest", line=line.ingredient)
    if line.locked:
        raise EditRefused("edit-line-locked", line=line.ingredient)
    percent = totals(formula).percents[line_id]
    back = _scaled(inside, -percent, without=solute)
    ready = _with_lines_for(formula, line, tuple(back))
    incoming = Incoming(solute, percent * inside[solute] / WHOLE, back)
    after, _ = exchanged(ready, line_id, incoming, shelf)
    return reworked(formula, after)


def stock_inside(stock_key: str, shelf: Shelf) -> Mapping[str, Decimal]:
    """Return what a stock holds through all its levels [% w/w of it], water left out.

    Raises
    ------
    EditRefused
        If there is no stock of this key whose contents are known.
    """
    stock = shelf.stocks.get(stock_key)
    if stock is None or not shelf.knows(stock_key):
        raise EditRefused("stock-unknown", ingredient=stock_key)
    sums: defaultdict[str, Decimal] = defaultdict(Decimal)
    for part in materials(stock, shelf):
        if not is_water(part.item.key, shelf):
            sums[part.item.key] += part.percent
    return sums


def stock_solute(stock_key: str, shelf: Shelf) -> str:
    """Return what a stock is made for: its largest part that carries nothing; else empty."""
    stock = shelf.stocks.get(stock_key)
    parts = materials(stock, shelf) if stock is not None else ()
    solutes = [part for part in parts if part.purpose not in CARRIER_PURPOSES]
    solutes = [part for part in solutes if not is_water(part.item.key, shelf)]
    largest = max(solutes, default=None, key=lambda part: part.percent)
    return largest.item.key if largest is not None else ""


def stocks_holding(ingredient: str, shelf: Shelf) -> tuple[tuple[str, Decimal], ...]:
    """Return the stocks of the shelf made for an ingredient, with their strength [% w/w]."""
    keys = (key for key in shelf.stocks if shelf.knows(key))
    return tuple(
        (key, stock_inside(key, shelf)[ingredient])
        for key in sorted(keys)
        if stock_solute(key, shelf) == ingredient
    )


def wetting_line(formula: Formula, line_id: int, shelf: Shelf) -> Line | None:
    """Return the largest line of a liquid humectant, nearly without water, to wet a powder in."""

    def wets(line: Line) -> bool:
        item = shelf.ingredients.get(line.ingredient)
        return (
            item is not None
            and line.id != line_id
            and WETTING_FUNCTION in item.functions
            and item.form in ("liquid", "viscous liquid")
            and (item.water_percent or NOTHING) <= MOST_WATER_TO_WET
        )

    percents = totals(formula).percents
    return max(filter(wets, formula.lines()), default=None, key=lambda line: percents[line.id])


def with_slurry_note(formula: Formula, line_id: int, text: str) -> Formula:
    """Put the step of wetting a powder before the other steps of its phase; once is enough."""
    phase = formula.phase_of(line_id)
    if any(step.text == text for step in phase.steps):
        return formula
    return formula.with_phase(replace(phase, steps=(Step(text=text), *phase.steps)))


@dataclass(frozen=True, slots=True)
class StockUse:
    """Hold what a changed stock would change in one draft: its key, and substances [% w/w].

    Each substance stands with what the draft holds of it now and what it then would.
    """

    draft: str
    substances: tuple[tuple[str, Decimal, Decimal], ...]


def stock_change_effect(
    key: str, after: Formula, users: Mapping[str, Formula], shelf: Shelf
) -> tuple[StockUse, ...]:
    """Return the drafts whose substances would differ with a stock changed; none is changed.

    Differences below 0.0001 % are none.
    """
    changed = with_stock_changed(shelf, key, after)
    uses: list[StockUse] = []
    for draft, formula in users.items():
        old = composition(formula, shelf).substances
        new = composition(formula, changed).substances
        differing = tuple(
            (name, old.get(name, NOTHING), new.get(name, NOTHING))
            for name in dict.fromkeys((*old, *new))
            if to_percent_step(old.get(name, NOTHING)) != to_percent_step(new.get(name, NOTHING))
        )
        if differing:
            uses.append(StockUse(draft, differing))
    return tuple(uses)


def with_stock_changed(shelf: Shelf, key: str, stock: Formula) -> Shelf:
    """Return a shelf on which a stock is made otherwise."""
    return shelf_of(
        shelf.ingredients,
        {**shelf.stocks, key: stock},
        shelf.substances,
        shelf.prices,
        shelf.balances,
    )


def _scaled(inside: Mapping[str, Decimal], percent: Decimal, without: str) -> dict[str, Decimal]:
    return {key: percent * share / WHOLE for key, share in inside.items() if key != without}


def _with_lines_for(formula: Formula, line: Line, keys: tuple[str, ...]) -> Formula:
    """Give each ingredient that has no line to go back to one at nothing, below the stock."""
    phase = formula.phase_of(line.id)
    place = [each.id for each in phase.lines].index(line.id) + 1
    free = {
        each.ingredient
        for each in formula.lines()
        if not (each.locked or each.is_rest) and each.id != line.id
    }
    new = [Line(0, key, NOTHING) for key in keys if key not in free]
    return lines_put_in(formula, new, phase.id, place)
