"""Figures of the bench: what a pH meter must show, and what the pH guide rests on."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType

from workbench.bench.meter import BufferPoint, MeterFacts
from workbench.storage.reference.rows import read_rows


def load_meter_facts(folder: Path) -> MeterFacts:
    """Return the limits of a meter check and the buffers at temperatures."""
    return MeterFacts(
        _figures(folder, "meter.csv"),
        tuple(
            BufferPoint(row["buffer"], float(row["temperature_c"]), float(row["ph"]))
            for row in read_rows(folder, "meter_buffers.csv")
        ),
    )


def load_guide_figures(folder: Path) -> Mapping[str, float]:
    """Return what the pH guide takes for granted, by key."""
    return _figures(folder, "ph_guide.csv")


def _figures(folder: Path, table: str) -> Mapping[str, float]:
    return MappingProxyType({row["key"]: float(row["value"]) for row in read_rows(folder, table)})
