"""What the emulsion figures rest on besides the ingredients themselves."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from types import MappingProxyType


@dataclass(frozen=True, slots=True)
class EmulsionFacts:
    """Hold the spread of required HLB values that circulate, and usual surfactant contents.

    `required` maps an ingredient to the lowest and highest required HLB found for it, oil in
    water [-]; one that is not there has only the value of its own row. `bands` maps a product
    type to the least and most active surfactant it usually holds [% w/w].
    """

    required: Mapping[str, tuple[Decimal, Decimal]] = field(
        default_factory=lambda: MappingProxyType({})
    )
    bands: Mapping[str, tuple[Decimal, Decimal]] = field(
        default_factory=lambda: MappingProxyType({})
    )
