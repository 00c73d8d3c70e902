"""Where the mass of a formula stands: oil, water, or neither."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from workbench.checks.carried import Carried
from workbench.checks.density_facts import DensityFacts
from workbench.checks.material_density import density_of
from workbench.checks.preservation_facts import PreservationFacts
from workbench.formula.ingredient import Ingredient

UNKNOWN_OIL = "unknown"
_SOLID_INSIDE = "insoluble"
_BINDS = (
    "emulsifier-oil-in-water",
    "solubiliser",
    "surfactant-nonionic",
    "surfactant-anionic",
    "surfactant-amphoteric",
    "surfactant-cationic",
)


@dataclass(frozen=True, slots=True)
class Phases:
    """Hold the phases of 100 g of product.

    Parameters
    ----------
    water_g, water_ml : float
        Water phase with all that is dissolved in it.
    oils_ml : mapping of str to float
        Volume of oil by class; materials of no known class under "unknown".
    surfactants : mapping of str to float
        Active matter that forms micelles, by substance [g].
    """

    water_g: float
    water_ml: float
    oils_ml: Mapping[str, float]
    surfactants: Mapping[str, float]

    @property
    def oil_ml(self) -> float:
        """Return the volume of all oils [ml]."""
        return sum(self.oils_ml.values())

    @property
    def ratio(self) -> float:
        """Return the volume of oil over that of water [-]."""
        return self.oil_ml / self.water_ml if self.water_ml > 0 else 0.0


def phases_of(
    inside: Iterable[Carried], facts: PreservationFacts, densities: DensityFacts
) -> Phases:
    """Sort materials into the oil and the water of 100 g of product."""
    water_g = water_ml = 0.0
    oils: dict[str, float] = {}
    surfactants: dict[str, float] = {}
    for material in inside:
        item, mass = material.item, float(material.percent)
        volume = _volume(mass, item, densities)
        if is_in_oil(item):
            name = facts.oil_classes.get(item.key, UNKNOWN_OIL)
            oils[name] = oils.get(name, 0.0) + volume
        elif item.solubility != _SOLID_INSIDE:
            water_g += mass
            water_ml += volume
        if set(_BINDS) & set(item.functions):
            for part in item.composition:
                if part.fraction > part.water:
                    held = mass * float(part.fraction)
                    surfactants[part.substance] = surfactants.get(part.substance, 0.0) + held
    return Phases(water_g, water_ml, MappingProxyType(oils), MappingProxyType(surfactants))


def is_in_oil(item: Ingredient) -> bool:
    """Tell whether an ingredient makes up the oil: no emulsifier, and no preservative itself."""
    return item.solubility == "oil" and not any(
        name.startswith(("emulsifier-", "preservative")) for name in item.functions
    )


def _volume(mass_g: float, item: Ingredient, densities: DensityFacts) -> float:
    known = density_of(item, densities)
    return mass_g / known.estimate if known else mass_g
