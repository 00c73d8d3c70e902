"""Doubles that record what they were asked."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from workbench.errors import WorkbenchError
from workbench.ui.notices import Offer


@dataclass
class FakeNotices:
    """Record what would be shown; `undos` holds the ways back, in the order of `informed`."""

    told: list[WorkbenchError] = field(default_factory=list)
    informed: list[str] = field(default_factory=list)
    undos: list[Callable[[], None] | None] = field(default_factory=list)
    withdrawn: list[Callable[[], None]] = field(default_factory=list)
    offers: list[Offer | None] = field(default_factory=list)

    def tell(self, error: WorkbenchError, offer: Offer | None = None) -> None:
        self.told.append(error)
        self.offers.append(offer)

    def inform(
        self, text: str, undo: Callable[[], None] | None = None, *, is_kept: bool = False
    ) -> None:
        self.informed.append(text)
        self.undos.append(undo)

    def withdraw(self, undo: Callable[[], None]) -> None:
        self.withdrawn.append(undo)
