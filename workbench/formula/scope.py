"""For whom and where a product is checked."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from workbench.formula.formula import Formula


@dataclass(frozen=True, slots=True)
class Scope:
    """Hold what decides which rules apply: markets, use, people, form, pack, date of the rules."""

    markets: tuple[str, ...]
    exposure: str
    area: str
    users: str
    form: str
    pack: str
    product_type: str
    on: date


def scope_of(formula: Formula, on: date) -> Scope:
    """Return the scope a formula states, judged by the rules of a day."""
    return Scope(
        markets=formula.markets,
        exposure=formula.exposure,
        area=formula.area,
        users=formula.users,
        form=formula.form,
        pack=formula.pack,
        product_type=formula.product_type,
        on=on,
    )
