"""The composition of a formula for an assessor: substances, and raw materials as supplied."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from decimal import Decimal

from workbench.checks.assessment import Assessment
from workbench.formula.composition import Share
from workbench.formula.formula import Formula
from workbench.formula.shelf import Shelf
from workbench.words.catalogue import Words
from workbench.words.ingredients import function_name
from workbench.words.numbers import percent_text

PLACES = 4


@dataclass(frozen=True, slots=True)
class SubstanceRow:
    """Hold one substance over all that brings it; `percent_exact` [% w/w], not rounded.

    `is_carried` tells whether all of it comes inside something that is there for something else.
    """

    inci: str
    cas: str
    function: str
    percent: str
    brought_by: str
    percent_exact: Decimal
    is_carried: bool


def substance_rows(
    formula: Formula, shelf: Shelf, assessment: Assessment, words: Words
) -> tuple[SubstanceRow, ...]:
    """Return the substances of a formula, most first."""
    names = {line.id: line.ingredient for line in formula.lines()}
    by_substance: defaultdict[str, list[Share]] = defaultdict(list)
    for share in assessment.composition.shares:
        by_substance[share.substance].append(share)
    ordered = sorted(
        assessment.composition.substances.items(), key=lambda item: (-item[1], item[0])
    )
    return tuple(
        _row(substance, percent, by_substance[substance], (names, shelf), words)
        for substance, percent in ordered
        if percent
    )


def material_rows(
    formula: Formula, shelf: Shelf, assessment: Assessment, words: Words
) -> tuple[tuple[str, ...], ...]:
    """Return the lines of a formula as supplied."""
    rows = []
    for number, line in enumerate(formula.lines(), start=1):
        item = shelf.ingredients.get(line.ingredient)
        purpose = line.purpose or shelf.purpose(line.ingredient)
        rows.append(
            (
                str(number),
                shelf.name(line.ingredient),
                item.inci if item else _inside(line.ingredient, shelf),
                ", ".join(item.cas) if item else "",
                function_name(purpose, words) if purpose else "",
                percent_text(assessment.line(line.id).percent, words.style),
            )
        )
    return tuple(rows)


def _row(
    substance: str,
    percent: Decimal,
    shares: list[Share],
    known: tuple[dict[int, str], Shelf],
    words: Words,
) -> SubstanceRow:
    names, shelf = known
    carried = [_is_carried(share, names[share.line], shelf) for share in shares]
    mark = words.say("assessor-carried")
    brought = dict.fromkeys(
        shelf.name(names[share.line]) + (f" ({mark})" if inside else "")
        for share, inside in zip(shares, carried, strict=True)
    )
    item = shelf.substances.get(substance)
    purposes = list(zip(shares, carried, strict=True))
    own = [share.purpose for share, inside in purposes if not inside]
    told = dict.fromkeys(
        function_name(each, words) for each in own or [s.purpose for s in shares] if each
    )
    return SubstanceRow(
        inci=shelf.inci(substance),
        cas=", ".join(item.cas) if item else "",
        function=", ".join(told),
        percent=percent_text(round(percent, PLACES), words.style),
        brought_by="; ".join(brought),
        percent_exact=percent,
        is_carried=all(carried),
    )


def _is_carried(share: Share, key: str, shelf: Shelf) -> bool:
    """Tell whether a share comes inside something that is there for something else.

    So does the water of a solution, and what a raw material or stock holds for a purpose of
    its own, as the preservative of a gum stock.
    """
    if len(shelf.parts(key)) <= 1:
        return False
    if share.water and share.water == share.percent:
        return True
    return bool(share.purpose) and share.purpose != shelf.purpose(key)


def _inside(key: str, shelf: Shelf) -> str:
    names = (shelf.inci(part.substance) for part in shelf.parts(key))
    return ", ".join(dict.fromkeys(names))
