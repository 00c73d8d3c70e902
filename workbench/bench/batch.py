"""What is to be made: the batch a worksheet is printed for."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from workbench.formula.formula import Line
from workbench.formula.shelf import Shelf
from workbench.formula.weighability import Balance

_BY_FUNCTION = (
    ("preservative", "preservative"),
    ("ph-adjuster-acid", "acid"),
    ("exfoliant-aha", "acid"),
    ("exfoliant-bha", "acid"),
    ("chelator", "chelator"),
)


@dataclass(frozen=True, slots=True)
class BatchOrder:
    """Hold what a worksheet is made out for.

    `number` is empty before a batch number is taken; `version` says in words what is made;
    `batch_g` is the planned mass [g].
    """

    number: str
    version: str
    batch_g: Decimal
    planned_on: date | None


def band_key(line: Line, shelf: Shelf) -> str:
    """Return which accept band a line falls under."""
    if line.to_ph:
        return "to-ph"
    if line.is_rest:
        return "rest"
    item = shelf.ingredients.get(line.ingredient)
    functions = {line.purpose} | set(item.functions if item else ())
    for function, band in _BY_FUNCTION:
        if function in functions:
            return band
    has_maximum = item is not None and item.use_max is not None
    return "active" if has_maximum and "active" in functions else "other"


def allowed_g(
    line: Line,
    target_g: Decimal,
    balance: Balance | None,
    shelf: Shelf,
    bands: Mapping[str, Decimal | None],
) -> Decimal | None:
    """Return how far a weighing may be off its target [g]; None for an adjuster held back.

    Notes
    -----
    A band in per cent of the target, never narrower than one division of the balance.
    """
    band = bands[band_key(line, shelf)]
    if band is None:
        return None
    off = target_g * band / 100
    return max(off, balance.readability) if balance else off
