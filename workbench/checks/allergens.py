"""Fragrance allergens: how much of each is in a formula, and where the label must name it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal

from workbench.checks.carried import Carried
from workbench.checks.finding import Finding, Severity
from workbench.checks.label_rules import AllergenRule, Labelling, MarketLabel
from workbench.checks.label_values import Allergen, Duty, Grounds
from workbench.formula.compare import exceeds
from workbench.formula.ingredient import Constituent, Ingredient
from workbench.formula.scope import Scope
from workbench.formula.shelf import Shelf
from workbench.formula.supply import CERTIFICATE

_RINSE_OFF = "rinse-off"
_WEAKEST_FIRST = (Grounds.TYPICAL, Grounds.CERTIFICATE, Grounds.SUBSTANCE)


@dataclass(frozen=True, slots=True)
class AllergenContent:
    """Hold how much of one listed allergen a formula holds [% w/w], and what that rests on."""

    rule: AllergenRule
    percent: Decimal
    grounds: Grounds
    lines: tuple[int, ...]


def allergen_contents(
    materials: Iterable[Carried], labelling: Labelling
) -> tuple[AllergenContent, ...]:
    """Return the content of every listed allergen, over substances, oils and fragrances.

    Notes
    -----
    An oil that is itself on the list counts whole under its own name; what it is known to hold
    counts beside that, as the law names both (Reg. (EC) 1223/2009 Annex III, Reg. (EU)
    2023/1545).
    """
    sums: dict[str, tuple[AllergenRule, Decimal, Grounds, tuple[int, ...]]] = {}
    for material in materials:
        for rule, fraction, grounds in _fractions(material.item, labelling):
            added = material.percent * fraction
            known = sums.get(rule.label)
            if known is None:
                sums[rule.label] = (rule, added, grounds, (material.line,))
                continue
            _, percent, before, lines = known
            weaker = min(before, grounds, key=_WEAKEST_FIRST.index)
            lines = lines if material.line in lines else (*lines, material.line)
            sums[rule.label] = (rule, percent + added, weaker, lines)
    return tuple(AllergenContent(*held) for held in sums.values())


def over_threshold(
    contents: Iterable[AllergenContent], scope: Scope
) -> tuple[AllergenContent, ...]:
    """Return the contents above their threshold, the highest first."""
    over = [
        held for held in contents if exceeds(held.percent, threshold_of(held.rule, scope.exposure))
    ]
    return tuple(sorted(over, key=lambda held: (-held.percent, held.rule.label)))


def allergens_over(
    over: Iterable[AllergenContent], label: MarketLabel, scope: Scope
) -> tuple[Allergen, ...]:
    """Return contents over their threshold as allergens of one market, in their order."""
    return tuple(
        Allergen(
            label=held.rule.label,
            percent=held.percent,
            threshold=threshold_of(held.rule, scope.exposure),
            duty=duty,
            grounds=held.grounds,
            lines=held.lines,
            due=held.rule.placing,
            stock_until=held.rule.making_available,
            source=held.rule.source,
            confidence=held.rule.confidence,
        )
        for held in over
        if (duty := duty_of(held.rule, label, scope)) is not None
    )


def threshold_of(rule: AllergenRule, exposure: str) -> Decimal:
    """Return the content above which an allergen is named [% w/w of the product]."""
    return rule.rinse_off if exposure == _RINSE_OFF else rule.leave_on


def check_allergens(
    materials: Iterable[Carried], shelf: Shelf, scope: Scope, labelling: Labelling
) -> tuple[Finding, ...]:
    """Find scents whose allergens nobody has told, where the label would have to name them.

    Notes
    -----
    A stock goes into other formulas and has no label. A scent so small that no allergen in it
    could pass its threshold says nothing.
    """
    markets = tuple(
        market
        for market in scope.markets
        if market in labelling.markets and labelling.markets[market].allergen_lists
    )
    if not markets or scope.product_type == "stock":
        return ()
    least = min((threshold_of(rule, scope.exposure) for rule in labelling.allergens), default=None)
    label = labelling.markets[markets[0]]
    if least is None:
        return ()
    return tuple(
        Finding(
            "allergens-unknown",
            Severity.CAUTION,
            values=(
                ("ingredient", material.item.key),
                ("percent", material.percent),
                ("limit", least),
                ("authority", markets),
            ),
            lines=(material.line,),
            value=material.percent,
            limit=least,
            basis="allergens",
            source=label.sources["allergen_lists"][0] if "allergen_lists" in label.sources else "",
            confidence=label.sources.get("allergen_lists", ("", ""))[1],
        )
        for material in unknown_scents(materials, shelf, labelling)
        if exceeds(material.percent, least)
    )


def unknown_scents(
    materials: Iterable[Carried], shelf: Shelf, labelling: Labelling
) -> tuple[Carried, ...]:
    """Return scents and oils of which no allergen content is known at all."""
    purposes = frozenset(
        purpose for label in labelling.markets.values() for purpose in label.fragrance_purposes
    )
    return tuple(
        material
        for material in materials
        if (material.purpose in purposes or purposes & set(material.item.functions))
        and not _is_told(material.item, shelf, labelling)
    )


def _is_told(item: Ingredient, shelf: Shelf, labelling: Labelling) -> bool:
    if item.constituents or item.is_certified:
        return True
    listed = labelling.allergens_by_substance
    return all(
        part.substance in listed
        or (
            (known := shelf.substances.get(part.substance)) is not None
            and known.kind not in ("mixture", "extract", "group")
        )
        for part in item.composition
    )


def duty_of(rule: AllergenRule, label: MarketLabel, scope: Scope) -> Duty | None:
    """Say whether a market asks for an allergen's name on the day of the scope; None: never."""
    if rule.listed in label.allergen_lists and not rule.is_doubtful:
        is_due = rule.placing is None or rule.placing <= scope.on
        return Duty.REQUIRED if is_due else Duty.COMING
    known = label.allergen_lists | label.offered_lists
    return Duty.OPTIONAL if rule.listed in known else None


