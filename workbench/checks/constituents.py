"""What is inside essential oils and blends, counted in the formula."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal

from workbench.checks.carried import Carried
from workbench.formula.composition import Share
from workbench.formula.supply import CERTIFICATE


@dataclass(frozen=True, slots=True)
class Inside:
    """Hold one substance that a line brings inside a material listed under one name.

    `percent` is of the whole formula [% w/w]; `carrier` the key of the material; typical
    figures are not certified, and differ from delivery to delivery.
    """

    line: int
    substance: str
    percent: Decimal
    purpose: str
    carrier: str
    is_certified: bool

    @property
    def share(self) -> Share:
        """Return it as a part of the composition."""
        return Share(self.line, self.substance, self.percent, Decimal(0), self.purpose)


def insides(items: Iterable[Carried]) -> tuple[Inside, ...]:
    """Return everything known to be inside the materials of a formula."""
    return tuple(
        Inside(
            line=each.line,
            substance=inside.substance,
            percent=each.percent * inside.fraction,
            purpose=each.purpose,
            carrier=each.item.key,
            is_certified=inside.source == CERTIFICATE,
        )
        for each in items
        for inside in each.item.constituents
    )
