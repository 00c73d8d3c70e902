"""What belongs on the label of a formula, and how easily microbes grow in it, as values."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from enum import Enum


class Duty(Enum):
    """Say whether a market asks for a name on the label on the day of the scope."""

    REQUIRED = "required"
    COMING = "coming"
    OPTIONAL = "optional"


class Grounds(Enum):
    """Say what an allergen's percent rests on."""

    SUBSTANCE = "substance"
    CERTIFICATE = "certificate"
    TYPICAL = "typical"


class WarningKind(Enum):
    """Say whose words a warning is in, and where it belongs."""

    PRESCRIBED = "prescribed"
    RECOMMENDED = "recommended"
    USUAL = "usual"
    BENCH = "bench"


@dataclass(frozen=True, slots=True)
class Allergen:
    """Hold one fragrance allergen over its threshold in one market.

    `percent` and `threshold` [% w/w of the product]; `due` is the first day the name is asked
    for on new products and `stock_until` the last day older stock may be sold without it, both
    None where it has always been asked for.
    """

    label: str
    percent: Decimal
    threshold: Decimal
    duty: Duty
    grounds: Grounds
    lines: tuple[int, ...]
    due: date | None = None
    stock_until: date | None = None
    source: str = ""
    confidence: str = ""


@dataclass(frozen=True, slots=True)
class Declared:
    """Hold one name of a declaration.

    Parameters
    ----------
    name : str
        As the market writes it, with its mark where it has one.
    percent : Decimal
        By weight as added, over all lines and stocks [% w/w].
    is_under_one : bool
        Whether the market lets it stand in any order.
    is_colourant, is_allergen, is_fragrance, is_nano : bool
        What else decides its place or its name.
    is_held_back : bool
        Whether all of it comes from adjuster held back, so that less may go in.
    lines : tuple of int
        Lines that bring it, stocks included.
    substances : tuple of str
        Substance keys merged under the name; empty for an allergen that is part of others.
    """

    name: str
    percent: Decimal
    is_under_one: bool
    lines: tuple[int, ...]
    substances: tuple[str, ...] = ()
    is_colourant: bool = False
    is_allergen: bool = False
    is_fragrance: bool = False
    is_nano: bool = False
    is_held_back: bool = False


@dataclass(frozen=True, slots=True)
class LabelNote:
    """Hold what a reader of a list must know: message id, lines and names it speaks of."""

    id: str
    lines: tuple[int, ...] = ()
    names: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Declaration:
    """Hold the ingredient list for one market.

    `unknown` are lines whose contents are not known, so that the list is not whole.
    `first_free` is the place of the first name that may stand in any order, counted from 0.
    """

    market: str
    heading: str
    entries: tuple[Declared, ...]
    allergens: tuple[Allergen, ...] = ()
    notes: tuple[LabelNote, ...] = ()
    unknown: tuple[int, ...] = ()
    source: str = ""
    confidence: str = ""

    @property
    def names(self) -> tuple[str, ...]:
        """Return the names in their order."""
        return tuple(entry.name for entry in self.entries)

    @property
    def text(self) -> str:
        """Return the list as it is printed."""
        return ", ".join(self.names)

    @property
    def is_whole(self) -> bool:
        """Tell whether the contents of every line are known."""
        return not self.unknown

    @property
    def first_free(self) -> int:
        """Return where the names begin that may stand in any order; the length where none do."""
        for place, entry in enumerate(self.entries):
            if entry.is_under_one or entry.is_colourant:
                return place
        return len(self.entries)


@dataclass(frozen=True, slots=True)
class LabelWarning:
    """Hold one warning for the label, or for the bench.

    Parameters
    ----------
    key : str
        Message id of a usual warning; for prescribed words the key of the limit row's entry.
    kind : WarningKind
        Prescribed words may not be changed; usual ones are a proposal; bench ones are for the
        maker.
    text : str
        The words themselves where law or an authority gives them, else empty.
    condition : str
        When the words are needed, in the words of the source, where that is not plain.
    markets, lines, substances : tuple
        Where it holds, and what brings it.
    """

    key: str
    kind: WarningKind
    text: str = ""
    condition: str = ""
    markets: tuple[str, ...] = ()
    lines: tuple[int, ...] = ()
    substances: tuple[str, ...] = ()
    source: str = ""
    confidence: str = ""


@dataclass(frozen=True, slots=True)
class RiskPoint:
    """Hold one thing that decides how easily microbes grow.

    `direction` is "raises", "lowers", "meets" (a low-risk criterion on its own) or "unsettled"
    (its span meets it only in part); `low` and
    `high` are the figure or its range in `unit`, None where it is no figure; `limit` is what it
    was held against.
    """

    factor: str
    direction: str
    low: Decimal | None = None
    high: Decimal | None = None
    limit: Decimal | None = None
    unit: str = ""
    lines: tuple[int, ...] = ()
    is_estimate: bool = False
    source: str = ""
    confidence: str = ""


@dataclass(frozen=True, slots=True)
class MicroRisk:
    """Hold what speaks for and against a challenge test; it never clears a product.

    `verdict` is "challenge-test-needed", "low-risk-criterion-met" or "not-judged".
    """

    verdict: str
    points: tuple[RiskPoint, ...] = ()

    def pointing(self, direction: str) -> tuple[RiskPoint, ...]:
        """Return the points of one direction."""
        return tuple(point for point in self.points if point.direction == direction)
