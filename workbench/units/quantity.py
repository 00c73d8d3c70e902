"""What reading a number cell can give: a quantity, a question, or the reason it cannot be read."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

NEGATIVE = "number-negative"
EMPTY = "number-empty"
NOT_A_NUMBER = "number-not-a-number"
TOO_LONG = "number-too-long"
TOO_DEEP = "number-too-deep"
TOO_LARGE = "number-too-large"
DIVISION_BY_ZERO = "number-division-by-zero"
MIXED_MARKS = "number-mixed-marks"
TWO_READINGS = "number-two-readings"
UNIT_MISSING = "unit-missing"
UNIT_UNKNOWN = "unit-unknown"
UNIT_VARIES = "unit-varies"
UNIT_NOT_MASS = "unit-not-mass"
UNIT_NOT_VOLUME = "unit-not-volume"
UNIT_DROPS = "unit-drops"

REASONS = (
    NEGATIVE,
    EMPTY,
    NOT_A_NUMBER,
    TOO_LONG,
    TOO_DEEP,
    TOO_LARGE,
    DIVISION_BY_ZERO,
    MIXED_MARKS,
    TWO_READINGS,
    UNIT_MISSING,
    UNIT_UNKNOWN,
    UNIT_VARIES,
    UNIT_NOT_MASS,
    UNIT_NOT_VOLUME,
    UNIT_DROPS,
)


@dataclass(frozen=True, slots=True)
class Quantity:
    """A number as typed and its unit; None where no unit was written."""

    value: Decimal
    unit: str | None = None


@dataclass(frozen=True, slots=True)
class Ambiguous:
    """Two readings of one text; the maker says which is meant."""

    readings: tuple[Quantity, Quantity]
    reason_id: str = TWO_READINGS


@dataclass(frozen=True, slots=True)
class Unreadable:
    """Stand for a text that gives no quantity, naming the reason as a message id."""

    reason_id: str
