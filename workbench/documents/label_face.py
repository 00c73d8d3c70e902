"""One face of a label as texts and shapes, each at its place."""

from __future__ import annotations

from dataclasses import dataclass

from workbench.documents.label_flow import Run


@dataclass(frozen=True, slots=True)
class Sizes:
    """Hold the smallest type and the least size of the net content [pt]."""

    base: float
    net: float


@dataclass(frozen=True, slots=True)
class Shape:
    """Hold a drawn shape [pt from the top left]: "rule", "jar" or "logo"."""

    kind: str
    x: float
    y: float
    wide: float
    high: float
    text: str = ""
    size: float = 0


@dataclass(frozen=True, slots=True)
class Face:
    """Hold everything that is drawn on one label."""

    runs: tuple[Run, ...]
    shapes: tuple[Shape, ...] = ()
