"""What was checked, what was not, and what remains to be done, as sections of a paper."""

from __future__ import annotations

from collections.abc import Iterator

from workbench.checks.checked import HELD
from workbench.checks.checked_values import Checked
from workbench.checks.rules import Rules
from workbench.documents.tables import Section
from workbench.words.catalogue import Words
from workbench.words.labels import (
    LabelWords,
    checked_title,
    kind_texts,
    limit_text,
    looked_text,
)


def checked_sections(
    checked: Checked, label: LabelWords, rules: Rules, words: Words
) -> Iterator[Section]:
    """Yield the page of what was checked, limit row by limit row."""
    say = words.say
    looked = (looked_text(each, words) for each in checked.looked)
    yield Section(
        say("checked-title"),
        None,
        (checked_title(checked, words), *looked, *kind_texts(checked, words)),
    )
    held = tuple(limit_text(look, rules, words) for look in checked.limits if look.outcome == HELD)
    yield Section(say("assessor-held"), None, held or (say("assessor-held-none"),))
    others = tuple(
        f"{limit_text(look, rules, words)}: {say(f'checked-outcome-{look.outcome}')}"
        for look in checked.limits
        if look.outcome != HELD
    )
    if others:
        yield Section(say("assessor-not-held"), None, others)
    gaps = [
        say(message, names=names)
        for message, names in (
            ("checked-uncovered", label.substances(checked.uncovered)),
            ("checked-without-rule", label.substances(checked.without_rule)),
            ("checked-unknown-lines", label.lines(checked.unknown_lines)),
        )
        if any(names)
    ]
    yield Section(say("checked-gaps"), None, (*gaps, *map(say, checked.gaps)))
    yield Section(say("checked-cautions"), None, tuple(map(say, checked.cautions)))
