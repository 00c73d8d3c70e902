"""From lines to substances: stocks expanded, water and carriers counted."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from types import MappingProxyType

from workbench.formula.formula import Formula
from workbench.formula.shelf import Shelf
from workbench.formula.totals import Totals, totals


@dataclass(frozen=True, slots=True)
class Share:
    """Hold how much of one substance one line brings.

    `percent` and `water` are of the whole formula [% w/w]; `purpose` is the line's, or that
    inside the stock that carries it.
    """

    line: int
    substance: str
    percent: Decimal
    water: Decimal
    purpose: str


@dataclass(frozen=True, slots=True)
class Composition:
    """Hold a formula as substances.

    `substances` maps substance key to per cent w/w over all carriers; `water` is all water
    present, crystal water included [% w/w]; `unknown` are lines whose contents are not known.
    """

    substances: Mapping[str, Decimal]
    water: Decimal
    shares: tuple[Share, ...]
    unknown: tuple[int, ...]


def composition(formula: Formula, shelf: Shelf, sums: Totals | None = None) -> Composition:
    """Expand a formula to substances through all its stocks; `sums` are its own, if known."""
    percents = (sums or totals(formula)).percents
    shares: list[Share] = []
    unknown: list[int] = []
    for line in formula.lines():
        if not shelf.knows(line.ingredient):
            unknown.append(line.id)
            continue
        purpose = line.purpose or shelf.purpose(line.ingredient)
        percent = percents[line.id]
        shares.extend(
            Share(
                line=line.id,
                substance=part.substance,
                percent=percent * part.fraction,
                water=percent * part.water,
                purpose=part.purpose or purpose,
            )
            for part in shelf.parts(line.ingredient)
        )
    held: defaultdict[str, Decimal] = defaultdict(Decimal)
    for share in shares:
        held[share.substance] += share.percent
    return Composition(
        substances=MappingProxyType(dict(held)),
        water=sum((share.water for share in shares), Decimal(0)),
        shares=tuple(shares),
        unknown=tuple(unknown),
    )
