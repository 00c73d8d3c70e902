"""What was checked of a formula, what was not, and on which tables it rests."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import partial

from workbench.checks.allergens import duty_of
from workbench.checks.checked_values import (
    APPLIED,
    COVERS_NOTHING,
    NOT_APPLICABLE,
    Checked,
    LimitLook,
    Looked,
)
from workbench.checks.finding import Finding
from workbench.checks.label_rules import MarketLabel
from workbench.checks.label_values import Duty, WarningKind
from workbench.checks.labelled import Labelled
from workbench.checks.limit_matching import Fit, atoms_of, fit, is_law, jurisdictions_of, role_of
from workbench.checks.rules import Asked, Authority, LimitRow, Rules
from workbench.formula.composition import Composition
from workbench.formula.scope import Scope
from workbench.formula.shelf import Shelf
from workbench.formula.substance import UNLISTED

HELD, OF_PRODUCT = "held", "of-product"
GAPS = (
    "gap-purity",
    "gap-filling",
    "gap-pack",
    "gap-stability",
    "gap-claims",
    "gap-exposure",
)
CAUTIONS = (
    "caution-assessor",
    "caution-law",
    "caution-challenge",
    "caution-patch",
    "caution-supplier",
)
_BEYOND = "caution-beyond"
_OTHER_SCOPE = "other-scope"


@dataclass(frozen=True, slots=True)
class Done:
    """Hold what the checks gave, as far as the page of what was checked speaks of it.

    `others` say how far tables were used that this page does not know of itself.
    """

    label: Labelled
    findings: tuple[Finding, ...] = ()
    others: tuple[Looked, ...] = ()


def checked(parts: Composition, shelf: Shelf, scope: Scope, rules: Rules, done: Done) -> Checked:
    """Return the page of what was checked.

    Notes
    -----
    A row counts as held where its scope meets the product; whether the content is over it is
    told by the findings. Limits that law puts on products are not held against a stock.
    """
    is_product = scope.product_type != "stock"
    limits = limit_looks(parts, scope, rules) if is_product else ()
    bodies = frozenset(jurisdictions_of(scope.markets))
    return Checked(
        reference_set=rules.reference_set,
        dated=rules.dated,
        on=scope.on,
        markets=scope.markets,
        looked=(
            *_of_limits(limits, scope, rules, is_product=is_product),
            *_of_labels(scope, rules, done, is_product=is_product),
            *done.others,
        ),
        kinds=_kinds(limits, rules),
        limits=limits,
        uncovered=tuple(
            substance
            for substance in parts.substances
            if substance not in shelf.substances
            or shelf.substances[substance].confidence == UNLISTED
        ),
        without_rule=tuple(
            substance
            for substance in parts.substances
            if is_product and not _is_named(rules.limits_by_substance.get(substance, ()), bodies)
        ),
        unknown_lines=parts.unknown,
        gaps=GAPS,
        cautions=(*CAUTIONS, _BEYOND) if scope.on > rules.dated else CAUTIONS,
    )


def limit_looks(parts: Composition, scope: Scope, rules: Rules) -> tuple[LimitLook, ...]:
    """Return what became of every limit row that names a substance of the formula."""
    asked = (frozenset(jurisdictions_of(scope.markets)), atoms_of(scope), scope.on)
    known = rules.outcomes.setdefault(asked, {})
    places = dict.fromkeys(
        (share.substance, role_of(share.purpose)) for share in parts.shares if share.percent > 0
    )
    found: dict[int, tuple[LimitRow, str, dict[str, None]]] = {}
    for substance, role in places:
        if (substance, role) not in known:
            rows = rules.limits_by_substance.get(substance, ())
            known[substance, role] = tuple((row, _outcome(row, role, asked)) for row in rows)
        for row, outcome in known[substance, role]:
            _, before, substances = found.get(row.index, (row, _OTHER_SCOPE, {}))
            substances[substance] = None
            found[row.index] = (row, outcome if before == _OTHER_SCOPE else before, substances)
    looks = [
        LimitLook(index, row.authority.value, outcome, tuple(substances))
        for index, (row, outcome, substances) in found.items()
    ]
    looks.extend(
        LimitLook(row.index, row.authority.value, OF_PRODUCT)
        for row in rules.limits_of_products
        if row.jurisdiction in asked[0]
    )
    return tuple(sorted(looks, key=lambda look: look.index))


def _outcome(row: LimitRow, role: str, asked: Asked) -> str:
    bodies, atoms, on = asked
    if row.jurisdiction not in bodies:
        return "other-market"
    if not row.is_in_scope_of_tool:
        return "outside-program"
    if not any(fit(row, atom, role) is Fit.MATCHES for atom in atoms):
        return _OTHER_SCOPE
    is_early = row.authority is Authority.FUTURE_LAW and not is_law(row, on)
    return "not-yet" if is_early else HELD


def _is_of_kind(kind: Authority, row: LimitRow) -> bool:
    return row.authority is kind


def _is_of(bodies: frozenset[str], row: LimitRow) -> bool:
    return row.jurisdiction in bodies


def _has_words(bodies: frozenset[str], row: LimitRow) -> bool:
    return bool(row.warning) and row.jurisdiction in bodies


def _is_named(rows: Iterable[LimitRow], bodies: frozenset[str]) -> bool:
    return any(_is_of(bodies, row) for row in rows)


def _kinds(limits: tuple[LimitLook, ...], rules: Rules) -> tuple[tuple[str, int, int, int], ...]:
    named = Counter(look.kind for look in limits)
    held = Counter(look.kind for look in limits if look.outcome == HELD)
    return tuple(
        (
            kind.value,
            _counted("kind", kind.value, rules, partial(_is_of_kind, kind)),
            named[kind.value],
            held[kind.value],
        )
        for kind in Authority
    )


def _counted(what: str, which: str, rules: Rules, is_counted: Callable[[LimitRow], bool]) -> int:
    place = (what, which)
    if place not in rules.counted:
        rules.counted[place] = sum(is_counted(row) for row in rules.limits)
    return rules.counted[place]


def _of_limits(
    limits: tuple[LimitLook, ...], scope: Scope, rules: Rules, *, is_product: bool
) -> Iterable[Looked]:
    for market in scope.markets:
        bodies = frozenset(jurisdictions_of((market,)))
        rows = _counted("market", market, rules, partial(_is_of, bodies))
        used = sum(
            look.outcome == HELD and rules.limits[look.index].jurisdiction in bodies
            for look in limits
        )
        state = APPLIED if is_product else NOT_APPLICABLE
        yield Looked("limits", state if rows else COVERS_NOTHING, rows, used, market)


def _binding(label: MarketLabel, scope: Scope, rules: Rules) -> int:
    place = ("allergens", f"{label.market} {scope.on}")
    if place not in rules.counted:
        duties = (duty_of(rule, label, scope) for rule in rules.labelling.allergens)
        rules.counted[place] = sum(duty is Duty.REQUIRED for duty in duties)
    return rules.counted[place]


def _of_labels(scope: Scope, rules: Rules, done: Done, *, is_product: bool) -> Iterable[Looked]:
    bodies = frozenset(jurisdictions_of(scope.markets))
    by_market = {declaration.market: declaration for declaration in done.label.declarations}
    state = APPLIED if is_product else NOT_APPLICABLE
    for market in scope.markets:
        label = rules.labelling.markets.get(market)
        if label is None:
            yield Looked("declaration", COVERS_NOTHING, market=market)
            continue
        declaration = by_market.get(market)
        names = len(declaration.entries) if declaration else 0
        yield Looked("declaration", state, len(label.sources), names, market)
        binding = _binding(label, scope, rules)
        named = declaration.allergens if declaration else ()
        over = sum(allergen.duty is Duty.REQUIRED for allergen in named)
        yield Looked("allergens", state if binding else COVERS_NOTHING, binding, over, market)
    for topic, kinds, rows in (
        (
            "warnings-prescribed",
            (WarningKind.PRESCRIBED, WarningKind.RECOMMENDED),
            _counted(
                "warnings",
                " ".join(sorted(bodies)),
                rules,
                partial(_has_words, bodies),
            ),
        ),
        ("warnings-usual", (WarningKind.USUAL, WarningKind.BENCH), len(rules.labelling.warnings)),
    ):
        used = sum(warning.kind in kinds for warning in done.label.warnings)
        yield Looked(topic, APPLIED if used else state, rows, used)
    risk = done.label.micro_risk
    points = len(risk.points)
    yield Looked(
        "micro-risk", state if points else NOT_APPLICABLE, len(rules.labelling.risks), points
    )
