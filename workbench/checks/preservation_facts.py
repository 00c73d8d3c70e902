"""What the preservative figures rest on: one set of facts, read from the tables."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from workbench.checks.preservative_values import Range, Wanted


@dataclass(frozen=True, slots=True)
class Form:
    """Hold what one substance gives of a preservative.

    `active` is the substance that acts, `moles` of it come from one mole [-]; `acid` is the key
    of its acid, empty where it is none.
    """

    active: str
    moles: int
    acid: str = ""


@dataclass(frozen=True, slots=True)
class Acid:
    """Hold the first pKa of an acid at 25 °C and no ionic strength, and how sure it is [-]."""

    pka: float
    spread: float


@dataclass(frozen=True, slots=True)
class PreservationFacts:
    """Hold every table the preservative figures are computed from.

    Parameters
    ----------
    forms : mapping of str to Form
        By substance as it is put in.
    acids : mapping of str to Acid
        By acid key.
    oil_classes : mapping of str to str
        Class of oil by ingredient.
    partitions : mapping of str to mapping of str to Range
        Oil/water partition coefficient by active substance and class of oil [-].
    bindings : mapping of str to mapping of str to float
        By active substance and surfactant substance: k of R = 1 + k · S [per % w/v].
    solubilities : mapping of str to Range
        In water, by active substance [% w/w].
    wanted : mapping of str to Wanted
        Level wanted, by active substance.
    """

    forms: Mapping[str, Form] = field(default_factory=lambda: MappingProxyType({}))
    acids: Mapping[str, Acid] = field(default_factory=lambda: MappingProxyType({}))
    oil_classes: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))
    partitions: Mapping[str, Mapping[str, Range]] = field(
        default_factory=lambda: MappingProxyType({})
    )
    bindings: Mapping[str, Mapping[str, float]] = field(
        default_factory=lambda: MappingProxyType({})
    )
    solubilities: Mapping[str, Range] = field(default_factory=lambda: MappingProxyType({}))
    wanted: Mapping[str, Wanted] = field(default_factory=lambda: MappingProxyType({}))