def _fractions(
    item: Ingredient, labelling: Labelling
) -> Iterable[tuple[AllergenRule, Decimal, Grounds]]:
    listed = labelling.allergens_by_substance
    if not item.constituents and not any(part.substance in listed for part in item.composition):
        return ()
    own = _summed(((part.substance, part.fraction) for part in item.composition), listed)
    if not item.constituents:
        return ((rule, fraction, Grounds.SUBSTANCE) for rule, fraction in own.values())
    inside = told_constituents(item)
    within = _summed(((told.substance, told.fraction) for told in inside), listed)
    is_certified = any(told.source == CERTIFICATE for told in inside)
    grounds = Grounds.CERTIFICATE if is_certified else Grounds.TYPICAL
    # The same matter may be told as a part and as a constituent: the higher figure holds it all.
    found = {name: (rule, fraction, Grounds.SUBSTANCE) for name, (rule, fraction) in own.items()}
    for name, (rule, fraction) in within.items():
        if name not in own or fraction > own[name][1]:
            found[name] = (rule, fraction, grounds)
    return found.values()


def told_constituents(item: Ingredient) -> tuple[Constituent, ...]:
    """Return what is known to be inside a material: its certificate, else typical contents."""
    certified = tuple(told for told in item.constituents if told.source == CERTIFICATE)
    return certified or item.constituents


def _summed(
    parts: Iterable[tuple[str, Decimal]], listed: Mapping[str, tuple[AllergenRule, ...]]
) -> dict[str, tuple[AllergenRule, Decimal]]:
    sums: dict[str, tuple[AllergenRule, Decimal]] = {}
    for substance, fraction in parts:
        for rule in listed.get(substance, ()):
            _, before = sums.get(rule.label, (rule, Decimal(0)))
            sums[rule.label] = (rule, before + fraction)
    return sums
