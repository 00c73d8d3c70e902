"""An assessment as plain data: decimals as text, what is absent as null with its reason."""

from __future__ import annotations

from decimal import Decimal

from workbench.checks.assessment import AssessedLine, Assessment, Figure
from workbench.checks.finding import Finding
from workbench.formula.absent import Absent
from workbench.formula.facts import Plain
from workbench.formula.formula import Formula
from workbench.formula.shelf import Shelf
from workbench.words.catalogue import Words
from workbench.words.findings import detail, remedy_text, title
from workbench.words.numbers import NumberStyle, percent_text


def assessment_data(
    assessment: Assessment, formula: Formula, shelf: Shelf, words: Words
) -> dict[str, Plain]:
    """Return everything computed about a formula as plain data."""
    absent = dict(assessment.absent)
    cost = assessment.cost
    if isinstance(cost, Absent):
        absent["cost"] = cost.reason_id
    data: dict[str, Plain] = {
        "totals": {"percent": _percent(assessment.totals.percent), "mass_g": _mass(assessment)},
        "lines": [_line(line, formula) for line in assessment.lines],
        "composition": _composition(assessment, shelf),
        "findings": [_finding(found, formula, shelf, words) for found in assessment.findings],
        "figures": [_figure(figure, words) for figure in assessment.figures],
        "cost": None
        if isinstance(cost, Absent)
        else {
            "batch": _text(cost.batch.quantize(Decimal("0.01"))),
            "per_unit": None
            if cost.per_unit is None
            else _text(cost.per_unit.quantize(Decimal("0.01"))),
            "currency": cost.currency,
            "complete": cost.is_complete,
        },
    }
    data |= dict.fromkeys(assessment.absent)
    data["absent"] = {key: words.say(reason) for key, reason in absent.items()}
    return data


def _text(value: Decimal) -> str:
    return format(value, "f")


def _percent(value: Decimal) -> str:
    return percent_text(value, NumberStyle.POINT)


def _mass(assessment: Assessment) -> str | None:
    columns = [line.column_g for line in assessment.lines if line.column_g is not None]
    return _text(sum(columns, Decimal(0))) if columns else None


def _line(line: AssessedLine, formula: Formula) -> Plain:
    return {
        "ingredient": line.ingredient,
        "phase": formula.phase_of(line.line).name,
        "percent": _percent(line.percent),
        "pure_percent": _text(line.pure_percent.normalize() + 0),
        "mass_g": None if line.column_g is None else _text(line.column_g),
    }


def _composition(assessment: Assessment, shelf: Shelf) -> dict[str, Plain]:
    by_inci: dict[str, Decimal] = {}
    for substance, percent in assessment.composition.substances.items():
        name = shelf.inci(substance)
        by_inci[name] = by_inci.get(name, Decimal(0)) + percent
    ordered = sorted(by_inci.items(), key=lambda pair: (-pair[1], pair[0]))
    return {name: _text(percent.normalize() + 0) for name, percent in ordered}


def _finding(found: Finding, formula: Formula, shelf: Shelf, words: Words) -> Plain:
    return {
        "code": found.code,
        "severity": found.severity.word,
        "title": title(found, shelf, words),
        "detail": detail(found, shelf, words),
        "value": None if found.value is None else _text(found.value),
        "limit": None if found.limit is None else _text(found.limit),
        "basis": found.basis or None,
        "source": found.source or None,
        "lines": [formula.line(line).ingredient for line in found.lines],
        "remedies": [remedy_text(remedy, shelf, words) for remedy in found.remedies],
    }


def _figure(figure: Figure, words: Words) -> Plain:
    missing = isinstance(figure.value, Absent)
    return {
        "key": figure.key,
        "label": words.say(f"figure-{figure.key}", **dict(figure.values)),
        "value": None if isinstance(figure.value, Absent) else _text(figure.value),
        "unit": None if missing else figure.unit,
    }
