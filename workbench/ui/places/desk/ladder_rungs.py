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
    from workbench.formula.shelf import Shelf
    from workbench.words.catalogue import Words


def ladder_of(assessment: Assessment, shelf: Shelf, words: Words) -> Ladder:
    """Return the ladder that shows the windows and the estimate of an assessment."""
    windows, ph = assessment.ph_windows, assessment.ph
    at_odds = windows.disagree or ()
    rungs = [
        Rung(
            kind=Kind.TARGET if window.kind == TARGET else Kind.WINDOW,
            label=window_short(window, shelf, words),
            low=_ph(window.low),
            high=_ph(window.high),
            sentence=window_text(window, shelf, words),
            is_at_odds=window in at_odds,
        )
        for window in windows.rows
    ]
    if isinstance(ph, PhEstimate):
        label = words.say("ph-estimate-label")
        text = estimate_text(ph, words)
        rungs.append(Rung(Kind.ESTIMATE, label, ph.low, ph.high, text, mark=ph.estimate))
    if windows.overlap is None:
        return Ladder(tuple(rungs))
    return Ladder(tuple(rungs), (_ph(windows.overlap[0]), _ph(windows.overlap[1])))


def _ph(value: Decimal | None) -> float | None:
    return None if value is None else float(value)
