"""A value that was not computed, and why."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Absent:
    """Stand where a computed value would, naming the reason as a message id."""

    reason_id: str
