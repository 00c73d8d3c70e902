"""One fault, one finding: where two checks see the same, the plainer one speaks for both."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from workbench.checks.finding import Finding, Severity, Working
from workbench.checks.ph_windows import PRESERVATIVE

WEAK, OUTSIDE, ESTIMATE = "preservative-weak", "ph-outside-preservative", "ph-estimate-outside"
_OVER = ("limit-over", "limit-banned")


def said_once(findings: Iterable[Finding]) -> list[Finding]:
    """Return findings with each fault of a preservative's pH said once.

    Notes
    -----
    How much acid is left undissociated says more than that the window of the preservative is
    missed: the window goes into its workings, and the graver of the two severities stays.
    """
    found = list(findings)
    weak = [each for each in found if each.code == WEAK]
    if not weak:
        return found
    missed = {id(each): _speaker(each, weak) for each in found if _is_of_window(each)}
    told: dict[int, Finding] = {id(each): each for each in weak}
    for each in found:
        speaker = missed.get(id(each))
        if speaker is not None:
            told[id(speaker)] = _with_window(told[id(speaker)], each)
    return [told.get(id(each), each) for each in found if missed.get(id(each)) is None]


def lines_over_in_law(findings: Iterable[Finding]) -> frozenset[int]:
    """Return the lines that are over a limit of law in force."""
    return frozenset(
        line
        for each in findings
        if each.severity is Severity.STOP and each.code in _OVER
        for line in each.lines
    )


def _is_of_window(found: Finding) -> bool:
    if found.code == ESTIMATE:
        return found.values_of("kind") == PRESERVATIVE and found.values_of("count") == 1
    return found.code == OUTSIDE


def _speaker(found: Finding, weak: list[Finding]) -> Finding | None:
    lines = set(found.lines)
    return next((each for each in weak if lines and lines <= set(each.lines)), None)


def _with_window(speaker: Finding, missed: Finding) -> Finding:
    names = ("ingredient", "window", "floor", "ceiling")
    working = Working(
        "preservative-working-window", tuple((name, missed.values_of(name)) for name in names)
    )
    return replace(
        speaker,
        severity=min(speaker.severity, missed.severity),
        workings=(*speaker.workings, working),
    )
