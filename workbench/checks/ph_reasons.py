"""Why an estimate of pH is as wide as it is, and how far it can be trusted."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

from workbench.checks.ph_situation import SOLIDS, PhSituation
from workbench.checks.ph_values import FAIR, GOOD, ROUGH, Reason, told
from workbench.chemistry.facts import ChemistryFacts
from workbench.chemistry.mixture import TRACE, UNKNOWN, Portion

if TYPE_CHECKING:
    from workbench.chemistry.interval import PhInterval, Source

PERCENT = 100.0
MMOL, MMOL_PER_KG = 1e-3, 1e6
CONSTANT, MODEL = "constant", "model"
UNMODELLED = {
    "clay": "ph-reason-clay",
    "solid": "ph-reason-solid",
    "extract": "ph-reason-extract",
}


def confidence_of(
    found: PhInterval,
    situation: PhSituation,
    undissolved: tuple[str, ...],
    figures: Mapping[str, float],
) -> str:
    """Return good, fair or rough: by the width, and by what the width cannot hold."""
    width = found.high - found.low
    by_width = (
        GOOD
        if width <= figures["good_width"]
        else FAIR
        if width <= figures["fair_width"]
        else ROUGH
    )
    named = tuple(_weighty_unmodelled(situation, figures))
    if (
        situation.unknown
        or any(kind in SOLIDS for _, kind, _ in named)
        or found.ionic_strength > figures["very_salty_ionic_strength"]
        or situation.solvent > figures["much_solvent_share"]
    ):
        return ROUGH
    if by_width == GOOD and (
        named
        or undissolved
        or found.ionic_strength > figures["salty_ionic_strength"]
        or situation.solvent > figures["solvent_share"]
        or found.buffer < figures["weak_buffer"] * MMOL
    ):
        return FAIR
    return by_width


def reasons_of(
    found: PhInterval,
    situation: PhSituation,
    undissolved: tuple[str, ...],
    facts: ChemistryFacts,
) -> tuple[Reason, ...]:
    """Return what the width comes from and what is left out, the weightiest first."""
    reasons = [
        *_of_state(found, situation, facts.figures),
        *_of_acids(undissolved, situation),
        *_of_left_out(situation, facts.figures),
        *_of_width(found, situation, facts),
    ]
    return tuple(dict.fromkeys(reasons))


def _of_state(
    found: PhInterval, situation: PhSituation, figures: Mapping[str, float]
) -> Iterator[Reason]:
    for key in situation.unknown:
        yield Reason("ph-reason-unknown-line", (("ingredient", key),))
    if found.buffer < figures["weak_buffer"] * MMOL:
        yield Reason("ph-reason-unbuffered")
    if found.ionic_strength > figures["salty_ionic_strength"]:
        yield Reason("ph-reason-salty", (("ionic-strength", told(found.ionic_strength)),))
    if situation.solvent > figures["solvent_share"]:
        yield Reason("ph-reason-solvent", (("percent", told(PERCENT * situation.solvent)),))


def _of_acids(undissolved: tuple[str, ...], situation: PhSituation) -> Iterator[Reason]:
    for acid in undissolved:
        yield Reason("ph-reason-solubility", (("ingredient", situation.makers.get(acid, "")),))


def _of_left_out(situation: PhSituation, figures: Mapping[str, float]) -> Iterator[Reason]:
    for key, kind, percent in _weighty_unmodelled(situation, figures):
        reason = UNMODELLED.get(kind, "ph-reason-unmodelled")
        yield Reason(reason, (("ingredient", key), ("percent", told(percent))))


def _weighty_unmodelled(
    situation: PhSituation, figures: Mapping[str, float]
) -> Iterator[tuple[str, str, float]]:
    least = figures["unmodelled_percent"]
    return (entry for entry in situation.unmodelled if entry[2] >= least)


def _of_width(found: PhInterval, situation: PhSituation, facts: ChemistryFacts) -> Iterator[Reason]:
    if not found.sources:
        return
    least = facts.figures["weighty_reason"] * found.sources[0].half_width
    for source in found.sources:
        if source.half_width < least and not _is_noted(source, facts):
            continue
        yield from _of_source(source, situation, facts)


def _is_noted(source: Source, facts: ChemistryFacts) -> bool:
    """Tell whether an acid decides enough of the pH for its own note to be told."""
    if source.kind != CONSTANT:
        return False
    known = facts.ranges[source.key]
    return bool(known.note) and source.half_width >= known.pka_shift * facts.figures["noted_share"]


def _of_source(source: Source, situation: PhSituation, facts: ChemistryFacts) -> Iterator[Reason]:
    if source.kind == MODEL:
        yield Reason("ph-reason-model")
    elif source.kind == TRACE:
        yield Reason("ph-reason-trace")
    elif source.kind == CONSTANT:
        yield _of_constant(source.key, situation, facts)
    else:
        portion = _portion(situation, source.kind, source.key)
        if portion is not None:
            yield _of_unknown(portion) if source.kind == UNKNOWN else _of_strength(portion)


def _of_constant(acid: str, situation: PhSituation, facts: ChemistryFacts) -> Reason:
    maker = situation.makers.get(acid, "")
    note = facts.ranges[acid].note
    if _portion(situation, TRACE, maker) is not None:
        return Reason("ph-reason-trace")
    stand_in = _portion(situation, UNKNOWN, maker)
    if stand_in is not None and not note:
        return _of_unknown(stand_in)
    return Reason(note or "ph-reason-constant", (("ingredient", maker),))


def _of_unknown(portion: Portion) -> Reason:
    is_acid = bool(portion.gift.acids)
    return Reason(
        "ph-reason-unknown-acid" if is_acid else "ph-reason-unknown-alkali",
        (
            ("ingredient", portion.key),
            ("low", told(portion.spread.low * MMOL_PER_KG)),
            ("high", told(portion.spread.high * MMOL_PER_KG)),
            ("confidence", portion.spread.confidence),
        ),
    )


def _of_strength(portion: Portion) -> Reason:
    return Reason(
        portion.spread.note or "ph-reason-strength",
        (
            ("ingredient", portion.key),
            ("low", told(PERCENT * portion.spread.low)),
            ("high", told(PERCENT * portion.spread.high)),
            ("confidence", portion.spread.confidence),
        ),
    )


def _portion(situation: PhSituation, kind: str, key: str) -> Portion | None:
    return next(
        (one for one in situation.mixture.portions if one.kind == kind and one.key == key), None
    )
