"""What a chemical substance is: the key every composition, limit and acid row refers to."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

UNLISTED = "unlisted"
"""Confidence of a substance that only a maker's document names."""


@dataclass(frozen=True, slots=True)
class Substance:
    """Hold one row of the substance table.

    Parameters
    ----------
    key : str
        Stable join key, snake_case; never a CAS number.
    inci, inci_us : str
        Label name in the EU and UK, and in the US where it differs (else empty).
    cas : tuple of str
        Every number known for it: a check, never a join key.
    formula : str
        Molecular formula, empty where none can be given (extracts, mixtures).
    molar_mass : Decimal or None
        [g/mol], of the unit formula for a polymer.
    kind : str
        single, salt, hydrate, mixture, extract, polymer or group.
    counts_as : str
        Key of the substance whose limits also cover this one, else empty.
    water_fraction : Decimal
        Water inside it, by mass [-]: crystal water, or the water of a juice.
    is_colourant, is_declared : bool
        Whether it is listed as a colour, and whether a label lists it at all.
    source, confidence : str
        Where the row comes from and how far it was confirmed.
    """

    key: str
    inci: str
    inci_us: str = ""
    cas: tuple[str, ...] = ()
    formula: str = ""
    molar_mass: Decimal | None = None
    kind: str = "single"
    counts_as: str = ""
    water_fraction: Decimal = Decimal(0)
    is_colourant: bool = False
    is_declared: bool = True
    source: str = ""
    confidence: str = "memory"
