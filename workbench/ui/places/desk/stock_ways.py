"""Powder or stock on a line: every stock made for it, the powder of a stock, or a slurry."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from workbench.formula.line_change import Rework, reworked
from workbench.formula.stocks import (
    powder_rework,
    stock_rework,
    stock_solute,
    stocks_holding,
    wetting_line,
    with_slurry_note,
)
from workbench.ui.places.desk.rework_way import Asked, Way
from workbench.words.numbers import percent_text

if TYPE_CHECKING:
    from collections.abc import Iterator

    from workbench.formula.formula import Formula
    from workbench.formula.shelf import Shelf
    from workbench.ui.places.desk.work import DeskWork

DRY = frozenset({"powder", "crystals", "granules", "flakes", "needles"})


def stock_ways(work: DeskWork, line_id: int) -> tuple[Way, ...]:
    """Return the ways to bring in what is on a line.

    Raises
    ------
    WorkbenchError
        If what is on the line is not in the studio.
    """
    line = work.formula.line(line_id)
    if line.ingredient in work.shelf.stocks:
        return _back(work, line_id)
    found = work.studio.candidates(line.ingredient, purpose=line.purpose)
    keys = frozenset(one.key for one in found if one.is_stock) - {work.key}
    shelf = work.studio.shelf_for(work.formula, also=keys)
    return (*_stocks(work, line_id, keys, shelf), *_slurry(work, line_id))


def _stocks(work: DeskWork, line_id: int, keys: frozenset[str], shelf: Shelf) -> Iterator[Way]:
    name = shelf.name(work.formula.line(line_id).ingredient)
    for key, strength in stocks_holding(work.formula.line(line_id).ingredient, shelf):
        if key not in keys:
            continue
        said = percent_text(strength, work.words.style)
        stock = shelf.name(key)
        yield Way(
            work.words.say("stock-use", stock=stock, strength=said),
            work.words.say("stock-undo-use", stock=stock, ingredient=name),
            partial(_used, line_id, key, shelf),
            shelf,
        )


def _used(line_id: int, key: str, shelf: Shelf, formula: Formula, asked: Asked) -> Rework:
    return stock_rework(formula, line_id, key, shelf, stands=asked.stands)


def _back(work: DeskWork, line_id: int) -> tuple[Way, ...]:
    key = work.formula.line(line_id).ingredient
    solute = stock_solute(key, work.shelf)
    name = work.shelf.name(solute or key)
    return (
        Way(
            work.words.say("stock-back", ingredient=name),
            work.words.say("stock-undo-back", ingredient=name),
            lambda formula, _asked: powder_rework(formula, line_id, work.shelf),
            work.shelf,
        ),
    )


def _slurry(work: DeskWork, line_id: int) -> Iterator[Way]:
    words, shelf = work.words, work.shelf
    item = shelf.ingredients.get(work.formula.line(line_id).ingredient)
    liquid = wetting_line(work.formula, line_id, shelf)
    if item is None or item.form not in DRY or liquid is None:
        return
    names = {"powder": item.name, "liquid": shelf.name(liquid.ingredient)}
    step = words.say("rework-slurry-step", **names)
    phase = work.formula.phase_of(line_id)
    is_there = any(each.text == step for each in phase.steps)
    note = words.say("stock-step-there")
    if not is_there:
        note = words.say("stock-step-added", phase=phase.name, step=step)

    def make(formula: Formula, _asked: Asked) -> Rework:
        return reworked(formula, with_slurry_note(formula, line_id, step))

    yield Way(
        words.say("stock-wet", liquid=names["liquid"]),
        words.say("stock-undo-wet", ingredient=item.name, liquid=names["liquid"]),
        make,
        shelf,
        note=note,
    )
