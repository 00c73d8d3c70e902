"""Labels, warnings, microbial risk and the page of what was checked, as lines of text."""

from __future__ import annotations

from collections.abc import Iterator

from workbench.checks.checked import HELD
from workbench.checks.checked_values import Checked
from workbench.checks.label_values import Declaration
from workbench.checks.labelled import Labelled
from workbench.checks.micro_risk import NOT_JUDGED
from workbench.checks.rules import Rules
from workbench.words.catalogue import Words
from workbench.words.labels import (
    LabelWords,
    checked_title,
    kind_texts,
    limit_text,
    looked_text,
    required,
)


def label_lines(label: Labelled, say: LabelWords, words: Words) -> Iterator[str]:
    """Yield the lists, the warnings and the first look at microbial risk."""
    for declaration in label.declarations:
        yield from _declaration(declaration, say, words)
    yield words.say("warnings-title")
    for warning in label.warnings:
        yield f"  {say.warning_kind(warning)}: {say.warning(warning)}"
        if reason := say.warning_reason(warning):
            yield f"    {reason}"
        yield f"    {words.say('assess-source', source=warning.source)}"
    if not label.warnings:
        yield f"  {words.say('warning-none')}"
    yield ""
    risk = label.micro_risk
    yield f"{words.say('micro-title')}: {say.verdict(risk)}"
    yield from (f"  {say.risk_point(point)}" for point in risk.points)
    if risk.verdict != NOT_JUDGED:
        yield f"  {words.say('micro-not-seen')}"
    yield ""


def checked_lines(checked: Checked, rules: Rules, say: LabelWords, words: Words) -> Iterator[str]:
    """Yield the page of what was checked."""
    yield words.say("checked-title")
    yield f"  {checked_title(checked, words)}"
    yield from (f"  {looked_text(looked, words)}" for looked in checked.looked)
    yield from (f"  {text}" for text in kind_texts(checked, words))
    for look in checked.limits:
        outcome = words.say(f"checked-outcome-{look.outcome}")
        mark = "+" if look.outcome == HELD else "-"
        yield f"    {mark} {limit_text(look, rules, words)}: {outcome}"
    for message, names in (
        ("checked-uncovered", say.substances(checked.uncovered) if checked.uncovered else ()),
        (
            "checked-without-rule",
            say.substances(checked.without_rule) if checked.without_rule else (),
        ),
        (
            "checked-unknown-lines",
            say.lines(checked.unknown_lines) if checked.unknown_lines else (),
        ),
    ):
        if names:
            yield f"  {words.say(message, names=names)}"
    for heading, ids in (
        ("checked-gaps", checked.gaps),
        ("checked-cautions", checked.cautions),
    ):
        yield words.say(heading)
        yield from (f"  {words.say(message)}" for message in ids)


def _declaration(declaration: Declaration, say: LabelWords, words: Words) -> Iterator[str]:
    yield words.say("declaration-title", market=declaration.market)
    yield f"  {declaration.heading}: {declaration.text}"
    yield f"  {say.place_of_free(declaration)}"
    yield from (f"  {note}" for note in say.notes(declaration))
    named = required(declaration.allergens)
    if named:
        yield f"  {words.say('allergens-title', market=declaration.market)}:"
        yield from (f"    {say.allergen(allergen)}" for allergen in named)
    yield ""
