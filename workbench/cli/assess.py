"""The command `assess`: what there is to look at in a formula, as text or JSON."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Iterator
from decimal import Decimal

from workbench.checks.assessment import Assessment
from workbench.checks.finding import Severity
from workbench.cli.asked_formula import Asked, asked_formula, asked_markets
from workbench.cli.assessment_json import assessment_data
from workbench.cli.chemistry_json import chemistry_data
from workbench.cli.label_json import checked_data, label_data
from workbench.cli.label_text import checked_lines, label_lines
from workbench.formula.absent import Absent
from workbench.words.findings import detail, title
from workbench.words.labels import LabelWords
from workbench.words.numbers import percent_text
from workbench.words.ph import dose_range_text, dose_text, estimate_text


def run(asked: argparse.Namespace) -> int:
    """Print the assessment; return 1 when it holds a stop."""
    markets = asked_markets(asked.markets)
    found = asked_formula(asked.file, asked.studio)
    assessment = found.assessed(found.scope(markets, asked.date, asked.exposure))
    if asked.json:
        data: dict[str, object] = {
            **assessment_data(assessment, found.formula, found.shelf, found.words),
            **chemistry_data(assessment, found.shelf),
        }
        say = LabelWords(found.words, found.formula, found.shelf)
        data |= label_data(assessment.label, say)
        if assessment.checked is not None:
            data["checked"] = checked_data(assessment.checked, found.rules, say, found.words)
        text = json.dumps(data, ensure_ascii=False, indent=2)
    else:
        text = "\n".join(_lines(assessment, found))
    sys.stdout.write(text + "\n")
    return 1 if assessment.count(Severity.STOP) else 0


def _lines(assessment: Assessment, asked: Asked) -> list[str]:
    words, shelf = asked.words, asked.shelf
    style = words.style
    lines = [asked.formula.name, ""]
    for line in assessment.lines:
        grams = "" if line.column_g is None else f"{words.number(line.column_g, 2):>12} g"
        percent = percent_text(line.percent, style)
        lines.append(f"  {shelf.name(line.ingredient)[:44]:<44} {percent:>9} %{grams}")
    total = percent_text(assessment.totals.percent, style)
    columns = [line.column_g for line in assessment.lines if line.column_g is not None]
    mass = f"{words.number(sum(columns, Decimal(0)), 2):>12} g" if columns else ""
    lines += [f"  {words.say('assess-total'):<44} {total:>9} %{mass}", ""]
    lines += [*_chemistry(assessment, asked), ""]
    for found in assessment.findings:
        severity = words.say(f"severity-{found.severity.word}")
        lines.append(f"{severity}: {title(found, shelf, words)}")
        lines.append(f"  {detail(found, shelf, words)}")
        if found.source:
            lines.append(f"  {words.say('assess-source', source=found.source)}")
    if not assessment.findings:
        lines.append(words.say("assess-nothing"))
    say = LabelWords(words, asked.formula, shelf)
    lines += ["", *label_lines(assessment.label, say, words)]
    if assessment.checked is not None:
        lines.extend(checked_lines(assessment.checked, asked.rules, say, words))
    return lines


def _chemistry(assessment: Assessment, asked: Asked) -> Iterator[str]:
    words, shelf = asked.words, asked.shelf
    ph, doses = assessment.ph, assessment.adjusters
    yield words.say(ph.reason_id) if isinstance(ph, Absent) else estimate_text(ph, words)
    if isinstance(doses, Absent):
        return
    for dose in doses:
        span = dose_range_text(dose, words)
        spanned = f" ({span})" if span else ""
        yield f"  {shelf.name(dose.ingredient)}: {dose_text(dose, words)}{spanned}"
