"""The formula: an immutable value of phases and lines."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from decimal import Decimal

from workbench.formula.acceptance import Acceptance

PRODUCT_TYPES = (
    "toner",
    "serum",
    "gel",
    "lotion",
    "cream",
    "cleanser",
    "shampoo",
    "body-wash",
    "conditioner",
    "balm",
    "oil-serum",
    "scrub",
    "clay-mask",
    "bath",
    "stock",
    "other",
)
EXPOSURES = ("leave-on", "rinse-off")
AREAS = ("face", "body", "hand", "hair", "eye", "lip", "nappy")
USERS = ("adult", "under-3")
FORMS = ("usual", "spray")
MARKETS = ("EU", "UK", "US")
PHASE_KINDS = ("water", "oil", "cool-down", "adjust", "other")


@dataclass(frozen=True, slots=True)
class Step:
    """Hold one instruction: text, target [°C], hold [min], speed, highest addition [°C]."""

    text: str
    target_c: Decimal | None = None
    hold_min: Decimal | None = None
    speed: str = ""
    max_add_c: Decimal | None = None


@dataclass(frozen=True, slots=True)
class Line:
    """Hold one line: an ingredient or stock at a percent of the formula as supplied.

    `percent` None marks the rest line, which takes whatever is left to 100 %. A to-pH line is
    reserved adjuster. `purpose` is what the line is there for, empty for the ingredient's own.
    """

    id: int
    ingredient: str
    percent: Decimal | None
    locked: bool = False
    note: str = ""
    purpose: str = ""
    to_ph: bool = False

    @property
    def is_rest(self) -> bool:
        """Tell whether this line takes the rest."""
        return self.percent is None


@dataclass(frozen=True, slots=True)
class Phase:
    """Hold one phase: what is weighed and treated together."""

    id: int
    name: str
    kind: str = "other"
    steps: tuple[Step, ...] = ()
    lines: tuple[Line, ...] = ()


@dataclass(frozen=True, slots=True)
class Plan:
    """Hold how much to make: a batch mass, or packs from which the mass follows.

    Masses in grams, fill in millilitres, density in g/ml, hold-up in per cent of the batch.
    A given `batch_mass` wins; the packs then say what it must fill.
    """

    batch_mass: Decimal | None = None
    units: int | None = None
    fill: Decimal | None = None
    density: Decimal | None = None
    hold_up_percent: Decimal = Decimal(0)
    retains: int = 0
    tests_g: Decimal = Decimal(0)


@dataclass(frozen=True, slots=True)
class Formula:
    """Hold a whole formula; every edit makes a new one.

    Raises
    ------
    ValueError
        If two lines or two phases share an id, or two lines take the rest.
    """

    name: str
    phases: tuple[Phase, ...] = ()
    product_type: str = "other"
    exposure: str = "leave-on"
    area: str = "body"
    users: str = "adult"
    form: str = "usual"
    pack: str = ""
    markets: tuple[str, ...] = ("EU",)
    target_ph: tuple[Decimal, Decimal] | None = None
    plan: Plan = Plan()
    reference_set: str = ""
    accepted: tuple[Acceptance, ...] = ()

    def __post_init__(self) -> None:
        """Refuse what no edit may produce."""
        line_ids = [line.id for line in self.lines()]
        if len(set(line_ids)) != len(line_ids):
            raise ValueError("two lines share an id")
        if len({phase.id for phase in self.phases}) != len(self.phases):
            raise ValueError("two phases share an id")
        if sum(line.is_rest for line in self.lines()) > 1:
            raise ValueError("two lines take the rest")

    def lines(self) -> Iterator[Line]:
        """Yield every line in the order of the sheet."""
        for phase in self.phases:
            yield from phase.lines

    def line(self, line_id: int) -> Line:
        """Return the line of this id, or raise KeyError."""
        for line in self.lines():
            if line.id == line_id:
                return line
        raise KeyError(line_id)

    def phase_of(self, line_id: int) -> Phase:
        """Return the phase that holds the line of this id, or raise KeyError."""
        for phase in self.phases:
            if any(line.id == line_id for line in phase.lines):
                return phase
        raise KeyError(line_id)

    @property
    def rest_line(self) -> Line | None:
        """Return the line that takes the rest, or None."""
        return next((line for line in self.lines() if line.is_rest), None)

    def next_line_id(self) -> int:
        """Return an id that no line has."""
        return max((line.id for line in self.lines()), default=0) + 1

    def next_phase_id(self) -> int:
        """Return an id that no phase has."""
        return max((phase.id for phase in self.phases), default=0) + 1

    def with_line(self, changed: Line) -> Formula:
        """Return the formula with the line of the same id replaced."""
        phases = tuple(
            replace(
                phase,
                lines=tuple(changed if old.id == changed.id else old for old in phase.lines),
            )
            if any(old.id == changed.id for old in phase.lines)
            else phase
            for phase in self.phases
        )
        return replace(self, phases=phases)

    def with_phase(self, changed: Phase) -> Formula:
        """Return the formula with the phase of the same id replaced."""
        return replace(
            self, phases=tuple(changed if old.id == changed.id else old for old in self.phases)
        )
