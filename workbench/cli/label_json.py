"""Labels, warnings, microbial risk and the page of what was checked, as plain data."""

from __future__ import annotations

from decimal import Decimal

from workbench.checks.checked_values import Checked
from workbench.checks.label_values import (
    Allergen,
    Declaration,
    Declared,
    LabelWarning,
    MicroRisk,
    RiskPoint,
)
from workbench.checks.labelled import Labelled
from workbench.checks.rules import Rules
from workbench.formula.facts import Plain
from workbench.words.catalogue import Words
from workbench.words.labels import LabelWords, limit_text, looked_text


def label_data(label: Labelled, say: LabelWords) -> dict[str, Plain]:
    """Return the label's parts: the names for the first market, then everything by market."""
    first = label.declarations[0] if label.declarations else None
    return {
        "declaration": None if first is None else [*first.names],
        "declarations": {each.market: _declaration(each, say) for each in label.declarations},
        "warnings": [_warning(warning, say) for warning in label.warnings],
        "micro_risk": _risk(label.micro_risk, say),
    }


def checked_data(checked: Checked, rules: Rules, say: LabelWords, words: Words) -> Plain:
    """Return the page of what was checked, every limit row that names a substance included."""
    return {
        "reference_set": checked.reference_set,
        "dated": checked.dated.isoformat(),
        "on": checked.on.isoformat(),
        "markets": [*checked.markets],
        "tables": [
            {
                "topic": looked.topic,
                "market": looked.market or None,
                "state": looked.state,
                "rows": looked.rows,
                "used": looked.used,
                "text": looked_text(looked, words),
            }
            for looked in checked.looked
        ],
        "limit_kinds": {
            kind: {"rows": rows, "naming": naming, "held": held}
            for kind, rows, naming, held in checked.kinds
        },
        "limits": [
            {
                "row": look.index,
                "kind": look.kind,
                "outcome": look.outcome,
                "substances": [*look.substances],
                "text": limit_text(look, rules, words),
                "source": rules.limits[look.index].source,
            }
            for look in checked.limits
        ],
        "uncovered": _named(checked.uncovered, say),
        "without_rule": _named(checked.without_rule, say),
        "unknown_lines": [*say.lines(checked.unknown_lines)] if checked.unknown_lines else [],
        "not_looked_at": [words.say(gap) for gap in checked.gaps],
        "cautions": [words.say(caution) for caution in checked.cautions],
    }


def _declaration(declaration: Declaration, say: LabelWords) -> Plain:
    return {
        "heading": declaration.heading,
        "text": declaration.text,
        "whole": declaration.is_whole,
        "any_order_from": declaration.first_free,
        "entries": [_entry(entry) for entry in declaration.entries],
        "allergens": [_allergen(allergen) for allergen in declaration.allergens],
        "notes": [*say.notes(declaration)],
        "source": declaration.source,
    }


def _entry(entry: Declared) -> Plain:
    return {
        "name": entry.name,
        "percent": _text(entry.percent),
        "any_order": entry.is_under_one,
        "colourant": entry.is_colourant,
        "allergen": entry.is_allergen,
        "nano": entry.is_nano,
        "held_back": entry.is_held_back,
        "substances": [*entry.substances],
    }


def _allergen(allergen: Allergen) -> Plain:
    return {
        "label": allergen.label,
        "percent": _text(allergen.percent),
        "threshold": _text(allergen.threshold),
        "duty": allergen.duty.value,
        "grounds": allergen.grounds.value,
        "due": allergen.due.isoformat() if allergen.due else None,
        "older_stock_until": allergen.stock_until.isoformat() if allergen.stock_until else None,
        "source": allergen.source,
    }


def _warning(warning: LabelWarning, say: LabelWords) -> Plain:
    return {
        "key": warning.key,
        "kind": warning.kind.value,
        "text": say.warning(warning),
        "reason": say.warning_reason(warning),
        "condition": warning.condition or None,
        "markets": [*warning.markets],
        "source": warning.source,
    }


def _risk(risk: MicroRisk, say: LabelWords) -> Plain:
    return {
        "verdict": risk.verdict,
        "text": say.verdict(risk),
        "points": [_point(point, say) for point in risk.points],
    }


def _point(point: RiskPoint, say: LabelWords) -> Plain:
    return {
        "factor": point.factor,
        "direction": point.direction,
        "low": None if point.low is None else _text(point.low),
        "high": None if point.high is None else _text(point.high),
        "limit": None if point.limit is None else _text(point.limit),
        "unit": point.unit or None,
        "estimate": point.is_estimate,
        "text": say.risk_point(point),
        "source": point.source,
    }


def _named(keys: tuple[str, ...], say: LabelWords) -> list[Plain]:
    return [*say.substances(keys)] if keys else []


def _text(value: Decimal) -> str:
    return format(value.normalize() + 0, "f")
