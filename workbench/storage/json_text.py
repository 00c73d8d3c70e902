"""Plain data as the JSON text that stands in a column."""

from __future__ import annotations

import json
from collections.abc import Mapping


def to_text(data: object) -> str:
    """Return plain data as compact JSON."""
    return json.dumps(data, ensure_ascii=False, separators=(",", ":"), allow_nan=False)


def to_mapping(text: str) -> Mapping[str, object]:
    """Return the object a JSON text holds.

    Raises
    ------
    ValueError
        If it is not JSON, or not an object.
    """
    data = json.loads(text)
    if not isinstance(data, dict):
        raise ValueError("not a JSON object")
    return data
