"""Hold every ingredient against the level it is usually used at, on the basis of that level."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from decimal import Decimal

from workbench.checks.carried import Carried
from workbench.checks.finding import Finding, Remedy, SetPercent, Severity
from workbench.formula.compare import exceeds, falls_below, significant
from workbench.formula.formula import Formula
from workbench.formula.ingredient import Ingredient
from workbench.formula.shelf import Shelf
from workbench.formula.totals import WHOLE, Totals

OF_TOTAL, OF_TOTAL_PURE = "as-supplied-of-total", "pure-of-total"
OF_PHASE, OF_PHASE_PURE = "as-supplied-of-phase", "pure-of-phase"
USE_BASES = (OF_TOTAL, OF_TOTAL_PURE, OF_PHASE, OF_PHASE_PURE)
_OF_TOTAL, _PURE = (OF_TOTAL, OF_TOTAL_PURE), (OF_TOTAL_PURE, OF_PHASE_PURE)
_NO_RANGE = frozenset({"water"})
_ADJUSTING = frozenset({"ph-adjuster-acid", "ph-adjuster-base", "buffer"})
_ACID_PRESERVATIVE = "organic-acid-preservative"


@dataclass(frozen=True, slots=True)
class Level:
    """Hold how much of one ingredient a formula holds, counted in every way.

    Parameters
    ----------
    ingredient : str
        Its key.
    lines : tuple of int
        Lines that bring it, stocks included.
    of_total, of_phase : Decimal
        Content as supplied, of the whole and of the phases it stands in [%].
    strength : Decimal
        Pure matter [% of the ingredient as supplied].
    """

    ingredient: str
    lines: tuple[int, ...]
    of_total: Decimal
    of_phase: Decimal
    strength: Decimal

    def on(self, basis: str) -> Decimal:
        """Return the content on a basis [%]."""
        supplied = self.of_total if basis in _OF_TOTAL else self.of_phase
        return supplied * self.strength / WHOLE if basis in _PURE else supplied

    @property
    def figures(self) -> tuple[tuple[str, Decimal], ...]:
        """Return the content by basis: as supplied and pure, of the whole and the phases [%]."""
        return tuple((basis, self.on(basis)) for basis in USE_BASES)


def use_levels(items: tuple[Carried, ...], shelf: Shelf, sums: Totals) -> dict[str, Level]:
    """Return the level of every ingredient, over all lines and stocks that bring it.

    Notes
    -----
    What is there to set the pH is left out: the pH decides how much of it there is.
    "Of the phase" divides by the mass of the phases it stands in.
    """
    grouped: defaultdict[str, list[Carried]] = defaultdict(list)
    for each in items:
        if not each.is_to_ph and each.purpose not in _ADJUSTING:
            grouped[each.item.key].append(each)
    return {key: _level(key, found, shelf, sums) for key, found in grouped.items()}


def check_use_levels(
    formula: Formula,
    items: tuple[Carried, ...],
    shelf: Shelf,
    sums: Totals,
    over_in_law: frozenset[int] = frozenset(),
) -> tuple[Finding, ...]:
    """Find ingredients over or under the level they are usually used at.

    Parameters
    ----------
    formula, items, shelf, sums
        The formula, what it holds through all stocks, its shelf and its sums.
    over_in_law : frozenset of int
        Lines over a limit of law: that is said once, and more plainly, there.

    Notes
    -----
    A supplier's or trade level is no law: over it is a caution, under it a note. The figure
    wanted says on which basis it is meant; the finding holds all four. Adjuster that is held
    back and the rest line are taken as they come out, and what only a stock brings is never
    too little. How much acid preservative is enough is judged at the pH, and above the dermal
    maximum of an essential oil another check speaks.
    """
    if formula.product_type == "stock":
        return ()  # use levels are of finished products, and a stock is stronger on purpose
    findings: list[Finding] = []
    own_lines = {line.ingredient for line in formula.lines() if not line.to_ph}
    rest = formula.rest_line
    judged = tuple(each for each in items if _has_range(each.item))
    for key, level in use_levels(judged, shelf, sums).items():
        if rest is not None and rest.ingredient == key:
            continue
        item, own = shelf.ingredients[key], key in own_lines
        found = level.on(item.use_basis or OF_TOTAL)
        if item.use_max is not None and exceeds(found, item.use_max):
            if not over_in_law.intersection(level.lines) and not _is_over_dermal(item, level):
                findings.append(_finding("use-over", level, item, formula))
        elif own and _may_be_too_little(item) and falls_below(found, item.use_min or Decimal(0)):
            findings.append(_finding("use-under", level, item, formula))
    return tuple(findings)


def _level(key: str, found: list[Carried], shelf: Shelf, sums: Totals) -> Level:
    supplied = sum((each.percent for each in found), Decimal(0))
    phases = sum((sums.phases[phase] for phase in {each.phase for each in found}), Decimal(0))
    return Level(
        ingredient=key,
        lines=tuple(dict.fromkeys(each.line for each in found)),
        of_total=supplied,
        of_phase=WHOLE * supplied / phases if phases > 0 else Decimal(0),
        strength=shelf.strength(key),
    )


def _has_range(item: Ingredient) -> bool:
    has_level = item.use_max is not None or item.use_min is not None
    return has_level and _NO_RANGE.isdisjoint(item.functions)


def _may_be_too_little(item: Ingredient) -> bool:
    # What an acid preservative does follows from its acid and the pH, which is judged there.
    return _ACID_PRESERVATIVE not in item.tags


def _is_over_dermal(item: Ingredient, level: Level) -> bool:
    return item.dermal_max is not None and exceeds(level.on(OF_TOTAL), item.dermal_max)


def _finding(code: str, level: Level, item: Ingredient, formula: Formula) -> Finding:
    limit = item.use_max if code == "use-over" else item.use_min
    assert limit is not None
    basis = item.use_basis or OF_TOTAL
    value = level.on(basis)
    named = code if basis == OF_TOTAL else f"{code}-basis"
    return Finding(
        named,
        Severity.CAUTION if code == "use-over" else Severity.NOTE,
        values=(
            ("ingredient", item.key),
            ("percent", significant(value)),
            ("limit", limit),
            ("basis", basis),
            *((name, significant(figure)) for name, figure in level.figures),
        ),
        lines=level.lines,
        value=significant(value),
        limit=limit,
        basis=basis,
        source=item.source,
        confidence=item.confidence,
        remedies=_remedies(level, item, formula, limit / value if value else Decimal(0)),
    )


def _remedies(
    level: Level, item: Ingredient, formula: Formula, share: Decimal
) -> tuple[Remedy, ...]:
    # Only a line that alone brings the ingredient can be set to the level.
    if len(level.lines) != 1 or not share:
        return ()
    line = formula.line(level.lines[0])
    if line.locked or line.percent is None or line.ingredient != item.key:
        return ()
    percent = significant(line.percent * share).normalize()
    if percent > WHOLE:
        return ()
    plain = percent.quantize(Decimal(1)) if percent == percent.to_integral_value() else percent
    values = (("ingredient", item.key), ("percent", plain))
    return (Remedy("remedy-set-percent", values, SetPercent(line.id, plain)),)
