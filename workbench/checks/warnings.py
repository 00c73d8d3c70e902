"""Warnings for the label and for the bench: the law's own words, and those of good practice."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from decimal import Decimal

from workbench.checks.carried import Carried
from workbench.checks.label_rules import UsualWarning
from workbench.checks.label_values import LabelWarning, WarningKind
from workbench.checks.preservation import free_water
from workbench.checks.rules import Rules
from workbench.formula.compare import exceeds
from workbench.formula.composition import Composition
from workbench.formula.scope import Scope
from workbench.formula.shelf import Shelf

ONE = Decimal(1)
_DRY = "dry-product-wet-use"
_OVER = "phototoxic-over-maximum"


@dataclass(frozen=True, slots=True)
class Handled:
    """Hold the raw materials of a formula, and which lines are stocks made before.

    Powders and strong acids inside a stock were handled when it was made.
    """

    materials: tuple[Carried, ...]
    from_stock: frozenset[int] = frozenset()


def usual_warnings(
    parts: Composition, shelf: Shelf, scope: Scope, rules: Rules, handled: Handled
) -> tuple[LabelWarning, ...]:
    """Return the warnings of good practice that a formula calls for.

    Notes
    -----
    A stock has no label: only what concerns the bench is said of it.
    """
    facts = _Facts(
        parts=parts,
        shelf=shelf,
        scope=scope,
        rules=rules,
        handled=handled,
        words=_words_of(handled.materials),
        phototoxic=_phototoxic_share(handled.materials),
    )
    found = (_called(rule, facts) for rule in rules.labelling.warnings)
    return tuple(warning for warning in found if warning is not None)


def merged_words(prescribed: Iterable[LabelWarning]) -> tuple[LabelWarning, ...]:
    """Return each prescribed text once, with every row's markets, conditions and sources."""
    found: dict[tuple[WarningKind, str], LabelWarning] = {}
    for words in prescribed:
        place = (words.kind, words.text)
        found[place] = _with(found[place], words) if place in found else words
    return tuple(found.values())


def without_doubles(
    usual: Iterable[LabelWarning], prescribed: tuple[LabelWarning, ...], rules: Rules
) -> tuple[LabelWarning, ...]:
    """Leave usual words out of a market that prescribes or recommends words to the same end."""
    ways = {rule.key: rule.gives_way_to.lower() for rule in rules.labelling.warnings}
    kept = (_left(warning, ways.get(warning.key, ""), prescribed) for warning in usual)
    return tuple(warning for warning in kept if warning.markets)


@dataclass(frozen=True, slots=True)
class _Facts:
    parts: Composition
    shelf: Shelf
    scope: Scope
    rules: Rules
    handled: Handled
    words: Mapping[str, tuple[int, ...]]
    phototoxic: Decimal


def _called(rule: UsualWarning, facts: _Facts) -> LabelWarning | None:
    kind = WarningKind(rule.kind)
    if not _is_for(rule, facts.scope) or (
        kind is not WarningKind.BENCH and facts.scope.product_type == "stock"
    ):
        return None
    lines, substances, percent = _carriers(rule, facts)
    if not rule.is_of_product and not lines:
        return None
    if rule.above_percent is not None and not exceeds(percent, rule.above_percent):
        return None
    return LabelWarning(
        key=rule.key,
        kind=kind,
        markets=facts.scope.markets,
        lines=lines,
        substances=substances,
        source=rule.source,
        confidence=rule.confidence,
    )


def _is_for(rule: UsualWarning, scope: Scope) -> bool:
    return all(
        not wanted or having in wanted
        for wanted, having in (
            (rule.exposures, scope.exposure),
            (rule.areas, scope.area),
            (rule.users, scope.users),
            (rule.product_forms, scope.form),
            (rule.product_types, scope.product_type),
        )
    )


def _carriers(
    rule: UsualWarning, facts: _Facts
) -> tuple[tuple[int, ...], tuple[str, ...], Decimal]:
    if rule.fact == _DRY:
        return _dry(facts)
    if rule.substances:
        shares = [share for share in facts.parts.shares if share.substance in rule.substances]
        total = sum((share.percent for share in shares), Decimal(0))
        lines = dict.fromkeys(share.line for share in shares)
        return tuple(lines), tuple(dict.fromkeys(share.substance for share in shares)), total
    made_before = facts.handled.from_stock if rule.kind == "bench" else frozenset()
    meant = [each for each in _meant(rule, facts) if each.line not in made_before]
    return (
        tuple(dict.fromkeys(material.line for material in meant)),
        tuple(
            dict.fromkeys(
                part.substance
                for material in meant
                for part in material.item.composition
                if not part.water
            )
        ),
        sum((material.percent for material in meant), Decimal(0)),
    )


def _meant(rule: UsualWarning, facts: _Facts) -> Iterable[Carried]:
    materials = facts.handled.materials
    if rule.fact:
        is_over = exceeds(facts.phototoxic, ONE)
        is_called = is_over if rule.fact == _OVER else not is_over
        return (each for each in materials if is_called and each.item.is_phototoxic)
    places = {place for word in rule.tags | rule.functions for place in facts.words.get(word, ())}
    return (materials[place] for place in sorted(places))


def _words_of(materials: tuple[Carried, ...]) -> Mapping[str, tuple[int, ...]]:
    # A tag and a function of one word mean the same.
    found: defaultdict[str, list[int]] = defaultdict(list)
    for place, material in enumerate(materials):
        for word in (*material.item.tags, *material.item.functions):
            found[word].append(place)
    return {word: tuple(places) for word, places in found.items()}


def _phototoxic_share(materials: Iterable[Carried]) -> Decimal:
    # Oils of one kind of action add up: each counts as the share of its own maximum it uses.
    # One without a known maximum uses all of it.
    return sum(
        (
            material.percent / material.item.dermal_max if material.item.dermal_max else 2 * ONE
            for material in materials
            if material.item.is_phototoxic
        ),
        Decimal(0),
    )


def _dry(facts: _Facts) -> tuple[tuple[int, ...], tuple[str, ...], Decimal]:
    rule = facts.rules.labelling.risks.get("no-water")
    least = rule.value if rule is not None else None
    if least is None or exceeds(free_water(facts.parts, facts.shelf), least):
        return (), (), Decimal(0)
    return (
        tuple(dict.fromkeys(material.line for material in facts.handled.materials)),
        (),
        Decimal(0),
    )


def _left(warning: LabelWarning, way: str, prescribed: tuple[LabelWarning, ...]) -> LabelWarning:
    if not way:
        return warning
    said = {
        market
        for words in prescribed
        if way in words.text.lower() and set(words.lines) & set(warning.lines)
        for market in words.markets
    }
    return replace(
        warning, markets=tuple(market for market in warning.markets if market not in said)
    )


def _with(one: LabelWarning, other: LabelWarning) -> LabelWarning:
    return replace(
        one,
        condition=_joined(one.condition, other.condition, "; "),
        markets=tuple(dict.fromkeys((*one.markets, *other.markets))),
        lines=tuple(sorted({*one.lines, *other.lines})),
        substances=tuple(dict.fromkeys((*one.substances, *other.substances))),
        source=_joined(one.source, other.source, " | "),
        confidence="memory" if "memory" in (one.confidence, other.confidence) else one.confidence,
    )


def _joined(one: str, other: str, between: str) -> str:
    texts = [one] if other in one else [text for text in (one, other) if text]
    return between.join(texts)
