"""What a density estimate rests on: tables of water, solutions, materials and classes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from workbench.checks.preservative_values import Range

Points = tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class DensityFacts:
    """Hold the density tables; every density in g/ml.

    Parameters
    ----------
    water : tuple of (float, float)
        Temperature [°C] and density of water, rising.
    solutions : mapping of str to tuple of (float, float)
        By substance: content [% w/w] and density in water at 20 °C, rising.
    materials : mapping of str to Range
        By substance: the range a pure liquid is quoted with.
    classes : mapping of str to Range
        By class of solid, as it weighs in inside a product.
    """

    water: Points = ()
    solutions: Mapping[str, Points] = field(default_factory=lambda: MappingProxyType({}))
    materials: Mapping[str, Range] = field(default_factory=lambda: MappingProxyType({}))
    classes: Mapping[str, Range] = field(default_factory=lambda: MappingProxyType({}))
