"""Durations as median and 95th percentile."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Spread:
    """Hold the middle and the slow end of many durations [ms]."""

    median: float
    p95: float
    count: int

    def told(self, name: str, wanted: str) -> str:
        """Return one line of the report."""
        return (
            f"{name:<44} median {self.median:8.2f} ms   p95 {self.p95:8.2f} ms"
            f"   n {self.count:4d}   wanted {wanted}"
        )


def spread(durations_s: list[float]) -> Spread:
    """Return the spread of durations given in seconds."""
    ordered = sorted(durations_s)
    last = len(ordered) - 1
    return Spread(
        ordered[len(ordered) // 2] * 1000, ordered[round(last * 0.95)] * 1000, len(ordered)
    )
