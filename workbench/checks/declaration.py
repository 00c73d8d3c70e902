"""The ingredient list of a formula for each market."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from decimal import Decimal

from workbench.checks.allergens import (
    AllergenContent,
    allergen_contents,
    allergens_over,
    over_threshold,
    unknown_scents,
)
from workbench.checks.carried import Carried
from workbench.checks.declaration_order import is_free, ordered
from workbench.checks.label_rules import Labelling, MarketLabel
from workbench.checks.label_values import (
    Allergen,
    Declaration,
    Declared,
    Duty,
    Grounds,
    LabelNote,
)
from workbench.checks.limit_matching import role_of
from workbench.formula.composition import Composition, Share
from workbench.formula.scope import Scope
from workbench.formula.shelf import Shelf
from workbench.formula.substance import Substance

NANO, MAY_BE_NANO = "nano", "nano-possible"
_Naming = tuple[bool, str, frozenset[str], str, Decimal, bool]


def declarations(
    parts: Composition,
    shelf: Shelf,
    scope: Scope,
    labelling: Labelling,
    materials: tuple[Carried, ...],
) -> tuple[Declaration, ...]:
    """Return the ingredient list for each market of the scope that has label rules.

    Notes
    -----
    Weight as added, so that an acid and the base that neutralises it are both named, and a salt
    counts with its crystal water. Water is summed over the line, stocks and solutions. Several
    substances with one label name are one entry.
    """
    reading = _Reading(
        parts=parts,
        shelf=shelf,
        scope=scope,
        labelling=labelling,
        materials=materials,
        contents=over_threshold(allergen_contents(materials, labelling), scope),
        held_back=frozenset(each.line for each in materials if each.is_to_ph),
        nano=_with_tag(materials, NANO),
        noted=_lines_to_note(parts, shelf, labelling, materials),
    )
    return tuple(
        _declaration(reading, labelling.markets[market])
        for market in scope.markets
        if market in labelling.markets
    )


@dataclass(frozen=True, slots=True)
class _Reading:
    parts: Composition
    shelf: Shelf
    scope: Scope
    labelling: Labelling
    materials: tuple[Carried, ...]
    contents: tuple[AllergenContent, ...]
    held_back: frozenset[int]
    nano: frozenset[str]
    noted: Mapping[str, tuple[int, ...]]
    named: dict[_Naming, Mapping[str, Declared]] = field(default_factory=dict)


@dataclass(slots=True)
class _Sum:
    percent: Decimal = Decimal(0)
    lines: dict[int, None] = field(default_factory=dict)
    substances: dict[str, None] = field(default_factory=dict)
    is_colourant: bool = True
    is_fragrance: bool = True
    is_nano: bool = False


def _declaration(reading: _Reading, label: MarketLabel) -> Declaration:
    allergens = allergens_over(reading.contents, label, reading.scope)
    entries = dict(_named(reading, label))
    for allergen in allergens:
        if allergen.duty is Duty.REQUIRED:
            known = entries.get(allergen.label)
            entries[allergen.label] = _with_allergen(known, allergen, label)
    source, confidence = label.sources.get("heading", ("", ""))
    return Declaration(
        market=label.market,
        heading=label.heading,
        entries=ordered(entries.values()),
        allergens=allergens,
        notes=tuple(_notes(reading, label, allergens)),
        unknown=reading.parts.unknown,
        source=source,
        confidence=confidence,
    )


def _named(reading: _Reading, label: MarketLabel) -> Mapping[str, Declared]:
    # Markets that write the same names in the same way share them.
    naming = (
        label.uses_us_names,
        _scent(label, reading.scope),
        label.fragrance_purposes,
        label.nano_mark,
        label.free_percent,
        label.is_free_at_limit,
    )
    known = reading.named.get(naming)
    if known is None:
        sums = _summed(reading, label)
        known = {name: _entry(name, held, reading, label) for name, held in sums.items()}
        reading.named[naming] = known
    return known


def _summed(reading: _Reading, label: MarketLabel) -> dict[str, _Sum]:
    sums: dict[str, _Sum] = {}
    for share in reading.parts.shares:
        known = reading.shelf.substances.get(share.substance)
        if share.percent <= 0 or (known is not None and not known.is_declared):
            continue
        is_fragrance = share.purpose in label.fragrance_purposes
        name = _scent(label, reading.scope) if is_fragrance else _name(share, known, label)
        held = sums.setdefault(name, _Sum())
        held.percent += share.percent
        held.lines[share.line] = None
        held.substances[share.substance] = None
        is_colourant = known is not None and known.is_colourant
        held.is_colourant &= is_colourant and role_of(share.purpose) == "colourant"
        held.is_fragrance &= is_fragrance
        held.is_nano |= share.substance in reading.nano
    return sums


def _scent(label: MarketLabel, scope: Scope) -> str:
    return label.aroma_word if scope.area in label.aroma_areas else label.fragrance_word


def _name(share: Share, known: Substance | None, label: MarketLabel) -> str:
    if known is None:
        return share.substance
    return (known.inci_us if label.uses_us_names else "") or known.inci or share.substance


def _with_allergen(known: Declared | None, allergen: Allergen, label: MarketLabel) -> Declared:
    if known is None:
        is_under_one = is_free(allergen.percent, label)
        return Declared(
            allergen.label, allergen.percent, is_under_one, allergen.lines, is_allergen=True
        )
    percent = max(known.percent, allergen.percent)
    return replace(
        known,
        percent=percent,
        is_under_one=is_free(percent, label),
        lines=tuple(dict.fromkeys((*known.lines, *allergen.lines))),
        is_allergen=True,
    )


def _entry(name: str, held: _Sum, reading: _Reading, label: MarketLabel) -> Declared:
    is_nano = held.is_nano and bool(label.nano_mark)
    return Declared(
        name=f"{name} {label.nano_mark}" if is_nano else name,
        percent=held.percent,
        is_under_one=is_free(held.percent, label),
        lines=tuple(held.lines),
        substances=tuple(held.substances),
        is_colourant=held.is_colourant,
        is_fragrance=held.is_fragrance,
        is_nano=is_nano,
        is_held_back=bool(held.substances) and held.lines.keys() <= reading.held_back,
    )


def _notes(
    reading: _Reading, label: MarketLabel, allergens: tuple[Allergen, ...]
) -> Iterable[LabelNote]:
    hidden = set()
    if not label.allergen_lists:
        hidden.add("declaration-scents-unknown")
    if not label.nano_mark:
        hidden.add("declaration-nano")
    for note, lines in reading.noted.items():
        if lines and note not in hidden:
            yield LabelNote(note, lines=lines)
    for note, names in _names_to_note(label, allergens).items():
        if names:
            yield LabelNote(note, names=names)


def _lines_to_note(
    parts: Composition, shelf: Shelf, labelling: Labelling, materials: tuple[Carried, ...]
) -> Mapping[str, tuple[int, ...]]:
    hydrates = frozenset(
        substance
        for substance in parts.substances
        if (known := shelf.substances.get(substance)) is not None and known.kind == "hydrate"
    )
    found = {
        "declaration-not-whole": parts.unknown,
        "declaration-held-back": [each.line for each in materials if each.is_to_ph],
        "declaration-as-added": [
            each.line for each in materials if role_of(each.purpose) == "ph-adjuster"
        ],
        "declaration-crystal-water": [
            share.line for share in parts.shares if share.substance in hydrates
        ],
        "declaration-scents-unknown": [
            each.line for each in unknown_scents(materials, shelf, labelling)
        ],
        "declaration-nano": [
            each.line
            for each in materials
            if MAY_BE_NANO in each.item.tags and NANO not in each.item.tags
        ],
    }
    return {note: tuple(dict.fromkeys(lines)) for note, lines in found.items()}


def _names_to_note(
    label: MarketLabel, allergens: tuple[Allergen, ...]
) -> Mapping[str, tuple[str, ...]]:
    named = [each for each in allergens if each.duty is Duty.REQUIRED]
    offered = tuple(each.label for each in allergens if each.duty is Duty.OPTIONAL)
    return {
        "declaration-typical": tuple(
            each.label for each in named if each.grounds is Grounds.TYPICAL
        ),
        "declaration-old-stock": tuple(
            each.label for each in named if each.stock_until is not None
        ),
        "declaration-coming": tuple(each.label for each in allergens if each.duty is Duty.COMING),
        "declaration-offered": offered if label.allergen_lists else (),
        "declaration-no-list": () if label.allergen_lists else offered,
    }


def _with_tag(materials: Iterable[Carried], tag: str) -> frozenset[str]:
    return frozenset(
        part.substance
        for material in materials
        if tag in material.item.tags
        for part in material.item.composition
        if not part.water
    )
