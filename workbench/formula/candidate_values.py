"""What a swap looks at, and what it finds, as values."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal

from workbench.formula.ingredient import Ingredient
from workbench.formula.swaps import Ratio
from workbench.formula.totals import WHOLE

Value = str | Decimal | tuple[str, ...]
Span = tuple[Decimal | None, Decimal | None]
JUST_OVER = Decimal("1.02")
"""Strengths are rounded: a part this much over the pure matter is still that matter [-]."""


@dataclass(frozen=True, slots=True)
class Sketch:
    """Hold the few facts of a material that a ranking looks at; unknown is None or empty.

    `strength` is its pure matter [% of it as supplied]; `substance` the one that is most of
    that, and `share` how much of the material is of it [-]; `use_min` and `use_max` are the
    usual dose [% as supplied], `ph_min` and `ph_max` the window [pH].
    """

    key: str
    name: str
    functions: tuple[str, ...] = ()
    solubility: str = ""
    charge: str = ""
    form: str = ""
    origin: str = ""
    strength: Decimal | None = None
    substance: str = ""
    share: Decimal | None = None
    ph_min: Decimal | None = None
    ph_max: Decimal | None = None
    use_min: Decimal | None = None
    use_max: Decimal | None = None
    salt_sensitive: bool = False
    heat_sensitive: bool = False
    on_hand: bool = False
    is_stock: bool = False


@dataclass(frozen=True, slots=True)
class Wanted:
    """Hold what a candidate is held against.

    Parameters
    ----------
    item : Sketch
        What is on the line now.
    purpose : str
        What the line is there for; empty for the item's first function.
    ph : (Decimal or None, Decimal or None) or None
        The pH the rest of the formula asks for; None where it asks for none.
    """

    item: Sketch
    purpose: str = ""
    ph: Span | None = None


@dataclass(frozen=True, slots=True)
class Reason:
    """Hold one reason or difference: a message id and the values of its sentence."""

    code: str
    values: tuple[tuple[str, Value], ...] = ()


@dataclass(frozen=True, slots=True)
class Candidate:
    """Hold one material that could come: how well it fits, by how much, why, and what differs.

    `ratio` is the one to begin with; `points` are for the order only and mean nothing alone.
    """

    key: str
    name: str
    is_stock: bool
    on_hand: bool
    points: int
    ratio: Ratio
    why: tuple[Reason, ...]
    differs: tuple[Reason, ...]


def main_part(
    parts: Iterable[tuple[str, Decimal]], strength: Decimal | None
) -> tuple[str, Decimal | None]:
    """Return the substance a material is bought for, and its fraction [-]; empty where none fits.

    It is the largest that is not more than the material's pure matter: what a paste of 25 % is
    diluted in is not what it is bought for.
    """
    most = (strength if strength is not None else WHOLE) * JUST_OVER / WHOLE
    fitting = [part for part in parts if part[1] <= most]
    return max(fitting, default=("", None), key=lambda part: part[1] or Decimal(0))


def sketch_of(item: Ingredient, *, on_hand: bool = False) -> Sketch:
    """Return the facts a ranking looks at of an ingredient."""
    solids = [
        (part.substance, part.fraction) for part in item.composition if part.water < part.fraction
    ]
    substance, share = main_part(solids, item.active_percent)
    return Sketch(
        key=item.key,
        name=item.name,
        functions=item.functions,
        solubility=item.solubility,
        charge=item.charge,
        form=item.form,
        origin=item.origin,
        strength=item.active_percent,
        substance=substance,
        share=share,
        ph_min=item.ph_min,
        ph_max=item.ph_max,
        use_min=item.use_min,
        use_max=item.use_max,
        salt_sensitive=item.is_electrolyte_sensitive,
        heat_sensitive=item.is_heat_sensitive,
        on_hand=on_hand,
    )
