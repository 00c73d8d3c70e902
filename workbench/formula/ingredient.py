"""What stands on the shelf: a raw material as supplied, with its facts and where they come from."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal


@dataclass(frozen=True, slots=True)
class Part:
    """Hold one substance of a composition.

    Parameters
    ----------
    substance : str
        Substance key.
    fraction : Decimal
        Mass fraction of the material as supplied [-].
    water : Decimal
        Water that comes with this part, as a fraction of the material [-]: all of it for
        water itself, the crystal or juice water for others.
    purpose : str
        What it is there for, where its carrier decides that (inside a stock); else empty.
    """

    substance: str
    fraction: Decimal
    water: Decimal = Decimal(0)
    purpose: str = ""


@dataclass(frozen=True, slots=True)
class Constituent:
    """Hold one substance known to be inside a material that is listed under one name.

    The constituents of an essential oil or a fragrance are such: they are part of it, not
    beside it, and count for allergens and limits. `fraction` is by mass of the material [-].
    """

    substance: str
    fraction: Decimal
    source: str = ""
    confidence: str = "memory"


@dataclass(frozen=True, slots=True)
class Ingredient:
    """Hold one raw material as supplied.

    Unknown is None or empty, never zero. Percents are mass per cent; `use_min` and `use_max`
    are of the material as supplied in the finished product, and so is `dermal_max`;
    `active_percent` and `water_percent` are of the material; density in g/ml; temperatures
    in °C; `log_p` is the octanol-water partition [-]. `based_on` names the ingredient an own
    one was copied from; `use_basis` is what its use level is counted on, empty for the usual:
    as supplied, of the finished product. `is_certified` tells that `constituents` are all that
    the certificate of a delivery lists, which may be nothing.
    """

    key: str
    name: str
    inci: str
    cas: tuple[str, ...] = ()
    functions: tuple[str, ...] = ()
    form: str = ""
    solubility: str = ""
    charge: str = ""
    use_min: Decimal | None = None
    use_max: Decimal | None = None
    use_note: str = ""
    ph_min: Decimal | None = None
    ph_max: Decimal | None = None
    max_process_temp_c: Decimal | None = None
    density: Decimal | None = None
    water_percent: Decimal | None = None
    active_percent: Decimal | None = None
    composition: tuple[Part, ...] = ()
    hlb: Decimal | None = None
    required_hlb: Decimal | None = None
    shelf_life_months: int | None = None
    incompatibilities: tuple[str, ...] = ()
    cautions: str = ""
    tags: tuple[str, ...] = ()
    spectrum: tuple[str, ...] = ()
    source: str = ""
    confidence: str = "memory"
    verified_fields: tuple[str, ...] = ()
    is_own: bool = False
    ec_numbers: tuple[str, ...] = ()
    origin: str = ""
    is_heat_sensitive: bool = False
    is_electrolyte_sensitive: bool = False
    melts_at_c: Decimal | None = None
    log_p: Decimal | None = None
    is_phototoxic: bool | None = None
    dermal_max: Decimal | None = None
    constituents: tuple[Constituent, ...] = ()
    based_on: str = ""
    use_basis: str = ""
    is_certified: bool = False

    @property
    def purpose(self) -> str:
        """Return the first function, the default purpose of a line."""
        return self.functions[0] if self.functions else ""
