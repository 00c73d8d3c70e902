"""How well one material could stand in for another: points, why, and what differs."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from decimal import Decimal

from workbench.formula.candidate_values import Reason, Sketch, Span, Wanted
from workbench.formula.compare import significant
from workbench.formula.swaps import Ratio

# The order of what a maker asks first: is it known to work, is it the same thing, does it do
# the same job, does it go into the same phase, does it bear the pH. Points only make an order.
IN_TABLE, REVERSED, SAME_SUBSTANCE = 40, 25, 40
SAME_PURPOSE, SHARED_FUNCTION, SHARED_AT_MOST = 30, 4, 12
SAME_SOLUBILITY, EITHER_SOLUBILITY, OTHER_SOLUBILITY = 12, 6, -30
SAME_CHARGE, OPPOSITE_CHARGE = 6, -15
PH_FITS, PH_APART = 6, -20
SAME_STRENGTH, ON_HAND, HOLDS_IT = 4, 14, 150
EITHER = "both"
WATER = "water"
_OPPOSITE = frozenset({"anionic", "cationic"})
_UNCHARGED = frozenset({"none", "nonionic"})


@dataclass(frozen=True, slots=True)
class Weighed:
    """Hold the points of a candidate, why it is one, and what differs."""

    points: int
    why: tuple[Reason, ...]
    differs: tuple[Reason, ...]


@dataclass(frozen=True, slots=True)
class _Mark:
    points: int
    why: Reason | None = None
    differs: Reason | None = None


def weighed(wanted: Wanted, sketch: Sketch, row: Ratio | None) -> Weighed:
    """Return how well a material fits; no points where it does no part of the same job."""
    marks = [*_table(sketch, row), *_substance(wanted.item, sketch), *_functions(wanted, sketch)]
    if sum(mark.points for mark in marks) <= 0:
        return Weighed(0, (), ())
    if sketch.on_hand:
        marks.append(_Mark(ON_HAND, Reason("why-on-hand")))
    for look in _LOOKS:
        marks.extend(look(wanted, sketch))
    return Weighed(
        points=max(1, sum(mark.points for mark in marks)),
        why=tuple(mark.why for mark in marks if mark.why),
        differs=tuple(mark.differs for mark in marks if mark.differs),
    )


def at_a_glance(wanted: Wanted, sketch: Sketch, *, is_in_table: bool) -> int:
    """Return the points of what tells most, to leave out what cannot be among the best."""
    item, functions = wanted.item, sketch.functions
    asked = wanted.purpose or (item.functions[0] if item.functions else "")
    points = IN_TABLE if is_in_table else 0
    points += HOLDS_IT if sketch.is_stock else 0
    points += SAME_SUBSTANCE if item.substance and item.substance == sketch.substance else 0
    points += SAME_PURPOSE if asked in functions else 0
    points += ON_HAND if sketch.on_hand else 0
    points += SAME_CHARGE if item.charge == sketch.charge else 0
    if item.solubility == sketch.solubility:
        return points + SAME_SOLUBILITY
    is_either = EITHER in (item.solubility, sketch.solubility)
    return points + (EITHER_SOLUBILITY if is_either else OTHER_SOLUBILITY)


def _table(sketch: Sketch, row: Ratio | None) -> Iterable[_Mark]:
    if sketch.is_stock:
        yield _Mark(HOLDS_IT, Reason("why-stock-of-it"))
    if row is None:
        return
    code = "why-in-table-reversed" if row.is_reversed else "why-in-table"
    why = Reason(code, (("rule", row.rule), ("source", row.source), ("confidence", row.confidence)))
    note = Reason("differs-note", (("note", row.note),)) if row.note else None
    yield _Mark(REVERSED if row.is_reversed else IN_TABLE, why, None if row.is_reversed else note)


def _substance(item: Sketch, sketch: Sketch) -> Iterable[_Mark]:
    if item.substance and item.substance == sketch.substance and not sketch.is_stock:
        yield _Mark(SAME_SUBSTANCE, Reason("why-same-substance", (("substance", item.substance),)))


def _functions(wanted: Wanted, sketch: Sketch) -> Iterable[_Mark]:
    asked = wanted.purpose or (wanted.item.functions[0] if wanted.item.functions else "")
    shared = tuple(name for name in wanted.item.functions if name in sketch.functions)
    if asked and asked in sketch.functions:
        yield _Mark(SAME_PURPOSE, Reason("why-same-purpose", (("function", asked),)))
    others = tuple(name for name in shared if name != asked)
    if others:
        points = min(SHARED_AT_MOST, SHARED_FUNCTION * len(others))
        yield _Mark(points, Reason("why-shared-functions", (("functions", others),)))
    missing = tuple(name for name in wanted.item.functions if name not in sketch.functions)
    if missing and not sketch.is_stock:
        yield _Mark(0, differs=Reason("differs-functions", (("functions", missing),)))


def _solubility(wanted: Wanted, sketch: Sketch) -> Iterable[_Mark]:
    old, new = wanted.item.solubility, sketch.solubility
    if not old or not new:
        return
    values = (("before", old), ("after", new))
    if old == new:
        yield _Mark(SAME_SOLUBILITY, Reason("why-same-solubility", (("solubility", new),)))
    elif EITHER in (old, new):
        yield _Mark(EITHER_SOLUBILITY, differs=Reason("differs-solubility", values))
    else:
        yield _Mark(OTHER_SOLUBILITY, differs=Reason("differs-solubility", values))


def _charge(wanted: Wanted, sketch: Sketch) -> Iterable[_Mark]:
    old, new = wanted.item.charge, sketch.charge
    if not old or not new:
        return
    if old == new or _UNCHARGED.issuperset({old, new}):
        yield _Mark(SAME_CHARGE, Reason("why-same-charge", (("charge", new),)))
        return
    points = OPPOSITE_CHARGE if {old, new} == _OPPOSITE else 0
    yield _Mark(points, differs=Reason("differs-charge", (("before", old), ("after", new))))


def _ph(wanted: Wanted, sketch: Sketch) -> Iterable[_Mark]:
    if wanted.ph is None or (sketch.ph_min is None and sketch.ph_max is None):
        return
    window: Span = (sketch.ph_min, sketch.ph_max)
    values = _span("asked", wanted.ph) + _span("window", window)
    if _within(wanted.ph, window):
        yield _Mark(PH_FITS, Reason("why-ph-fits", values))
    elif _meet(wanted.ph, window):
        yield _Mark(0, differs=Reason("differs-ph-narrower", values))
    else:
        yield _Mark(PH_APART, differs=Reason("differs-ph-apart", values))


def _strength(wanted: Wanted, sketch: Sketch) -> Iterable[_Mark]:
    old, new = wanted.item.strength, sketch.strength
    if old is None or new is None or WATER in wanted.item.functions:
        return  # what is in the place of water has no strength to match
    if significant(old) == significant(new):
        yield _Mark(SAME_STRENGTH)
    else:
        yield _Mark(0, differs=Reason("differs-strength", (("before", old), ("after", new))))


def _handling(wanted: Wanted, sketch: Sketch) -> Iterable[_Mark]:
    item = wanted.item
    for code, before, after in (
        ("differs-form", item.form, sketch.form),
        ("differs-origin", item.origin, sketch.origin),
    ):
        if before and after and before != after:
            yield _Mark(0, differs=Reason(code, (("before", before), ("after", after))))
    if sketch.heat_sensitive and not item.heat_sensitive:
        yield _Mark(0, differs=Reason("differs-heat"))
    if sketch.salt_sensitive and not item.salt_sensitive:
        yield _Mark(0, differs=Reason("differs-salt"))


def _dose(wanted: Wanted, sketch: Sketch) -> Iterable[_Mark]:
    low, high = sketch.use_min, sketch.use_max
    if high is not None and (low, high) != (wanted.item.use_min, wanted.item.use_max):
        yield _Mark(0, differs=Reason("differs-dose", (("low", low or Decimal(0)), ("high", high))))


_LOOKS: tuple[Callable[[Wanted, Sketch], Iterable[_Mark]], ...] = (
    _solubility,
    _charge,
    _ph,
    _strength,
    _dose,
    _handling,
)


def _span(name: str, span: Span) -> tuple[tuple[str, str | Decimal], ...]:
    low, high = span
    return (
        (f"{name}_low", "" if low is None else low),
        (f"{name}_high", "" if high is None else high),
    )


def _meet(one: Span, other: Span) -> bool:
    low = max((span[0] for span in (one, other) if span[0] is not None), default=None)
    high = min((span[1] for span in (one, other) if span[1] is not None), default=None)
    return low is None or high is None or low <= high


def _within(asked: Span, window: Span) -> bool:
    low = window[0] is None or (asked[0] is not None and asked[0] >= window[0])
    high = window[1] is None or (asked[1] is not None and asked[1] <= window[1])
    return low and high
