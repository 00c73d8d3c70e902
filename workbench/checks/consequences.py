"""Which formulas would read differently when a fact of an ingredient changes, and in what."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, fields, replace

from workbench.checks.assess import assess
from workbench.checks.assessment import Assessment
from workbench.checks.finding import Finding
from workbench.checks.rules import Rules
from workbench.formula.formula import Formula
from workbench.formula.ingredient import Ingredient
from workbench.formula.scope import Scope
from workbench.formula.shelf import Shelf, shelf_of

# What is worked out late is compared like the rest.
_PARTS = (*(field.name for field in fields(Assessment) if field.compare), "label", "checked")


@dataclass(frozen=True, slots=True)
class Difference:
    """Hold how the assessment of a formula would differ.

    `parts` names what is computed and would come out differently; `gone` and `new` are the
    findings that would go and come.
    """

    parts: tuple[str, ...]
    gone: tuple[Finding, ...] = ()
    new: tuple[Finding, ...] = ()


def with_ingredient(shelf: Shelf, item: Ingredient) -> Shelf:
    """Return a shelf on which an ingredient has other facts."""
    return shelf_of(
        {**shelf.ingredients, item.key: item},
        shelf.stocks,
        shelf.substances,
        shelf.prices,
        shelf.balances,
    )


def difference(
    formula: Formula, shelf: Shelf, item: Ingredient, scope: Scope, rules: Rules
) -> Difference | None:
    """Return how a formula would read with an ingredient changed, None where it would not.

    Both assessments are whole ones: whatever the program computes is compared.
    """
    before = assess(formula, shelf, scope, rules)
    after = assess(formula, with_ingredient(shelf, item), scope, rules)
    parts = tuple(name for name in _PARTS if _computed(before, name) != _computed(after, name))
    if not parts:
        return None
    return Difference(
        parts=parts,
        gone=_only_in(before.findings, after.findings),
        new=_only_in(after.findings, before.findings),
    )


def _computed(assessment: Assessment, name: str) -> object:
    # The label carries the materials themselves along: they are what went in, not what came out.
    if name == "label":
        return replace(assessment.label, materials=())
    return getattr(assessment, name)


def _only_in(these: Iterable[Finding], those: Iterable[Finding]) -> tuple[Finding, ...]:
    known = [_bare(found) for found in those]
    return tuple(found for found in these if _bare(found) not in known)


def _bare(found: Finding) -> Finding:
    # A finding whose remedies alone differ says the same.
    return replace(found, remedies=())
