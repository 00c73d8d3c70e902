"""Which ingredient a name on an old sheet means, and how sure that is: the values."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum


class Sureness(Enum):
    """How a name was found to mean an ingredient, the surest first."""

    EXACT = "exact"
    INCI = "inci"
    OTHER_NAME = "other-name"
    CAS = "cas"
    FOLDED = "folded"
    CLOSE = "close"
    NONE = "none"


SURE = (Sureness.EXACT, Sureness.INCI, Sureness.OTHER_NAME, Sureness.CAS, Sureness.FOLDED)


@dataclass(frozen=True, slots=True)
class Candidate:
    """Hold one ingredient or stock a name could mean."""

    key: str
    name: str


@dataclass(frozen=True, slots=True)
class NameMatch:
    """Hold what a name on a sheet means: how it was found, and the candidates, best first.

    `has_rivals` tells that several fit equally well, or that name and INCI say different things.
    """

    sureness: Sureness
    candidates: tuple[Candidate, ...] = ()
    has_rivals: bool = False

    @property
    def is_sure(self) -> bool:
        """Tell whether it may be taken without a look."""
        return self.sureness in SURE and not self.has_rivals

    @property
    def best(self) -> Candidate | None:
        """Return the best candidate."""
        return self.candidates[0] if self.candidates else None
