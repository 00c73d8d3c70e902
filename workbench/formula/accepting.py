"""Accepting a finding, and taking that back: edits of the formula."""

from __future__ import annotations

from dataclasses import replace

from workbench.formula.acceptance import Acceptance
from workbench.formula.formula import Formula


def accepted(formula: Formula, new: Acceptance) -> Formula:
    """Return the formula with one finding accepted, in place of an earlier word on it."""
    kept = tuple(old for old in formula.accepted if old.subject != new.subject)
    return replace(formula, accepted=(*kept, new))


def reopened(formula: Formula, finding: str, about: tuple[str, ...]) -> Formula:
    """Return the formula with the acceptance of a finding taken back."""
    return replace(
        formula,
        accepted=tuple(old for old in formula.accepted if old.subject != (finding, about)),
    )
