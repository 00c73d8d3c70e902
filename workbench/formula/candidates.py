"""What could take the place of a material, ranked, each with why and with what differs."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from types import MappingProxyType

from workbench.formula.candidate_values import Candidate, Sketch, Wanted
from workbench.formula.candidate_weights import Weighed, at_a_glance, weighed
from workbench.formula.swaps import BY_ACTIVE, BY_MASS, Ratio, Swap, table_ratio
from workbench.formula.totals import WHOLE

# So many times what is asked for is weighed in full; the rest falls out at a glance.
_LOOKED_AT = 5
_MOSTLY = Decimal("0.85")


@dataclass(frozen=True, slots=True)
class SwapTable:
    """Hold the swaps by the material they speak of, either way round."""

    by_key: Mapping[str, tuple[Swap, ...]] = field(default_factory=lambda: MappingProxyType({}))

    def of(self, key: str) -> tuple[Swap, ...]:
        """Return the swaps that name a material."""
        return self.by_key.get(key, ())

    def partners(self, key: str) -> frozenset[str]:
        """Return what a material is swapped with."""
        return frozenset(
            swap.to_key if swap.from_key == key else swap.from_key for swap in self.of(key)
        )


def swap_table(swaps: Iterable[Swap]) -> SwapTable:
    """Index the swaps by both materials they name."""
    by_key: dict[str, list[Swap]] = {}
    for swap in swaps:
        for key in dict.fromkeys((swap.from_key, swap.to_key)):
            by_key.setdefault(key, []).append(swap)
    return SwapTable(MappingProxyType({key: tuple(rows) for key, rows in by_key.items()}))


def ranked(
    wanted: Wanted, sketches: Iterable[Sketch], table: SwapTable, most: int = 40
) -> tuple[Candidate, ...]:
    """Return the best candidates, the best first.

    Parameters
    ----------
    wanted : Wanted
        What is on the line, and the pH the formula asks for.
    sketches : iterable of Sketch
        What could come; what is on the line is passed over.
    table : SwapTable
        The swaps of the trade.
    most : int
        How many to return.

    Notes
    -----
    Points for: a row of the table, the same substance, shared functions (the first one most),
    where it dissolves, its charge, its pH window against the formula's, the strength, and that
    it is on hand. Equal points are put in order of name.
    """
    rows: dict[str, Ratio] = {}
    for swap in table.of(wanted.item.key):
        other = swap.to_key if swap.from_key == wanted.item.key else swap.from_key
        ratio = table_ratio(swap, wanted.item.key, other)
        if ratio is not None and (other not in rows or not ratio.is_reversed):
            rows[other] = ratio
    glanced = [
        (-at_a_glance(wanted, sketch, is_in_table=sketch.key in rows), place, sketch)
        for place, sketch in enumerate(sketches)
        if sketch.key != wanted.item.key
    ]
    glanced.sort(key=lambda triple: triple[:2])
    found = [
        (weighed(wanted, sketch, rows.get(sketch.key)), sketch)
        for _, _, sketch in glanced[: _LOOKED_AT * most]
    ]
    found = [pair for pair in found if pair[0].points > 0]
    found.sort(key=lambda pair: (-pair[0].points, pair[1].name, pair[1].key))
    return tuple(
        _candidate(wanted.item, sketch, result, rows.get(sketch.key))
        for result, sketch in found[:most]
    )


def _candidate(item: Sketch, sketch: Sketch, result: Weighed, row: Ratio | None) -> Candidate:
    return Candidate(
        key=sketch.key,
        name=sketch.name,
        is_stock=sketch.is_stock,
        on_hand=sketch.on_hand,
        points=result.points,
        ratio=row or _usual(item, sketch),
        why=result.why,
        differs=result.differs,
    )


def _usual(item: Sketch, sketch: Sketch) -> Ratio:
    """Return the ratio to begin with: equal pure matter of one substance, else equal mass."""
    is_same = item.substance != "" and item.substance == sketch.substance
    if not is_same or item.strength is None or not sketch.strength:
        return Ratio(BY_MASS, Decimal(1))
    if not (_is_mostly_it(item) and _is_mostly_it(sketch)):
        return Ratio(BY_MASS, Decimal(1))
    return Ratio(BY_ACTIVE, item.strength / sketch.strength)


def _is_mostly_it(sketch: Sketch) -> bool:
    """Tell whether a material's pure matter is little else than its main substance."""
    share = sketch.share if sketch.share is not None else Decimal(0)
    return share * WHOLE >= (sketch.strength or WHOLE) * _MOSTLY
