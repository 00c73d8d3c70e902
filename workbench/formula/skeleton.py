"""A first draft from a product type: phases, lines and starting percents that total 100."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Protocol

from workbench.formula.formula import Formula, Line, Phase, Step


@dataclass(frozen=True, slots=True)
class TypeLine:
    """Hold one line a type starts with.

    Parameters
    ----------
    ingredient : str
        Key of the ingredient the line starts with; the maker may put another in its place.
    role : str
        Function it is there for.
    percent : Decimal or None
        Starting percent of the formula [%]; None for the line that takes the rest.
    low, high : Decimal or None
        Ends of the starting range [%]; None where the supplier or the balance decides.
    basis : str
        What the range counts: "of-total", "of-base" (the part without the grain),
        "oils-together" or "active-together" (the lines of that basis as one sum).
    to_ph : bool
        Whether it is adjuster held back for the bench.
    """

    ingredient: str
    role: str
    percent: Decimal | None
    low: Decimal | None = None
    high: Decimal | None = None
    basis: str = "of-total"
    to_ph: bool = False
    source: str = ""
    confidence: str = "memory"


@dataclass(frozen=True, slots=True)
class TypePhase:
    """Hold one phase a type starts with; `name` and `step` are ids the words know."""

    name: str
    kind: str
    step: str = ""
    target_c: Decimal | None = None
    hold_min: Decimal | None = None
    lines: tuple[TypeLine, ...] = ()


@dataclass(frozen=True, slots=True)
class ProductType:
    """Hold what a kind of product starts with.

    `usual_ph` is the range in which such products are found, `target_ph` the narrower one a
    draft starts with; None where there is no water. `note` is an id the words know.
    """

    key: str
    exposure: str
    area: str
    usual_ph: tuple[Decimal, Decimal] | None
    target_ph: tuple[Decimal, Decimal] | None
    note: str
    phases: tuple[TypePhase, ...]
    source: str = ""
    confidence: str = "memory"

    def lines(self) -> tuple[TypeLine, ...]:
        """Return every line in the order of the sheet."""
        return tuple(line for phase in self.phases for line in phase.lines)


class Wording(Protocol):
    """Give the texts of a skeleton in the maker's language."""

    def phase(self, name: str) -> str:
        """Return the name of a phase."""

    def step(self, step: str) -> str:
        """Return the text of a step."""

    def note(self, line: TypeLine) -> str:
        """Return the note that keeps the starting range of a line."""


def skeleton(product: ProductType, name: str, wording: Wording) -> Formula:
    """Return the first draft of a product type, whose rest line makes it total 100.

    Parameters
    ----------
    product : ProductType
        What the type starts with.
    name : str
        Name of the formula.
    wording : Wording
        Texts of phases, steps and notes.

    Returns
    -------
    Formula
        Lines numbered from 1 in the order of the sheet.

    Raises
    ------
    ValueError
        If not exactly one line takes the rest, or the others exceed the whole.
    """
    _require_whole(product)
    phases: list[Phase] = []
    first_id = 1
    for place, phase in enumerate(product.phases, start=1):
        lines = tuple(
            _line(first_id + offset, line, wording) for offset, line in enumerate(phase.lines)
        )
        first_id += len(lines)
        phases.append(
            Phase(
                id=place,
                name=wording.phase(phase.name),
                kind=phase.kind,
                steps=_steps(phase, wording),
                lines=lines,
            )
        )
    return Formula(
        name=name,
        phases=tuple(phases),
        product_type=product.key,
        exposure=product.exposure,
        area=product.area,
        target_ph=product.target_ph,
    )


def _line(line_id: int, line: TypeLine, wording: Wording) -> Line:
    return Line(
        id=line_id,
        ingredient=line.ingredient,
        percent=line.percent,
        note=wording.note(line),
        purpose=line.role,
        to_ph=line.to_ph,
    )


def _steps(phase: TypePhase, wording: Wording) -> tuple[Step, ...]:
    if not phase.step:
        return ()
    return (Step(wording.step(phase.step), phase.target_c, phase.hold_min),)


def _require_whole(product: ProductType) -> None:
    rest = [line for line in product.lines() if line.percent is None]
    fixed = sum((line.percent for line in product.lines() if line.percent is not None), Decimal(0))
    if len(rest) != 1 or fixed > Decimal(100):
        raise ValueError(f"{product.key} does not total 100")
