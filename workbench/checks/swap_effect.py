"""One view of before and after: lines, totals, cost, declaration, pH, figures and findings."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from workbench.checks.assess import assess
from workbench.checks.assessment import Assessment, Figure
from workbench.checks.finding import Finding
from workbench.checks.ph_overlap import overlap_of
from workbench.checks.ph_values import PhEstimate
from workbench.checks.ph_windows import PhWindow, PhWindows
from workbench.checks.rules import Rules
from workbench.formula.absent import Absent
from workbench.formula.difference import FormulaDifference, formula_difference
from workbench.formula.formula import Formula
from workbench.formula.scope import Scope
from workbench.formula.shelf import Shelf
from workbench.formula.stocks import with_stock_changed

Span = tuple[Decimal | None, Decimal | None]
Identity = tuple[object, ...]


@dataclass(frozen=True, slots=True)
class FigureChange:
    """Hold one figure before and after; None on a side where it is not shown at all."""

    key: str
    before: Figure | None
    after: Figure | None

    @property
    def by(self) -> Decimal | None:
        """Return what it gains in its unit, None where a side is missing or not computed."""
        if self.before is None or self.after is None:
            return None
        old, new = self.before.value, self.after.value
        return new - old if isinstance(old, Decimal) and isinstance(new, Decimal) else None


@dataclass(frozen=True, slots=True)
class DeclarationChange:
    """Hold an ingredient list of one market before and after.

    `added` and `removed` are names; `moved` are names on both whose order among those that
    stay is another.
    """

    market: str
    before: tuple[str, ...]
    after: tuple[str, ...]
    added: tuple[str, ...]
    removed: tuple[str, ...]
    moved: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class WindowChange:
    """Hold the pH window of one part of a formula before and after; None where it has none."""

    before: PhWindow | None
    after: PhWindow | None


@dataclass(frozen=True, slots=True)
class FindingChange:
    """Hold a finding that stays, as it reads before and after."""

    before: Finding
    after: Finding

    @property
    def reads_otherwise(self) -> bool:
        """Tell whether its figures differ."""
        return (self.before.value, self.before.values, self.before.severity) != (
            self.after.value,
            self.after.values,
            self.after.severity,
        )


@dataclass(frozen=True, slots=True)
class SwapEffect:
    """Hold a formula before and after a change, and all that differs.

    Parameters
    ----------
    before, after : Assessment
        Everything computed of both; totals, cost, pH and ladder are in them.
    difference : FormulaDifference
        Head, phases and lines.
    figures : tuple of FigureChange
        Figures that differ, in the order they are shown.
    declarations : tuple of DeclarationChange
        Ingredient lists that differ, by market.
    windows : tuple of WindowChange
        pH windows that differ.
    gone, new : tuple of Finding
        Findings only before, and only after.
    unchanged : tuple of FindingChange
        Findings on both sides; their figures may differ.
    """

    before: Assessment
    after: Assessment
    difference: FormulaDifference
    figures: tuple[FigureChange, ...]
    declarations: tuple[DeclarationChange, ...]
    windows: tuple[WindowChange, ...]
    gone: tuple[Finding, ...]
    new: tuple[Finding, ...]
    unchanged: tuple[FindingChange, ...]

    @property
    def cost_by(self) -> Decimal | None:
        """Return what the batch costs more, in its currency; None where it is not comparable."""
        old, new = self.before.cost, self.after.cost
        if isinstance(old, Absent) or isinstance(new, Absent) or old.currency != new.currency:
            return None
        return new.batch - old.batch if old.is_complete and new.is_complete else None

    @property
    def ph_by(self) -> float | None:
        """Return by how much the estimated pH moves, None where a side has no estimate."""
        old, new = self.before.ph, self.after.ph
        if isinstance(old, PhEstimate) and isinstance(new, PhEstimate):
            return new.estimate - old.estimate
        return None


def swap_effect(
    before: Formula, after: Formula, shelf: Shelf, scope: Scope, rules: Rules
) -> SwapEffect:
    """Assess a formula before and after a change, on a shelf that knows both."""
    return effect_between(
        (before, assess(before, shelf, scope, rules)), (after, assess(after, shelf, scope, rules))
    )


def effect_between(
    before: tuple[Formula, Assessment], after: tuple[Formula, Assessment]
) -> SwapEffect:
    """Return what differs between two assessed formulas, be they versions or drafts."""
    old, new = before[1], after[1]
    gone, came, stay = _findings(old, new)
    return SwapEffect(
        before=old,
        after=new,
        difference=formula_difference(before[0], after[0]),
        figures=_figures(old, new),
        declarations=_declarations(old, new),
        windows=_windows(old.ph_windows, new.ph_windows),
        gone=gone,
        new=came,
        unchanged=stay,
    )


def stock_effect(
    formula: Formula, shelf: Shelf, changed: tuple[str, Formula], scope: Scope, rules: Rules
) -> SwapEffect:
    """Return what a changed stock, by its key, would change in a draft; the draft stays."""
    key, stock = changed
    return effect_between(
        (formula, assess(formula, shelf, scope, rules)),
        (formula, assess(formula, with_stock_changed(shelf, key, stock), scope, rules)),
    )


def ph_asked_without(line_id: int, windows: PhWindows) -> Span | None:
    """Return the pH the rest of a formula asks for, were a line not there; None where none.

    A window that several lines share stays as long as another line holds it.
    """
    rows = [row for row in windows.rows if row.lines != (line_id,)]
    return overlap_of(rows) if rows else None


def _figures(old: Assessment, new: Assessment) -> tuple[FigureChange, ...]:
    was = {figure.key: figure for figure in old.figures}
    now = {figure.key: figure for figure in new.figures}
    return tuple(
        FigureChange(key, was.get(key), now.get(key))
        for key in dict.fromkeys((*now, *was))
        if was.get(key) != now.get(key)
    )


def _declarations(old: Assessment, new: Assessment) -> tuple[DeclarationChange, ...]:
    found: list[DeclarationChange] = []
    was = {each.market: each.names for each in old.label.declarations}
    now = {each.market: each.names for each in new.label.declarations}
    for market in dict.fromkeys((*now, *was)):
        before, after = was.get(market, ()), now.get(market, ())
        if before == after:
            continue
        stayed = [name for name in after if name in before]
        order = [name for name in before if name in after]
        found.append(
            DeclarationChange(
                market=market,
                before=before,
                after=after,
                added=tuple(name for name in after if name not in before),
                removed=tuple(name for name in before if name not in after),
                moved=tuple(
                    name for name, other in zip(stayed, order, strict=False) if name != other
                ),
            )
        )
    return tuple(found)


def _windows(old: PhWindows, new: PhWindows) -> tuple[WindowChange, ...]:
    was = {(row.kind, row.name): row for row in old.rows}
    now = {(row.kind, row.name): row for row in new.rows}
    return tuple(
        WindowChange(was.get(key), now.get(key))
        for key in dict.fromkeys((*now, *was))
        if was.get(key) != now.get(key)
    )


def _findings(
    old: Assessment, new: Assessment
) -> tuple[tuple[Finding, ...], tuple[Finding, ...], tuple[FindingChange, ...]]:
    left: dict[Identity, list[Finding]] = {}
    for found in old.findings:
        left.setdefault(_identity(found), []).append(found)
    came: list[Finding] = []
    stay: list[FindingChange] = []
    for found in new.findings:
        same = left.get(_identity(found))
        if same:
            stay.append(FindingChange(same.pop(0), found))
        else:
            came.append(found)
    remaining = {id(found) for each in left.values() for found in each}
    gone = tuple(found for found in old.findings if id(found) in remaining)
    return gone, tuple(came), tuple(stay)


def _identity(found: Finding) -> Identity:
    """Return what makes a finding the same on both sides.

    One about a substance or a rule is the same whichever lines bring it; any other is about its
    lines and what is on them.
    """
    named = tuple(found.values_of(name) for name in ("substance", "authority", "rule"))
    return (found.code, named) if any(named) else (found.code, found.about, len(found.lines))
