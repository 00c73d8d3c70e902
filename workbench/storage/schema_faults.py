"""What a schema refuses, as the code of a sentence and its values."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

Values = dict[str, str | int]
_MOST_NAMES = 3
_SIZES = ("minimum", "maximum", "minLength", "maxLength", "minItems", "maxItems")
_SIZES_OF_OBJECTS = ("minProperties", "maxProperties")


def fault_of(error: Any) -> tuple[str, Values]:  # noqa: ANN401
    """Return the code and the values of the sentence about one error of the validator."""
    kind, want, instance = error.validator, error.validator_value, error.instance
    if kind == "required":
        return "field-missing", {"name": _quoted(x for x in want if x not in instance)}
    if kind == "additionalProperties":
        known = error.schema["properties"]
        return "field-unknown", {"name": _quoted(x for x in instance if x not in known)}
    if kind in _SIZES or kind in _SIZES_OF_OBJECTS:
        return "beyond", {"limit": int(want), "kind": kind, "text": str(instance)[:40]}
    return _fault_of_value(kind, want)


def _fault_of_value(kind: str, want: Any) -> tuple[str, Values]:  # noqa: ANN401
    if kind in ("enum", "const"):
        choices = want if isinstance(want, list) else [want]
        return "not-a-choice", {"choices": ", ".join(map(str, choices))}
    if kind == "type":
        return "wrong-type", {"type": want if isinstance(want, str) else "number"}
    if kind == "uniqueItems":
        return "entry-twice", {}
    return "field-refused", {"reason": kind}


def _quoted(names: Iterable[str]) -> str:
    found = [f"'{name[:60]}'" for name in names]
    return ", ".join(found[:_MOST_NAMES]) + (" …" if len(found) > _MOST_NAMES else "")
