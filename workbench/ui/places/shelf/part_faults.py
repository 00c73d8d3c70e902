"""What is wrong with rows of parts, in words."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal

from workbench.formula.ingredient_check import SUM_SLACK, Fault
from workbench.ui.places.shelf.parts_editor import Resolver, TypedPart
from workbench.words.catalogue import Words

_HUNDRED = Decimal(100)
_MOST_SUGGESTED = 3
_FRACTION = "shelf-fault-fraction"
_UNKNOWN = "shelf-fault-substance-unknown"


def sentence_of(fault: Fault, words: Words) -> str:
    """Return the sentence of a fault."""
    return words.say(fault.code, **dict(fault.values))


def part_errors(
    faults: Iterable[Fault],
    field: str,
    parts: tuple[TypedPart, ...],
    names: Resolver | None,
    words: Words,
) -> dict[int, str]:
    """Return by row what is wrong with it."""
    errors: dict[int, str] = {}
    for row, part in enumerate(parts):
        if part.refused is not None:
            errors[row] = words.say(part.refused.reason_id, **part.refused.values)
    for fault in faults:
        if fault.field != field or fault.row is None:
            continue
        said = _row_sentence(fault, parts[fault.row], names, words)
        if fault.code != _FRACTION:
            errors[fault.row] = said  # what it is comes first, then how much
        elif parts[fault.row].refused is None:  # what is no number has its own sentence
            errors[fault.row] = f"{errors.get(fault.row, '')} {said}".strip()
    return errors


def total_text(parts: tuple[TypedPart, ...], words: Words) -> tuple[str, bool]:
    """Return what rows add up to, in words, and whether that is 100 %."""
    total = sum((part.percent or Decimal(0) for part in parts), Decimal(0))
    off = total - _HUNDRED
    if abs(off) <= SUM_SLACK * _HUNDRED and parts:
        return words.say("shelf-total", total=total), True
    if off > 0:
        return words.say("shelf-total-over", total=total, over=off), False
    return words.say("shelf-total-short", total=total, missing=-off), False


def _row_sentence(fault: Fault, part: TypedPart, names: Resolver | None, words: Words) -> str:
    if fault.code == _UNKNOWN and names is None:
        return words.say("shelf-fault-ingredient-unknown", name=part.text)
    said = sentence_of(fault, words)
    if fault.code != _UNKNOWN or names is None:
        return said
    near = names.suggestions(part.text)[:_MOST_SUGGESTED]
    if not near:
        return said
    return f"{said} {words.say('shelf-fault-meant', names=near)}"
