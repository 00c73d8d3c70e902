"""What is dissolved in the water, and what the acid–base engine answers."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType


class OutOfRange(Exception):
    """Say by a code why no pH can be computed.

    Attributes
    ----------
    reason_id : str
        `ph-no-water` (no water to dissolve anything), `ph-too-salty` (ionic strength above the
        range of the activity model), `ph-no-root` (the charges cannot be balanced).
    values : mapping of str to float
        The numbers the sentence needs, units in their names.
    """

    def __init__(self, reason_id: str, values: Mapping[str, float] | None = None) -> None:
        super().__init__(reason_id)
        self.reason_id = reason_id
        self.values: Mapping[str, float] = MappingProxyType(dict(values or {}))


@dataclass(frozen=True, slots=True)
class AcidBase:
    """Hold one acid, base or ampholyte.

    Attributes
    ----------
    key : str
        Its key in the table of acids and bases.
    pkas : tuple of float
        Thermodynamic constants, 25 °C, ionic strength 0, rising [-]. None for a substance that
        keeps one charge.
    charge : int
        Charge of the fully protonated species [-].

    Examples
    --------
    >>> AcidBase("acetic", (4.757,), 0).charges
    (0, -1)
    """

    key: str
    pkas: tuple[float, ...]
    charge: int

    def __post_init__(self) -> None:
        if any(not math.isfinite(pka) for pka in self.pkas):
            raise ValueError(f"{self.key}: a pKa is no number")
        if any(later < earlier for earlier, later in zip(self.pkas, self.pkas[1:], strict=False)):
            raise ValueError(f"{self.key}: the pKa do not rise")

    @property
    def charges(self) -> tuple[int, ...]:
        """Return the charge of each protonation state, most protonated first [-]."""
        return tuple(self.charge - lost for lost in range(len(self.pkas) + 1))


@dataclass(frozen=True, slots=True)
class StrongIon:
    """Hold an ion that takes no part in acid–base reactions: charge [-], molality [mol/kg]."""

    charge: int
    molality: float

    def __post_init__(self) -> None:
        _refuse_unless_amount("a strong ion", self.molality)


@dataclass(frozen=True, slots=True)
class Solution:
    """Hold what one kilogram of water has dissolved.

    Attributes
    ----------
    totals : tuple of (AcidBase, float)
        Molality of each acid, base or ampholyte, all its protonation states together [mol/kg
        water].
    strong : tuple of StrongIon
        Ions that keep their charge.
    neutral : float
        Uncharged solutes that do not react; they lower the activity of water [mol/kg water].
    """

    totals: tuple[tuple[AcidBase, float], ...] = ()
    strong: tuple[StrongIon, ...] = ()
    neutral: float = 0.0

    def __post_init__(self) -> None:
        for substance, molality in self.totals:
            _refuse_unless_amount(substance.key, molality)
        _refuse_unless_amount("neutral solutes", self.neutral)


@dataclass(frozen=True, slots=True)
class Equilibrium:
    """Hold the state in which the charges balance.

    Attributes
    ----------
    ph : float
        -log10 of the activity of H+ [-].
    ionic_strength : float
        [mol/kg water].
    residual : float
        Sum of charges left over, in parts of the charge present [-].
    shares : tuple of tuple of float
        For each of the solution's totals, the share of each protonation state, most protonated
        first; each inner tuple sums to 1 [-].
    """

    ph: float
    ionic_strength: float
    residual: float
    shares: tuple[tuple[float, ...], ...]


def dissolved(
    totals: Iterable[tuple[AcidBase, float]],
    strong: Iterable[StrongIon],
    neutral: float,
    water_kg: float,
) -> Solution:
    """Return the solution of amounts in some water.

    Parameters
    ----------
    totals : iterable of (AcidBase, float)
        Amounts; the same acid may come more than once [mol].
    strong : iterable of StrongIon
        Amounts in place of molalities [mol].
    neutral : float
        Amount of uncharged solutes [mol].
    water_kg : float
        Water in all that is mixed, from stocks and hydrates too [kg].

    Returns
    -------
    Solution
        Each acid once, in the order of first appearance; strong ions by charge.

    Raises
    ------
    OutOfRange
        `ph-no-water` where there is none.

    Examples
    --------
    >>> dissolved([], [StrongIon(1, 0.1)], 0.0, 0.5).strong
    (StrongIon(charge=1, molality=0.2),)
    """
    if not water_kg > 0:
        raise OutOfRange("ph-no-water", {"water_kg": water_kg})
    amounts: dict[AcidBase, float] = {}
    for substance, amount in totals:
        amounts[substance] = amounts.get(substance, 0.0) + amount
    charges: dict[int, float] = {}
    for ion in strong:
        charges[ion.charge] = charges.get(ion.charge, 0.0) + ion.molality
    return Solution(
        tuple((substance, amount / water_kg) for substance, amount in amounts.items()),
        tuple(StrongIon(charge, amount / water_kg) for charge, amount in charges.items()),
        neutral / water_kg,
    )


def _refuse_unless_amount(name: str, molality: float) -> None:
    if not 0.0 <= molality < math.inf:
        raise ValueError(f"{name}: {molality} is no amount")
