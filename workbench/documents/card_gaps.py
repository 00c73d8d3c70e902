"""What somebody else would need to repeat a formula, and the card does not say."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from workbench.checks.assessment import Assessment
from workbench.formula.absent import Absent
from workbench.formula.formula import Formula, Phase
from workbench.formula.shelf import Shelf
from workbench.words.catalogue import Words

WHOLE = Decimal(100)
# From here on a share of water makes the pH a property of the product.
WATERY_PERCENT = Decimal(5)
# What melts between these is melted in the kettle; what melts higher is dissolved [°C].
ROOM_C, KETTLE_C = Decimal(25), Decimal(100)
LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


def gaps(
    formula: Formula,
    shelf: Shelf,
    assessment: Assessment,
    said: tuple[str, tuple[str, ...]],
    words: Words,
) -> tuple[str, ...]:
    """Return what is missing, each as the end of a sentence.

    Parameters
    ----------
    said : tuple of str and tuple of str
        How the pH is measured, and the equipment, as far as the maker said.
    """
    return (
        *_of_lines(formula, shelf, assessment, words),
        *_of_method(formula, shelf, words),
        *_of_making(formula, assessment, said, words),
    )


def _of_lines(
    formula: Formula, shelf: Shelf, assessment: Assessment, words: Words
) -> Iterator[str]:
    if assessment.totals.percent != WHOLE:
        yield words.say("card-lacks-total", total=assessment.totals.percent)
    keys = list(dict.fromkeys(line.ingredient for line in formula.lines()))
    unknown = tuple(shelf.name(key) for key in keys if not shelf.knows(key))
    if unknown:
        yield words.say("card-lacks-unknown", lines=unknown)
    unnamed = tuple(
        shelf.ingredients[key].name
        for key in keys
        if key in shelf.ingredients and not shelf.ingredients[key].inci
    )
    if unnamed:
        yield words.say("card-lacks-inci", lines=unnamed)


def _of_method(formula: Formula, shelf: Shelf, words: Words) -> Iterator[str]:
    filled = [(place, phase) for place, phase in enumerate(formula.phases) if phase.lines]
    without = [(place, phase) for place, phase in filled if not phase.steps]
    if filled and len(without) == len(filled):
        yield words.say("card-lacks-all-steps")
        return
    if without:
        yield words.say("card-lacks-steps", phases=tuple(_named(*each) for each in without))
    cold = tuple(
        _named(place, phase)
        for place, phase in filled
        if phase.steps
        and phase.kind in ("oil", "water")
        and _melts(phase, shelf)
        and all(step.target_c is None for step in phase.steps)
    )
    if cold:
        yield words.say("card-lacks-heat", phases=cold)


def _of_making(
    formula: Formula,
    assessment: Assessment,
    said: tuple[str, tuple[str, ...]],
    words: Words,
) -> Iterator[str]:
    method, equipment = said
    is_watery = assessment.composition.water >= WATERY_PERCENT
    if is_watery and formula.target_ph is None:
        yield words.say("card-lacks-target")
    if (is_watery or not isinstance(assessment.ph, Absent)) and not method:
        yield words.say("card-lacks-method")
    if not equipment:
        yield words.say("card-lacks-equipment")
    if assessment.batch_g is None:
        yield words.say("card-lacks-batch")


def _melts(phase: Phase, shelf: Shelf) -> bool:
    items = (shelf.ingredients.get(line.ingredient) for line in phase.lines)
    melting = (item.melts_at_c for item in items if item and item.melts_at_c is not None)
    return any(ROOM_C < point <= KETTLE_C for point in melting)


def _named(place: int, phase: Phase) -> str:
    return phase.name or LETTERS[place % len(LETTERS)]
