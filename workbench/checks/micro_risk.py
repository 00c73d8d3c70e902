"""A first look at microbial risk: when a challenge test is needed, and what speaks for it."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal

from workbench.checks.carried import Carried
from workbench.checks.label_rules import Labelling, RiskRule
from workbench.checks.label_values import MicroRisk, RiskPoint
from workbench.checks.ph_values import PhEstimate
from workbench.checks.preservation import free_water
from workbench.checks.water_activity import WaterActivity, water_activity
from workbench.formula.compare import exceeds, falls_below
from workbench.formula.composition import Composition
from workbench.formula.formula import Formula
from workbench.formula.scope import Scope
from workbench.formula.shelf import Shelf

NEEDED = "challenge-test-needed"
CRITERION_MET = "low-risk-criterion-met"
NOT_JUDGED = "not-judged"
MEETS, UNSETTLED = "meets", "unsettled"
_PLACES = Decimal("0.01")
_WATER = "water"

Span = tuple[Decimal, Decimal]


@dataclass(frozen=True, slots=True)
class KnownPh:
    """Hold the pH a product is judged at, from `low` to `high`: its target, or an estimate."""

    low: Decimal
    high: Decimal
    is_estimate: bool


def known_ph(formula: Formula, estimate: PhEstimate | None) -> KnownPh | None:
    """Return the pH to judge a formula at, None where nothing is known.

    Notes
    -----
    Where adjuster is still held back, the target is where the product will be.
    """
    target = formula.target_ph
    if estimate is not None and (target is None or not estimate.before_adjusting):
        return KnownPh(Decimal(str(estimate.low)), Decimal(str(estimate.high)), is_estimate=True)
    return None if target is None else KnownPh(*target, is_estimate=False)


def micro_risk(
    parts: Composition,
    shelf: Shelf,
    scope: Scope,
    labelling: Labelling,
    materials: tuple[Carried, ...],
    ph: KnownPh | None,
) -> MicroRisk:
    """Say whether a challenge test is needed, and what speaks for and against it.

    Notes
    -----
    The criteria are those of ISO 29621 as testing laboratories restate them: any one lets a
    documented assessment do without the test; the whole span of a figure must meet it. Not seen
    from a formula: heat at filling, solvent-based and strongly oxidising products. Meeting a
    criterion is no clearance. Of a stock, or without water known of every line, nothing is
    judged.
    """
    if scope.product_type == "stock" or not labelling.risks:
        return MicroRisk(NOT_JUDGED)
    facts = _facts(parts, shelf, scope, labelling, materials, ph)
    points = tuple(
        point for key, rule in labelling.risks.items() for point in _POINTS[key](rule, facts)
    )
    return MicroRisk(_verdict(points, facts), points)


@dataclass(frozen=True, slots=True)
class _Facts:
    parts: Composition
    scope: Scope
    materials: tuple[Carried, ...]
    water: Decimal
    activity: WaterActivity | None
    ph: KnownPh | None


def _facts(
    parts: Composition,
    shelf: Shelf,
    scope: Scope,
    labelling: Labelling,
    materials: tuple[Carried, ...],
    ph: KnownPh | None,
) -> _Facts:
    water = free_water(parts, shelf)
    trace = labelling.risks["no-water"].value
    is_wet = trace is None or exceeds(water, trace)
    return _Facts(
        parts=parts,
        scope=scope,
        materials=materials,
        water=water,
        activity=_activity(water, parts, shelf, labelling) if is_wet else None,
        ph=ph if is_wet else None,
    )


def _activity(
    water: Decimal, parts: Composition, shelf: Shelf, labelling: Labelling
) -> WaterActivity:
    percents = {
        key: float(percent) for key, percent in parts.substances.items() if key in labelling.solutes
    }
    return water_activity(float(water), percents, shelf.substances, labelling.solutes)


def _verdict(points: tuple[RiskPoint, ...], facts: _Facts) -> str:
    met = {point.factor for point in points if point.direction == MEETS}
    if any(point.factor == "wet-use" for point in points):
        met.discard("no-water")
    if facts.parts.unknown:
        # What is in these lines may undo a criterion, so none is taken as met.
        return NEEDED if facts.activity is not None else NOT_JUDGED
    return CRITERION_MET if met else NEEDED


def _point(
    rule: RiskRule,
    span: Span | None = None,
    lines: Iterable[int] = (),
    *,
    direction: str = "",
    is_estimate: bool = False,
) -> RiskPoint:
    low, high = span if span is not None else (None, None)
    return RiskPoint(
        factor=rule.key,
        direction=direction or rule.direction,
        low=None if low is None else low.quantize(_PLACES),
        high=None if high is None else high.quantize(_PLACES),
        limit=rule.value,
        unit=rule.unit,
        lines=tuple(dict.fromkeys(lines)),
        is_estimate=is_estimate,
        source=rule.source,
        confidence=rule.confidence,
    )


def _ph_low(rule: RiskRule, facts: _Facts) -> Iterator[RiskPoint]:
    if facts.ph and rule.value is not None and falls_below(facts.ph.high, rule.value):
        yield _of_ph(rule, facts.ph)


def _ph_high(rule: RiskRule, facts: _Facts) -> Iterator[RiskPoint]:
    if facts.ph and rule.value is not None and exceeds(facts.ph.low, rule.value):
        yield _of_ph(rule, facts.ph)


def _ph_open(rule: RiskRule, facts: _Facts) -> Iterator[RiskPoint]:
    if facts.ph and rule.value is not None and exceeds(facts.ph.high, rule.value):
        yield _of_ph(rule, facts.ph)


def _of_ph(rule: RiskRule, ph: KnownPh) -> RiskPoint:
    return _point(rule, (ph.low, ph.high), is_estimate=ph.is_estimate)


def _amount(rule: RiskRule, facts: _Facts) -> Iterator[RiskPoint]:
    shares = [share for share in facts.parts.shares if share.substance in rule.names]
    total = sum((share.percent for share in shares), Decimal(0))
    if rule.value is not None and exceeds(total, rule.value):
        yield _point(rule, (total, total), (share.line for share in shares))


def _activity_low(rule: RiskRule, facts: _Facts) -> Iterator[RiskPoint]:
    if facts.activity is None or rule.value is None:
        return
    span = (Decimal(str(facts.activity.low)), Decimal(str(facts.activity.high)))
    if falls_below(span[1], rule.value):
        yield _point(rule, span, is_estimate=True)
    elif rule.direction == MEETS and falls_below(span[0], rule.value):
        yield _point(rule, span, direction=UNSETTLED, is_estimate=True)


def _no_water(rule: RiskRule, facts: _Facts) -> Iterator[RiskPoint]:
    if facts.activity is None:
        yield _point(rule, (facts.water, facts.water))


def _water(rule: RiskRule, facts: _Facts) -> Iterator[RiskPoint]:
    if rule.value is not None and exceeds(facts.water, rule.value):
        wet = (share.line for share in facts.parts.shares if share.water > 0)
        yield _point(rule, (facts.water, facts.water), wet)


def _natural_water(rule: RiskRule, facts: _Facts) -> Iterator[RiskPoint]:
    yield from _materials(rule, (each for each in facts.materials if _is_natural_water(each)))


def _nutrients(rule: RiskRule, facts: _Facts) -> Iterator[RiskPoint]:
    if facts.activity is not None:
        yield from _materials(
            rule, (each for each in facts.materials if not _is_natural_water(each))
        )


def _of_purpose(rule: RiskRule, facts: _Facts) -> Iterator[RiskPoint]:
    yield from _materials(rule, (each for each in facts.materials if each.purpose in rule.names))


def _materials(rule: RiskRule, materials: Iterable[Carried]) -> Iterator[RiskPoint]:
    meant = [each for each in materials if rule.names & {*each.item.functions, *each.item.tags}]
    total = sum((each.percent for each in meant), Decimal(0))
    if meant:
        yield _point(rule, (total, total), (each.line for each in meant))


def _is_natural_water(material: Carried) -> bool:
    item = material.item
    is_water = _WATER in item.functions or "hydrosol" in item.functions
    return is_water and any(part.water != part.fraction for part in item.composition)


def _preserved(rule: RiskRule, facts: _Facts) -> Iterator[RiskPoint]:
    shares = [
        share for share in facts.parts.shares if share.purpose in rule.names and share.percent > 0
    ]
    total = sum((share.percent for share in shares), Decimal(0))
    if shares:
        yield _point(rule, (total, total), (share.line for share in shares))


def _pack(rule: RiskRule, facts: _Facts) -> Iterator[RiskPoint]:
    if rule.names & set(re.findall(r"[a-z]+", facts.scope.pack.lower())):
        yield _point(rule)


def _users(rule: RiskRule, facts: _Facts) -> Iterator[RiskPoint]:
    if facts.scope.users in rule.names:
        yield _point(rule)


def _area(rule: RiskRule, facts: _Facts) -> Iterator[RiskPoint]:
    if facts.scope.area in rule.names:
        yield _point(rule)


def _wet_use(rule: RiskRule, facts: _Facts) -> Iterator[RiskPoint]:
    if facts.activity is None and rule.names & {facts.scope.product_type, facts.scope.exposure}:
        yield _point(rule)


_POINTS: Mapping[str, Callable[[RiskRule, _Facts], Iterator[RiskPoint]]] = {
    "ph-low": _ph_low,
    "ph-high": _ph_high,
    "alcohol-high": _amount,
    "water-activity-low": _activity_low,
    "aluminium-chlorohydrate": _amount,
    "no-water": _no_water,
    "water": _water,
    "natural-water": _natural_water,
    "nutrients": _nutrients,
    "ph-open": _ph_open,
    "pack-open": _pack,
    "users-tender": _users,
    "area-tender": _area,
    "wet-use": _wet_use,
    "wet-hands": _wet_use,
    "alcohol-some": _amount,
    "glycols": _amount,
    "water-activity-some": _activity_low,
    "chelator": _of_purpose,
    "preservative": _preserved,
    "pack-closed": _pack,
}
