"""A rule of the trade as the text a maker writes it in."""

from __future__ import annotations

import json

from workbench.checks.compatibility_values import CompatibilityRule, Example
from workbench.words.catalogue import Words


def written(rule: CompatibilityRule, key: str) -> str:
    """Return a rule as text, under a key."""
    fields: dict[str, object] = {
        "key": key,
        "severity": rule.severity.word,
        "when": rule.text,
        "message": rule.message,
        "why": rule.why,
        "source": rule.source,
        "confidence": rule.confidence,
        "fires": _example(rule.fires),
        "quiet": _example(rule.quiet),
    }
    if rule.remedy is not None:
        fields["remedy"] = {"add": rule.remedy.ingredient, "percent": str(rule.remedy.percent)}
    return _text(fields)


def template(key: str, words: Words) -> str:
    """Return a rule to begin with, which holds on both its examples."""
    return _text(
        {
            "key": key,
            "severity": "caution",
            "when": "has [key honey] >= 5 and has [function clay]",
            "message": words.say("own-rules-new-message"),
            "why": words.say("own-rules-new-why"),
            "source": words.say("own-rules-new-source"),
            "confidence": "memory",
            "fires": {"honey": "6", "kaolin": "20"},
            "quiet": {"honey": "2", "kaolin": "20"},
        }
    )


def free_key(stem: str, taken: frozenset[str]) -> str:
    """Return a key no rule has, made of a stem and a number."""
    number = 1
    while f"{stem}-{number}" in taken:
        number += 1
    return f"{stem}-{number}"


def _example(example: Example) -> dict[str, object]:
    fields: dict[str, object] = {name: str(value) for name, value in example.percents.items()}
    fields.update(example.product)
    if example.ph is not None:
        low, high = example.ph
        fields["ph"] = str(low) if low == high else [str(low), str(high)]
    if example.heat_c is not None:
        fields["heat"] = str(example.heat_c)
    return fields


def _text(fields: dict[str, object]) -> str:
    rows = (
        f"  {json.dumps(name)}: {json.dumps(value, ensure_ascii=False)}"
        for name, value in fields.items()
    )
    return "{\n" + ",\n".join(rows) + "\n}\n"
