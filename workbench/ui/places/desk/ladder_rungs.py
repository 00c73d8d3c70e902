"""The pH ladder of an assessment: its windows and its estimate as rungs with their sentences."""

from __future__ import annotations

from typing import TYPE_CHECKING

from workbench.checks.ph_values import PhEstimate
from workbench.checks.ph_windows import TARGET
from workbench.ui.widgets.ph_ladder import Kind, Ladder, Rung
from workbench.words.ph import estimate_text, window_short, window_text

if TYPE_CHECKING:
    from decimal import Decimal

    from workbench.checks.assessment import Assessment
    from workbench.checks.ph_windows import PhWindows
    from workbench.formula.absent import Absent
    from workbench.formula.shelf import Shelf
    from workbench.words.catalogue import Words


def ladder_of(assessment: Assessment, shelf: Shelf, words: Words) -> Ladder:
    """Return the ladder that shows the windows and the estimate of an assessment."""
    windows = assessment.ph_windows
    return ladder_with(window_rungs(windows, shelf, words), windows, assessment.ph, words)


def window_rungs(windows: PhWindows, shelf: Shelf, words: Words) -> tuple[Rung, ...]:
    """Return a rung for each window."""
    at_odds = windows.disagree or ()
    return tuple(
        Rung(
            kind=Kind.TARGET if window.kind == TARGET else Kind.WINDOW,
            label=window_short(window, shelf, words),
            low=_ph(window.low),
            high=_ph(window.high),
            sentence=window_text(window, shelf, words),
            is_at_odds=window in at_odds,
        )
        for window in windows.rows
    )


def ladder_with(
    rungs: tuple[Rung, ...], windows: PhWindows, ph: PhEstimate | Absent, words: Words
) -> Ladder:
    """Return the ladder of these rungs, with the estimate after them where there is one."""
    if isinstance(ph, PhEstimate):
        label, text = words.say("ph-estimate-label"), estimate_text(ph, words)
        rungs = (*rungs, Rung(Kind.ESTIMATE, label, ph.low, ph.high, text, mark=ph.estimate))
    if windows.overlap is None:
        return Ladder(rungs)
    return Ladder(rungs, (_ph(windows.overlap[0]), _ph(windows.overlap[1])))


def _ph(value: Decimal | None) -> float | None:
    return None if value is None else float(value)
