"""pH values, windows and doses in words."""

from __future__ import annotations

from decimal import Decimal

from workbench.checks.ph_values import AdjusterDose, PhEstimate, Reason
from workbench.checks.ph_windows import PRODUCT, TARGET, PhWindow
from workbench.formula.shelf import Shelf
from workbench.words.catalogue import Words, WordValue

_KEYS = frozenset({"ingredient", "ingredients", "substance", "substances", "line"})


def ph_text(ph: float | Decimal, words: Words) -> str:
    """Return a pH with the one place it can be trusted to."""
    return words.number(Decimal(str(ph)), 1)


def grams_text(mass_g: float, words: Words) -> str:
    """Return a mass with the three figures a dose can be trusted to at most [g]."""
    places = 2 if mass_g < 10 else 1 if mass_g < 100 else 0  # noqa: PLR2004 - powers of ten
    return words.number(Decimal(str(mass_g)), places)


def estimate_text(estimate: PhEstimate, words: Words) -> str:
    """Return the sentence of an estimate: its interval and how far it can be trusted."""
    return words.say(
        "ph-estimate",
        low=ph_text(estimate.low, words),
        estimate=ph_text(estimate.estimate, words),
        high=ph_text(estimate.high, words),
        confidence=estimate.confidence,
        when="before" if estimate.before_adjusting else "as-is",
    )


def reason_text(reason: Reason, shelf: Shelf, words: Words) -> str:
    """Return a reason with the names the maker knows."""
    values: dict[str, WordValue] = {}
    for name, value in reason.values:
        if isinstance(value, float):
            values[name] = Decimal(str(round(value, 4)))
        elif isinstance(value, str) and name in _KEYS:
            values[name] = tuple(_name(key, shelf) for key in value.split())
        else:
            values[name] = value
    return words.say(reason.id, **values)


def window_label(window: PhWindow, shelf: Shelf, words: Words) -> str:
    """Return the short name of a window."""
    if window.kind == TARGET:
        return words.say("ph-window-target")
    if window.kind == PRODUCT:
        return words.say("ph-window-product")
    return _name(window.name, shelf).partition(" (")[0]


def window_short(window: PhWindow, shelf: Shelf, words: Words) -> str:
    """Return the name of a window where room is scarce: of a blend what it names first."""
    return window_label(window, shelf, words).partition(" and ")[0]


def window_text(window: PhWindow, shelf: Shelf, words: Words) -> str:
    """Return the sentence of a window: whose it is, from where to where, on whose word."""
    return words.say(
        "ph-window",
        kind=window.kind,
        name=window.name if window.kind == PRODUCT else window_label(window, shelf, words),
        low="" if window.low is None else words.number(window.low),
        high="" if window.high is None else words.number(window.high),
        span=_span(window),
        source=window.source,
        confidence=window.confidence or "none",
    )


def dose_text(dose: AdjusterDose, words: Words) -> str:
    """Return the mass of an adjuster, or that it does not fit."""
    if not dose.fits or dose.estimate is None:
        return words.say("dose-does-not-fit")
    return words.say("dose", estimate=grams_text(dose.estimate, words))


def dose_range_text(dose: AdjusterDose, words: Words) -> str:
    """Return the range a dose lies in, empty where it does not fit."""
    if not dose.fits or dose.estimate is None:
        return ""
    low = grams_text(dose.estimate if dose.low is None else dose.low, words)
    if dose.high is None:
        return words.say("dose-range-open", low=low)
    return words.say("dose-range", low=low, high=grams_text(dose.high, words))


def _span(window: PhWindow) -> str:
    if window.low is None:
        return "up-to" if window.high is not None else "open"
    return "from" if window.high is None else "both"


def _name(key: str, shelf: Shelf) -> str:
    return shelf.name(key) if key in shelf.ingredients or key in shelf.stocks else shelf.inci(key)
