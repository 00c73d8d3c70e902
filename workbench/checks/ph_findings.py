"""Find pH windows that do not meet, and a target or estimate outside of one."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from workbench.checks.finding import Finding, Severity, Value
from workbench.checks.ph_values import PhEstimate
from workbench.checks.ph_windows import LIMIT, PRESERVATIVE, PRODUCT, TARGET, PhWindow, PhWindows
from workbench.formula.absent import Absent
from workbench.formula.shelf import Shelf

_CODES = {PRESERVATIVE: "ph-outside-preservative", PRODUCT: "ph-outside-usual"}
_PLACE = Decimal("0.1")


def check_ph_windows(
    windows: PhWindows, estimate: PhEstimate | Absent, shelf: Shelf
) -> tuple[Finding, ...]:
    """Find windows that meet at no pH, and a target or an estimate outside of one.

    Notes
    -----
    Two windows that exclude each other are one finding. A target wholly outside a window is a
    caution; partly outside, a caution for a preservative and a note otherwise. An estimate is
    a caution when its whole interval is outside, and a note when its middle is. What is usual
    for a product is a note at most. Law on pH is judged with the limits.
    """
    findings: list[Finding] = []
    at_odds: tuple[PhWindow, ...] = windows.disagree or ()
    if at_odds and at_odds[0].kind != PRODUCT and all(row.kind != TARGET for row in at_odds):
        findings.append(_apart(windows, shelf))
    else:
        at_odds = ()
    target = next((row for row in windows.rows if row.kind == TARGET), None)
    if target is not None:
        rows = (row for row in windows.rows if row not in at_odds)
        findings.extend(_outside_target(target, rows))
    if isinstance(estimate, PhEstimate) and not estimate.before_adjusting:
        judged = (target,) if target else (row for row in windows.rows if row not in at_odds)
        findings.extend(_estimate(tuple(judged), estimate))
    return tuple(findings)


def _apart(windows: PhWindows, shelf: Shelf) -> Finding:
    assert windows.disagree is not None
    one, other = windows.disagree
    swap = windows.remedy
    usual = PRODUCT in (one.kind, other.kind)
    return Finding(
        "ph-windows-apart",
        Severity.NOTE if usual else Severity.CAUTION,
        values=(
            ("ingredient", one.name),
            ("one", _window(one)),
            ("one-low", _end(one.low)),
            ("one-high", _end(one.high)),
            ("kind", other.kind),
            ("line", shelf.inci(other.name) if other.kind == LIMIT else other.name),
            ("other", _window(other)),
            ("other-low", _end(other.low)),
            ("other-high", _end(other.high)),
            ("mends", "yes" if swap else "no"),
            ("swap", swap.to_name if swap else ""),
            ("swapped", shelf.name(swap.from_key) if swap else ""),
        ),
        lines=tuple(dict.fromkeys((*one.lines, *other.lines))),
        basis="ph",
        source=" | ".join(dict.fromkeys(row.source for row in (one, other) if row.source)),
        confidence=_confidence(one, other),
    )


def _outside_target(target: PhWindow, rows: Iterator[PhWindow]) -> Iterator[Finding]:
    low, high = target.low, target.high
    assert low is not None
    assert high is not None
    for row in rows:
        below = row.low is not None and low < row.low
        above = row.high is not None and high > row.high
        if row.kind in (TARGET, LIMIT) or not (below or above):
            continue
        yield Finding(
            _CODES.get(row.kind, "ph-outside-window"),
            _severity(row, is_whole=_is_outside(row, low, high)),
            values=(
                ("ingredient", row.name),
                ("low", low),
                ("high", high),
                ("window", _window(row)),
                ("floor", _end(row.low)),
                ("ceiling", _end(row.high)),
            ),
            lines=row.lines,
            value=high if above else low,
            limit=row.high if above else row.low,
            basis="ph",
            source=row.source,
            confidence=row.confidence,
        )


def _estimate(judged: tuple[PhWindow, ...], estimate: PhEstimate) -> Iterator[Finding]:
    rows = [row for row in judged if row.kind not in (PRODUCT, LIMIT)]
    low, middle, high = (_rounded(ph) for ph in (estimate.low, estimate.estimate, estimate.high))
    whole = [row for row in rows if _is_outside(row, low, high)]
    partly = [row for row in rows if _is_outside(row, middle, middle)]
    missed = whole or partly
    if not missed:
        return
    first = missed[0]
    yield Finding(
        "ph-estimate-outside",
        Severity.CAUTION if whole else Severity.NOTE,
        values=(
            ("low", low),
            ("estimate", middle),
            ("high", high),
            ("kind", first.kind),
            ("ingredient", first.name),
            ("window", _window(first)),
            ("floor", _end(first.low)),
            ("ceiling", _end(first.high)),
            ("count", len(missed)),
        ),
        lines=tuple(dict.fromkeys(line for row in missed for line in row.lines)),
        value=middle,
        limit=first.high if first.high is not None and middle > first.high else first.low,
        basis="ph",
        source=first.source,
        confidence=first.confidence,
    )


def _severity(row: PhWindow, *, is_whole: bool) -> Severity:
    if row.kind == PRODUCT:
        return Severity.NOTE
    return Severity.CAUTION if is_whole or row.kind == PRESERVATIVE else Severity.NOTE


def _is_outside(row: PhWindow, low: Decimal, high: Decimal) -> bool:
    return (row.low is not None and high < row.low) or (row.high is not None and low > row.high)


def _window(row: PhWindow) -> str:
    if row.low is None:
        return "below"
    return "above" if row.high is None else "between"


def _end(ph: Decimal | None) -> Value:
    return "" if ph is None else ph


def _rounded(ph: float) -> Decimal:
    return Decimal(str(ph)).quantize(_PLACE)


def _confidence(one: PhWindow, other: PhWindow) -> str:
    return "memory" if "memory" in (one.confidence, other.confidence) else "read"
