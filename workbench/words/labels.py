"""Declarations, warnings, microbial risk and what was checked, in words."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from decimal import Decimal

from workbench.checks.checked_values import APPLIED, Checked, LimitLook, Looked
from workbench.checks.label_values import (
    Allergen,
    Declaration,
    Duty,
    LabelWarning,
    MicroRisk,
    RiskPoint,
)
from workbench.checks.rules import Rules
from workbench.formula.compare import significant
from workbench.formula.formula import Formula
from workbench.formula.shelf import Shelf
from workbench.words.catalogue import Words


class LabelWords:
    """Say what belongs on the label of one formula."""

    def __init__(self, words: Words, formula: Formula, shelf: Shelf) -> None:
        """Take the words, and the formula and shelf that lines and substances are named by."""
        self._words = words
        self._shelf = shelf
        self._lines = {line.id: shelf.name(line.ingredient) for line in formula.lines()}

    def place_of_free(self, declaration: Declaration) -> str:
        """Say from which name on the order is free."""
        entries = declaration.entries
        if not entries:
            return self._words.say("declaration-empty")
        if declaration.first_free >= len(entries):
            return self._words.say("declaration-none-free")
        name = entries[declaration.first_free].name
        return self._words.say("declaration-free", name=name, market=declaration.market)

    def notes(self, declaration: Declaration) -> tuple[str, ...]:
        """Say what a reader of the list must know."""
        due = _latest(each.due for each in declaration.allergens)
        until = _latest(each.stock_until for each in declaration.allergens)
        return tuple(
            self._words.say(
                note.id,
                lines=self.lines(note.lines),
                names=note.names or ("",),
                due=due,
                until=until,
            )
            for note in declaration.notes
        )

    def allergen(self, allergen: Allergen) -> str:
        """Say how much of an allergen is in the formula, and on what grounds."""
        return self._words.say(
            "allergen-line",
            label=allergen.label,
            percent=_rounded(allergen.percent),
            threshold=allergen.threshold,
            grounds=allergen.grounds.value,
        )

    def warning(self, warning: LabelWarning) -> str:
        """Return the words of a warning: the prescribed ones unchanged."""
        return warning.text or self._words.say(f"warning-{warning.key}")

    def warning_kind(self, warning: LabelWarning) -> str:
        """Say whose words a warning is in."""
        return self._words.say(
            f"warning-kind-{warning.kind.value}", markets=", ".join(warning.markets)
        )

    def warning_reason(self, warning: LabelWarning) -> str:
        """Say what calls for a warning, and when it is needed."""
        parts = [] if warning.text else [self._words.say(f"warning-{warning.key}-why")]
        if warning.condition:
            parts.append(self._words.say("warning-condition", condition=warning.condition))
        if warning.lines and len(warning.lines) < len(self._lines):
            parts.append(self._words.say("warning-because", lines=self.lines(warning.lines)) + ".")
        return " ".join(parts)

    def verdict(self, risk: MicroRisk) -> str:
        """Say whether a challenge test is needed."""
        return self._words.say("micro-verdict", verdict=risk.verdict)

    def risk_point(self, point: RiskPoint) -> str:
        """Say what speaks for or against a challenge test."""
        what = self._words.say(
            f"micro-{point.factor}",
            figure=self._figure(point),
            limit="" if point.limit is None else point.limit,
            lines=self.lines(point.lines),
        )
        return self._words.say("micro-point", direction=point.direction, what=what)

    def lines(self, lines: Iterable[int]) -> tuple[str, ...]:
        """Return the names of lines, each once."""
        named = dict.fromkeys(self._lines[line] for line in lines if line in self._lines)
        return tuple(named) or ("",)

    def substances(self, keys: Iterable[str]) -> tuple[str, ...]:
        """Return the label names of substances, each once."""
        return tuple(dict.fromkeys(self._shelf.inci(key) for key in keys)) or ("",)

    def _figure(self, point: RiskPoint) -> str:
        if point.low is None or point.high is None:
            return ""
        low, high = self._words.number(point.low), self._words.number(point.high)
        text = low if low == high else self._words.say("micro-span", low=low, high=high)
        return self._words.say("micro-estimate", figure=text) if point.is_estimate else text


def required(allergens: Iterable[Allergen]) -> tuple[Allergen, ...]:
    """Return the allergens whose names the market asks for."""
    return tuple(allergen for allergen in allergens if allergen.duty is Duty.REQUIRED)


def checked_title(checked: Checked, words: Words) -> str:
    """Say on which tables and on which day the checks rest."""
    return words.say(
        "checked-set",
        set=checked.reference_set,
        dated=checked.dated.isoformat(),
        on=checked.on.isoformat(),
    )


def looked_text(looked: Looked, words: Words) -> str:
    """Say how far one table was used."""
    state = looked.state
    if looked.topic == "declaration" and state == APPLIED:
        state = "declaration"
    return words.say(
        "checked-line",
        topic=words.say(f"checked-{looked.topic}", market=looked.market),
        state=words.say(f"checked-state-{state}", rows=looked.rows, used=looked.used),
    )


def kind_texts(checked: Checked, words: Words) -> tuple[str, ...]:
    """Count the limit rows by kind."""
    return tuple(
        words.say(
            "checked-kind",
            kind=words.say(f"checked-kind-{kind}"),
            rows=rows,
            named=named,
            held=held,
        )
        for kind, rows, named, held in checked.kinds
    )


def limit_text(look: LimitLook, rules: Rules, words: Words) -> str:
    """Name one limit row: what, who says so, for which products, how much."""
    row = rules.limits[look.index]
    return words.say(
        "checked-limit",
        name=row.name,
        authority=row.jurisdiction,
        scope=row.scope_text,
        limit="none" if row.maximum is None else words.number(row.maximum),
    )


def _latest(days: Iterable[date | None]) -> str:
    known = [day for day in days if day is not None]
    return max(known).isoformat() if known else ""


def _rounded(percent: Decimal) -> Decimal:
    return significant(percent).normalize() + 0
